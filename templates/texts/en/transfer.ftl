# Rows and columns of lists.

transfer-line = Line
transfer-row = Row
transfer-line-number = Line { $n }
transfer-row-number = Row { $n }
transfer-in-line = line { $n }
transfer-in-row = row { $n }
transfer-headings-in-line = The headings stand in line
transfer-headings-in-row = The headings stand in row
transfer-column = column
transfer-column-number = number
transfer-column-kind = kind
transfer-column-variety = variety
transfer-column-source = source
transfer-column-year = year
transfer-column-lot-code = lot code
transfer-column-seeds = seeds
transfer-column-grams = grams
transfer-column-seeds-per-gram = seeds per gram
transfer-column-place = place
transfer-column-state = state
transfer-column-species = species
transfer-column-note = note
transfer-column-genus = genus
transfer-column-subspecies = subspecies
transfer-column-bag = bag
transfer-column-date = date of the look
transfer-column-hours = hours
transfer-column-rooted = rooted
transfer-column-abnormal = abnormal
transfer-column-dead = dead
transfer-column-trial = trial
transfer-column-on-paper = on paper
transfer-column-routine = routine
transfer-column-warmth = warmth
transfer-column-soaked = soaked
transfer-column-floated = floated
transfer-column-closed = closed

# Bringing in a season's list.

transfer-bring-in-list = Bring in a list
transfer-bring-in-season-list = Bring in your season's list
transfer-season-list-lead = A table from a spreadsheet, as XLSX, ODS or CSV, or copied and pasted. One of its first rows names the columns. Needed: kind, variety, source, and seeds or grams. Also read: number, year, lot code, seeds per gram, place, state, species, note. You will see how it is understood, and can change it, before anything is saved; at most 20,000 packets at a time.
transfer-file = File
transfer-up-to-10-mb = Up to 10 MB.
transfer-or-the-list = or the list itself
transfer-season-list-such-as = Such as: number, kind, variety, source, year, seeds
transfer-letters-of-marks = Letters of the marks
transfer-letters-of-marks-help = Numbers in the list are kept as marks where they are free. Who starts at 1 each season takes new letters first.
transfer-new-letters = New letters for this season
transfer-look-first = Look at it first
transfer-twice-counts-once = The same list brought in twice counts once. Two rows that are alike in one list are two packets.
transfer-bring-in-counts-instead = Bring in counts instead
transfer-choose-or-paste = Choose a file, or paste the list here.
transfer-too-many-packets = These are more than 20,000 packets. Bring them in by parts, please.
transfer-brought-in = Brought in: { $count }.

# A list as it will be.

transfer-list-as-it-will-be = The list as it will be
transfer-nothing-saved-yet = Nothing is saved yet: { $count }, to be brought in together.
transfer-mend-this = <strong>Nothing was saved.</strong> Please mend this in the list, or change below how it is read:
transfer-and-more = And { $n } more.
transfer-brought-in-before = Was this list brought in before? If you number from 1 again each season, <a href="/packets/letters">take new letters</a> and choose them below; or leave those numbers empty for the next free ones.
transfer-rows-brought-in-before = Rows brought in before, so left out: { $n }.
transfer-no-such-column = Left out, for there is no such column here:
transfer-bring-in = Bring in { $count }
transfer-start-over = Start over
transfer-how-it-is-read = How it is read
transfer-sheet = Sheet
transfer-the-sheet-that-suits = the one that suits best
transfer-such-as = such as { $example }
transfer-leave-column-out = leave it out
transfer-the-list = The list
transfer-or-the-mended-file = or the mended file
transfer-look-again = Look again
transfer-the-first-and-faults = The first of { $count }, and rows with faults
transfer-the-first-of = : the first { $shown } of { $total }
transfer-the-first = : the first { $shown }
transfer-next-number = next

# What a list leaves open.

transfer-say-which-is-meant = <strong>Nothing was saved.</strong> Please say which is meant:
transfer-which-is-meant = Which is meant?
transfer-near-or-swapped = Near in spelling, or perhaps swapped. If kind and variety are swapped all the way down, change below how the columns are read.
transfer-kind-and-variety = kind { $kind }, variety { $variety }
transfer-the-row-with = The row with { $names }
transfer-is-right = is right
transfer-or-is-it = There is a row with { $names }. Or is it { $other }?

# Bringing in counts.

