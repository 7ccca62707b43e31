# How a bag stands

bags-still-on-paper = { $n ->
    [one] { $n } seed still on paper
   *[other] { $n } seeds still on paper
 }
bags-on-paper-since-today = on paper since today
bags-day-on-paper = day { $n } on paper
bags-rooted = { $n } rooted
bags-rooted-not-planted = { $rooted } rooted, { $n } not planted yet
bags-seeds-in-bag = { $n ->
    [one] { $n } seed in this bag
   *[other] { $n } seeds in this bag
 }
bags-sign-taken-back = taken back
bags-sign-in-doubt = in doubt
bags-sign-floaters = floaters
bags-sign-treated-again = treated again
bags-sign-weekly = look weekly
bags-sign-abandoned = abandoned
bags-sign-final-count = final count done
bags-place = place: { $place }
bags-at-warmth = at { $warmth }
bags-warmth-celsius = Warmth, °C
bags-warmth-fahrenheit = Warmth, °F

# Words of several forms

bags-save = Save
bags-back-to-the-bag = Back to the bag
bags-when = When
bags-when-you-looked = When you looked
bags-empty-means-now = Empty means now.
bags-note = Note
bags-seeds = Seeds
bags-mark = Mark
bags-root-out = Root out
bags-dead-removed = Dead, removed
bags-new-place = New place
bags-only-when-it-moves = Only when it moves.
bags-only-when-it-moved = Only when it moved.
bags-holder = Holder
bags-holders = Holders
bags-close-the-bag = Close the bag
bags-without-a-label = A bag without a label
bags-place-or-warmth = Give the place, the warmth, or both.

# The page of a bag

bags-never-on-paper = Taken back: it was never put on paper.
bags-origin = { $kind } from { $source }. <a href="/trials/{ $trial }">Its trial</a>, <a href="/packets/{ $packet }">its packet</a>
bags-origin-in-holder = { $kind } from { $source }. <a href="/trials/{ $trial }">Its trial</a>, <a href="/packets/{ $packet }">its packet</a>, in <a class="mark small" href="/holders/{ $holder }">{ $mark }</a>
bags-root-out-help = New since the last look: the root shows by 2 mm or more.
bags-dead-removed-help = Mouldy or soft, taken out.
bags-from-the-start = Seeds in this bag from the start
bags-from-the-start-help = Only if that was written wrong.
bags-also = Also
bags-mould-seen = Mould seen
bags-damped-again = Damped again
bags-paper-changed = Paper changed
bags-more-fields = Note, photo, an earlier time, more seeds
bags-looked-late-help = Empty means now. A look may be entered late, between others.
bags-photo = Photo
bags-photo-help = JPEG, PNG or WebP, 12 MB at most. Where and when it was taken is not kept.
bags-save-the-count = Save the count
bags-nothing-new = Looked at, nothing new
bags-closed-when = Closed { $when }.
bags-rooted-after-closing = A seed rooted after closing
bags-reopening = The closing is taken back with the reason “rooted after closing”, and the look is recorded. Close the bag again when it is done.
bags-when-you-saw-it = When you saw it
bags-reopen = Reopen and save the count
bags-plant-rooted = Plant { $n } rooted
bags-next-bag-due = Next bag due: { $mark }
bags-something-happened = Something happened
bags-seeds-went-elsewhere = Seeds went elsewhere
bags-what-to-expect = What to expect
bags-history = History
bags-nothing-written = Nothing is written yet.
bags-photo-of = Photo of { $of }
bags-take-back-line = Take back<span class="vh"> { $line }, { $when }</span>
bags-taken-back-by = Taken back by { $by }: { $why }

# Counting

bags-numbers-here = There are numbers here. Save the count, or empty the fields.
bags-type-what-is-new = Type what is new, or save that nothing is new.
bags-more-accounted-for = More seeds than that are accounted for already.
bags-cannot-have-held = With this count, { $n ->
    [one] { $n } seed
   *[other] { $n } seeds
 } of the bag are accounted for: it cannot have held { $held }.
bags-counted-too-many = You counted { $n ->
    [one] { $n } seed
   *[other] { $n } seeds
 }; by the book: { $paper }. If the bag held { $need } seeds from the start, not { $held }, write { $need } here; else mend the count.
bags-no-look-recorded = No look was recorded
bags-counted = Counted { $rooted } rooted, { $dead } dead
bags-with-a-photo = with a photo
bags-plant-rooted-seeds = { $n ->
    [one] Plant { $n } rooted seed
   *[other] Plant { $n } rooted seeds
 }
