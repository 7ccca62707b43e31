# Words of trays and cells.

trays-tray = Tray
trays-name = Name
trays-place = Place
trays-cells = Cells
trays-planted = Planted
trays-free-cells = Free
trays-bag = Bag
trays-variety = Variety
trays-source = Source
trays-seeds = Seeds
trays-size = Size
trays-when = When
trays-state = State
trays-save = Save

# Cells in words.

trays-grid = { $n } cells: { $across } across, { $down } down
trays-number-across-down = { $n }: { $across } across, { $down } down
trays-sheet-grid = { $n } cells, { $across } across, { $down } down
trays-tray-across-down = { $tray }, { $across } cells across, { $down } down
trays-cells-free-of = { $free } of { $n } cells free
trays-cells-from-to = { $first } to { $last }
trays-cells-between = { $n } cells between { $first } and { $last }
trays-days-from-to = { $first } to { $last }
trays-free = free
trays-free-was = free; was { $state }
trays-next-free = next free

# What became of seeds.

trays-waiting = waiting
trays-waiting-seeds = waiting, { $n } seeds
trays-up = up
trays-so-many-up = { $up } of { $n } up
trays-so-many-lost = { $n } lost
trays-so-many-thinned = { $n } thinned
trays-so-many-potted-on = { $n } potted on
trays-potted-on = potted on
trays-lost-why = lost: { $why }
trays-ended-why = ended: { $why }

trays-why-damped-off = damped off
trays-why-did-not-come-up = did not come up
trays-why-eaten = eaten
trays-why-broke = broke
trays-why-dried = dried
trays-why-other = other
trays-why-replanted = replanted
trays-why-tray-emptied = tray emptied

# The list of trays.

trays-make-a-tray = Make a tray
trays-none-in-use-make-one = No tray is in use. Make one, write its mark on it, and plant rooted seeds into its cells.
trays-in-use = In use
trays-finished = Finished

# A new tray.

trays-cells-help = The long side runs down. A tray with offset rows, such as the 38-cell one (rows of 8 and 7), is drawn as 8 across and 5 down; leave the cells that are not there free.
trays-another-one = Another one: I give rows and columns
trays-rows-and-columns = Rows and columns of another tray
trays-cells-across = Cells across
trays-cells-down = Cells down
trays-up-to-sixty = 1 to 60
trays-name-help = If you like: big one, propagator 2. The tray gets a mark of its own either way.
trays-place-help = Where it stands.
trays-make-the-tray = Make the tray
trays-where-sizes-come-from = Where the sizes come from
trays-outer-sizes = Outer sizes
trays-common-layouts = common layouts
trays-grower-supply-catalogues = grower supply catalogue pages
trays-catalogue = catalogue
trays-catalogue-and-trade = catalogue/trade
trays-from-memory = { $source }, from memory
trays-one-size-only = Rows and columns are given too. Choose “{ $other }”, or empty both.
trays-choose-or-give-rows = Please choose a tray, or give rows and columns.
trays-no-letters-yet = You have no letters for marks yet.
trays-is-ready = { $tray } is ready: { $n } cells. Write the mark on the tray.

# A tray.

trays-planted-and-free = { $planted }, { $free } free
trays-made = Made
trays-next-free-cell = Next free cell: <strong>{ $cell }</strong>.
trays-every-cell-is-taken = Every cell is taken.
trays-note-what-came-up = Note what came up
trays-print-the-sheet = Print the sheet
trays-lots-in-this-tray = Lots in this tray
trays-what-to-do = What to do
trays-outcome-of = Outcome<span class="vh"> of { $bag }</span>
trays-move-the-tray = Move the tray
trays-save-the-place = Save the place
trays-place-cleared = The place was cleared.
trays-is-at = The tray is at { $place } now.
trays-finish-this-tray = Finish this tray
trays-finished-takes-no-more = A finished tray takes no more seeds. Its plantings and its mark stay on record.
trays-end-what-is-in-cells = End what is still in the cells
trays-why-it-ends = Why it ends
trays-why-tray-ends-help = Such as: planted out, given away. Empty: tray emptied.
trays-finish-the-tray = Finish the tray
trays-cells-still-hold = { $n ->
    [one] { $n } cell still holds seeds or plants. Note what became of them, or tick this to end them.
   *[other] { $n } cells still hold seeds or plants. Note what became of them, or tick this to end them.
 }
