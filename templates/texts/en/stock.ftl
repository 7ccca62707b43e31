# Words of packets, varieties and sources.

stock-mark = Mark
stock-variety = Variety
stock-kind = Kind
stock-species = Species
stock-source = Source
stock-sort = Sort
stock-year = Year
stock-lot-code = Lot code
stock-letters = Letters
stock-seeds = Seeds
stock-seeds-in-a-gram = Seeds in a gram
stock-rough-count = Rough count
stock-kept-in = Kept in
stock-state = State
stock-received-on = Received on
stock-came-through = Came through
stock-pollination = Pollination
stock-doubtful-cross-label = Doubtful cross
stock-note = Note
stock-when = When
stock-name = Name
stock-lots = Lots
stock-kinds = Kinds
stock-varieties = Varieties
stock-sources = Sources
stock-packets-title = Packets
stock-trials = Trials
stock-history = History
stock-choose = choose
stock-save = Save
stock-take-back = Take back
stock-taken-back-by = Taken back by { $by }.
stock-taken-back-by-because = Taken back by { $by }: { $why }.

# States of seed.

stock-plain = plain
stock-pelleted = pelleted
stock-primed = primed
stock-treated = treated

# Sorts of sources.

stock-merchant = merchant
stock-swap = swap
stock-gene-bank = gene bank
stock-saved-by = saved by

# How own seed was pollinated.

stock-open-pollinated = open pollinated
stock-isolated = isolated
stock-doubtful-cross = doubtful cross

# How many seeds there are, and what is promised of them.

stock-about-so-many = about { $seeds }
stock-left = { $seeds } left
stock-left-by-the-book = { $variety }, { $kind }: { $seeds } left by the book.
stock-left-and-promised = { $left }, { $n } promised
stock-left-promised-and-short = { $left }, { $n } promised: { $short } short
stock-promised = { $n } promised
stock-promised-and-short = { $n } promised: <span class="late">{ $short } short</span>
stock-gives = { $n ->
    [one] { $n } seed of { $mark }
   *[other] { $n } seeds of { $mark }
 }
stock-gives-short = { $n ->
    [one] { $gives } of { $n } seed of { $mark }, { $short } short
   *[other] { $gives } of { $n } seeds of { $mark }, { $short } short
 }
stock-rough-number = A rough number. A recount makes it sure.

# List of packets.

stock-your-packets = Your packets
stock-add-a-packet = Add a packet
stock-bring-in-list = Bring in a list
stock-save-as-list = Save as a list
stock-as-gene-banks = As gene banks list it (MCPD)
stock-new-letters = New letters
stock-ageing-seed = Ageing seed
stock-narrow-list = Narrow the list
stock-holds-letters = Holds the letters
stock-in-order-of = In order of
stock-by-mark = mark
stock-by-variety = variety
stock-by-age = age, oldest first
stock-all-kinds = all kinds
stock-hide-empty = Hide empty packets
stock-show = Show
stock-no-packet-like-that = No packet is like that.
stock-show-all = Show all
stock-tick-all = Tick all shown
stock-tick-mark = Tick { $mark }
stock-left-column = Left
stock-signs = Signs
stock-packets = { $n ->
    [one] { $n } packet
   *[other] { $n } packets
 }
stock-packets-of = { $n ->
    [one] { $shown } of { $n } packet
   *[other] { $shown } of { $n } packets
 }
stock-start-ticked = Start trials of the ticked packets
stock-no-packet-yet = No packet yet. Add one by one, or bring in the list you keep in a spreadsheet: your own numbers stay.

# A packet.

stock-caution-treated = <strong>Caution:</strong> this seed is treated. Do not soak it unless its label allows it; wear gloves, keep the dust out of your lungs and keep the water away from drains and food. The label and local rules come first.
stock-caution-pelleted = <strong>Caution:</strong> this seed is pelleted. A soak dissolves the coat, and a float check tells nothing. Follow the packet.
stock-caution-primed = <strong>Caution:</strong> this seed is primed. It was soaked once and dried again; a second soak can drown it, and it does not keep long. Follow the packet.
stock-start-trial = Start a trial
stock-start-paired-trials = Start paired trials
stock-change = Change
stock-seed-saved-from-it = Seed saved from it
stock-ring-trial = Ring trial
stock-blind = blind
stock-blind-until-opened = blind: opened when the ring trial ends
stock-blind-lot = blind lot
stock-hidden-source = a hidden source
stock-which-counts-under = , counts under { $name }
stock-through-out-of = { $through }, out of <span class="mark small">{ $mark }</span>
stock-saved-from = Saved from
stock-published-facts-about = Published facts about { $kind }
stock-promised-title = Promised
stock-start-on = Start { $day }
stock-start-seeds = Start <span class="vh">{ $seeds }</span>
stock-bags = { $n ->
    [one] { $n } bag
   *[other] { $n } bags
 }
