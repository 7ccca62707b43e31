# Roles and settings.

accounts-grower = grower
accounts-organiser = organiser
accounts-role-grower = Grower
accounts-role-organiser = Organiser
accounts-a-grower = a grower
accounts-an-organiser = an organiser
accounts-letters-please = 1 to 4 letters from A to Z, please.
accounts-tick-if-sure = Please tick this if you are sure.

# What several pages say.

accounts-your-name = Your name
accounts-as-others-read-it = As other members should read it.
accounts-sign-in-name = Sign-in name
accounts-your-letters = Your letters
accounts-letters = Letters
accounts-role = Role
accounts-name = Name
accounts-password = Password
accounts-your-password = Your password
accounts-new-password = New password
accounts-password-help = At least 15 characters; four unrelated words do well.
accounts-first-sign-in-help = Help: your first sign-in
accounts-sign-in = Sign in
accounts-go-on = Go on
accounts-prove-with-password = Prove it with your password
accounts-prove-that-it-is-you = Prove that it is you
accounts-how-programs-ask = How programs ask
accounts-back-to-your-settings = Back to your settings
accounts-all-members = All members
accounts-not-used-yet = not used yet
accounts-last-used = last used { $moment }
accounts-you-have-none = You have none.

# Signing in.

accounts-nobody-can-sign-in = Nobody can sign in until then. Where you are signed in already you can go on reading, and counts that wait on a phone stay there.
accounts-you-were-signed-out = <strong>You were signed out, and nothing was saved.</strong> What you typed is still on this device: sign in, and it is back on its page.
accounts-data-is-erased = <strong>Done.</strong> Your data is erased and your membership has ended.
accounts-not-signed-in = Not signed in.
accounts-sign-in-cannot-be-written = A sign-in has to be written down, and nothing can be: the club's data is damaged.
accounts-sign-in-with-passkey = Sign in with a passkey
accounts-no-account-yet = No account yet? An organiser of your club can give you an invitation link. Forgotten the password? They can give you a reset link.
accounts-do-not-go-together = The sign-in name and the password do not go together.
accounts-too-many-tries = { $n ->
    [one] Too many tries in a row. Wait { $n } second and try again. If that goes on, somebody else may be guessing: ask an organiser for a link, which lets you in at once.
   *[other] Too many tries in a row. Wait { $n } seconds and try again. If that goes on, somebody else may be guessing: ask an organiser for a link, which lets you in at once.
 }
accounts-signed-in = Signed in
accounts-you-are-signed-in-as = You are signed in as { $name }.
accounts-go-to-due-now = Go to what is due now
accounts-sign-out-to-change = Sign out, to sign in as somebody else

# Joining by a link, and a new password by one.

accounts-set-up-your-club = Set up your club
accounts-first-organiser = You will be its first organiser. This link works once.
accounts-start-the-club = Start the club
accounts-join-the-club = Join the club
accounts-club-invites-you = { $role ->
    [organiser] { $club } invites you as an organiser. This invitation works once.
   *[grower] { $club } invites you as a grower. This invitation works once.
 }
accounts-join = Join
accounts-name-of-the-club = Name of the club
accounts-time-zone = Time zone
accounts-time-zone-help = Type a large town near you, such as Berlin or Denver, and choose.
accounts-no-such-time-zone = There is no such time zone. Try the largest town of your country, or of your part of it, such as Berlin or Denver.
accounts-your-letters-help = 1 to 4 letters that start every mark of yours, such as the JB of JB 42. Nobody else can have them.
accounts-sign-in-name-taken = Somebody has this sign-in name. Please choose another.
accounts-reset-link-works-once = For { $name }. This link works once; after it you are signed out everywhere else, and passkeys of before no longer work.
accounts-keep-this-password = Keep this password
accounts-link-does-not-work = This link does not work
accounts-link-was-used = It was used before, it has expired, or it was withdrawn. An organiser of your club can give you a new one.
accounts-all-is-well = If you have just used it yourself, all is well: sign in with the password you chose.

# What a password must be.

accounts-password-too-short = At least { $least } characters, please; this has { $n }.
accounts-password-too-long = At most { $most } characters, please; this has { $n }.
accounts-password-common = This is one of the first that others would try. Four unrelated words do well.
accounts-password-mostly-a-name = This is mostly a name that others know: yours, the club's or the trade's. Four unrelated words do well.

# Proving again who one is.

accounts-needs-a-fresh-proof = What opens the club or your account to somebody needs a fresh proof, so that a phone left lying about is not enough.
accounts-nothing-was-done-yet = Nothing was done yet: prove first that it is you.
accounts-not-your-password = This is not your password.
accounts-thank-you-go-on = Thank you. Go on.

# A member's own settings.

