# How programs ask.

api-for-your-own-programs = For your own programs
api-intro = A program or sensor of yours can read what you see here and record in your name, as JSON. Make it a <a href="/me/tokens">token</a>; it sends that with each request, as the header <code>Authorization: Bearer</code> and the token.
api-as-a-file = The same as a file for tools that read OpenAPI 3.1: <a href="/api/v1/openapi.json">{ $base }/openapi.json</a>
api-moments = Moments have their offset from UTC, such as <code>2026-03-02T07:30:00+01:00</code>. Warmth is in degrees C.
api-lists = Lists come a page at a time: go on at <code>next</code> until it is null.
api-saves = Each save has an <code>id</code>, 32 hexadecimal digits at random, made by your program. Keep it with the entry until the answer is there; when none comes, send both again. The same id and content count once, for ever.
api-needed = needed
api-such-as = Such as:
api-the-answer = The answer:
api-when-it-goes-wrong = When it goes wrong
api-problem = The answer is then <code>application/problem+json</code> (RFC 9457): its <code>detail</code> says what to do, and <code>errors</code> where in what you sent.