trays-is-finished = { $tray } is finished.
trays-is-finished-and-ended = { $n ->
    [one] { $tray } is finished. { $n } planting ended: { $why }.
   *[other] { $tray } is finished. { $n } plantings ended: { $why }.
 }
trays-take-into-use-again = Take it into use again
trays-in-use-again = The tray is in use again.

# Planting.

trays-plant-bag = Plant { $bag }
trays-sow-unrooted = Sow unrooted { $bag }
trays-plant-of = Plant <a class="mark" href="/bags/{ $id }">{ $bag }</a>
trays-sow-unrooted-of = Sow unrooted: <a class="mark" href="/bags/{ $id }">{ $bag }</a>
trays-seeds-still-on-paper = { $n ->
    [one] { $n } seed still on paper. Seeds sown before they root are a last chance; they count as not known, not as failed.
   *[other] { $n } seeds still on paper. Seeds sown before they root are a last chance; they count as not known, not as failed.
 }
trays-seeds-rooted-to-plant = { $n ->
    [one] { $n } seed rooted and not planted yet. Root down.
   *[other] { $n } seeds rooted and not planted yet. Root down.
 }
trays-none-in-use = No tray is in use.
trays-nothing-to-plant = There is nothing to plant from this bag now.
trays-note-a-look-first = Note a look first if more have rooted.
trays-to-the-bag = To the bag
trays-make-another-tray = Make another tray
trays-seeds-to-plant = Seeds to plant
trays-seeds-to-a-cell = Seeds to a cell
trays-last-cell-takes-rest = The last cell takes what is left over.
trays-from-cell = From cell
trays-from-cell-help = Empty: the next free cells, row by row. Or name one, such as B3: it must be free, and cells after it that are taken are skipped.
trays-as-it-stands = As it stands: { $takes }
trays-takes = { $seeds }, { $each ->
    [1] 1 to a cell
   *[other] up to { $each } to a cell
 }: { $n ->
    [one] cell { $cells } of { $tray }.
   *[other] cells { $cells } of { $tray }.
 }
trays-takes-is-said-here = Which cells it takes is said here once the numbers are right.
trays-show-cells-again = Show the cells again
trays-plant-over-or-another-time = Plant over what is there, or at another time
trays-cells-that-are-taken = Cells that are taken
trays-skip-them = Skip them
trays-end-and-plant-over = End what is in them and plant over it, cell by cell from the one named above
trays-why-old-planting-ends = Why the old planting ends
trays-why-old-planting-ends-help = Empty: replanted. What was noted of it stays.
trays-plant = Plant
trays-sow = Sow
trays-choose-or-make = Choose a tray, or make one.
trays-no-such-cell = There is no such cell. Cells of { $tray } go from A1 to { $last }.
trays-name-the-first-cell = Name the first cell that is to be planted over.
trays-cell-is-taken = Cell { $cell } holds { $bag }. Leave the field empty for the next free cell, or plant over it.
trays-too-few-free = { $n ->
    [one] Only { $n } cell is free. Plant fewer, or take another tray.
   *[other] Only { $n } cells are free. Plant fewer, or take another tray.
 }
trays-too-few-free-from = { $n ->
    [one] Only { $n } cell is free from { $cell } on. Plant fewer, or take another tray.
   *[other] Only { $n } cells are free from { $cell } on. Plant fewer, or take another tray.
 }
trays-tray-is-finished = This tray is finished. Choose another one.
trays-not-so-many-on-paper = { $n ->
    [one] { $bag } has { $n } seed still on paper, not more.
   *[other] { $bag } has { $n } seeds still on paper, not more.
 }
trays-not-so-many-rooted = { $n ->
    [one] { $bag } has { $n } seed rooted and not planted or ended yet. Note a look first if more have rooted.
   *[other] { $bag } has { $n } seeds rooted and not planted or ended yet. Note a look first if more have rooted.
 }