transfer-bring-in-counts = Bring in counts
transfer-counts-lead = A table of looks from a spreadsheet, as XLSX, ODS or CSV, or copied and pasted: one row for each look into a bag. One of its first rows names the columns. Numbers are what is new since the look before.
transfer-counts-of-bags-here = <b>Looks into your bags that are here:</b> the mark of the bag, the day of the look (or hours on paper), and what was rooted, abnormal or dead. A look that is here already, with the same numbers, is left out.
transfer-counts-of-past = <b>Bags of seasons past:</b> besides those, kind, variety, source, seeds and the day on paper; if you have them also trial, year, routine, warmth, soaked, floated and closed. Each trial becomes a packet of yours under the next free number, with all its seeds used; rows that name the same trial are one. What was still on paper at the last look is noted as not examined, unless closed says no. They then count in the club table like any other, as yours, whatever grower the file names.
transfer-counts-of-club-table = The file “The counts behind it” of the club table can be brought in. You will see how everything is understood before anything is saved, and a list brought in twice counts once.
transfer-counts-such-as = Such as: bag, date, rooted, dead
transfer-letters-for-past = Letters for packets of seasons past
transfer-counts-as-they-will-be = The counts as they will be
transfer-rows-here-already = Rows that are here already, so left out: { $n }.
transfer-days-such-as = Days such as 3/4/2026
transfer-as-the-list-tells = as the list tells
transfer-day-first = day first
transfer-month-first = month first
transfer-read-day-first = Days such as 3/4/2026 are read day first: 3 April.
transfer-read-month-first = Days such as 3/4/2026 are read month first: 4 March.
transfer-looks = { $n ->
    [one] { $n } look
   *[other] { $n } looks
 }
transfer-looks-into-bags-here = Looks into bags that are here
transfer-bags-of-seasons-past = Bags of seasons past
transfer-bag = Bag
transfer-found = Found
transfer-on-paper = On paper
transfer-routine = Routine

# What is wrong with a file.

transfer-file-is-large = This file is larger than 10 MB. Bring it in by parts, please.
transfer-file-is-empty = This file is empty.
transfer-file-is-gone = The file is no longer kept here. Please choose it again.
transfer-file-is-locked = This file is locked with a password. Take the password off, save it and try again.
transfer-locked-or-old = This file is locked with a password, or was written by an old office program. Save it as CSV, XLSX or ODS and try again.
transfer-file-is-damaged = This file is damaged, or no spreadsheet. Save it as CSV, XLSX or ODS and try again.
transfer-no-spreadsheet = This file is no spreadsheet. Save it as CSV, XLSX or ODS and try again.
transfer-no-table-in-file = There is no table in this file. Save it as CSV, XLSX or ODS and try again.
transfer-not-a-table = This file is not a table that can be read here. Save it as CSV, XLSX or ODS and try again.
transfer-not-utf-8 = The file is not UTF-8, so it was read as Windows-1252: look whether the accents are right.
transfer-list-not-read = The list could not be read.
transfer-too-many-rows = There are more than { $most } rows in it. Bring it in by parts, please.
transfer-too-many-columns = There are more than { $most } columns in it. Leave out those that are no part of the list.
transfer-too-much-text = There is too much text in it for a list.
transfer-part-is-missing = There is no { $part } in it.
transfer-part-is-damaged = { $part } in it is damaged.
transfer-part-is-large = { $part } in it is too large.

# What is wrong with a list.

transfer-nothing-in-list = There is nothing in the list. Its first line names the columns.
transfer-no-packet-below = There is no packet below the headings.
transfer-no-count-below = There is no count below the headings.
transfer-no-column-named = There is no column named { $name }.
transfer-no-seeds-nor-grams = There is no column named seeds, and none named grams.
transfer-no-column-for = There is no column for { $column }.
transfer-no-date-nor-hours = There is no column for the date of the look, and none for hours on paper.
transfer-two-columns = There are two columns for { $column }.
transfer-no-heading = "{ $cell }" stands where there is no heading.
transfer-cell-not-worked-out = The spreadsheet could not work this cell out: { $cell }.
transfer-not-a-number = "{ $cell }" is not a number. { $please }
transfer-not-a-day = "{ $cell }" is not a day. Such as 2026-02-28 or 28.2.2026.
transfer-neither-yes-nor-no = "{ $cell }" is neither yes nor no.
transfer-not-a-state = Please choose one.
transfer-nothing-left = Every row of this list was brought in before, so nothing is left to add.
transfer-species-noted = { $variety } is noted as { $species } already.
transfer-letters-not-yours = The letters { $letters } are not yours.
transfer-mark-given-before = { $mark } was given before, and a mark is never given twice.
transfer-mark-stands-twice = { $mark } stands in { $place } too.

# What is wrong with counts.

transfer-mark-of-packet = { $mark } is the mark of a packet, not of a bag.
transfer-mark-of-tray = { $mark } is the mark of a tray, not of a bag.
transfer-mark-of-holder = { $mark } is the mark of a holder, not of a bag.
transfer-anothers-bag = { $mark } is another grower's bag, or was taken back.
transfer-other-numbers = { $mark } has a look at that time, with other numbers.
transfer-in-the-future = That is in the future.
transfer-when-was-this-look = When was this look?
transfer-not-on-paper-yet = The bag was not on paper yet.
transfer-say-when-on-paper = No bag here has this mark. To bring in a bag of the past, say when it went on paper.
transfer-say-how-many-seeds = No bag here has this mark. To bring in a bag of the past, say how many seeds it held.
transfer-another-in-trial = This is another { $column } than in { $place }, of the same trial.
transfer-other-things-of-bag = This row says other things of the bag than { $place }.
transfer-look-at-same-time = The bag has a look at the same time in { $place }.
transfer-more-counted-than-seeds = Up to this look more seeds were counted than the { $n } of the bag.
transfer-soaked-fewer = { $n } seeds were soaked, yet { $paper } went on paper.
transfer-floaters-both-ways = Floaters in a bag of their own and floaters thrown out, in one trial: that cannot be noted here.
transfer-no-such-routine = There is no routine of that name here. Make it first, under Routines, or leave the cell empty.
transfer-nothing-is-counted = Nothing is counted here. A look without news is a 0; else leave the row out.

