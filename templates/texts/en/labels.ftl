# Words of labels and their sheets.

labels-labels = Labels
labels-label-sheets = Label sheets
labels-print = Print labels
labels-test-page = Test page

# What is to be labelled.

labels-nothing-needs-one = Nothing needs a label now: no seeds are soaking, no bag is open, no tray is in use.
labels-start-trials = Start trials
labels-what-is-labelled = A label for each vial that holds seeds, each open bag, each pot, and two for each tray. A code on it opens the thing when a phone sees it.
labels-for-which-trials = For which trials
labels-pots = Pots
labels-ends-of-trays = Ends of trays, two of each
labels-all-of-them = All of them
labels-one-vial = 1 vial
labels-so-many-bags = { $n ->
    [one] { $n } bag
   *[other] { $n } bags
 }
labels-pots-of = { $n ->
    [one] { $variety }, { $cell }: { $n } pot, potted { $day }
   *[other] { $variety }, { $cell }: { $n } pots, potted { $day }
 }
labels-show = Show the labels

# What stands on labels: short.

labels-tray-and-cell = { $tray }, cell { $cell }
labels-so-many-cells = { $n } cells
labels-so-many-floaters = { $n ->
    [one] { $n } floater
   *[other] { $n } floaters
 }
labels-potted = potted { $day }
labels-first-row = first row here
labels-last-row = last row here

# What to print on.

labels-other-sheets = Other sheets, by their measures
labels-first-free = First free label
labels-first-free-help = Counted along the rows, on a sheet already begun.
labels-first-from-one-to = A whole number from 1 to { $n }, please: so many labels are on this sheet.
labels-outlines-to-cut = Outlines, to cut from plain paper

# The labels as they print.

labels-show-them-so = Show them so
labels-other-labels = Other labels
labels-nothing-here-needs-one = Nothing here needs a label now.
labels-how-to-print = { $n ->
    [one] { $n } label. Print from the browser's menu at 100 %, on paper of { $width } by { $height } mm, with no margins. Ink that runs when wet needs clear tape over it.
   *[other] { $n } labels. Print from the browser's menu at 100 %, on paper of { $width } by { $height } mm, with no margins. Ink that runs when wet needs clear tape over it.
 }
labels-no-code-on = <strong>No code on { $n } of them:</strong> beside the mark there is no room for one that a phone can read (half a millimetre for each of its small squares). Use larger labels where you want the code.
labels-label-of = Label of { $mark }

# Label sheets.

labels-any-sheet-will-do = Any sheet or roll of labels will do once you have its measures. Print its test page first: it shows the outlines, so that what your printer is off by can be read off and taken back.
labels-measure-a-sheet = Measure a label sheet
labels-a-label-sheet = A label sheet
labels-change = Change<span class="vh"> { $name }</span>
labels-nudge-or-change = Nudge or change<span class="vh"> { $name }</span>
labels-test-page-of-this = Test page<span class="vh"> of { $name }</span>
labels-one-label = 1 label, { $size }
labels-page-with-labels = { $page }, { $across } by { $down }, { $size }

# The measures of a sheet.

labels-lengths-in-mm = Every length is in mm. The maker's data sheet often has them; else lay a rule on the sheet.
labels-your-name = Your name for it
labels-your-name-help = Such as white, shed printer.
labels-the-page = The page
labels-page = Page
labels-page-a4 = A4, 210 × 297 mm
labels-page-letter = US Letter, 215.9 × 279.4 mm
labels-page-own = another, or a roll: one label is one page
labels-page-width = Width of another page
labels-page-height = Height of another page
labels-from-left = Left edge to the first label
labels-from-top = Top edge to the first label
labels-nought-on-a-roll = 0 on a roll.
labels-the-labels = The labels
labels-width = Width of a label
labels-width-help = 28 mm or more.
labels-height = Height of a label
labels-height-help = 12 mm or more.
labels-across = Labels across
labels-down = Labels down
labels-pitch-across = Left edge to next left edge
labels-pitch-down = Top edge to next top edge
labels-pitch-help = Empty: no gap between labels.
labels-the-nudge = The nudge
labels-what-the-nudge-is = What your printer is off by, taken back: read it off the test page.
labels-nudge-right = Nudge to the right
labels-nudge-right-help = Less than 0 is to the left.
labels-nudge-down = Nudge down
labels-nudge-down-help = Less than 0 is up.
labels-everybody-may-print = Everybody in the club may print on it
labels-keep-this-sheet = Keep this sheet
labels-forget-this-sheet = Forget this sheet
labels-give-a-number-of-mm = Please give a number of mm.
labels-on-one-another-wide = The labels would lie on one another: each is { $size } mm wide.
labels-on-one-another-high = The labels would lie on one another: each is { $size } mm high.
labels-page-too-narrow = The last label would end { $end } mm from the edge, and the page is only { $page } mm wide.
labels-page-too-low = The last label would end { $end } mm from the edge, and the page is only { $page } mm high.
labels-name-is-taken = You have a label sheet of that name.
labels-is-kept = { $name } is kept. Print its test page once, and hold it against a label sheet.
labels-is-changed = { $name } is changed.
labels-is-forgotten = { $name } is forgotten.

# The test page.

labels-test-page-of = Test page of { $name }
labels-test-print-it = Print this page on plain paper from the browser's menu: at 100 %, with no margins.
labels-test-lay-a-rule = Lay a rule on the printed one. If it is not as long as it says, the printer scaled the page: print again at 100 %.
labels-test-hold-against-light = Hold the page against a label sheet, to the light. If the printed lines lie 1 mm to the right of the edges of the labels, write a nudge of −1 to the right; if they lie 1 mm too high, a nudge of 1 down.
labels-write-the-nudge-down = Write the nudge down
labels-outlines-with-a-rule = Outlines of the labels, with a rule
labels-rule = { $length } mm; nudge { $right } / { $down }
