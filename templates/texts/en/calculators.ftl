# Calculators
calculators-title = Calculators
calculators-nothing-stored = Nothing you type is stored, unless you note a solution as made. The address of an answer holds the question, so you can send it to somebody.
calculators-mixing = Mixing
calculators-about-mixing = How much stock and how much water for the vials in use, in ml, teaspoons and drops, with the cautions.
calculators-how-many-to-sow = How many to sow
calculators-about-sowing = So many plants wanted: how many seeds to soak so that you can count on them.
calculators-comparison = Seeds for a comparison
calculators-about-comparison = Two sources that may differ: how many seeds and bags of each it takes to see it.

# Words of both
calculators-no-answer-yet = No answer yet.
calculators-answer = Answer
calculators-ask-again = Ask again
calculators-how-worked-out = How this is worked out
calculators-work-it-out = Work it out
calculators-certainty = Certainty
calculators-certainty-percent = Certainty, %
calculators-seeds-to-soak = Seeds to soak
calculators-plants-on-average = Plants on average
calculators-seeds = Seeds
calculators-bags = Bags
calculators-give-a-number = Please give a number.

# How many to sow: the answer
calculators-for-plants = For { $plants } plants or more
calculators-soak = { $n ->
    [one] Soak { $n } seed.
   *[other] Soak { $n } seeds.
 }
calculators-no-number-is-enough = Up to { $most } no number of seeds is enough.
calculators-each-must-become = Each seed must become a plant, and that is { $certainty } % certain.
calculators-certain-to = { $plants ->
    [one] Certain to { $certainty } %: of 100 sowings of { $seeds }, about { $share } would give { $plants } plant or more. With one seed fewer it would be about { $fewer }.
   *[other] Certain to { $certainty } %: of 100 sowings of { $seeds }, about { $share } would give { $plants } plants or more. With one seed fewer it would be about { $fewer }.
 }
calculators-plants-out-of-reach = So many plants at { $certainty } % certainty are out of reach while so little is known of the rate, or the rate is so low. Ask for fewer plants, for less certainty, or test more seeds.
calculators-on-average = On average so many give { $plants } plants.
calculators-out-of-reach = out of reach
calculators-sum = { $n ->
    [one] { $plants } ÷ { $rates } = { $n } seed
   *[other] { $plants } ÷ { $rates } = { $n } seeds
 }
calculators-by-hand-less = { $plants ->
    [one] By hand, { $sum }. That is right on average, but only about { $share } of 100 such sowings would give { $plants } plant or more.
   *[other] By hand, { $sum }. That is right on average, but only about { $share } of 100 such sowings would give { $plants } plants or more.
 }
calculators-by-hand-enough = By hand, { $sum }, which is no fewer here.
calculators-by-hand-uncertain = By hand, { $sum }, with no certainty at all.
calculators-where-numbers-came-from = Where the numbers came from
calculators-rooting-from-club = Rooting: from the club table, { $name }: { $rate } % ({ $low } to { $high }) by the standard day, of { $seeds ->
    [one] { $seeds } seed
   *[other] { $seeds } seeds
 } started in { $bags ->
    [one] { $bags } bag
   *[other] { $bags } bags
 } by { $growers ->
    [one] { $growers } grower
   *[other] { $growers } growers
 }. Bags and trials are unlike each other, so these tell no more than a test of { $test ->
    [one] { $test } seed
   *[other] { $test } seeds
 } of which { $rooted } rooted, and that is what is reckoned with.
calculators-rooting-your-rate = Rooting: your rate, taken as certain. If it comes from a test, give the test: a rate known from few seeds needs more seeds.
calculators-rooting-your-test = Rooting: your test, { $rooted } of { $tested }. That the true rate may be lower or higher is allowed for.
calculators-tray-your-numbers = In the tray: your numbers.
calculators-tray-of-club = In the tray: from the club's trays, where { $grown } of { $planted } rooted seeds of it, planted { $weeks } weeks ago or earlier, became plants.
calculators-tray-not-counted = In the tray: losses after rooting are not counted, every rooted seed is taken for a plant. Give your numbers below if you lose some.

# How many to sow: the question
calculators-plants-wanted = Plants wanted
calculators-sowing-certainty-help = 90: nine sowings in ten give enough.
calculators-how-many-root = How many seeds root?
calculators-whose-numbers = Whose numbers
calculators-whose-numbers-help = The club’s for a variety and source, or your own.
calculators-my-own = My own, typed below
calculators-choice = { $n ->
    [one] { $name }: { $rate } % of { $n } seed
   *[other] { $name }: { $rate } % of { $n } seeds
 }
