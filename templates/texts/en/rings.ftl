# The list.
rings-ring-trials = Ring trials
rings-what-they-are = The same lots of one variety, tested by several growers who do not know which is which. It settles which source is better, and not who has the better hands.
rings-set-up = Set up a ring trial
rings-none-yet = None yet.
rings-none-for-you = You take part in none, and none was opened yet. An organiser sets them up.
rings-stage-given-up = given up
rings-stage-opened = opened: see what came out
rings-stage-running = running, blind
rings-stage-planned = planned
rings-listed = { $what }: { $lots ->
    [one] { $lots } lot
   *[other] { $lots } lots
 }, { $growers ->
    [one] { $growers } grower
   *[other] { $growers } growers
 }
rings-listed-yours = { $what }: { $lots ->
    [one] { $lots } lot
   *[other] { $lots } lots
 }, { $growers ->
    [one] { $growers } grower
   *[other] { $growers } growers
 }; you take part

# Choosing a variety.
rings-which-variety = Which variety? These are the ones of which the club holds seed of two lots or more.
rings-no-variety-yet = There is none yet: no variety has seed of two lots in anybody's packets.
rings-packets = Packets
rings-lots-of-one-source = { $lots } lots, all from one source
rings-lots-of-sources = { $lots } lots, { $sources } sources
rings-choose-this = Choose<span class="vh"> { $variety }</span>

# Setting one up.
rings-ring-trial-of = Ring trial of { $variety }
rings-ring-trial-of-kind = Ring trial of { $variety }, { $kind }
rings-name = Name
rings-name-help = Growers read it on their labels: it must not tell what is tested. At most 40 characters.
rings-which-packets = Which packets are compared? One of each lot.
rings-with-owner = { $left }, with { $owner }
rings-who-takes-part = Who takes part?
rings-difference = Difference worth finding
rings-difference-help-new = In rooted seeds of 100. Half of it takes four times the seed.
rings-difference-help = In rooted seeds of 100.
rings-certainty = How surely should it be found?
rings-certainty-80 = 80 % (usual)
rings-certainty-90 = 90 %: takes more seed
rings-certainty-70 = 70 %: takes less seed
rings-quoted = “{ $words }”
rings-most-lots = Most lots for one grower
rings-most-lots-help = Empty: up to { $n }.
rings-next-page = On the next page stand the bags and seeds that this takes, and whether the packets hold them. You can change the numbers there.
rings-make-the-plan = Make the plan
rings-two-growers-please = At least two growers, please: what one finds may be their hand.
rings-most-growers = At most { $n } growers.
rings-name-tells = The name stands on every label and must not tell: leave { $told } out of it.
rings-two-packets-please = At least two packets, please, of different lots.
rings-most-lots-of-one = At most { $n } lots in one ring trial.
rings-same-lot = { $one } and { $other } are of the same lot. Tick one of them.
rings-planned = Planned: { $name }. Nothing is drawn or handed out yet.

# Bags, seeds and how far each packet is.
rings-bags-of-seeds = { $bags ->
    [one] { $bags } bag
   *[other] { $bags } bags
 } of { $seeds ->
    [one] { $seeds } seed
   *[other] { $seeds } seeds
 }
rings-about-seeds = about { $n ->
    [one] { $n } seed
   *[other] { $n } seeds
 }
rings-not-handed-out = not handed out
rings-handed-out = handed out
rings-soaking = soaking
rings-closed = closed
rings-on-paper = on paper
rings-on-paper-and-soaking = on paper, some soaking
rings-counted = { $n } of { $all } rooted
rings-lot-number = Lot { $n }

# The plan.
rings-plan-of = Ring trial of { $variety }, { $kind }: { $lots } lots, { $n } growers ({ $growers }). Planned by { $by }. Nothing is drawn or handed out yet.
rings-what-it-can-show = What this plan can show
rings-plan-size = { $bags } <small>of each lot with each grower, { $seeds } seeds.</small>
rings-too-few = <strong>These numbers are too few for it.</strong> { $enough }
rings-too-little-to-show = That is too little to show any difference.
rings-hardly-ever-seen = A true difference of { $difference } rooted seeds in 100 would hardly ever be seen. With { $certainty } % certainty they show differences of { $least } rooted seeds in 100 or more.
rings-seen-nearly-always = A true difference of { $difference } rooted seeds in 100 would be seen in at least 99 of 100 such trials. With { $certainty } % certainty they show differences of { $least } rooted seeds in 100 or more.
rings-seen-in = A true difference of { $difference } rooted seeds in 100 would be seen in about { $n } of 100 such trials. With { $certainty } % certainty they show differences of { $least } rooted seeds in 100 or more.
rings-it-takes = That difference takes { $bags } bags of { $seeds ->
    [one] { $seeds } seed
   *[other] { $seeds } seeds
 } of each lot with each grower.
