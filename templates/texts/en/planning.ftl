# Ways about a plan
planning-add-lines = Add lines
planning-lines = Lines
planning-week-by-week = Week by week
planning-shopping-list = Shopping list
planning-ageing-seed = Ageing seed
planning-print-the-list = Print the list
planning-back-to-the-plan = Back to the plan
planning-save-as-a-file = Save as a file

# Words of several pages
planning-plan-named = Plan { $name }
planning-mark = Mark
planning-variety = Variety
planning-source = Source
planning-plants = Plants
planning-ready = Ready
planning-ready-on = Ready on
planning-start = Start
planning-seeds = Seeds
planning-seeds-to-soak = Seeds to soak
planning-bags = Bags
planning-cells = Cells
planning-into-cells = Into cells
planning-out-of = Out of
planning-state = State
planning-certainty = Certainty, %
planning-warmth-of-mat = Warmth of the mat, { $unit }
planning-how-worked-out = How this is worked out
planning-choose-one = Please choose one.
planning-give-a-number = Please give a number.
planning-not-known = not known
planning-interval = { $rate } % ({ $low } to { $high })

# The plan
planning-nothing-planned = Nothing is planned yet. Paste a list, or type several lines on one page.
planning-without-adjusted-rates = Reckoned without adjusted rates.
planning-days-not-worked-out = Some days to root are not worked out from the club’s bags yet; open this page again in a moment.
planning-tick-all = Tick all that can be accepted
planning-tick-line = Tick { $name } ready { $ready }
planning-start-is-past = { $start }: past
planning-accept-ticked = Accept the ticked lines
planning-about-accepting = Beside the seeds stands whose rate they are reckoned with; a line tells all of it. Accepting a line promises its seeds and puts it on Due now from its start on. A line that no packet gives seeds to cannot be accepted; Out of says why.
planning-what-reckoned-with = What it is reckoned with
planning-a-new-plan = A new plan
planning-plans = Plans:
planning-out-of-reach = out of reach
planning-taken = { $seeds } of { $mark }
planning-short = { $n } short
planning-no-number-to-promise = no number of seeds to promise
planning-all-is-promised = all that the packets hold is promised
planning-no-packet-holds-any = no packet holds any
planning-not-accepted = not accepted
planning-accepted = accepted
planning-partly-started = partly started
planning-started = started
planning-total = In all { $seeds ->
    [one] { $seeds } seed
   *[other] { $seeds } seeds
 } in { $bags ->
    [one] { $bags } bag
   *[other] { $bags } bags
 }, { $cells ->
    [one] { $cells } cell
   *[other] { $cells } cells
 } in { $trays ->
    [one] { $trays } tray
   *[other] { $trays } trays
 } of { $size }.
planning-seeds-short = { $n ->
    [one] { $n } seed short.
   *[other] { $n } seeds short.
 }
planning-without-lines = { $n ->
    [one] Without { $n } line of which no number of seeds can be told.
   *[other] Without { $n } lines of which no number of seeds can be told.
 }

# One line
planning-line-title = { $variety } in the plan
planning-not-accepted-in = Not accepted, in the plan <a href="/plan?{ $query }">{ $plan }</a>.
planning-accepted-in = Accepted, in the plan <a href="/plan?{ $query }">{ $plan }</a>.
planning-partly-started-in = Partly started, in the plan <a href="/plan?{ $query }">{ $plan }</a>.
planning-started-in = Started, in the plan <a href="/plan?{ $query }">{ $plan }</a>.
planning-start-seeds-on = { $n ->
    [one] Start { $n } seed on { $day }.
   *[other] Start { $n } seeds on { $day }.
 }
planning-plants-out-of-reach = So many plants are out of reach at this certainty. Ask for fewer plants or less certainty, or test more seeds.
planning-no-rate-known = No rate is known of this kind, so the app cannot say how many seeds. Give your own number below.
planning-promised-to-start = { $given }, to start { $day }: promised
planning-started-to-start = { $given }, to start { $day }: started
planning-withdrawn-to-start = { $given }, to start { $day }: withdrawn
planning-start-mark = Start { $mark }
planning-its-trial = Its trial
planning-withdraw-promised = Withdraw what is promised
planning-accept-it = Accept it
planning-seeds-to-promise = Seeds to promise
planning-start-on = Start on
planning-oldest-first = the oldest first
planning-accept = Accept
planning-on-shopping-list = You have no packet of it with seed. It stands on the <a href="/plan/shopping?{ $query }">shopping list</a>.
planning-change-it = Change it
planning-weeks-in-cell = Weeks in the cell
planning-empty-as-plan-certainty = Empty: as the plan, { $n }.
planning-empty-as-plan = Empty: as the plan.
planning-empty-as-usual = Empty: as usual for the kind.
planning-save-the-change = Save the change
planning-take-off = Take it off the plan

