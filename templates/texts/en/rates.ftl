# The club table.
rates-club-table = Club table
rates-of-started-by-day = Of the seeds started, less those lost or put back (floaters thrown out count as not rooted): the share whose root was out by the standard day of the kind.
rates-of-started-at-close = Of the seeds started, less those lost or put back (floaters thrown out count as not rooted): the share whose root was out when the bag was closed, however late.
rates-of-paper-by-day = Of the seeds that went on paper, less those lost: the share whose root was out by the standard day of the kind.
rates-of-paper-at-close = Of the seeds that went on paper, less those lost: the share whose root was out when the bag was closed, however late.
rates-in-brackets = In brackets is the 95 % interval; it allows for bags, trials and growers being unlike each other.
rates-about-the-standard-day = The standard day is the published day of the final count of normal seedlings. These are rooted seeds, not seedlings: do not set them beside a printed germination percentage.
rates-standard-days = Standard days: { $days }.
rates-own-standard-days = No day is published for these, so the club's own is used, by which 95 % of all its rooted seeds were out: { $days }.
rates-kind-and-day = { $kind } day { $day }
rates-as-of-now = The rates are as of { $when }, with every count in them.
rates-as-of-before = The rates are as of { $when }, { $n ->
    [one] 1 count
   *[other] { $n } counts
 } since: they come in within a minute.
rates-rest-is-our-own = Everything else in this table is of our own counts only.
rates-not-in-the-rates = Not in the rates: { $late }, { $doubt }, { $abandoned }.
rates-bags-too-late = { $n ->
    [one] { $n } bag that went on paper too lately
   *[other] { $n } bags that went on paper too lately
 }
rates-running-bags-count = Bags still running, or closed early, count with what is known of them and never as failures.
rates-do-floaters-fail = Do floaters fail?
rates-calculators = Calculators
rates-other-clubs = Other clubs
rates-table-as-file = This table as a file (CSV)
rates-counts-as-file = The counts behind it (CSV)
rates-files-without-names = No name of another member goes out with these files: in the counts their growers, trials and bags are numbers, the same all through a file, and seed that a member saved is called after that number. What is yours keeps its marks in the counts.
rates-counts-with-names = The counts with names, for organisers
rates-with-names = With the names of growers, and the marks of their bags; they agreed
rates-save-the-file = Save the file (CSV)
rates-about-the-files = The file of the table also holds the adjusted rates where no season, grower or routine is chosen, and says of each row as of when it is. The counts can be read by <code>hilum analyse</code>; with <code>--as-of</code> and today’s date it prints this table.
rates-about-the-files-of-clubs = The file of the table also holds the adjusted rates where no season, grower or routine is chosen, and says of each row as of when it is. The counts can be read by <code>hilum analyse</code>; with <code>--as-of</code> and today’s date it prints this table, adjusted by our own counts alone.

# What is pooled.
rates-choose = Choose what to pool
rates-rate-of = Rate of
rates-seeds-started = seeds started
rates-seeds-on-paper = seeds on paper
rates-by-the-standard-day = by the standard day
rates-at-the-close = at the close
rates-on-paper-in = On paper in
rates-grower = Grower
rates-routine = Routine
rates-any = any
rates-show = Show
rates-everything = Everything

# The rows.
rates-no-rows = No bag has come to its standard day yet, or none fits what you chose. A bag enters by the day it went on paper; look into it and its seeds count here.
rates-rows-of-started-by-day = Rooted of seeds started, by the standard day; 95 % interval in brackets
rates-rows-of-started-at-close = Rooted of seeds started, at the close; 95 % interval in brackets
rates-rows-of-paper-by-day = Rooted of seeds on paper, by the standard day; 95 % interval in brackets
rates-rows-of-paper-at-close = Rooted of seeds on paper, at the close; 95 % interval in brackets
rates-variety = Variety
rates-source = Source
rates-kind = Kind
rates-rate = Rate
rates-adjusted = Adjusted
rates-rooted = Rooted
rates-trials = Trials
rates-bags = Bags
rates-growers = Growers
rates-half-rooted-by = Half rooted by
rates-signs = Signs
rates-not-known-yet = not known yet
rates-span = ({ $low } to { $high })
rates-seeds-of-growers = { $seeds ->
    [one] { $seeds } seed
   *[other] { $seeds } seeds
 }, { $growers ->
    [one] { $growers } grower
   *[other] { $growers } growers
 }
