# What stands on several pages.
compare-of-paper = Rooted { $when }, of seeds on paper. { $note }
compare-beside-our-own = Adjusted rates and comparisons stand, { $others }, beside our own.
compare-lots-differ = The lots (years) of one source differ in this club’s data, so the difference told by the whole club allows for the next lot being unlike those that were tried, and is less sure than what growers found with the lots they had.
compare-group-head = Group
compare-raw = Raw
compare-from = From
compare-chance = Chance
compare-none-of-ours = none of ours; { $others }

# A difference of 100 seeds.
compare-as-many = as many of 100 seeds
compare-more-of-100 = { $n } more of 100 seeds
compare-fewer-of-100 = { $n } fewer of 100 seeds
compare-as-many-as = as many of 100 seeds as { $other }
compare-more-than = { $n } more of 100 seeds than { $other }
compare-fewer-than = { $n } fewer of 100 seeds than { $other }
compare-span-from = (from { $low } to { $high })
compare-none = none
compare-more = { $n } more
compare-fewer = { $n } fewer
compare-found-with-chance = { $found }, chance { $chance } %

# Two sources.
compare-shown = { $better } roots better than { $worse }: { $how }. { $both }
compare-probable = { $better } probably roots better than { $worse }: { $how }. { $both }
compare-probable-by-both = { $better } probably roots better than { $worse }: growers who had both ({ $n ->
    [one] 1 grower
   *[other] { $n } growers
 }) found { $found }. The whole club leans the same way: { $how }.
compare-probable-by-both-of-lots = { $better } probably roots better than { $worse }: growers who had both ({ $n ->
    [one] 1 grower
   *[other] { $n } growers
 }) found { $found }. The whole club, less sure since the next lot may differ, leans the same way: { $how }.
compare-unsettled = Not settled: the whole club puts { $better } ahead of { $worse }: { $how }. { $both }
compare-if-anything = If anything, { $better } is ahead of { $worse }: { $how }. { $both }
compare-nobody-had-both = Nobody had both; a chain of growers links them.
compare-one-is-not-enough = The one grower who had both found the same: { $found }; one alone is not enough.
compare-both-found-the-same = { $n ->
    [one] The one grower who had both found the same: { $found }.
   *[other] Growers who had both ({ $n } growers) found the same: { $found }.
 }
compare-both-saw-no-difference = { $n ->
    [one] The one grower who had both saw no difference: { $found }.
   *[other] Growers who had both ({ $n } growers) saw no difference: { $found }.
 }
compare-both-lean-the-same = { $n ->
    [one] The one grower who had both leans the same way: { $found }; too few seeds to show it alone.
   *[other] Growers who had both ({ $n } growers) lean the same way: { $found }; too few seeds to show it alone.
 }
compare-both-lean-against = { $n ->
    [one] The one grower who had both leans the other way: { $found }; too few seeds to show it alone.
   *[other] Growers who had both ({ $n } growers) lean the other way: { $found }; too few seeds to show it alone.
 }
compare-both-found-the-opposite = { $n ->
    [one] The one grower who had both found the opposite: { $found }.
   *[other] Growers who had both ({ $n } growers) found the opposite: { $found }.
 }
compare-verdict-shown = shown
compare-verdict-by-both = probable, by growers who had both
compare-verdict-by-club = probable, by the whole club
compare-verdict-probable = probable; not certain among so many pairs
compare-verdict-not-shown = no difference shown
compare-verdict-unsettled = not settled: the two disagree