# How a line is reckoned
planning-how-reckoned = How this is reckoned
planning-the-sum = The sum
planning-wanted = Wanted
planning-plants-ready = { $n ->
    [one] { $n } plant ready { $day }
   *[other] { $n } plants ready { $day }
 }
planning-seeds-for-certainty = { $n }, for { $certainty } % certainty; on average they give { $plants ->
    [one] { $plants } plant
   *[other] { $plants } plants
 }.
planning-rooting = Rooting
planning-rooting-not-known = not known.
planning-in-the-cell = In the cell
planning-no-tray-tells = no tray of the club tells yet, so every rooted seed is taken for a plant.
planning-bags-on-the-mat = { $n ->
    [one] { $n } bag
   *[other] { $n } bags
 } of up to { $most ->
    [one] { $most } seed
   *[other] { $most } seeds
 }, on the mat at { $warmth }
planning-cells-in-trays-of = { $n ->
    [one] { $n } cell, in trays of { $size }
   *[other] { $n } cells, in trays of { $size }
 }
planning-soak = Soak
planning-days-before-paper = { $n ->
    [one] { $routine }: { $n } day before the paper.
   *[other] { $routine }: { $n } days before the paper.
 }
planning-on-paper = On paper
planning-in-cells = In cells
planning-from-day = from { $day }: { $words }

# Days on paper
planning-days-in-soil = about { $n } days, the published time to emergence in soil at { $warmth } (Harrington & Minges 1954); a root is out some days before.
planning-days-of-laboratory = { $n } days, the day of the laboratory’s final count; nothing is known of { $kind } at { $warmth }.
planning-days-guessed = { $n } days, a guess: nothing is known of { $kind } at { $warmth }.
planning-days-until-share = { $n ->
    [one] { $n } day
   *[other] { $n } days
 } until { $share } of 100 seeds have rooted, by the club’s { $bags ->
    [one] { $bags } bag
   *[other] { $bags } bags
 } of { $of } near { $warmth }.
planning-days-until-most = { $n ->
    [one] { $n } day
   *[other] { $n } days
 } until most of those that root at all are out, by the club’s { $bags ->
    [one] { $bags } bag
   *[other] { $bags } bags
 } of { $of } near { $warmth }.

# Weeks in the cell
planning-weeks-own = { $n } weeks, your own number.
planning-weeks-usual = { $n } weeks, as is common practice with { $kind }; no source.
planning-weeks-guessed = { $n } weeks, a guess: nothing usual is noted of { $kind }. Give your own below.

# Rates
planning-club-adjusted = club’s adjusted rate
planning-club-adjusted-words = the club’s adjusted rate of { $variety } from { $source }, { $rate } % ({ $low } to { $high }) of seeds on paper. Trials, growers and lots differ, and that is allowed for.
planning-club-own = club’s own count
planning-club-own-words = { $seeds ->
    [one] the club’s raw rate of { $variety } from { $source }, { $rate } % of { $seeds } seed, which tell as much as a test of { $test }; there is no adjusted rate.
   *[other] the club’s raw rate of { $variety } from { $source }, { $rate } % of { $seeds } seeds, which tell as much as a test of { $test }; there is no adjusted rate.
 }
planning-club-variety = club’s count of the variety
planning-club-variety-words = { $n ->
    [one] the club’s raw rate of { $variety } from { $n } other source, { $rate } %; none of them is the source meant here.
   *[other] the club’s raw rate of { $variety } from { $n } other sources, { $rate } %; none of them is the source meant here.
 }
planning-club-kind = club’s count of the kind
planning-club-kind-words = { $n ->
    [one] the club has not counted this variety: its raw rate of { $kind }, { $rate } % over { $n } variety and source.
   *[other] the club has not counted this variety: its raw rate of { $kind }, { $rate } % over { $n } varieties and sources.
 }
planning-unlike-allowed-for = How unlike they are is allowed for.
planning-so-few-tell = { $n ->
    [one] So few tell no more than a test of { $n } seed.
   *[other] So few tell no more than a test of { $n } seeds.
 }
