# Wie Programme abfragen.

api-for-your-own-programs = Für deine eigenen Programme
api-intro = Ein Programm oder Sensor von dir kann lesen, was du hier siehst, und in deinem Namen eintragen, als JSON. Erstelle ihm ein <a href="/me/tokens">Token</a>; das sendet es mit jeder Anfrage, als Kopfzeile <code>Authorization: Bearer</code> und das Token.
api-as-a-file = Dasselbe als Datei für Werkzeuge, die OpenAPI 3.1 lesen: <a href="/api/v1/openapi.json">{ $base }/openapi.json</a>
api-moments = Zeitpunkte tragen ihren Abstand zu UTC, etwa <code>2026-03-02T07:30:00+01:00</code>. Wärme ist in Grad C.
api-lists = Listen kommen seitenweise: Geh bei <code>next</code> weiter, bis es null ist.
api-saves = Jedes Speichern hat eine <code>id</code> aus 32 zufälligen Hexadezimalziffern, die dein Programm bildet. Bewahre sie mit dem Eintrag auf, bis die Antwort da ist; kommt keine, sende beides noch einmal. Gleiche id und gleicher Inhalt zählen einmal, für immer.
api-needed = nötig
api-such-as = Etwa:
api-the-answer = Die Antwort:
api-when-it-goes-wrong = Wenn etwas schiefgeht
api-problem = Die Antwort ist dann <code>application/problem+json</code> (RFC 9457): Ihr <code>detail</code> sagt, was zu tun ist, und <code>errors</code>, wo in dem, was du gesendet hast.