# Other clubs.

transfer-other-clubs = Other clubs
transfer-club-table = Club table
transfer-clubs-lead = Two clubs that run Hilum can lend each other their counts, as files. What another club found helps to compare sources; it is never added to our own counts. In the comparison each club is allowed to be a little better or worse than the others, and each of its growers too.
transfer-file-is-being-made = <strong>The file is being made.</strong> All counts of the club go into it, which takes a while. Press “Save the file” again in a minute.
transfer-nothing-brought-in = <strong>Nothing was brought in.</strong> In the counts of the file:
transfer-ask-the-other-club = Ask the other club to save the file again.
transfer-tables-here = Tables that are here
transfer-none-yet = None yet.
transfer-left-out = left out
transfer-brought-in-by = Brought in by { $by }, { $when }.
transfer-leave-out-of-comparison = Leave it out of the comparison
transfer-take-into-comparison = Take it into the comparison
transfer-remove = Remove it
transfer-table-is-to-go = The table of { $name } is to go
transfer-tick-that-it-goes = Tick that it is to go.
transfer-bring-in-table = Bring in the table of another club
transfer-bring-in-table-lead = The .zip file that they saved on their page “Other clubs”. A newer file of the same club takes the place of the older one.
transfer-save-our-table = Save our table for another club
transfer-save-our-table-lead = One .zip file with every count that is in the club table: a Data Package 2.0, which other programs read too. Growers and trials are numbered in it, and marks stay here; varieties, sources and routines keep their names. What other clubs lent us is not in it.
transfer-licence = Licence
transfer-licence-help = What the other club may do with it: a short name such as CC-BY-4.0, or an address. It may stay empty.
transfer-licence-name-or-address = A short name such as CC-BY-4.0, or the address of its text.
transfer-with-names = With the names of growers, and the marks of their packets; they agreed
transfer-save-the-file = Save the file
transfer-numbers = { $seeds } in { $bags } of { $growers }
transfer-in-so-many-bags = { $n ->
    [one] { $n } bag
   *[other] { $n } bags
 }
transfer-of-so-many-growers = { $n ->
    [one] { $n } grower
   *[other] { $n } growers
 }
transfer-made = { $numbers }, made { $day }.
transfer-made-under = { $numbers }, made { $day }, under { $licence }.
transfer-table-of = The table of { $name }
transfer-nothing-saved-yet-here = Nothing is saved yet.
transfer-takes-the-place = It takes the place of the table of { $day }, with { $numbers }.
transfer-that-one-is-newer = That one is newer than this file.
transfer-a-little-differently = What another club calls a little differently.
transfer-is-another-one = is another one
transfer-bring-it-in = Bring it in
transfer-leave-it = Leave it
transfer-its-varieties-and-sources = Its varieties and sources
transfer-here = Here
transfer-not-grown-here = not grown here
transfer-here-as = as { $variety }, { $source }
transfer-table-brought-in = Brought in: the table of { $name }. The comparison takes it in within minutes.
transfer-table-counts-again = The table of { $name } counts in the comparison again, within minutes.
transfer-table-is-left-out = The table of { $name } is left out of the comparison, within minutes.
transfer-table-is-gone = The table of { $name } is gone. Their file can be brought in again.

# What is wrong with the file of another club.

transfer-choose-club-file = Please choose the file of the other club.
transfer-counts-do-not-come-out = The counts in it do not come out.
transfer-not-a-shared-table = This is not the shared table of a club: a .zip file saved under Other clubs.
transfer-table-of-our-own = This is the table of our own club. Its counts are here already.
transfer-counts-not-utf-8 = counts.csv in it is not UTF-8.
transfer-file-names-no-club = The file does not name its club.
transfer-file-names-no-installation = The file does not say which installation it comes from.
transfer-file-names-no-day = The file does not say when it was made, or says a day in the future.
transfer-counts-were-changed = The counts in it were changed or damaged on their way.
transfer-counts-not-described = The file does not describe its counts.
transfer-too-many-looks = There are more than { $most } looks in it.
transfer-no-count-in-it = There is no count in it.
transfer-too-long = "{ $text }" is too long, or cannot be printed.
transfer-no-name = "{ $text }" is no name: there is no letter or digit in it.
transfer-day-is-missing = the day it went on paper is missing.
transfer-day-is-out-of-range = that is in the future, or before 1970.
