# What is still to come

outlook-unlikely = Another root soon is unlikely, but it is too early to give up.
outlook-behind = Behind the club’s other { $of }: about { $usual } of { $seeds } are out by this day there.
outlook-more-by = { $more } expected by { $day }
outlook-next-tomorrow = Next root likely tomorrow; { $more }.
outlook-look-tomorrow = Look tomorrow: { $more }.
outlook-first-root = First root expected about day { $n } ({ $date })
outlook-next-root = Next root expected about day { $n } ({ $date })
outlook-fewer-than-one = fewer than 1 more
outlook-up-to = up to { $n } more
outlook-about = about { $n } more
outlook-from-to = { $low } to { $high } more
outlook-guess = Guess from a published table: { $kind } seedlings are up in soil about day { $n } at { $warmth }. Roots come sooner.
outlook-chance = The chance that a seed still on paper roots at all is about { $mid } % ({ $low } to { $high }): { $more } in the end.
outlook-if-lost = Mouldy seeds that were removed are taken as never rooting. If they are taken as only lost from sight, the chance is { $chance } %.

# When to give up

outlook-give-up-by-bags = Consider the final count: by the club’s other bags, no more roots are likely.
outlook-give-up-by-record = Consider the final count: of { $seeds ->
    [one] { $seeds } seed
   *[other] { $seeds } seeds
 } of the club that waited this long, { $rooted ->
    [0] none rooted later.
   *[other] { $rooted } rooted later.
 }
outlook-give-up-by-own-looks = Consider the final count: by this bag’s own looks, no more roots are likely.
outlook-too-early = It is too early to say when to give up.
outlook-worth-considering-today = If a look today finds nothing, the final count is worth considering.
outlook-worth-considering-from = If nothing more roots, the final count is worth considering from about day { $n } ({ $date }).

# On what it rests

outlook-how-reckoned = How this is reckoned
outlook-on-paper-counts = Seeds still on paper count as not rooted yet.
outlook-floaters-of = floaters of { $of }
outlook-basis = From { $bags ->
    [one] { $bags } bag
   *[other] { $bags } bags
 } of { $of } by { $growers ->
    [one] { $growers } grower
   *[other] { $growers } growers
 }, all sources together.
outlook-basis-at = From { $bags ->
    [one] { $bags } bag
   *[other] { $bags } bags
 } of { $of } by { $growers ->
    [one] { $growers } grower
   *[other] { $growers } growers
 } at { $warmth }, all sources together.
outlook-warmths = { $low } to { $high } { $unit }
outlook-too-few-of-variety = The club has too few bags of this variety alone.
outlook-ring-trial-runs = There is no forecast for this bag: a running ring trial stays out of the club’s book until it is opened.
outlook-still-reckoned = The club’s bags are still being reckoned. Open this page again in a moment.
outlook-too-few = The club has too few bags of { $of } or other { $kind } to say more: { $bags } bags with { $rooted } rooted seeds are needed.
outlook-too-few-at = The club has too few bags of { $of } or other { $kind } at about { $warmth } to say more: { $bags } bags with { $rooted } rooted seeds are needed.
outlook-of-emergence = The published table is of emergence in soil, not of roots: Harrington & Minges 1954, as printed in Knott 1997 (seed half an inch deep in soil).
outlook-write-down-warmth = Write down its warmth for a guess from a published table.