planning-published-standard = published standard
planning-published-standard-words = the club has not counted any { $kind }: the published standard, { $rate } % ({ $source }). It is the least of normal seedlings that seed for sale must give, not of rooted seeds; most seed does better.
planning-club-trays = club’s trays
planning-trays-of-source = the club’s trays of { $variety } from this source: { $grown } of { $planted } rooted seeds became plants.
planning-trays-of-variety = the club’s trays of { $variety }: { $grown } of { $planted } rooted seeds became plants.
planning-trays-of-kind = the club’s trays of all { $kind }: { $grown } of { $planted } rooted seeds became plants.
planning-trays-of-all = the club’s trays of all kinds: { $grown } of { $planted } rooted seeds became plants.

# Lines changed and accepted
planning-trial-was-started = A trial was started for this line; it stays as it is.
planning-saved = Saved.
planning-accept-anew = What was promised is withdrawn: accept the line anew.
planning-day-is-past = That day is past.
planning-ready-which-day = Ready on which day?
planning-start-which-day = Start on which day?
planning-accepted-already = This line is accepted already, or there is no packet for it.
planning-accepted-seeds = { $n ->
    [one] Accepted: { $n } seed promised.
   *[other] Accepted: { $n } seeds promised.
 }
planning-short-see-shopping = { $n ->
    [one] { $n } seed short: see the shopping list.
   *[other] { $n } seeds short: see the shopping list.
 }
planning-accepted-lines = Accepted: { $lines ->
    [one] { $lines } line
   *[other] { $lines } lines
 }, { $seeds ->
    [one] { $seeds } seed
   *[other] { $seeds } seeds
 } promised.
planning-of-them-short = { $n } of them are short.
planning-stand-on-due-now = They stand on Due now from their day on.
planning-nothing-accepted = Nothing was accepted: tick lines that have a packet.
planning-withdrawn = Withdrawn: its seeds are free again.
planning-taken-off = { $n ->
    [one] Taken off the plan: { $n } plant of { $variety }.
   *[other] Taken off the plan: { $n } plants of { $variety }.
 }

# Lines entered
planning-lines-of-the-plan = Lines of the plan
planning-add-to-plan = Add to the plan { $plan }
planning-in-the-list = In the list:
planning-line-n = Line { $n }
planning-paste-a-list = Paste a list
planning-list = List
planning-list-help = One line each: variety, plants, ready date, and a source if it must be that one. Commas, semicolons or tabs between. Or type below; both are added together.
planning-source-help = Source: empty takes the oldest seed you have, whoever it is from. A variety that the club does not have yet: write its kind before it, such as “tomato: Curlew”.
planning-add-these-lines = Add these lines
planning-more-rows = More rows
planning-list-not-read = Not every line of the list can be read; which, and why, stands above it.
planning-type-a-line = Type a line here, or paste a list below.
planning-most-lines = At most { $n } lines in one plan, please.
planning-added = { $n ->
    [one] Added: { $n } line.
   *[other] Added: { $n } lines.
 }
planning-which-variety = Which variety?
planning-most-characters = At most { $n } characters, please.
planning-which-of-them = Which of them? Write { $names }.
planning-no-variety = The club has no variety { $name }.
planning-did-you-mean = Did you mean { $names }?
planning-write-its-kind = To plan a new one, write its kind before it: tomato: { $name }.
planning-no-kind = The club has no kind { $name }.
planning-no-source = The club has no source { $name }.
planning-empty-for-any = Leave it empty for any.
planning-a-date = A date, please, such as 2026-05-20 or 20 May.
planning-is-past = { $day } is in the past.
planning-is-too-far = { $day } is too far ahead.
planning-how-many-plants = How many plants?
planning-a-whole-number = A whole number from 1 to { $most }, please.