stock-seed-saved-from-plants = Seed saved from its plants
stock-seeds-in-and-out = Seeds in and out
stock-recount-and-more = Recount, found, spoiled, put back
stock-give-to-another = Give to another member
stock-take-back-entry = Take back<span class="vh"> { $entry } of { $when }</span>
stock-this-years-seed = this year's seed
stock-years-old = { $n ->
    [one] { $n } year old
   *[other] { $n } years old
 }
stock-age-keeps-about = { $n ->
    [one] { $age }; keeps for about { $n } year as published
   *[other] { $age }; keeps for about { $n } years as published
 }
stock-age-keeps-from-to = { $age }; keeps for { $least } to { $most } years as published

# Add and change a packet.

stock-add-the-packet = Add the packet
stock-change-mark = Change { $mark }
stock-change-packet = Change <a class="mark" href="/packets/{ $id }">{ $mark }</a>
stock-kind-is-blind = { $kind }, <strong>blind</strong>: variety, source and year are opened when the ring trial ends.
stock-saved-from-plants-of = Seed that you saved from plants of <a class="mark" href="/packets/{ $id }">{ $mark }</a> { $variety }. Its source is you.
stock-kind-help = Such as pepper. A new name makes a kind of your own.
stock-species-help = If you know it: some slow pepper species need other days than the kind's.
stock-kept-in-help = Such as refrigerator, tin 3.
stock-state-of-seed = State of the seed
stock-state-help = Pelleted, primed and treated seed gets a warning before a soak.
stock-came-through-help = Who handed it on, where that is not the source.
stock-how-pollinated = How was it pollinated?
stock-may-be-a-cross = It may be a cross: keep it out of the figures of the named variety
stock-source-help = Who the seed came from first.
stock-sort-of-source = Sort of source
stock-sort-of-source-help = Counts where the source is new.
stock-year-help = On the packet, or of the harvest. Empty if not known.
stock-lot-code-help = The supplier's, as printed. Empty if there is none.
stock-seeds-by-count = Seeds, by count
stock-seeds-by-weight = or by weight, in grams
stock-seeds-in-a-gram-help = Empty: the published figure of the kind, where there is one.
stock-about-number = About: a rough number
stock-about-packet = About: its number of seeds is a rough one
stock-published-per-gram = Published seeds in a gram
stock-published-per-gram-are = { $list }. From 7 CFR 201.46 Table 1, noted from memory; your own weighing is better.
stock-own-number = Your own number
stock-own-number-help = Empty: the next free one.
stock-more = More
stock-numbers-changed-there = Numbers of seeds are changed in the packet's <a href="/packets/{ $id }/seeds">seeds in and out</a>; its mark stays for ever.
stock-added-packet = Added: { $mark }, { $seeds }. Write { $mark } on it.
stock-add-another = Add another
stock-saved-mark = Saved: { $mark }.

# Seeds in and out, and seed that is given.

stock-seeds-of = Seeds of { $mark }
stock-seeds-in-and-out-of = Seeds in and out of <a class="mark" href="/packets/{ $id }">{ $mark }</a>
stock-what-happened = What happened?
stock-by-hand-recount = Counted anew: so many are in the packet now
stock-by-hand-found = Found more
stock-by-hand-spoiled = Spoiled or lost
stock-by-hand-returned = Put back from elsewhere
stock-seeds-help = For a recount the number that is there; else the number that came or went.
stock-about-recount = About: the recount is a rough number
stock-left-over-returned = Seeds left over from a trial are returned on the trial's page.
stock-saved-seeds-left = Saved: { $mark } has { $seeds } left by the book.
stock-saved-meanwhile = Since you opened this page something was saved of this packet: { $then } by the book then, { $now } now. If yours is what is in it now, save it again.
stock-give-seed-of = Give seed of { $mark }
stock-give-seed-of-packet = Give seed of <a class="mark" href="/packets/{ $id }">{ $mark }</a>
stock-to = To
stock-to-help = They get a packet of the same lot and source, with a mark of their own.
stock-seeds-given = Seeds given
stock-give = Give
stock-no-other-member = There is no other member yet.
stock-who-gets-the-seed = Who gets the seed?
stock-given-to = Given: { $seeds } of { $mark } to { $to }. Their packet is { $theirs }.
stock-give-in-ring-trial = This packet is part of a ring trial. It stays with you until that is opened.
stock-member-without-letters = This member has no letters yet.

# Letters.

stock-your-letters = Your letters
stock-letters-lead = Letters start your marks. Who numbers from 1 again each season takes new letters for it; old marks stay as they are.
stock-no-number-yet = no number given yet
stock-last-number = last number { $n }
stock-new-letters-help = 1 to 4 letters from A to Z that nobody has. They will be offered first.
stock-take-these-letters = Take these letters
stock-letters-yours-now = Yours now: { $letters }. New packets start with it.

# Kinds, and what is published about them.