rates-part-of = { $n } of { $all }
rates-days = { $n } days
rates-doubtful-cross = { $variety } (doubtful cross)
rates-pages = Pages of the table
rates-earlier = Earlier
rates-later = Later
rates-page = page { $n } of { $all }

# The signs of a row, and what they mean.
rates-few-seeds = few seeds
rates-estimated = estimated
rates-bags-closed-early = { $n ->
    [one] { $n } bag closed before the day
   *[other] { $n } bags closed before the day
 }
rates-bags-running = { $n ->
    [one] { $n } bag still running
   *[other] { $n } bags still running
 }
rates-bags-not-there = { $n ->
    [one] { $n } bag not there yet
   *[other] { $n } bags not there yet
 }
rates-floaters-thrown-out = floaters thrown out
rates-bags-in-doubt = { $n ->
    [one] { $n } bag in doubt
   *[other] { $n } bags in doubt
 }
rates-bags-abandoned = { $n ->
    [one] { $n } bag abandoned
   *[other] { $n } bags abandoned
 }
rates-own-day = the club's own day
rates-group = group { $n } of { $all }
rates-what-signs-mean = What the signs mean
rates-few-seeds-means = Worth fewer than 30 independent seeds; the interval shows how little is known.
rates-estimated-means = No look fell within a day of the standard day in some bag; the curve through all looks stands in.
rates-closed-early = closed before the day
rates-closed-early-means = The bag was given up with seeds still on paper; they count as not known, not as failed.
rates-not-there = not there yet
rates-not-there-means = Bags that went on paper fewer days ago than the standard day. All bags of a day enter together, so that quick ones do not come first.
rates-thrown-out-means = They were paid for, so of seeds started they count as not rooted; nobody knows whether they would have.
rates-doubt-or-abandoned = in doubt, abandoned
rates-doubt-means = These bags left the rate.
rates-adjusted-means = Open a variety to see its sources compared, and why raw and adjusted rates differ.
rates-group-sign = group
rates-group-means = Sources of a variety can be compared only within a group: a chain of growers who share sources links them.
rates-half-rooted-means = Days on paper until half of the seeds that root have rooted.

# Adjusted rates.
rates-no-adjusted-here = No adjusted rates here: they come from the whole club at once, which is how they can tell the seed from its growers. Choose any season, grower and routine to see them.
rates-about-adjusted = Adjusted is what a grower of average care would see, of seeds on paper. It comes from the whole club at once and is adjusted for { $effects }. { $age }
rates-about-adjusted-with-others = Adjusted is what a grower of average care would see, of seeds on paper. It comes from the whole club at once, { $others }, and is adjusted for { $effects }. { $age }
rates-adjusted-for-grower = grower
rates-adjusted-for-routine = routine
rates-adjusted-for-warmth = warmth
rates-adjusted-for-age = age of the seed
rates-too-little-known = too little is known
rates-not-worked-out-yet = not worked out yet
rates-of-other-clubs = { $seeds ->
    [one] { $seeds } seed
   *[other] { $seeds } seeds
 } of { $clubs ->
    [one] { $clubs } other club
   *[other] { $clubs } other clubs
 }
rates-with-other-clubs = with { $seeds ->
    [one] { $seeds } seed
   *[other] { $seeds } seeds
 } of { $clubs ->
    [one] { $clubs } other club
   *[other] { $clubs } other clubs
 }
rates-first-comparison = The sources are being compared for the first time. Open this page again in a minute.
rates-did-not-settle = The comparison did not settle: from the counts so far nobody can tell how sure its numbers would be, so none is shown. The raw rates stand. More trials will help.
rates-nothing-to-compare = No bag has come to its standard day yet, so there is nothing to compare.
rates-cannot-be-worked-out = The comparison cannot be worked out from these counts, so no number of it is shown. The raw rates stand.
rates-standing-as-of = As of { $when }, with every count in it.
rates-standing-before = As of { $when }. Counts since then are not in it yet; it is worked out again within minutes.

# Wrong addresses, and files.
rates-no-such-column = The table has no such column.
rates-no-such-table = The address asks for a table that there is not. Choose on the page of the table.
rates-file-is-being-made = The file is being made
rates-file-takes-a-while = All counts of the club go into it, which takes a while. Open it again in a minute.