accounts-measures-metric = Metric: ml, grams, °C
accounts-measures-us = US: teaspoons, ounces, °F
accounts-you-measure-in = You measure in
accounts-save = Save
accounts-saved = Saved.
accounts-letters-start-marks = { $letters }. Every mark of yours starts with them.
accounts-take-another-set = Take another set, for a new season
accounts-new-letters = New letters
accounts-new-letters-help = 1 to 4 letters. Numbers start at 1 again; marks given before stay as they are.
accounts-take-these-letters = Take these letters
accounts-letters-are-yours = { $letters } is yours. New packets take these letters.
accounts-most-sets-of-letters = You have { $n } sets, which is the most.
accounts-letters-taken = These letters look like some that are taken. Please choose others.
accounts-without-signal = Without signal
accounts-can-this-phone-keep-counts = Can this phone keep counts without signal?
accounts-what-waits-on-this-phone = What waits on this phone
accounts-your-sign-in-name-is = Your sign-in name is { $name }.
accounts-current-password = Current password
accounts-sign-out-and-end-tokens = Sign out everywhere else, and end all tokens
accounts-change-the-password = Change the password
accounts-not-your-current-password = This is not your current password.
accounts-new-password-holds = The new password holds.
accounts-passkeys = Passkeys
accounts-sign-in-by-unlocking = Sign in by unlocking your phone or computer.
accounts-calendar = Calendar
accounts-calendar-by-address = Your calendar app may read what is due by a secret address, made { $since }. The address itself is not shown again.
accounts-make-a-new-address = Make a new address
accounts-end-the-address = End the address
accounts-new-address-ends-the-old = A new address ends the one before.
accounts-calendar-can-show = Your calendar app can show when soaks are out and which looks are due: it reads them from a secret address.
accounts-make-the-address = Make the address
accounts-your-own-programs = Your own programs
accounts-your-own-programs-text = A program or sensor of yours can read what you see and record in your name, by a token of its own.
accounts-your-tokens = Your tokens
accounts-your-passkeys = Your passkeys
accounts-save-or-erase = Save it as a file, or erase it and leave
accounts-sign-out-here = Sign out here

# Where a member is signed in.

accounts-where-you-are-signed-in = Where you are signed in
accounts-a-browser = A browser
accounts-browser-on = { $browser } on { $system }
accounts-an-iphone = an iPhone
accounts-an-ipad = an iPad
accounts-a-mac = a Mac
accounts-device-is-here = { $device }: this is here
accounts-place-since = Signed in since { $since }, last used { $seen }; ends by itself { $until }
accounts-sign-out-there = Sign out there
accounts-sign-out-of-device = Sign out there: { $device }, since { $since }
accounts-a-place-ends = A place ends by itself after 30 days without use, and after 90 days in any case.
accounts-you-proved-last = You proved last who you are { $proved }; what opens your account to others asks for it anew.
accounts-you-proved-last-organiser = You proved last who you are { $proved }; what opens your account or the club to others asks for it anew.
accounts-prove-it-now = Prove it now
accounts-sign-out-everywhere-else = Sign out everywhere else
accounts-signed-out-elsewhere = { $n ->
    [one] Signed out in { $n } other place.
   *[other] Signed out in { $n } other places.
 }
accounts-signed-out-there = Signed out there.

# The address of the calendar.

accounts-your-calendar = Your calendar
accounts-add-this-address = Add this address in your calendar app as a calendar to subscribe to. It shows when soaks are out, which looks are due and which starts are planned, and asks for no password: <strong>whoever has the address can read it</strong>.
accounts-address-shown-only-now = <strong>It is shown only now.</strong> It works until you end it or make a new one.
accounts-address-to-copy = The address, to copy
accounts-address-to-scan = The same address, to scan with a phone
accounts-qr-code-of-the-address = QR code of the address
accounts-set-an-alarm = Calendar apps look for news a few times a day, so set your phone's alarm for a short soak.
accounts-address-ended = The calendar's address no longer works.

# Tokens for programs.

accounts-tokens-text = With a token, a program or sensor of your own reads what you see and, where you allow it, records in your name. Give each program its own, so that you can end one alone.
accounts-a-new-token = A new token
accounts-token-what-for = What is it for?
accounts-token-what-for-help = Such as: scale in the shed.
accounts-token-it-may = It may
accounts-token-may-read = Only read what I see
accounts-token-may-record = Read, and record counts and the rest in my name
accounts-token-lasts = It works for
accounts-token-30-days = 30 days
accounts-token-90-days = 90 days
accounts-token-a-year = a year
accounts-token-until-ended = until I end it
accounts-make-the-token = Make the token
accounts-tokens-end-when = All tokens end when your role changes, when you choose a new password by a reset link, or when you sign out everywhere with a new password.
accounts-token-reads = reads
accounts-token-reads-and-records = reads and records
accounts-token-works-until-ended = works until you end it
accounts-token-ends = ends { $day }
accounts-token-used = last used { $day }
accounts-token-line = { $may }; made { $made }, { $used }, { $until }
accounts-end-token = End it
accounts-most-tokens = You have { $n } tokens. End one first.
accounts-token-ended = Ended. The token no longer works.
accounts-your-token = Your token
accounts-token-for = Token for { $name }
accounts-give-it-to-nobody-else = Give it to that program and to nobody else: <strong>whoever has it can do what you allowed</strong>.
accounts-token-shown-only-now = <strong>It is shown only now.</strong> It works until it ends or you end it.
accounts-token-to-copy = The token, to copy
accounts-program-sends-it = The program sends it with each request, as the header <code>Authorization: Bearer</code> and the token. Requests begin with <code>{ $base }/api/v1</code>.
accounts-back-to-your-tokens = Back to your tokens