stock-kinds-lead = Published count days and percentages are of <strong>normal seedlings</strong> in a laboratory, not of root emergence: a rooted rate can be higher, and earlier. Each kind's page shows its sources.
stock-kinds-caption = Kinds and what is published about them
stock-first-and-final-day = First and final count, day
stock-standard-normal-seedlings = Standard, normal seedlings
stock-varieties-here = Varieties here
stock-two-days = { $first } and { $last }
stock-another-kind = Another kind
stock-name-of-kind = Name of the kind
stock-name-of-kind-help = It will have no published day; the club's own is used and marked.
stock-add-kind = Add the kind
stock-added-kind = Added: { $name }.
stock-kind-is-here = This kind is here already, as { $name }.
stock-call-kind-otherwise = Call it otherwise
stock-rename = Rename it
stock-kind-is-called = { $name } is called { $other } now.
stock-kind-is-another = Is it another kind?
stock-same-as-kind = It is the same as
stock-same-as-kind-help = Its varieties go there with their packets, and are counted by that kind's days; whoever types its name means that kind. A variety that both have counts as one, and reads { $example } from then on.
stock-join-is-for-good = I am sure: this cannot be taken back
stock-join-kind = Put it under that kind
stock-kind-was-joined = { $name } is part of { $other } now.
stock-kind-is-part-of = This kind is part of { $other } by now.
stock-some-variety = Variety
stock-published-facts = Published facts about { $kind }. Days and percentages are of <strong>normal seedlings</strong> in a laboratory test, not of root emergence.
stock-first-count = First count
stock-final-count = Final count
stock-on-day = day { $n }
stock-temperature = Temperature
stock-cooler-by-night = (cooler by night, warmer by day)
stock-directions = Directions
stock-source-of-these = Source of these
stock-count-days = Count days
stock-no-count-days = none published that we know; the club's own day is used and marked
stock-standard = Standard
stock-standard-at-least = { $percent } % normal seedlings at least
stock-storage-life = Storage life
stock-years = { $n ->
    [one] { $n } year
   *[other] { $n } years
 }
stock-from-memory = ; noted from memory, check it before you lean on it
stock-nothing-published = Nothing published about this kind is known here. The club's own final day is used, and marked as such.
stock-varieties-of-kind = Varieties of it in the club: { $n }.
stock-all-varieties = All varieties

# Varieties and sources, and names that count as one.

stock-varieties-of-club = Varieties of the club
stock-sources-of-club = Sources of the club
stock-no-names-yet = None yet: they come with the first packets.
stock-near-in-spelling = Near in spelling
stock-near-in-spelling-are = Near in spelling:
stock-same-organiser = Are these the same? Open one to let it count under the other. It can be taken back.
stock-same-member = Are these the same? An organiser can let one count under the other. It can be taken back.
stock-all = All
stock-counts-under = Counts under
stock-counted-under-it = Counted under it
stock-packets-under-name = { $n } in the club under this very name
stock-same-as-another = Is it the same as another?
stock-let-count-under-which = Let it count under
stock-let-count-under-help = Packets keep the name that was typed; the club table counts both as one. It can be taken back.
stock-let-count-there = Let it count there
stock-let-count-under = { $by } let { $name } count under { $other }
stock-a-name = a name
stock-counts-under-now = { $name } counts under { $other } now.
stock-counts-by-itself = { $name } counts by itself again.
stock-choose-a-name = Please choose one of the names.
stock-counts-under-another = This name counts under another one already. Take that back first.
stock-counts-under-this = That name counts under this one already.
stock-of-different-kinds = The two are of different kinds.
stock-merge-taken-back-already = This merge was taken back already.

# New names near known ones.

stock-the-kind = The kind { $name }
stock-the-variety = The variety { $name }
stock-the-source = The source { $name }
stock-is-a-new-one = is a new one
stock-is-this-one = is { $name }
stock-which-is-meant = { $name } would be new, and is near { $near } in spelling. Which is meant?

# What cannot be saved.

stock-name-with-letters = A name with letters in it, please.
stock-name-with-letters-or-digits = A name with letters or digits in it, please.
stock-one-line = One line, please.
stock-came-in-the-future = That is in the future. Give the day it came.
stock-seeds-or-grams = Seeds or grams, not both, please.
stock-how-many-seeds = How many seeds? A rough number will do, or the weight in grams.
stock-how-many-in-a-gram = How many seeds of this kind are in a gram? None is published.
stock-more-than-most-seeds = That makes more than { $most } seeds.
stock-give-kind-a-name = Please give the kind a name with letters in it.
stock-give-source-a-name = Please give the source a name with letters in it.
stock-give-variety-a-name = Please give the variety a name with letters in it.
stock-species-noted = This variety is noted as { $species } already.
stock-another-source-of-name = There is another source of that name. Ask an organiser to look.
stock-own-seed-from-others = There is own seed of this variety and year from other plants. A lot code tells the two apart.
stock-names-are-theirs = This seed was saved by another grower, and its names are theirs to change.
stock-parent-in-ring-trial = This packet is part of a ring trial. Seed saved from it can be entered once the ring trial is opened.