# Which source to buy from again.
compare-only-one-source = Only { $source } was tried, so there is nothing to compare it with.
compare-no-two-yet = No two of its sources can be compared yet.
compare-too-little-to-compare = Too little is known of its sources to compare them.
compare-no-difference-between = No difference shown between { $sources }.
compare-buy = Buy { $best } again: it roots better than { $others }.
compare-probably-buy = Buy { $best } again: it probably roots better than { $others }.
compare-buy-one-of = Buy { $best } again, not { $others }.
compare-probably-buy-one-of = Buy { $best } again, probably not { $others }.
compare-to-show-it = To show a difference of 10 in 100 it would take about { $seeds } seeds of each: { $trials } trials of { $each } seeds of each source, every grower sowing both.
compare-apart = { $these } cannot be compared with { $main }: no grower, nor a chain of growers, had both. To link them, let some growers sow both.
compare-apart-each = { $these } cannot be compared with { $main }: no grower, nor a chain of growers, had both. Nor can these be compared with each other. To link them, let some growers sow both.
compare-no-count-yet = no count yet
compare-grown-by = grown by { $growers }
compare-grown-by-others = grown by { $n } others

# One variety by source.
compare-variety-by-source = { $variety } by source
compare-set-up-a-ring = Set up a ring trial of { $variety }
compare-ask-for-a-ring = In a ring trial several growers sow the same lots on a plan: ask an organiser for one.
compare-of-paper-adjusted = Rooted { $when }, of seeds on paper; adjusted for { $effects }. { $note }
compare-by-the-day-instead = By the standard day instead
compare-at-close-instead = At the close instead
compare-raw-rates = Raw rates
compare-raw-rates-are = Of seeds on paper, rooted { $when }. These are not yet comparable: a careful grower makes a source look good.
compare-raw-rate = { $rate } ({ $low } to { $high }), { $seeds } seeds
compare-pair-by-pair = Pair by pair: how many more of 100 seeds root with the first
compare-pair = Pair
compare-growers-who-had-both = Growers who had both
compare-whole-club = Whole club
compare-chance-first = Chance that the first is better
compare-so = So
compare-disagree = the two disagree
compare-many-pairs = With { $n } pairs read at once, one may look clear by luck. “Shown” is kept for pairs so clear that the chance of at least one false alarm over these pairs is kept under 5 %.
compare-side-by-side = Its sources side by side
compare-group-alone = Group { $n } of { $all }: stands alone
compare-group-together = Group { $n } of { $all }: can be compared with each other
compare-chart = { $variety } by source, rooted { $when }, of seeds on paper
compare-against = { $better } against { $worse }
compare-pair-nobody = nobody had both
compare-pair-within = { $found }, { $n ->
    [one] 1 grower
   *[other] { $n } growers
 }
compare-too-little-for-adjusted = Too little is known of it for an adjusted rate.
compare-floaters-bound = Floaters were thrown out in { $n ->
    [one] 1 trial
   *[other] { $n } trials
 }: if none of them would have rooted, the adjusted rate is { $bound } % of seeds started, not { $all } %.

# Why adjusted and raw rates differ.
compare-adjusted-is-lower = Adjusted is lower than raw: { $why }.
compare-adjusted-is-higher = Adjusted is higher than raw: { $why }.
compare-growers-do-better = its growers do better than average with their other seed (by { $n } in 100)
compare-growers-do-worse = its growers do worse than average with their other seed (by { $n } in 100)
compare-drawn-to-the-usual = it is drawn towards what is usual for its variety and kind, the more so the less is known of it
compare-more-root-so = more seeds root so
compare-fewer-root-so = fewer seeds root so
compare-another-routine = much of its seed went through another routine, “{ $routine }”
compare-lay-warmer = its bags lay warmer than most
compare-lay-colder = its bags lay colder than most
compare-was-older = its seed was older than most
compare-was-fresher = its seed was fresher than most

# One source across varieties.
compare-source-across = { $source } across varieties
compare-beside-others = Its varieties beside those of other sources
compare-of-100-root = Of 100 seeds root
compare-cannot-be-compared = Cannot be compared with { $sources }: no grower, nor a chain of growers, had both.
compare-no-other-source = No other source was tried.
compare-across-better = Its seed roots better than that of the club's average source: { $found }, chance { $chance } %.
compare-across-worse = Its seed roots worse than that of the club's average source: { $found }, chance { $chance } %.
compare-across-if-better = Not shown to differ from the club's average source; if anything better: { $found }, chance { $chance } %.
compare-across-if-worse = Not shown to differ from the club's average source; if anything worse: { $found }, chance { $chance } %.
compare-across-missing = No single number for this source across varieties: it was tried with { $n ->
    [one] 1 variety
   *[other] { $n } varieties
 }, and it takes two or more, with three sources linked by shared growers and some difference between sources that goes through their varieties.
