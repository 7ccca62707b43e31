# Moments, spans, numbers and lists.

words-weekdays = Mon Tue Wed Thu Fri Sat Sun
words-months = Jan Feb Mar Apr May Jun Jul Aug Sep Oct Nov Dec
words-day = { $weekday } { $day } { $month }
words-date = { $day } { $month } { $year }
words-short-date = { $day } { $month }
words-today = today
words-yesterday = yesterday
words-tomorrow = tomorrow

words-out-at = out at { $time }
words-out-on = out { $moment }
words-out-in = out in { $span }
words-out-now = out now
words-out-over = out now, { $span } over

words-seconds = { $n } s
words-minutes = { $n } min
words-hours = { $n } h
words-hours-minutes = { $hours } h { $minutes } min
words-days = { $n ->
    [one] { $n } day
   *[other] { $n } days
 }

words-decimal-mark = .
words-seeds = { $n ->
    [one] { $n } seed
   *[other] { $n } seeds
 }
words-and = and
words-or = or