bags-was-taken-back = The bag { $mark } was taken back. Open its page again.
bags-is-closed = The bag { $mark } is closed. Open its page again.
bags-saved-meanwhile = Since you opened this page something was saved of { $mark }: now { $paper }, { $rooted } rooted. If yours is another look, save it again.
bags-more-than-on-paper = That is { $n ->
    [one] { $n } seed
   *[other] { $n } seeds
 }, but { $paper }. Open the bag's page if there were more.

# Looks at many bags

bags-looks = Looks
bags-looks-at = { $n ->
    [one] Looks at { $n } bag
   *[other] Looks at { $n } bags
 }
bags-choose-bags = Choose bags by holder or place
bags-filter-place = Place
bags-also-not-due = Also bags that are not due yet
bags-show = Show
bags-all-due-bags = All due bags
bags-none-due-here = No bag is due for a look here.
bags-type-only-new = Type only what is new since the last look. A bag left empty was not looked at, unless you say so at the end.
bags-find-in-list = Find in this list
bags-find-in-list-help = Three letters or more of a mark or variety. Hidden bags stay in the list.
bags-so-many-on-paper = <b>{ $n }</b> still on paper
bags-root-out-in = Root out<span class="vh"> in { $mark }</span>
bags-root-out-one-fewer = Root out in { $mark }: one fewer
bags-root-out-one-more = Root out in { $mark }: one more
bags-dead-in = Dead<span class="vh"> in { $mark }</span>
bags-dead-removed-from = Dead, removed<span class="vh"> from { $mark }</span>
bags-dead-one-fewer = Dead in { $mark }: one fewer
bags-dead-one-more = Dead in { $mark }: one more
bags-rest-looked-at = Every other bag of this list was looked at too: nothing new
bags-save-the-looks = Save the looks
bags-any-holder = any holder
bags-any-place = any place
bags-type-or-tick = Type what is new in a bag, or tick that the others were looked at.
bags-saved-same = { $n ->
    [one] Saved: the { $n } bag looked at, nothing new.
   *[other] Saved: the { $n } bags looked at, nothing new.
 }
bags-saved-counts = { $n ->
    [one] { $n } count saved: { $rooted } rooted, { $dead } dead.
   *[other] { $n } counts saved: { $rooted } rooted, { $dead } dead.
 }
bags-saved-counts-and-same = { $n ->
    [one] { $n } count
   *[other] { $n } counts
 } saved: { $rooted } rooted, { $dead } dead; the other { $same ->
    [one] { $same } bag
   *[other] { $same } bags
 } looked at, nothing new.
bags-only-since = { $mark } is on paper only since { $since }.

# Closing

bags-close-title = Close { $mark }
bags-not-open = This bag is not open. <a href="/bags/{ $bag }">Back to the bag</a>
bags-count-first = <strong>{ $paper }.</strong> Root out since the last look? <a href="/bags/{ $bag }">Count first</a>.
bags-sown-as-last-chance = Seeds sown unrooted as a last chance are <a href="/bags/{ $bag }/plant?unrooted=yes">told there</a>.
bags-how-it-ends = How it ends
bags-ending-final-count = Final count: every seed still on paper is told below
bags-ending-kept-on = Kept on: not closed, look weekly from now on
bags-ending-abandoned = Abandoned: leaves the rates, its number shows; say why
bags-what-is-on-paper = What is still on paper
bags-must-add-up = These must add up to { $n }. An abandoned bag without numbers counts as not examined.
bags-fresh = Fresh
bags-fresh-help = Took up water and is firm and sound, but did not root: it may still be able to.
bags-hard = Hard
bags-hard-help = As hard as when it was dry: it never took up water.
bags-dead-by-pressing = Dead by pressing
bags-dead-by-pressing-help = Soft or mouldy; when pressed it gives way or shows a grey, rotten inside.
bags-abnormal = Abnormal
bags-abnormal-help = Began to grow, but so stunted or broken that no plant will come of it.
bags-not-examined = Not examined
bags-not-examined-help = Still there, but nobody pressed or cut it.
bags-lost = Lost
bags-lost-help = Gone: spilt, dropped, eaten.
bags-why-or-note = Why, or a note
bags-why-help = A reason is needed for an abandoned bag.
bags-why-abandoned = Why was it abandoned?
bags-sum-too-many = { $paper }, and the numbers tell of { $told }: { $n ->
    [one] { $n } seed too many.
   *[other] { $n } seeds too many.
 }
bags-sum-missing = { $paper }, and the numbers tell of { $told }: { $n ->
    [one] { $n } seed is missing.
   *[other] { $n } seeds are missing.
 }
bags-kept-on = { $mark } is kept on: look weekly.
bags-now-closed = { $mark } is closed: { $ending }.
bags-open-again = { $mark } is open again: { $n } rooted after closing.
bags-looked-at-later = The bag was looked at later than that, { $when }.
bags-open-count-as-usual = The bag is open. Count it as usual.

# What happened

