# The list of trials.

trials-trials = Trials
trials-your-trials = Your trials
trials-start-trials = Start trials
trials-print-labels = Print labels
trials-routines = Routines
trials-mix-a-solution = Mix a solution
trials-running = Running
trials-nothing-runs = Nothing is soaking, and no bag is open.
trials-past = Past
trials-pages-of-past = Pages of past trials
trials-later = Later
trials-earlier = Earlier
trials-line = { $routine }, { $n } seeds, began { $began }
trials-paired = paired
trials-open-bags = { $open ->
    [one] { $open } open bag of { $bags }
   *[other] { $open } open bags of { $bags }
 }
trials-next-waits = { $next }: { $n ->
    [one] { $n } seed wait
   *[other] { $n } seeds wait
 }
trials-next-is-out = { $next }: { $seeds }, out { $moment }

# Starting trials.

trials-no-packet-yet = You have no packet yet.
trials-new-packet = New packet
trials-holds-the-letters = Holds the letters
trials-which-packets = Which packets?
trials-none-started-yet = No trial is started yet.
trials-tick-a-packet = Please tick at least one.
trials-or-split-one = Or split one
trials-split-to-compare = Split one packet into paired trials, to compare routines or warmth
trials-go-on = Go on
trials-start-so-many = { $n ->
    [one] Start a trial
   *[other] Start { $n } trials
 }
trials-split-a-packet = Split a packet into paired trials
trials-split-this-packet = Split this packet into paired trials
trials-began-at = Began at
trials-began-at-help = When the seeds went in; the same for all.
trials-routine = Routine
trials-choose = choose
trials-so-many-left = { $seeds } left
trials-about-so-many-left = about { $seeds } left
trials-left-in-state = { $left }, { $state }
trials-promised = The plan promised { $seeds }.
trials-promised-but-short = The plan promised { $seeds }: { $short } short.
trials-seeds-of = Seeds of { $mark }
trials-counted-in = Counted: really in { $mark }
trials-recount-help = Only if you counted the packet, with the seeds you take now. Empty: the book holds.
trials-trial-number = Trial { $n }
trials-seeds = Seeds
trials-warmth-meant-for = Warmth it is meant for, { $unit }
trials-warmth-meant-help = Leave empty if it is the same.
trials-meant-for = meant for { $warmth }
trials-what-sets-it-apart = What else sets it apart
trials-start-without-the-promise = Start without the promise
trials-start = Start
trials-more-trials = More trials
trials-started = Started: { $trials ->
    [one] { $trials } trial, { $seeds }.
   *[other] { $trials } trials, { $seeds }.
 }
trials-too-few-left = By the book there are { $left ->
    [one] { $left } seed left, and { $wanted } are wanted.
   *[other] { $left } seeds left, and { $wanted } are wanted.
 } Count the packet and give the number, or take fewer.
trials-promise-was-started = The plan’s promise of { $seeds } of { $mark } has ended: a trial was started for it meanwhile. Start without it?
trials-promise-was-withdrawn = The plan’s promise of { $seeds } of { $mark } has ended: it was withdrawn meanwhile. Start without it?
trials-before-there-was-seed = { $mark } is seed of { $year }: it cannot have begun in { $began }. Look at the year.
trials-routine-was-retired = This routine was retired. Please choose another.

# One trial.