trays-seeds-in-cells = { $n ->
    [one] { $seeds } of { $bag } in cell { $cells } of { $tray }.
   *[other] { $seeds } of { $bag } in cells { $cells } of { $tray }.
 }
trays-plant-rooted-of = Plant the { $n } rooted of { $bag }

# What became of the seeds in a tray.

trays-outcomes-in = Outcomes in { $tray }
trays-what-became-of-seeds-in = What became of the seeds in <a class="mark" href="/trays/{ $id }">{ $tray }</a>
trays-tick-cells-with-same-news = Tick the cells that have the same news; it is noted for all that is left in them. Where only some of a cell's seeds have news, open the cell from the tray.
trays-the-news = The news
trays-news-up = Up
trays-news-lost = Lost
trays-news-thinned = Thinned
trays-news-potted-on = Potted on
trays-news-up-help = Seen above ground since the last note.
trays-news-thinned-help = Taken out to make room; not a loss.
trays-why-lost = Why lost
trays-where-news-is-lost = Where the news is lost.
trays-other-reason = Other reason
trays-where-reason-is-other = Where the reason is other.
trays-every-planted-cell = Every planted cell
trays-save-for-ticked-cells = Save for the ticked cells
trays-nothing-planted = Nothing is planted in this tray.
trays-tick-one-cell = Tick at least one cell.
trays-nothing-left-in-ticked = In the ticked cells there is nothing left to note that of.
trays-not-noted-how-many-up = { $n ->
    [one] Cell { $cell }: of { $n } seed it is not noted how many came up. Open the cell and note it there.
   *[other] Cell { $cell }: of { $n } seeds it is not noted how many came up. Open the cell and note it there.
 }
trays-cells-noted-up = { $n ->
    [one] { $n } cell noted: up.
   *[other] { $n } cells noted: up.
 }
trays-cells-noted-lost = { $n ->
    [one] { $n } cell noted: lost.
   *[other] { $n } cells noted: lost.
 }
trays-cells-noted-thinned = { $n ->
    [one] { $n } cell noted: thinned.
   *[other] { $n } cells noted: thinned.
 }
trays-cells-noted-potted-on = { $n ->
    [one] { $n } cell noted: potted on.
   *[other] { $n } cells noted: potted on.
 }
trays-nothing-left-in-others = { $n ->
    [one] In { $n } cell there was nothing left to note.
   *[other] In { $n } cells there was nothing left to note.
 }

# A planting.

trays-bag-in-tray-cell = { $bag } in { $tray }, cell { $cell }
trays-bag-in-cell = <a class="mark" href="/bags/{ $id }">{ $bag }</a> in cell { $cell }
trays-sown-unrooted = Sown unrooted
trays-ended = Ended
trays-what-is-new = What is new
trays-empty-is-now = Empty: now.
trays-give-a-number = Give a number above 0 for what is new.
trays-noted = Noted. { $bag }: { $state }.
trays-the-whole-tray = The whole tray
trays-end-this-planting = End this planting
trays-why-planting-ends-help = Such as: given away, cell needed. The cell becomes free; what was noted stays.
trays-end-it = End it
trays-history = History
trays-taken-back-by = Taken back by { $name }: { $why }
trays-take-back = Take back<span class="vh"> { $entry }, { $when }</span>
trays-other-plantings-of-cell = Other plantings of cell { $cell }
trays-planted-on = planted { $day }, { $state }

# The printed sheet.

trays-sheet-of = Sheet of { $tray }
trays-back-to-the-tray = Back to the tray
trays-a4-instead = A4 instead
trays-us-letter-instead = US Letter instead
trays-print-at-full-size = Print from the browser's menu, at 100 %.
trays-printed = Printed { $day }.
trays-page-of = Page { $n } of { $all }
trays-page-of-list = Page { $n } of { $all }: list of lots
trays-list-goes-on = The list of lots goes on on the next page.
trays-text-is-smaller = Text in narrow cells is smaller than 9 pt; the list has every mark at 9 pt.
trays-number-stands-for-mark = A number in a cell stands for the mark beside it in the list.
trays-code-that-opens = Code that opens { $tray }
trays-the-cells-of = The cells of { $tray }
