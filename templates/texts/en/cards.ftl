# Words of count cards.

cards-count-cards = Count cards
cards-holder = Holder
cards-place = Place
cards-number = No.
cards-bag = Bag
cards-variety = Variety
cards-date = Date
cards-date-n = Date { $n }
cards-root = Root
cards-root-out = Root<span class="vh"> out</span>
cards-dead = Dead
cards-card = Card { $n }
cards-type-in = Type in card { $n }

# The list of cards, and new ones.

cards-what-a-card-is = A card hangs on the shed wall: a row for each open bag, empty columns for a week's dates. It is typed in later, row by row, in the same order. The code on it opens that page.
cards-no-bag-has-seeds = No bag of yours has seeds on paper now.
cards-any-holder = any holder
cards-any-place = any place
cards-make-cards = { $n ->
    [one] Make cards of the open bag
   *[other] Make cards of the { $n } open bags
 }
cards-no-such-bag = No open bag with seeds on paper is there.
cards-no-letters-yet = You have no letters yet.
cards-no-free-number = No free number was found for the card. Please try again.
cards-made = { $cards ->
    [one] { $cards } card
   *[other] { $cards } cards
 } for { $bags ->
    [one] { $bags } bag
   *[other] { $bags } bags
 }. Print from the browser's menu at 100 %.
cards-with-open-bags = Cards with open bags on them
cards-no-bags = 0 bags, made { $day }
cards-one-bag = 1 bag, { $bag }, made { $day }
cards-so-many-bags = { $n } bags, { $first } to { $last }, made { $day }
cards-print-card = Print<span class="vh"> card { $n }</span>

# The printed card.

cards-all = All count cards
cards-none-chosen = No card was chosen.
cards-card-of = Card { $n }, { $name }
cards-code-that-opens = Code that opens card { $n }
cards-how-to-write = Printed { $day }. Under a date write what is new since the look before: how many rooted, how many dead and taken out. Leave it empty where nobody looked; 0 means looked, and nothing new.
cards-on-paper-of = On paper, of
cards-of = { $left } of { $seeds }
cards-closed = closed

# A card typed in.

cards-nothing-is-wrong = <strong>Nothing is wrong with it.</strong> It is not saved yet.
cards-as-on-paper = As on the paper, row by row: what is new since the look before. Empty: nobody looked. 0: looked, and nothing new.
cards-dates-on-this-page = Dates on this page:
cards-print-again = Print the card again
cards-the-rows = The card's rows
cards-still-on-paper = { $n } still on paper
cards-cell-root-out = Row { $row }, { $bag }, date { $date }: root out
cards-cell-dead = Row { $row }, { $bag }, date { $date }: dead
cards-another-look = another look: count it too
cards-closed-or-gone = Closed, or not with you any more.
cards-check = Check
cards-save-the-card = Save the card
cards-give-the-date = There are counts below: give the date they were made on.
cards-type-a-date = Type a date, and below it what was counted.
cards-in-the-future = That is in the future. Give the day it was counted on.
cards-date-stands-twice = This date stands over another column too.
cards-counted-already = Counted on { $day } already: { $rooted } rooted, { $dead } dead.
cards-not-with-you = { $bag } is not with you any more.
cards-on-paper-only-since = { $bag } is on paper only since { $day }.
cards-in-the-book = Card { $card } is in the book: { $counts ->
    [one] { $counts } count
   *[other] { $counts } counts
 } with { $rooted } rooted, { $dead } dead; { $looks ->
    [one] { $looks } look
   *[other] { $looks } looks
 } with nothing new.
