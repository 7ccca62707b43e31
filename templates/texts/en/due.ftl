# Due now

due-look-at-all-due = Look at all { $n } due bags in one screen
due-none-on-paper-yet = No bag is on paper yet.
due-nothing-due = Nothing is due, and nothing is on paper yet.
due-bring-in-a-list = Bring in a list
due-start-trials = Start trials
due-none-due = No bag is due now.
due-root-likely-today = Root likely today.
due-and-more = And { $n } more. <a href="/looks">Look at all due bags in one screen</a>.
due-the-plan = The plan
due-all-open-bags = All open bags
due-print-labels = Print labels
due-count-cards = Count cards
due-later-looks = { $n ->
    [one] { $n } bag on paper waits for a later look, the next due { $day }.
   *[other] { $n } bags on paper wait for a later look, the next due { $day }.
 }
due-next-start = The plan’s next start is { $day }: { $seeds }.
due-late = { $n ->
    [one] { $n } day late
   *[other] { $n } days late
 }

# What is due of one thing

due-look = { $variety }: look, { $day }. { $paper }.
due-plant = { $n ->
    [one] { $variety }: { $n } rooted seed waits for a cell.
   *[other] { $variety }: { $n } rooted seeds wait for a cell.
 }
due-close = { $variety }: nothing is left on paper. Close the bag.
due-start = { $variety }: start { $n ->
    [one] { $n } seed
   *[other] { $n } seeds
 } of { $mark }{ $day ->
    [today] {" "}today
   *[other] , planned for { $day }
 }.
due-start-none = { $variety }: { $mark } has none of the { $n ->
    [one] { $n } seed
   *[other] { $n } seeds
 } to start{ $day ->
    [today] {" "}today
   *[other] , planned for { $day }
 }.
due-start-short = { $variety }: start { $gives } of the { $n } seeds of { $mark }{ $day ->
    [today] {" "}today
   *[other] , planned for { $day }
 }; { $short ->
    [one] { $short } is short.
   *[other] { $short } are short.
 }
due-blind = Ring trial { $ring }: start your blind packet.
due-blinds = Ring trial { $ring }: start your blind packets together: { $marks }.
due-step = { $variety }{ $vial }: { $step }, { $seeds }
due-tally = { $variety }{ $vial }: soaked, { $n ->
    [one] { $n } seed
   *[other] { $n } seeds
 } wait for the float tally.
due-paper = { $variety }{ $vial }: { $n ->
    [one] { $n } seed
   *[other] { $n } seeds
 } wait to go on paper.
due-button-start = Start
due-button-step = Next step
due-button-tally = Float tally
due-button-paper = To paper
due-button-plant = Plant
due-button-close = Close
due-button-count = Count