# Passkeys.

accounts-passkeys-text = With a passkey you sign in by unlocking your phone or computer, with no password to type. Your fingerprint or face stays on the device; the club keeps only the public half of the key.
accounts-password-goes-on = Your password goes on working.
accounts-add-a-passkey = Add a passkey
accounts-passkeys-not-here = Not here: browsers offer passkeys only at an address with https and a name, and members come here by { $base }. Whoever hosts the club can change that.
accounts-passkeys-need-proof = Adding or removing a passkey needs a fresh proof that it is you.
accounts-browser-offers-no-passkeys = This browser offers no passkeys here, or runs no scripts.
accounts-passkey-name = What do you call it?
accounts-passkey-name-help = Such as: my phone.
accounts-device-was-lost = A device that was lost: remove its passkey here, and sign out everywhere else on your own page. Passkeys stay when you change your password here; an organiser's reset link ends them.
accounts-passkey-line = added { $day }, { $used }
accounts-remove-passkey = Remove
accounts-passkey-did-not-fit = The passkey did not fit, or it took too long. Try again, or use your password.
accounts-passkey-added = Added. From now on you can sign in with this passkey.
accounts-passkey-removed = Removed. Nobody signs in with it any more; your phone or computer may go on offering it.
accounts-passkeys-asked-too-often = Passkeys were asked for too often from here. Wait a minute.
accounts-most-passkeys = You have { $n } passkeys. Remove one first.
accounts-passkey-kept-already = This passkey is kept already.
accounts-organisers-by-passkey = Organisers of this club sign in with a passkey; with the password alone they can only add their first one.
accounts-use-your-passkey = Organisers sign in with a passkey here. Use yours, with the button below.
accounts-first-a-passkey = Organisers of this club sign in with a passkey. Add yours here first: until then no other page opens for you.
accounts-sign-in-by-yours = You came in with your password. Organisers of this club sign in with a passkey: use yours.
accounts-last-passkey-stays = This is your only passkey, and organisers of this club sign in with one. Add another first.

# The members.

accounts-members = Members
accounts-link-shown-already = That link was shown already, and is not shown twice. If you did not keep it, withdraw it below and make a new one.
accounts-member = Member
accounts-since = since { $day }
accounts-no-longer-members = No longer members
accounts-letters-stay-taken = Their letters stay taken, so that no mark is ever given twice.
accounts-left = Left
accounts-who-did-what = Who did what
accounts-backups = Backups of the club’s data
accounts-invite-somebody = Invite somebody
accounts-they-join-as = They join as
accounts-organisers-also = Organisers also invite people, reset passwords and change roles.
accounts-make-an-invitation-link = Make an invitation link
accounts-open-links = Open links
accounts-no-open-links = None.
accounts-reset-link-for = Reset link for { $name }
accounts-invitation-as = { $role ->
    [organiser] Invitation as organiser
   *[grower] Invitation as grower
 }
accounts-link-made-by = { $link }, made by { $name }
accounts-works-until = works until { $until }
accounts-withdraw = Withdraw
accounts-withdraw-link = Withdraw: { $link }, until { $until }
accounts-link-withdrawn = Withdrawn. The link no longer works.
accounts-link-shown-only-now = <strong>It is shown only now.</strong> It works until { $until }.
accounts-link-to-copy = The link, to copy
accounts-link-to-scan = The same link, to scan with a phone
accounts-qr-code-of-the-link = QR code of the link
accounts-back-to-the-members = Back to the members
accounts-invitation = Invitation
accounts-invitation-text = { $role ->
    [organiser] Whoever opens this link can join as an organiser, once. Send it, or let them scan the code.
   *[grower] Whoever opens this link can join as a grower, once. Send it, or let them scan the code.
 }
accounts-reset-link = Reset link
accounts-reset-link-text = With this link { $name } chooses a new password, once, and is then signed out everywhere else. Give it to nobody else, and only when you are sure it is { $name } who asks.

# One member, for organisers.