rings-rate-of-variety = { $percent } % of { $seeds } seeds of this variety rooted in the club so far
rings-rate-of-kind = { $percent } % of { $seeds } seeds of this kind rooted in the club so far
rings-rate-assumed = 80 % is assumed to root, until the club has counted 30 seeds of the kind
rings-bags-share-luck = Seeds in one bag share its luck, so 100 seeds in bags of { $size } tell as much as { $n } each by itself ({ $why }).
rings-likeness-measured = measured on { $n } of the club's own bags, each beside others of the same packet and routine
rings-likeness-assumed = assumed, until the club has some twenty bags with others of the same packet and routine
rings-do-packets-hold-enough = Do the packets hold enough?
rings-no-not-enough = <strong>No.</strong> { $held } Change the numbers below, or have packets recounted or filled first.
rings-yes = Yes.
rings-not-one-seed-each = They do not hold one seed for each grower.
rings-they-hold = They hold enough for { $bags } of each lot for each grower. { $sure }
rings-take-what-they-hold = Take what they hold
rings-packet = Packet
rings-lot = Lot
rings-with = With
rings-holds = Holds
rings-needs = Needs
rings-short-by = Short by
rings-needs-for-growers = { $seeds }, for { $n } growers
rings-short-seeds = { $n } seeds
rings-packets-unlike = The packets are not all in the same state: growers will see a treated or pelleted seed, and may guess. Their packets carry the warning all the same.
rings-who-tests-what = Who tests what
rings-every-grower-all = Every grower tests all { $lots } lots, so every two lots are compared by { $n ->
    [one] { $n } grower
   *[other] { $n } growers
 }.
rings-each-grower-balanced = Each grower tests { $each } of the { $lots } lots, and every two lots share exactly { $n ->
    [one] { $n } grower
   *[other] { $n } growers
 }: no pair is favoured.
rings-each-grower-uneven = Each grower tests { $each } of the { $lots } lots. These numbers do not come out the same for all pairs: two lots share { $fewest } to { $most ->
    [one] { $most } grower
   *[other] { $most } growers
 }.
rings-through-the-others = Pairs that share none are compared through the others.
rings-all-are-linked = All lots are linked: a chain of shared growers leads from each to every other.
rings-splitting-costs = Splitting the lots costs some seed: 100 seeds tell as much as { $n } would if every grower tested all lots. The numbers above allow for it.
rings-how-many-share = How many growers each two lots share
rings-chance-numbers = Chance decides at the draw which lot has which number here.
rings-lots = Lots
rings-other-numbers = Other numbers
rings-numbers-are-yours = The app proposed a size; these are yours to change. What they can show then stands above.
rings-bags-each = Bags of each lot with each grower
rings-seeds-in-a-bag = Seeds in a bag
rings-seeds-in-a-bag-help = More bags tell more than fuller ones.
rings-lots-for-one = Lots for one grower
rings-see-what-these-show = See what these can show
rings-numbers-saved = Saved. What these numbers can show stands below.
rings-draw-the-lots = Draw the lots
rings-about-the-draw = Chance decides who tests what, and every packet gets a mark that does not tell the lot. After that the numbers stand. The growers then see that it is running and which marks are theirs; they can start once you hand out.
rings-not-yet = <strong>Not yet:</strong> the packets do not hold what the numbers ask for.
rings-give-up-this-plan = Give up this plan
rings-why = Why
rings-why-help = May stay empty. To change packets or growers, give up and set up anew.
rings-give-up-the-plan = Give up the plan
rings-cannot-link = { $growers } growers with { $each } lots each cannot link all { $lots } lots. Give each grower at least { $more } lots, or ask at least { $people } growers.
rings-from-two-lots = From 2 to { $lots } lots for each grower, please.
rings-too-large = There are too many lots or growers for one plan.
rings-nothing-to-plan = At least two lots and one grower, please.
rings-was-given-up = This ring trial was given up.
rings-drawn-already = The lots of this ring trial are drawn already, and its numbers stand.
rings-numbers-changed = The numbers were changed meanwhile. Look at the plan again.
rings-has-left = { $name } has left the club. Give this ring trial up and plan it again without { $name }.
rings-no-such-plan = There is no plan with these numbers. Change them first.
rings-packet-is-short = { $mark } of { $owner } is short by { $n ->
    [one] { $n } seed
   *[other] { $n } seeds
 }. Use fewer or smaller bags, or have the packet recounted.
