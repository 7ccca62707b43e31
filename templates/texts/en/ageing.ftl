# Seed that ages
ageing-seed-that-ages = Seed that ages
ageing-no-packet-with-seed = You have no packet with seed.
ageing-test-again = Test again
ageing-no-test-needed = No packet needs a test now.
ageing-past-but-tested = Those past their best below were tested, or came, not long ago.
ageing-test-mark = Test <span class="vh">{ $mark }</span>
ageing-use-first = Use first
ageing-packets-by-end = Packets with seed, those nearest to their end first
ageing-age = Age
ageing-left = Left
ageing-roots-at-this-age = Roots at this age
ageing-published-life = Published life
ageing-how-long-good = How long it is good
ageing-cannot-say-yet = the club cannot say yet
ageing-what-trials-say = What the club’s own trials say
ageing-published-lives = Published lives: <span lang="en">{ $lists }</span>. They are years of ordinary good keeping, and disagree.
ageing-years = { $n ->
    [one] { $n } year
   *[other] { $n } years
 }
ageing-root-by-bags = { $n ->
    [one] { $rate } % ({ $low } to { $high }), by the club’s { $n } bag of { $kind }
   *[other] { $rate } % ({ $low } to { $high }), by the club’s { $n } bags of { $kind }
 }
ageing-life-by-list = { $n ->
    [one] { $n } year ({ $who })
   *[other] { $n } years ({ $who })
 }
ageing-list-from-memory = { $list } (from memory)
ageing-tested = { $rooted } of { $seeds } rooted, on paper { $day }
ageing-not-tested = not tested by the club
ageing-past-by-trials = past its best by the club’s own trials
ageing-past-by-lists = past its best by the shorter published life
ageing-last-season-by-trials = its last good season by the club’s own trials
ageing-last-season-by-lists = its last good season by the shorter published life
ageing-more-years-by-trials = { $n ->
    [one] about { $n } year more by the club’s own trials
   *[other] about { $n } years more by the club’s own trials
 }
ageing-more-years-by-lists = { $n ->
    [one] about { $n } year more by the shorter published life
   *[other] about { $n } years more by the shorter published life
 }
ageing-not-tested-within-a-year = Not tested within a year of its coming.
ageing-fell = Fell from { $first } to { $last } %, below 85 % of its first: test once more, or replace it.
ageing-tested-years-ago = { $n ->
    [one] Last tested more than { $n } year ago.
   *[other] Last tested more than { $n } years ago.
 }
ageing-tested-months-ago = { $n ->
    [one] Last tested more than { $n } month ago.
   *[other] Last tested more than { $n } months ago.
 }
ageing-past-every-life = Past every published storage life, and last tested over a year ago.
ageing-no-test-since-tested = no test is due before { $due }, since it was tested { $day }
ageing-no-test-since-came = no test is due before { $due }, since it came { $day }
ageing-no-test-first-year = no test is due in its first year
ageing-falls-with-age = { $n ->
    [one] { $kind }: falls with age, by { $n } closed bag.
   *[other] { $kind }: falls with age, by { $n } closed bags.
 }
ageing-down-after-years = { $n ->
    [one] New seed roots { $rate } %; it is down to 85 % of that after about { $n } year.
   *[other] New seed roots { $rate } %; it is down to 85 % of that after about { $n } years.
 }
ageing-down-after-months = { $n ->
    [one] New seed roots { $rate } %; it is down to 85 % of that after about { $n } month.
   *[other] New seed roots { $rate } %; it is down to 85 % of that after about { $n } months.
 }
ageing-half-still-root = Half still root at about { $n } years.
ageing-too-little-to-tell = { $kind }: too little to tell, { $n ->
    [one] { $n } closed bag
   *[other] { $n } closed bags
 } of { $ages ->
    [one] { $ages } age
   *[other] { $ages } ages
 }. It takes { $bags_needed } bags of { $ages_needed } ages.
ageing-no-fall-so-far = { $n ->
    [one] { $kind }: { $n } closed bag show no fall with age so far; the published lives stand.
   *[other] { $kind }: { $n } closed bags show no fall with age so far; the published lives stand.
 }