# What a plan is reckoned with
planning-plan-reckoned-with = What the plan is reckoned with
planning-plan-for-a-season = A plan for a season
planning-about-a-plan = Say how many plants of what should be ready when: the plan says how many seeds to soak, in how many bags and cells, on which day to start, and what your packets are short of.
planning-season = Season
planning-season-help = Such as 2026, or spring 2026.
planning-routine = Routine
planning-routine-help = Its steps take time before the paper.
planning-seeds-in-a-bag = Seeds in a bag, at most
planning-lines-own-warmth = Lines can have their own.
planning-certainty-help = 90: nine sowings in ten give enough plants.
planning-tray = Tray
planning-cells-across = Another tray: cells across
planning-cells-down = Another tray: cells down
planning-bags-on-mat = Bags that fit on the mat
planning-trays-of-room = Trays there is room for
planning-no-limit = Empty: no limit is told.
planning-make-the-plan = Make the plan
planning-save = Save
planning-back = Back
planning-choose = choose
planning-another-one = another one
planning-another-tray = Another one: I give rows and columns
planning-name-needs-letters = A name with letters or digits in it, please.
planning-name-taken = You have a plan of this name already.
planning-plan-is-made = The plan { $name } is made. Now its lines.
planning-plan-saved = Saved. Accepted lines keep their numbers.

# Week by week
planning-plan-weeks-title = Plan { $name } week by week
planning-plan-weeks = Plan { $name }, week by week
planning-weeks-caption = { $name } week by week
planning-no-weeks = Nothing is planned yet. <a href="/plan/lines?{ $query }">Add lines</a>
planning-about-weeks = What this plan takes, lines not yet accepted too; bags that lie on the mat for other reasons are not in it.
planning-week = Week
planning-on-the-mat = On the mat
planning-trays-standing = Trays standing
planning-too-full = too full
planning-lines-left-out = { $n ->
    [one] { $n } line has no number of seeds and is not in it.
   *[other] { $n } lines have no number of seeds and are not in it.
 }
planning-week-of = Week of { $day }
planning-mat-over = { $n ->
    [one] { $n } bag: { $over } more than the mat holds
   *[other] { $n } bags: { $over } more than the mat holds
 }
planning-mat-of = { $most ->
    [one] { $n } of { $most } bag
   *[other] { $n } of { $most } bags
 }
planning-mat-bags = { $n ->
    [one] { $n } bag
   *[other] { $n } bags
 }
planning-cells-in-trays = { $cells ->
    [one] { $cells } cell
   *[other] { $cells } cells
 } in { $trays ->
    [one] { $trays } tray
   *[other] { $trays } trays
 }
planning-trays-over = { $n ->
    [one] { $n } tray: { $over } more than there is room for
   *[other] { $n } trays: { $over } more than there is room for
 }
planning-trays-of = { $most ->
    [one] { $n } of { $most } tray
   *[other] { $n } of { $most } trays
 }
planning-trays = { $n ->
    [one] { $n } tray
   *[other] { $n } trays
 }
planning-seeds-of-variety = { $n ->
    [one] { $n } seed of { $variety }
   *[other] { $n } seeds of { $variety }
 }

# The list on paper
planning-plan-on-paper = Plan { $name } on paper
planning-a4-instead = A4 instead
planning-letter-instead = US Letter instead
planning-how-to-print = Print from the browser's menu, at 100 %.
planning-list-of-member = { $plan }: the season’s list of { $member }
planning-list-reckoned-with = { $routine }; bags of up to { $seeds } seeds; trays of { $cells } cells. By the day to start. Printed { $day }.
planning-any-source = any

# Shopping list
planning-shopping-for = Shopping list for { $plan }
planning-packets-hold-all = Your packets hold seed for every line of the plan.
planning-about-shopping = Seed that the plan takes and your packets do not hold, with how the club’s sources stand.
planning-from-source = { $name }, from { $source }
planning-how-sure = How sure that is
planning-sources-of = Sources of { $variety }
planning-group = Group
planning-adjusted = Adjusted
planning-counted = Counted
planning-too-little-known = too little is known
planning-about-adjusted = Adjusted is what a grower of average care would see rooted of seeds on paper, with its 95 % interval. Sources in different groups share no growers and are not compared: the order of the groups says nothing.
planning-sources-not-told-apart = The club’s sources cannot be told apart now; the note above says why.
planning-not-counted = The club has not counted this variety from any source.
planning-seeds-by-growers = { $seeds ->
    [one] { $seeds } seed
   *[other] { $seeds } seeds
 }, { $growers ->
    [one] { $growers } grower
   *[other] { $growers } growers
 }
planning-seeds-short-of = { $n ->
    [one] { $n } seed short: the plan takes { $wanted }, your packets hold { $held } of them.
   *[other] { $n } seeds short: the plan takes { $wanted }, your packets hold { $held } of them.
 }
planning-lines-without-number = { $n ->
    [one] { $n } line has no number of seeds, since no rate is known.
   *[other] { $n } lines have no number of seeds, since no rate is known.
 }
