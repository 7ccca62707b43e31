# Shares in words.

charts-per-cent-rooted = % rooted
charts-days-on-paper = days on paper
charts-from-to = { $low } to { $high } %
charts-share-with-interval = { $share } % ({ $low } to { $high })
charts-raw-share = raw { $share } %

# The curve.

charts-line-that-rises = A line that rises in steps from 0 % on day 0 and ends on day { $day } at { $share } %. The band around it is its 95 % interval, at the end { $low } to { $high } %.
charts-line-that-stays = A line that stays at 0 % and ends on day { $day } at 0 %. The band around it is its 95 % interval, at the end { $low } to { $high } %.
charts-curve-as-table = The curve as a table
charts-share-rooted-by-day = Share rooted by day, with its 95 % interval
charts-by-day = By day
charts-rooted = Rooted
charts-interval = Interval

# Dots.

charts-dots-with-whiskers = { $n ->
    [one] { $n } dot with whiskers: { $first } at { $first_share } %. The whiskers are its 95 % interval; the table has the numbers.
   *[other] { $n } dots with whiskers, one below the other, from { $first } at { $first_share } % to { $last } at { $last_share } %. The whiskers are 95 % intervals; the table has the numbers.
 }
charts-shapes = Shapes are adjusted rates, lines their 95 % intervals.
charts-shapes-and-crosses = Shapes are adjusted rates, lines their 95 % intervals; a cross is the raw rate.
charts-same-as-table = The same as a table
charts-source = Source
charts-adjusted = Adjusted
charts-raw = Raw
charts-from = From
