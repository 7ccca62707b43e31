# Lines of the history

notebook-look-found = look: { $found }
notebook-closed = closed ({ $ending }): { $found }
notebook-sank-floated = float tally: { $sank } sank, { $floated } floated
notebook-step-skipped = step { $n } skipped
notebook-step-done = step { $n } done
notebook-event-to-at = { $event } to { $place } at { $warmth } °C
notebook-event-to = { $event } to { $place }
notebook-event-at = { $event } at { $warmth } °C
notebook-in-cell = { $entry } in { $tray }, cell { $cell }

# What was found

notebook-found-rooted = { $n } rooted
notebook-found-abnormal = { $n } abnormal
notebook-found-dead = { $n } dead
notebook-found-fresh = { $n } fresh
notebook-found-hard = { $n } hard
notebook-found-not-examined = { $n } not examined
notebook-found-lost = { $n } lost
notebook-found-nothing = nothing new

# Where seeds came from and went

notebook-received = received
notebook-taken = taken
notebook-returned = returned
notebook-found = found
notebook-given = given
notebook-spoiled = spoiled
notebook-recount = recount
notebook-to-paper = to paper
notebook-thrown-out = thrown out
notebook-lost = lost
notebook-sown = sown
notebook-on-paper = on paper
notebook-moved-out = moved out
notebook-moved-in = moved in
notebook-sown-unrooted = sown unrooted

# What happened to a bag or a trial

notebook-damped = damped
notebook-paper-changed = paper changed
notebook-rinsed = rinsed
notebook-soaked-again = soaked again
notebook-mould-seen = mould seen
notebook-mouldy-removed = mouldy removed
notebook-dried-out = dried out
notebook-overheated = overheated
notebook-moved = moved
notebook-into-holder = into holder
notebook-out-of-holder = out of holder
notebook-handed-on = handed on
notebook-look-weekly = look weekly
notebook-look-daily = look daily
notebook-in-doubt = in doubt
notebook-resolved = resolved
notebook-treated-again = treated again
notebook-note = note

# How bags, rooted seeds and plantings end

notebook-final-count = final count
notebook-kept-on = kept on
notebook-abandoned = abandoned
notebook-planted = planted
notebook-surplus = surplus
notebook-root-broken = root broken
notebook-rotted = rotted
notebook-up = up
notebook-thinned = thinned
notebook-potted-on = potted on
notebook-ended = ended

# What an entry is

notebook-ledger = ledger
notebook-trial-seeds = trial seeds
notebook-float-tally = float tally
notebook-step = step
notebook-trial-event = trial event
notebook-look = look
notebook-closing = closing
notebook-bag-seeds = bag seeds
notebook-bag-event = bag event
notebook-rooted-end = rooted end
notebook-planting = planting
notebook-outcome = outcome
notebook-entry-of = { $what } of { $mark }
notebook-entry-in-cell = { $what } of { $mark } in { $tray }, cell { $cell }

# Notes and reasons of the app itself

notebook-undone = undone
notebook-rooted-after-closing = rooted after closing
notebook-mouldy-seeds-removed = mouldy seeds removed
notebook-rooted-during-the-soak = rooted during the soak

# Why entries do not come out

notebook-stands-on = The { $entry } on { $when }: { $why }.
notebook-before-the-trial = it is dated before the trial began
notebook-before-the-planting = it is dated before the planting
notebook-more-left-the-soak = more seeds left the soak than went in
notebook-closing-tells-of = { $there } seeds were still on paper, and the closing tells of { $told }
notebook-not-on-paper-yet = the bag was not on paper yet
notebook-more-than-in-bag = more seeds are accounted for than were in the bag
notebook-more-than-rooted = more rooted seeds were planted or ended than had rooted by then
notebook-closed-before-it = the bag was closed before it
notebook-more-than-planted = it tells of more seeds than were planted in this cell
notebook-more-than-up = more seedlings were thinned or potted on than had come up by then
notebook-planting-had-ended = the planting had ended before it
notebook-planting-would-be-gone = the planting it is about would be gone

# What is refused

notebook-left-by-the-book = { $n ->
    [one] By the book there are { $n } seed left. Count what is in the packet and give the new number, or take fewer.
   *[other] By the book there are { $n } seeds left. Count what is in the packet and give the new number, or take fewer.
 }
notebook-taken-later = Seeds taken from this packet later stand on that entry. Take those back first.
notebook-cell-is-taken = That cell holds another planting by now. Choose a free cell.
notebook-only-an-organiser = While a ring trial runs, only an organiser takes its hand-outs back.
notebook-taken-back-already = This was taken back already.
notebook-too-late-to-undo = It is too late to undo in one tap. Take the entry back in its history, with a reason.
