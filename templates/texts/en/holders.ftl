# Holders

holders-what-a-holder-is = A holder is one zip bag or box with several bags in it, each on its own paper. It is moved and damped as one.
holders-a-new-holder = A new holder
holders-where-it-is = Where it is
holders-where-it-is-help = Such as mat, windowsill, refrigerator.
holders-make-a-holder = Make a holder
holders-write-on-holder = Write { $mark } on the holder. Now put bags into it.
holders-title = Holder { $mark }
holders-open-bags = { $n ->
    [one] { $n } open bag
   *[other] { $n } open bags
 }
holders-look-at-its-bags = Look at its bags
holders-what-is-done = What is done
holders-put-in = Put the ticked bags in
holders-damp = Damp all its bags
holders-move = Move it, with all its bags
holders-take-out = Take the ticked bags out
holders-in-it = In it
holders-not-in-it = Not in it
holders-tick-the-bags = Tick the bags.
holders-were-put-in = put in
holders-were-taken-out = taken out
holders-done = { $n ->
    [one] { $what }: { $n } bag.
   *[other] { $what }: { $n } bags.
 }
holders-no-letters = You have no letters yet.