# Floaters.
rates-floaters = Floaters
rates-rule-of-thumb = The rule of thumb says that seeds which float at the end of the soak seldom root. Whether that holds for your seeds, only your seeds can tell: at the float tally choose “own bag” for the floaters, look into both bags, and close both.
rates-floaters-rooted = Of the floaters, rooted all the same
rates-sinkers-rooted = Of the sunk seeds, rooted
rates-odds-of-failing = Odds of failing, floaters against sunk seeds of the same lot
rates-brackets = In brackets are 95 % intervals.
rates-about-odds = The odds compare within each lot, so that a poor lot with many floaters does not mislead: 1 would mean that floating tells nothing; above 1, floaters fail more often.
rates-no-evidence-for-peppers = Published evidence for peppers was not found. Hilum never writes floaters off by itself: what becomes of them is for you to say at the float tally.
rates-floats-by-lot = By lot: seeds on paper, and how many rooted by the close, in { $n ->
    [one] { $n } trial
   *[other] { $n } trials
 }
rates-source-and-year = Source and year
rates-floated = Floated
rates-sank = Sank
rates-lots-that-tell-most = The { $shown } lots that tell most are shown; all { $all } are in the figures above.
rates-not-in-the-figures = What is not in these figures
rates-thrown-out = Floaters thrown out: { $seeds }. Nobody can ever judge whether they would have rooted.
rates-kept-in = Floaters kept in with the sunk seeds: { $seeds }. They were not followed apart, so they cannot be judged either.
rates-seeds-of-trials = { $seeds ->
    [one] { $seeds } seed
   *[other] { $seeds } seeds
 } of { $trials ->
    [one] { $trials } trial
   *[other] { $trials } trials
 }
rates-nothing-else-left-out = Nothing else is left out.
rates-left-out = Left out: { $what }.
rates-left-out-running = { $n ->
    [one] { $n } seed of trials with a bag that still runs
   *[other] { $n } seeds of trials with a bag that still runs
 }
rates-left-out-sown = { $n ->
    [one] { $n } seed sown unrooted
   *[other] { $n } seeds sown unrooted
 }
rates-when-a-trial-enters = A trial enters when each of its bags is closed, empty, or was seen at the standard day of its kind; of trials without a bag of floaters nothing is taken.
rates-none-on-paper = none
rates-some-rooted = { $n }, rooted { $rooted }
rates-lot = lot { $code }
rates-failed-while-none-sank = In this club's seeds, floaters failed while no seed failed among the sunk seeds of the same lot.
rates-failed-times = In this club's seeds, floaters failed about { $times } times as often as sunk seeds of the same lot.
rates-failed-somewhat-more = In this club's seeds, floaters failed somewhat more often than sunk seeds of the same lot.
rates-failed-less = In this club's seeds, floaters failed less often than sunk seeds of the same lot: nothing here supports throwing them out.
rates-rooted-as-well = Floaters rooted about as well as sunk seeds of the same lot: nothing here supports throwing them out.
rates-floaters-do-not-tell = The club's seeds do not tell yet: floaters may have failed more often than sunk seeds, or just as often. Nothing here supports throwing them out.
rates-all-or-none-rooted = Nothing to tell apart yet: in every lot that has both, all seeds rooted or none did.
rates-no-lot-has-both = No lot has both yet: put floaters in a bag of their own to find out.
rates-yet-some-rooted = Yet { $percent } % of the floaters rooted all the same.
rates-no-floater-rooted = None of the floaters rooted.
rates-no-seeds-yet = no seeds yet
rates-share = { $percent } % ({ $low } to { $high }): { $x } of { $n ->
    [one] { $n } seed
   *[other] { $n } seeds
 }
rates-odds-ratio = { $ratio } ({ $low } to { $high })
rates-odds-without-limit = without limit: no sunk seed failed
rates-odds-nought = 0: no floater failed
rates-given-up-the-same = Some bags were given up before the standard day; without those trials the finding is the same.
rates-given-up-everywhere = Take care: in every trial that compares, some bag was given up before the standard day, and a floater that is given up early cannot root late.
rates-given-up-otherwise = Take care: some bags were given up before the standard day, and without those trials the seeds do not say the same. A floater that is given up early cannot root late.
rates-how-worked-out = How this is worked out