rings-no-letters = One of the growers has no letters for marks yet.
rings-drawn = Drawn. Print the labels and the key, fill the packets, then hand them out.

# While it runs.
rings-running = Ring trial, running. <strong>Blind</strong>: nobody who grows knows which packet is which lot, until it ends.
rings-your-packets = Your packets
rings-how-to-treat = Put each on paper as <strong>{ $bags }</strong>. Treat them all alike: same routine, same day, same place and warmth. Then look every day as always; your bags are in <a href="/">Due now</a>. Please do not compare notes before the end.
rings-start-this = Start<span class="vh"> { $mark }</span>
rings-start-together = Start them together
rings-progress = Progress
rings-counted-to-the-end = { $n } of { $all } packets are counted to the end.
rings-linked-by-growers = All lots are linked through shared growers.
rings-labels = Labels
rings-key-for-filling = Key for filling the packets
rings-you-grow-too = You grow in this ring trial yourself, so the lots are not shown here. Better let another organiser print the key and fill the packets.
rings-hand-out = Hand out
rings-about-handing-out = When the filled packets go to the growers: the seeds leave the packets they came from, and each grower has a blind packet of { $bags } in their list.
rings-hand-out-to = To
rings-everybody = everybody who has none yet
rings-how-far-each-is = How far each packet is
rings-mark = Mark
rings-state = State
rings-counted-so-far = Counted so far
rings-end-it = End it
rings-all-is-counted = All is counted.
rings-not-all-is-counted = Not all is counted yet; you can open it early, with a reason.
rings-opening-shows-all = Opening shows every name to everybody, lets the counts into the club table, and cannot be taken back.
rings-open-the-ring-trial = Open the ring trial
rings-give-it-up-because = Give it up because
rings-give-it-up-help = Nothing is handed out yet, so no seed was moved. May stay empty.
rings-give-up = Give up
rings-handed-out-to = Handed out: { $packets ->
    [one] { $packets } packet
   *[other] { $packets } packets
 }, { $bags } each.
rings-not-drawn-yet = The lots of this ring trial are not drawn yet.
rings-not-running = This ring trial is not running any more.
rings-nothing-left-for-them = There is nothing left to hand out to them.
rings-not-enough-any-more = { $mark } of { $owner } does not hold enough seed any more. Have it recounted, then hand out again.

# Labels and key.
rings-labels-of = Labels of { $ring }
rings-back-to-the-ring = Back to the ring trial
rings-sheets-of-a4 = For label sheets of 3 by 8 (70 by 37 mm), or plain paper to cut. Print at 100 %.
rings-sheets-of-letter = For label sheets of 3 by 10 (66.7 by 25.4 mm), or plain paper to cut. Print at 100 %.
rings-on-the-label = { $ring } (blind). { $kind }, { $bags }.
rings-code-opens = Code that opens { $mark }
rings-key-of = Key of { $ring }
rings-you-grow-in-it = You grow in this ring trial. Whoever has seen the key knows what they count, and cannot help favouring it. Better let another organiser print it and fill the packets.
rings-back = Back
rings-show-the-key = Show me the key all the same
rings-key = Key: { $ring }
rings-about-the-key = <strong>Not for the growers before the end.</strong> { $variety }, { $kind }. Each packet below gets { $bags }{ $n ->
    [one] {""}
   *[other] {""}, { $seeds } seeds in all
 }. Stick the label on an empty packet, fill it, tick it here. Printed { $printed }.
rings-fill-from = From <span class="mark">{ $mark }</span> { $lot }, with { $owner }: { $seeds } seeds
rings-fill-from-treated = From <span class="mark">{ $mark }</span> { $lot } ({ $state }), with { $owner }: { $seeds } seeds
rings-fill = Fill
rings-for = For
rings-seeds = Seeds
rings-filled = Filled