trials-trial-of = Trial of { $mark }
trials-vial = , vial { $number }
trials-in-routine = Trial in <a href="{ $path }">{ $routine }</a>, version { $number }, began { $began }.
trials-taken-back = taken back
trials-treated-again = treated again
trials-floaters-thrown-out = floaters thrown out
trials-note-of = Note: { $note }
trials-set-your-alarm = Set your phone's alarm: a locked phone's page is silent.
trials-no-steps = This routine has no steps: the seed goes dry, straight to paper.
trials-lost-returned-sown = Lost, returned, sown
trials-started-with = Started with
trials-still-soaking = Still soaking
trials-sank-and-floated = { $sank } sank, { $floated } floated
trials-lost = Lost
trials-returned = Returned
trials-source = Source
trials-bags = Bags
trials-floaters = floaters
trials-so-many-rooted = { $n } rooted
trials-closed-with-final-count = closed (final count)
trials-closed-abandoned = closed (abandoned)
trials-closed = closed ({ $ending })
trials-still-on-paper = { $n } still on paper
trials-at-warmth = at { $warmth }
trials-on-paper-since = on paper { $moment }
trials-photos = Photos
trials-photo-of = Photo of { $thing }
trials-paired-with = Paired with
trials-companion = { $routine }, { $n } seeds, { $soaking } soaking
trials-history = History
trials-taken-back-by = Taken back by { $name }: { $why }
trials-take-back = Take back
trials-add-a-note = Add a note
trials-note-sort = What
trials-note-sort-note = A note
trials-note-sort-treated-again = Treated or soaked again
trials-in-words = In words
trials-save-the-note = Save the note
trials-noted = Noted.
trials-began-after-that = The trial began after that. Give a later moment.

# Its steps.

trials-state-done = done
trials-state-skipped = skipped
trials-state-not-recorded = not recorded
trials-state-late = late
trials-state-now = now
trials-state-then = then
trials-late-by = {" "}by { $late }, was { $out }
trials-took = took { $span }
trials-longer-than-planned = { $span } longer than planned
trials-shorter-than-planned = { $span } shorter than planned
trials-at-strength = at { $strength }
trials-from-the-noted = from the noted { $agent }
trials-done-at = Done at
trials-done-at-help = The real time; late is simply noted.
trials-also-done-for = Also done for
trials-all-of-them = All of them
trials-so-many-seeds = { $n } seeds
trials-what-was-used = What was really used
trials-minutes-it-took = Minutes it took
trials-minutes-it-took-help = Empty: since the step before.
trials-strength = Strength, %
trials-from-the-solution = From the solution
trials-no-solution = none noted
trials-solution-made = { $solution }, made { $moment }
trials-note = Note
trials-step-done = Step done
trials-skip = Skipped
trials-did-step = { $trials ->
    [one] Done: step { $step } of { $trials } trial.
   *[other] Done: step { $step } of { $trials } trials.
 }
trials-skipped-step = { $trials ->
    [one] Skipped: step { $step } of { $trials } trial.
   *[other] Skipped: step { $step } of { $trials } trials.
 }
trials-minutes = { $n ->
    [one] { $n } minute
   *[other] { $n } minutes
 }
trials-note-of-step = Step { $n }: { $told }
trials-save-it-as-a-note = What you typed about the step stands here: save it as a note of the trial.
trials-step-is-not-running = That step is not running any more. See how the trial stands.
trials-step-before-was-later = The step before it, or the start of the trial, was later.
trials-choose-your-solution = Please choose one of your solutions.

# The float tally.

trials-float-tally = Float tally
trials-float-tally-of = Float tally of { $mark }
trials-so-many-soaking = { $n } seeds are soaking.
trials-the-trial = The trial
trials-nothing-to-tally = Nothing of it is soaking any more, so there is nothing to tally.
trials-nothing-to-tally-of-such-seed = This seed is { $state }: it sinks or floats for other reasons, so there is nothing to tally.
trials-tally-is-written-down = Its tally is written down: { $sank } sank, { $floated } floated. If that is wrong, take it back in the trial’s history and tally again.
trials-sank = Sank
trials-floated = Floated
trials-counted-right-go-on = I counted right: go on with these numbers
trials-what-became-of-the-floaters = What became of the floaters?
trials-floaters-to-own-bag = Own bag: counted apart, so the club learns whether floaters germinate
trials-floaters-to-throw-out = Thrown out: they count as not germinated, since they were paid for
trials-floaters-to-keep-in = Kept in with the others
trials-floaters-own-bag = own bag
trials-floaters-out = thrown out
trials-floaters-kept-in = kept in
trials-do-floaters-fail = Do floaters fail? What the club’s own seeds say
trials-seen-at = Seen at
trials-save-the-tally = Save the tally
trials-tally-saved = Float tally: { $sank } sank, { $floated } floated.
trials-floats-for-other-reasons = Seed that is { $state } sinks or floats for other reasons.
trials-tally-was-made = The float tally was made. Take it back in the history to make another.
trials-say-what-became-of-floaters = Please say what became of the floaters.
trials-differs-from-the-book = { $book ->
    [one] By the book { $book } seed is soaking, and this makes { $found }. Tick that you counted right, or change the numbers.
   *[other] By the book { $book } seeds are soaking, and this makes { $found }. Tick that you counted right, or change the numbers.
 }

