# What stands around every page, forms, and errors.

web-skip = Skip to the page
web-main-places = Main
web-place-due-now = Due now
web-place-packets = Packets
web-place-plan = Plan
web-place-trays = Trays
web-place-club-table = Club table
web-place-ring-trials = Ring trials
web-place-routines = Routines
web-place-members = Members
web-find-by-mark = Find by mark
web-find-mark = Find mark
web-undo = Undo
web-help = Help
web-sign-out = Sign out

web-not-saved = Not saved.
web-not-saved-yet = Not saved yet.
web-look-again = Please look again:
web-one-fewer = one fewer
web-one-more = one more

web-language = Language
web-language-of-browser = As the browser asks

# Typed values that cannot be taken.
web-at-most = At most { $n } characters, please.
web-unprintable = There are characters in it that cannot be printed.
web-fill-in = Please fill this in.
web-whole-from-to = A whole number from { $least } to { $most }, please.
web-whole = A whole number, please, such as 10.
web-year = A year, please, such as 2026.
web-give-number = Please give a number.
web-number-from-to = A number from { $least } to { $most }, please.
web-number = A number, please, such as 2.5.
web-which-number = Is that { $whole } or { $part }? Please write it so.
web-date = A date, please, such as 2026-02-28.
web-moment = A date and time, please, such as 2026-02-28 07:30.
web-future = That is in the future. Give the moment it happened.
web-long-ago = That is more than 30 years ago. Look at the year.
web-choose = Please choose one.

# An edit that meets another one.
web-meanwhile = Meanwhile it was made { $now }, which stands here now.
web-meanwhile-by = Meanwhile { $name } made it { $now }, which stands here now.
web-typed-meanwhile = You typed { $typed }; meanwhile it was made { $now }. Save again to let yours stand.
web-typed-meanwhile-by = You typed { $typed }; meanwhile { $name } made it { $now }. Save again to let yours stand.
web-ticked = ticked
web-not-ticked = not ticked
web-empty = empty
web-quoted = “{ $text }”
web-quoted-cut = “{ $text } …”

# Forms that did not come through.
web-unreadable = The form could not be read.
web-form-cut = The form was too large or was cut off on its way.
web-file-cut = The file was too large, or was cut off on its way.
web-file-again = Choose the file again: a page that comes back cannot keep it.
web-foreign = This form did not come from this site. Open the page again and retry.
web-no-key = The form came without its key. Open the page again and retry.
web-saved-before = This form was saved before with other values, and those stand. Open the page again to add more.
web-entry-cut = The entry was too large or was cut off on its way.
web-not-from-outbox = This cannot be saved from the phone's outbox. Open its page.
web-not-saved-open = This was not saved. Open its page.
web-only-organiser = Only an organiser can do this.

# Error pages.
web-busy-title = Too much at once
web-busy = Nothing was lost and nothing was saved. Wait a moment, go back and try again.
web-too-long-title = That took too long
web-too-long = Go back and try again; what you typed is still there, and nothing counts twice.
web-wrong-title = Something went wrong
web-wrong = Nothing was saved. Go back and try again.
web-wrong-typed = Nothing was saved. Go back and try again; what you typed is still there.
web-not-through-title = That did not come through
web-not-through = The address or the form could not be read. Go back and try again.
web-not-taken = This address does not take that.
web-not-here-title = Not here
web-not-here = There is no such page, or it is not yours to open.
web-not-allowed-title = Not allowed
web-refused-title = That cannot be saved
web-changed-title = Changed already
web-too-large-title = That is too large
web-too-many-title = Too many tries
web-again-number = If it happens again, tell whoever hosts the club this number: <span class="number">{ $number }</span>.
web-go-to-due = Go to what is due now

# The club's computer in trouble.
web-full-title = The disk is full
web-full = There is no room left on the disk of the club's computer. Tell whoever looks after it. Once there is room, save again: it counts once.
web-disk-title = The disk gives errors
web-disk = The disk of the club's computer did not take this. Tell whoever looks after it. Save again later: it counts once.
web-damaged-title = The club's data is damaged
web-damaged = Nothing is saved any more, so that it does not get worse. Tell whoever looks after the club's computer to restore the last backup. Keep your counts on paper or on your phone until then.
web-damaged-banner = <strong>The club's data is damaged.</strong> Nothing is saved any more, so that it does not get worse; pages may lack something. Tell whoever looks after the club's computer to restore the last backup.
web-contended-title = Too many at once
web-contended = Others are saving at the same moment. Nothing was saved. Save again in a moment: it counts once.
web-away-title = The club's data cannot be reached just now
web-away = Wait a moment and try again. Saving the same again is safe: it counts once.
web-phone-full = The disk of the club's computer is full: tell whoever looks after it. The count stays on this phone and is sent once there is room.
web-phone-disk = The disk of the club's computer gives errors: tell whoever looks after it. The count stays on this phone and is sent once the disk is well.
web-phone-damaged = The data on the club's computer is damaged, so nothing is saved there: tell whoever looks after it. The count stays on this phone and is sent once the last backup is restored.

# What was typed, held.
web-held-title = Not saved yet
web-held-typed = What you typed
web-held-file = A photo or file cannot be kept here. To send it too, go back to its page and choose it again.
web-held-send = Send it again
web-held-safe = Leave this page open until it is saved. Sending it again is safe: it counts once.

# Marks.
web-not-your-letters = These are not your letters.
web-no-free-number = No free number was found under these letters. Please take other letters.
web-given-before = { $mark } was given before, and a mark is never given twice.
web-too-many-bags = This packet has had too many bags to name one more.
web-no-free-mark = No free mark was found. Please take other letters.