bags-happened-title = What happened to { $mark }
bags-what-happened-to-it = What happened to this bag? One thing at a time, with its own date.
bags-it-was = It was
bags-event-rinsed = Rinsed
bags-event-soaked-again = Soaked again (the trial is marked as treated again)
bags-event-mouldy-removed = Mouldy seeds removed (they count as dead)
bags-event-dried-out = Dried out
bags-event-overheated = Overheated
bags-event-moved = Moved to a place, a warmth
bags-event-into-holder = Put into a holder
bags-event-out-of-holder = Taken out of its holder
bags-event-handed-on = Handed on to another member
bags-event-look-weekly = Look weekly from now on
bags-event-look-daily = Look daily from now on
bags-event-in-doubt = In doubt: label lost, bags swapped, seeds spilt
bags-event-resolved = The doubt is resolved
bags-event-note = Only a note
bags-mouldy-removed = Mouldy seeds removed
bags-mouldy-removed-help = Only for mouldy seeds.
bags-new-place-help = Only when it moved: mat, windowsill, refrigerator.
bags-only-when-put-in = Only when put into one.
bags-handed-on-to = Handed on to
bags-handed-on-help = They own the bag from then on; the trial stays yours.
bags-choose-a-holder = choose a holder
bags-choose-a-member = choose a member
bags-how-many-removed = How many were removed?
bags-choose-the-holder = Choose the holder.
bags-choose-the-member = Choose the member.
bags-write-what-happened = Write in a few words what happened.
bags-not-your-holder = That is not a holder of yours.
bags-no-such-member = There is no such member.

# Seeds that went elsewhere

bags-elsewhere-title = Seeds of { $mark } went elsewhere
bags-paper-and-waiting = { $paper }, { $n } rooted and waiting for a cell.
bags-the-seeds-are = The seeds are
bags-leaves-lost = Lost: still unrooted, gone or spilt
bags-leaves-moved = Moved unrooted to another bag of the same trial
bags-leaves-surplus = Rooted, but not needed
bags-leaves-given = Rooted, and given away
bags-leaves-root-broken = Rooted, and the root broke
bags-leaves-rotted = Rooted, and rotted while waiting
bags-other-bag = The other bag
bags-other-bag-help = Only when moved.
bags-choose-a-bag = choose a bag
bags-choose-where-they-went = Choose the bag they went to.
bags-sow-unrooted-seeds = Sow unrooted seeds
bags-sow-unrooted-why = As a last chance, unrooted seeds can go into cells. They then enter the rates as not known, not as failed.
bags-sow-unrooted = Sow unrooted
bags-seeds-went = { $mark }: { $seeds } { $went }.
bags-moved-over = moved
bags-only-on-paper = Only { $paper }.
bags-only-waiting = { $n ->
    [one] Only { $n } rooted seed waits in this bag.
   *[other] Only { $n } rooted seeds wait in this bag.
 }
bags-this-bag-itself = That is this bag itself.
bags-not-open-of-trial = That is not an open bag of this trial.

# A bag without a label

bags-count-and-think-back = Count its seeds and think back: which of your open bags can it be?
bags-seeds-on-its-paper = Seeds on its paper
bags-on-paper-from = On paper from
bags-on-paper-to = On paper to
bags-show-those = Show those
bags-none-like-that = None of your open bags is like that. <a href="/bags/unknown">Show all</a>
bags-what-it-can-be = What it can be
bags-your-open-bags = Your open bags
bags-bags = Bags
bags-outcome = Outcome
bags-outcome-resolved = It is the one ticked bag: labelled again
bags-outcome-in-doubt = It may be any of the ticked bags: mark them in doubt, followed but out of the table
bags-what-happened = What happened
bags-what-happened-help = Such as: label washed off, two bags fell.
bags-on-paper-since = { $variety }: { $paper }, on paper since { $since }
bags-tick-what-it-may-be = Tick the bags it may be.
bags-tick-only-one = Tick only the one bag it is.

# Finding a mark

bags-near-marks = Marks of yours that are near
bags-mark-help = Spaces and capitals do not matter.
bags-find = Find
bags-type-the-mark = Type the mark that stands on the packet, bag or tray.
bags-not-yours = { $mark } is not yours: another member has it.
bags-no-such-mark = Nothing has the mark { $mark }.
bags-vial-words = vial Vial

# Taking back

bags-take-back-an-entry = Take back an entry
bags-nothing-is-deleted = Nothing is deleted: the entry stays in the history, crossed out, with your name and the reason.
bags-goes-together = What was written as one goes together:
bags-why = Why
bags-void-why-help = Such as: typed twelve for two.
bags-take-back = Take back
bags-leave-it = Leave it
bags-back = Back
bags-taken-back = Taken back. The history keeps it, with the reason.
bags-undone = Undone.