accounts-no-longer-a-member = No longer a member.
accounts-what-follows-needs-proof = What follows needs a fresh proof that it is you.
accounts-password-forgotten = Password forgotten
accounts-password-forgotten-text = Make a link by which { $name } chooses a new password. It works once, for a day. Earlier reset links stop working.
accounts-make-a-reset-link = Make a reset link
accounts-phone-lost = A phone lost or stolen
accounts-phone-lost-text = Sign { $name } out everywhere. Counts that wait on a phone stay there and are sent when { $name } signs in again.
accounts-sign-out-everywhere = Sign out everywhere
accounts-is-signed-out = { $n ->
    [one] { $name } is signed out in { $n } place.
   *[other] { $name } is signed out in { $n } places.
 }
accounts-role-yours = You will have to sign in again, and cannot change roles once you are a grower.
accounts-role-theirs = { $name } will have to sign in again.
accounts-change-the-role = Change the role
accounts-has-that-role-already = { $role ->
    [organiser] { $name } is an organiser already.
   *[grower] { $name } is a grower already.
 }
accounts-role-is-changed = { $role ->
    [organiser] { $name } is an organiser now, and has to sign in again.
   *[grower] { $name } is a grower now, and has to sign in again.
 }
accounts-last-organiser = A club needs an organiser, and this is the last one. Make somebody else one first.
accounts-leaving-the-club = Leaving the club
accounts-leaving-text = Nobody can sign in as { $name } any more. Letters, packets and entries stay as they are. There is no way back: somebody who returns joins anew, with other letters.
accounts-yes-this-member-leaves = Yes, this member leaves
accounts-end-the-membership = End the membership
accounts-is-no-longer-a-member = { $name } is no longer a member. Their letters and entries stay theirs.
accounts-what-member-did = What { $name } did

# The record of acts.

accounts-record-intro = What members and organisers did that bears on who may come in, and on the whole club.
accounts-record-sign-ins = { $good ->
    [one] In the last { $days } days: { $good } sign-in, and { $failed } that failed with the sign-in name of a member.
   *[other] In the last { $days } days: { $good } sign-ins, and { $failed } that failed with the sign-in name of a member.
 }
accounts-by-or-about = By or about
accounts-everybody = everybody
accounts-which-acts = Which acts
accounts-everything = everything
accounts-show-these = Show these
accounts-record-nothing = Nothing.
accounts-record-when = When
accounts-record-who = Who
accounts-record-what = What
accounts-record-about = About
accounts-record-earlier = Earlier
accounts-record-help = The record is only ever added to: the database itself refuses to change or to delete a line. It is kept as long as the club's data. It holds no password, no address and nothing that members typed; a member who erases their data loses their name here too.
accounts-somebody-not-known = somebody who is not known
accounts-the-host-by-a-command = the host, by a command
accounts-from-to = { $first } to { $last }
accounts-sign-ins-failed = { $n } sign-ins failed within { $span }

# Acts in the record.

accounts-did-set-up = set the club up
accounts-did-join = joined by an invitation
accounts-did-sign-in = signed in
accounts-did-fail = a sign-in failed
accounts-did-prove = proved again who they are
accounts-did-change-password = changed the password
accounts-did-reset-password = chose a new password by a reset link
accounts-did-sign-out-elsewhere = signed out in other places
accounts-did-end-sessions = ended every session
accounts-did-invite = made an invitation
accounts-did-make-reset = made a reset link
accounts-did-withdraw-link = withdrew a link
accounts-did-change-role = changed the role
accounts-did-end-membership = ended the membership
accounts-did-make-token = made a token for a program
accounts-did-end-token = ended a token
accounts-did-make-calendar = made a calendar address
accounts-did-end-calendar = ended the calendar address
accounts-did-add-passkey = added a passkey
accounts-did-remove-passkey = removed a passkey
accounts-did-change-settings = changed own settings
accounts-did-take-letters = took new letters
accounts-did-save-data = saved a copy of own data
accounts-did-erase = erased own data and left
accounts-did-merge-names = merged two names
accounts-did-rename-kind = renamed a kind
accounts-did-undo-merge = took a merge of names back
accounts-did-bring-list = brought a list in
accounts-did-use-club = counted another club's table in, or left it out
accounts-did-take-club = took another club's table in
accounts-did-remove-club = removed another club's table
accounts-did-back-up = took a backup by hand
accounts-did-restore = restored the club to an earlier state; what was saved later is not here

# A word more of an act.

accounts-by-password = password
accounts-by-passkey = passkey
accounts-by-invitation = invitation
accounts-by-reset-link = reset link
accounts-of-everybody = of everybody
accounts-to-read = read
accounts-to-record = record
accounts-of-packets = packets
accounts-of-counts = counts
accounts-of-variety = variety
accounts-of-source = source
accounts-of-kind = kind
