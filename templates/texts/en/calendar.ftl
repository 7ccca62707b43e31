# The calendar that members subscribe to.

calendar-due-now = Due now: { $club }
calendar-asked-too-often = This address was asked for too often. Wait a minute and try again.

# Titles of events.

calendar-out-of-the-soak = Out of the soak: { $marks }
calendar-soaks-go-on = { $n ->
    [one] { $n } soak goes on
   *[other] { $n } soaks go on
 }
calendar-look-at = { $n ->
    [one] Look at { $n } bag
   *[other] Look at { $n } bags
 }
calendar-plant = { $n ->
    [one] Plant { $n } rooted seed
   *[other] Plant { $n } rooted seeds
 }
calendar-close = { $n ->
    [one] Close { $n } bag
   *[other] Close { $n } bags
 }
calendar-start-trials = { $n ->
    [one] Start { $n } trial
   *[other] Start { $n } trials
 }
calendar-start-blind = { $n ->
    [one] Start { $n } blind packet
   *[other] Start { $n } blind packets
 }
calendar-and-more = { $marks } and { $n } more

# What stands below a title.

calendar-rooted = { $variety }, { $n } rooted
calendar-ring-trial = ring trial { $name }
calendar-float-tally = float tally
calendar-on-paper = on paper
calendar-let-water-stand = let tap water stand
calendar-sanitising-soak = sanitising soak
calendar-rinse = rinse
calendar-priming-soak = priming soak
calendar-drain = drain
calendar-rest = rest
calendar-step = step
calendar-step-in = { $step } in { $agent }