# Onto paper.

trials-on-paper = On paper
trials-put-on-paper = Put on paper
trials-mark-on-paper = { $mark } on paper
trials-nothing-to-put-on-paper = Nothing of it is soaking any more, so there is nothing to put on paper.
trials-soaking-and-floated = { $n } seeds are soaking, { $floated } floated.
trials-others-can-follow = Seeds that you leave out stay in the soak and can follow on another day.
trials-counted-right-so-many = I counted right: so many there were
trials-bag-number = Bag { $n }
trials-no-such-bag = Empty: no such bag.
trials-place = Place
trials-place-help = Such as mat, airing cupboard.
trials-warmth = Warmth, { $unit }
trials-rooted-in-the-soak = Rooted in the soak
trials-of-these-seeds = Of these seeds.
trials-these-are-the-floaters = These are the floaters
trials-on-paper-at = On paper at
trials-on-paper-at-help = Day 0 counts from here.
trials-more-bags = More bags
trials-how-many-go-on-paper = How many seeds go on paper?
trials-more-rooted-than-seeds = More rooted than there are seeds in this bag.
trials-put-so-many-on-paper = { $bags ->
    [one] On paper: { $seeds } in { $bags } bag.
   *[other] On paper: { $seeds } in { $bags } bags.
 }
trials-soak-ended-later = The soak ended later than that: { $when }.
trials-only-so-many-sank = { $sank ->
    [one] Only { $sank } seed sank, and the floaters have a bag of their own. Tick which bag holds the floaters.
   *[other] Only { $sank } seeds sank, and the floaters have a bag of their own. Tick which bag holds the floaters.
 }

# Seeds that leave the soak without paper.

trials-seeds-that-leave = Seeds that leave the soak
trials-what-became-of-them = What became of them?
trials-leave-lost = Lost
trials-leave-returned = Returned to the packet
trials-leave-sown = Sown directly, without paper
trials-leave-spoiled = Spoiled
trials-when = When
trials-save = Save
trials-noted-lost = Noted: { $seeds } lost.
trials-noted-returned = Noted: { $seeds } returned.
trials-noted-sown = Noted: { $seeds } sown.
trials-noted-spoiled = Noted: { $seeds } spoiled.
trials-at-most-so-many = At most { $n }: so many are soaking.

# What rooted so far.

trials-rooting = Rooting
trials-chart-title = Share of the seeds of { $mark } on paper whose root was out, by days on paper
trials-what-the-chart-shows = The line is the share whose root was out; the band, and the brackets above, are its 95 % interval. Seeds taken out dead or judged abnormal count as never rooted; seeds still on paper count as far as they were watched.
trials-span = ({ $low } to { $high })
trials-rooted-by-the-last-look = of the seeds on paper rooted by day { $day }, the last look: { $seeds ->
    [one] { $rooted } of { $seeds } seed
   *[other] { $rooted } of { $seeds } seeds
 } in { $bags ->
    [one] { $bags } bag.
   *[other] { $bags } bags.
 }
trials-rooted-when-closed = of the seeds on paper rooted by day { $day }, when the last bag was closed: { $seeds ->
    [one] { $rooted } of { $seeds } seed
   *[other] { $rooted } of { $seeds } seeds
 } in { $bags ->
    [one] { $bags } bag.
   *[other] { $bags } bags.
 }
