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