# Opening it, or giving it up.
rings-open-title = Open { $ring }
rings-open-this = Open <a href="{ $path }">{ $ring }</a>?
rings-opening-means = Every packet then shows its variety and source to its grower, and the counts enter the club table. It cannot be taken back.
rings-all-counted-to-the-end = All { $n } packets are counted to the end.
rings-still-counting = <strong>{ $n } of { $all } packets are not counted to the end.</strong> Whoever goes on counting after this knows what they count.
rings-why-now = Why now?
rings-why-now-help = Stands on the page of the result.
rings-open-it = Open it
rings-why-opened-now = Not all bags are closed. Why is it opened now?
rings-opened = Opened. The packets show their names, and the counts are in the club table.
rings-open-it-instead = Seed was handed out, or the ring trial has ended. Open it instead, with a reason.
rings-given-up = Given up: { $name }. No seed was moved.
rings-was-given-up-of = This ring trial of { $variety } was given up before any seed was handed out.
rings-why-given-up = Why: { $why }
rings-set-up-another = Set up another of { $variety }

# The result.
rings-result-title = { $ring }: result
rings-what-came-out = { $ring }: what came out
rings-result-of = Ring trial of { $variety }, { $kind }, opened { $when }.
rings-result-of-by = Ring trial of { $variety }, { $kind }, opened { $when } by { $by }.
rings-opened-early = Opened early: { $why }
rings-nothing-comparable = Nothing was counted that could be compared.
rings-only-these-lots = Only these lots were tested; another lot of the same source may do otherwise. <a href="{ $path }">Everything the club knows of { $variety }</a>.
rings-differences-shown = Differences shown
rings-no-difference-shown = No difference between any two lots was shown. <small>That is not the same as being equal: see what still fits the counts.</small>
rings-lot-against-lot = Lot against lot
rings-not-shown = Not shown
rings-no-number-for = No number for { $pairs }: too little was counted to link them.
rings-own-lots-first = Each grower's lots are compared with each other first, so that careful hands do not count for a lot.
rings-holm = With { $n } pairs one of them looks different by chance more easily; a difference counts as shown only where it also holds with that in mind (Holm).
rings-brackets = In brackets: 95 % interval.
rings-still-running = { $n ->
    [one] { $n } bag is still running, so these numbers can still move.
   *[other] { $n } bags are still running, so these numbers can still move.
 }
rings-left-the-numbers = { $n ->
    [one] { $n } bag abandoned or in doubt left the numbers.
   *[other] { $n } bags abandoned or in doubt left the numbers.
 }
rings-each-lot = Each lot
rings-chart = Rooted of seeds on paper, each lot with its 95 % interval; the table below has the same numbers
rings-rooted-at-the-close = Rooted of seeds on paper, at the close
rings-counted-seeds = Counted
rings-each-grower = Each grower
rings-rooted-of-paper = Rooted of seeds on paper
rings-not-counted = not counted
rings-which-mark-was-which = Which mark was which lot
rings-rooted-of-seeds = { $x } of { $n } seeds, { $growers ->
    [one] { $growers } grower
   *[other] { $growers } growers
 }
rings-roots-better = { $better } roots better than { $other }: { $more } more of 100 seeds ({ $low } to { $high }).
rings-no-difference = No difference shown between { $better } and { $other }: { $more } more of 100 seeds rooted of { $better }, and anything from { $down } to { $high } more fits the counts.
rings-nobody-had-both = No grower had both; the number comes through their other lots.
rings-from-one-alone = From the 1 grower who had both: one alone shows no difference, it may be their hand.
rings-from-those-who-had-both = From the { $n ->
    [one] { $n } grower
   *[other] { $n } growers
 } who had both.
rings-from-either = From the { $all } growers who had either, each against their other lots; the { $n ->
    [one] { $n } grower
   *[other] { $n } growers
 } who had both found { $found } by themselves.
rings-found-no-difference = no difference
rings-chance-better = The chance that { $better } is the better one is { $n } in 100.
rings-chance-better-99 = The chance that { $better } is the better one is more than 99 in 100.
rings-what-it-takes = To show a difference of { $difference } seeds in 100, if there is one, takes about { $seeds } seeds of each lot, with more growers.