trials-share-allows = Not every seed was watched as long, and the share allows for that: { $rooted } of { $seeds } alone would make { $simple } %.
trials-nothing-rooted = Nothing rooted.
trials-nothing-rooted-yet = Nothing has rooted yet.
trials-half-of-all-by = Half of the seeds that rooted were out by day { $day }.
trials-half-so-far-by = Half of the seeds rooted so far were out by day { $day }.
trials-half-of-all-between = Half of the seeds that rooted were out between day { $low } and day { $high }; the looks cannot say when.
trials-half-so-far-between = Half of the seeds rooted so far were out between day { $low } and day { $high }; the looks cannot say when.
trials-left-out-in-doubt = is in doubt, so it is left out.
trials-left-out-abandoned = was abandoned, so it is left out.
trials-not-looked-at = was not looked at yet.

# Whether the bags are alike.

trials-are-the-bags-alike = Are the bags alike?
trials-alike-yes = Yes:
trials-alike-no = No:
trials-alike-cannot-be-said = cannot be said: { $why }.
trials-unsaid-warmth = the bags are kept at different warmth
trials-unsaid-nothing-rooted = nothing had rooted when all were last looked at
trials-unsaid-all-rooted = every seed rooted, so there is nothing to tell apart
trials-unsaid-apart = the bags were looked at on different days
trials-unsaid-few-seeds = bags of different sizes, and too few seeds in them
trials-spread-in-seeds = { $least } to { $most } of { $size } rooted by day { $day }.
trials-spread-in-percent = { $least } to { $most } % rooted by day { $day }.
trials-accepted-up-to = Seed testing accepts up to { $limit } points between the bags ({ $table }).
trials-accepted-only = Seed testing accepts only { $limit } points between the bags ({ $table }).
trials-chance-can = Chance alone can set bags so far apart.
trials-chance-can-up-to = Chance alone can set such bags up to { $limit } seeds apart.
trials-chance-seldom = Chance alone sets bags so far apart less than once in 40 times.
trials-chance-seldom-more-than = { $limit ->
    [one] Chance alone sets such bags more than { $limit } seed apart less than once in 40 times.
   *[other] Chance alone sets such bags more than { $limit } seeds apart less than once in 40 times.
 }
trials-look-for-a-difference = Look for a difference in warmth, damp or paper, or for a mix-up; the band above is too narrow for such bags.
trials-table-from-memory = ISTA table 5B, from memory

# Measures of each bag.

trials-bag = Bag
trials-each-bag-in-days = Each bag, in days since it went on paper
trials-more-measures = More measures
trials-more-measures-of-each = More measures of each bag
trials-measure-rooted = Rooted
trials-measure-first = First root
trials-measure-half = Half out by
trials-measure-mean = Mean time
trials-measure-last = Last root
trials-measure-half-otherwise = Half out by, the other way
trials-measure-variance = Variance of the time
trials-measure-variation = Variation of the time
trials-measure-maguire = Maguire's speed
trials-measure-kotowski = Kotowski's velocity
trials-measure-uncertainty = Uncertainty
trials-measure-synchrony = Synchrony
trials-measure-peak = Peak value
trials-share = { $rate } % ({ $low } to { $high }), { $rooted }{"\u00A0"}of{"\u00A0"}{ $seeds }
trials-days = { $n } days
trials-days-guessed = { $days }, guessed: half were out when the first was seen
trials-mean-days = { $mean } ± { $error } days
trials-mean-days-alone = { $mean } days; ± –, { $why }
trials-square-days = { $n } days²
trials-seeds-a-day = { $n } seeds a day
trials-percent-a-day = { $n } % a day
trials-bits = { $n } bits
trials-why-nothing-rooted = nothing rooted
trials-why-one-seed = only one seed rooted
trials-why-no-time = no time has passed
trials-why-before-day-0 = roots were out before day 0