calculators-either-rate = Either: rate, %
calculators-either-rate-help = Such as 86, where you know it well.
calculators-or-a-test = Or a test: rooted
calculators-of-seeds-tested = of seeds tested
calculators-how-many-become-plants = How many rooted seeds become plants?
calculators-leave-empty-for-trays = Leave empty to take the club’s trays where they tell, else to count every rooted seed.
calculators-either-share = Either: share, %
calculators-or-became-plants = Or: became plants
calculators-of-seeds-planted = of rooted seeds planted
calculators-not-in-club-table = This is not in the club table. Please choose again.
calculators-club-or-own = Either the club's numbers or your own: choose “my own” here, or empty the fields below.
calculators-give-a-rate = Give a rate here, or so many rooted of so many, or choose the club's numbers.
calculators-rate-or-test = Give either a rate or a test, not both.
calculators-of-how-many = Of how many? Please give a number.
calculators-how-many-of-them = How many of them? Please give a number.
calculators-more-than-in-all = That is more than there were in all.
calculators-at-least-one = Please give at least 1.

# Seeds for a comparison: the answer
calculators-about-two-sources = Two sources of a variety: how many seeds of each must be tested to see that one roots better?
calculators-bags-from-each = { $bags ->
    [one] { $bags } bag
   *[other] { $bags } bags
 } of { $seeds ->
    [one] { $seeds } seed
   *[other] { $seeds } seeds
 } from each source.
calculators-that-is-seeds = That is { $n ->
    [one] { $n } seed
   *[other] { $n } seeds
 } of each ({ $others } would do in bags of other sizes). If in truth { $one } % of one and { $other } % of the other root, then of 100 such comparisons about { $found } find the difference and { $missed } miss it. If both are in truth alike, about 5 find one that is not there.
calculators-bags-by-chance = Bags that differ by chance only are reckoned with; if yours differ more, it takes more.
calculators-bags-share-luck = { $n ->
    [one] Seeds in one bag share its luck, so { $alike } seeds here tell as much as 1 seed alone; otherwise { $n } seed of each would do.
   *[other] Seeds in one bag share its luck, so { $alike } seeds here tell as much as 1 seed alone; otherwise { $n } seeds of each would do.
 }
calculators-more-bags = More bags with fewer seeds take less: { $bags ->
    [one] { $bags } bag
   *[other] { $bags } bags
 } of { $seeds ->
    [one] { $seeds } seed
   *[other] { $seeds } seeds
 }.
calculators-a-lot = That is a lot.
calculators-most-tested = { $n ->
    [one] The variety and source your club has tested most has { $n } seed so far.
   *[other] The variety and source your club has tested most has { $n } seeds so far.
 }
calculators-bigger-difference = A bigger difference takes far fewer seeds, as the table shows; or share the bags among growers.
calculators-to-tell-apart = What it takes to tell apart, of each source
calculators-rates = Rates
calculators-two-rates = { $one } % and { $other } %
calculators-at-the-same-time = Let each grower test both sources at the same time, on the same mat: then a careful grower helps both alike. Spread the bags over several growers; bags of one trial share even more luck than is reckoned with here.
calculators-seeds-standing-alone = Seeds of each source, if every seed stood alone:
calculators-normal-approximation = Normal approximation
calculators-continuity-correction = With continuity correction (used above)
calculators-fisher = Fisher’s exact test
calculators-not-worked-out = not worked out for so many; the corrected number is close
calculators-not-found = not found

# Seeds for a comparison: the question
calculators-one-source = One source, %
calculators-one-source-help = So many of its seeds root.
calculators-the-other = The other, %
calculators-the-other-help = The smallest difference you would act on.
calculators-comparison-certainty-help = 80: four comparisons in five find it.
calculators-seeds-in-a-bag = Seeds in a bag
calculators-how-alike = How alike seeds of a bag are
calculators-how-alike-help = From 0 to 1.
calculators-alike-of-club = 0: bags of one source differ by chance only; 1: a bag roots as a whole or not at all. Your club's bags so far: { $alike }.
calculators-alike-guessed = 0: bags of one source differ by chance only; 1: a bag roots as a whole or not at all. Your club has too few trials yet to tell its own; { $alike } is a guess to plan with.
calculators-chance-only = Please give a number; 0 where bags differ by chance only.
calculators-two-rates-apart = Give two rates that are half a per cent apart or more.