compare-sure-probable = probable
compare-sure-unsettled = not settled

# What helps.
compare-what-helps-short = What helps
compare-what-helps = What helps: routine, warmth, age, floaters
compare-how-answers-come = Each answer comes only from growers who tried it both ways, each compared with themselves: a careful grower who also happens to soak would otherwise make the soak look good. Variety, source and the other matters here are allowed for.
compare-nobody-tried-both = Nobody has tried it both ways yet, so there is no answer. { $advice }
compare-start-trials = Start trials
compare-does-the-routine-help = Does the routine help?
compare-does-warmth-help = Does warmth help?
compare-does-age-matter = Does the age of the seed matter?
compare-do-floaters-root = Do floaters root?
compare-advice-split = Split one packet into paired trials that differ in this alone; what you find with them shows here.
compare-advice-age = Grow old and fresh seed of one variety and source side by side; what you find with them shows here.
compare-advice-floaters = At the float tally put the floaters into a bag of their own; what you find with them shows here.
compare-routine-against-usual = “{ $routine }” against the club's usual routine: { $verdict ->
    [more] more seeds root
    [fewer] fewer seeds root
   *[none] no difference shown
 }.
compare-routine-against = “{ $routine }” against “{ $usual }”, the usual one: { $verdict ->
    [more] more seeds root
    [fewer] fewer seeds root
   *[none] no difference shown
 }.
compare-each-step-warmer = Each { $step } warmer: { $verdict ->
    [more] more seeds root
    [fewer] fewer seeds root
   *[none] no difference shown
 }.
compare-each-year-older = Each year older: { $verdict ->
    [more] more seeds root
    [fewer] fewer seeds root
   *[none] no difference shown
 }.
compare-floated-against-sank = Seeds that floated, against seeds that sank in the same trial: { $verdict ->
    [more] more seeds root
    [fewer] fewer seeds root
   *[none] no difference shown
 }.
compare-found-by = Found: { $found }, by { $growers ->
    [one] 1 grower who varied it
   *[other] { $growers } growers who varied it
 }, in { $trials ->
    [one] 1 trial
   *[other] { $trials } trials
 }.

# The report for the meeting.
compare-report = Report for the club meeting
compare-a4-instead = A4 instead
compare-letter-instead = US Letter instead
compare-print-at-100 = Print from the browser's menu, at 100 %.
compare-which-to-buy = { $club }: which source to buy from again
compare-report-of = Rooted { $when }, of seeds on paper. { $note } Printed { $printed }.
compare-no-two-sources = No variety was tried from two sources yet.
compare-in-short = In short
compare-no-differences = No variety shows a difference between its sources yet.
compare-others-show-none = The others show no difference between sources, or cannot be compared yet.
compare-adjusted-interval = Adjusted (95 % interval)
compare-one-source-only = { $n ->
    [one] { $n } more variety was tried from one source only.
   *[other] { $n } more varieties were tried from one source only.
 }
compare-how-to-read = How to read this
compare-read-adjusted = Adjusted: the share that a grower of average care would see rooted; one model of the whole club adjusts for { $effects }.
compare-read-brackets = In brackets: 95 % interval; few seeds make it wide. Rates are of rooted seeds, not of the seedlings of a printed germination percentage.
compare-read-chance = Chance: the probability that the first of two sources roots better. Growers who had both are heard first.
compare-read-probably = “Probably”: clear when read alone. Without it: so clear that the chance of at least one false alarm over the pairs of a variety is kept under 5 % (Holm).
compare-read-groups = Sources in different groups share no growers, nor a chain of them, and are not compared.
