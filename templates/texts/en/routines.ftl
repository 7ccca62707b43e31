# The list of routines.

routines-routines = Routines
routines-what-they-are = The ordered steps before the paper. A version that a trial has used stays as it was; an edit makes a new one.
routines-new-routine = New routine
routines-mix-a-solution = Mix a solution
routines-calculators = Calculators
routines-your-trials = Your trials
routines-none-yet = No routine yet.
routines-steps = { $n ->
    [0] no steps
    [one] { $n } step
   *[other] { $n } steps
 }
routines-version = version { $number }
routines-by = by { $name }
routines-ready-starter = ready starter
routines-start-with = Start <span class="vh">a trial with { $routine }</span>
routines-retired-ones = Retired

# One routine.

routines-version-title = Version { $number }
routines-used-and-frozen = used and therefore frozen
routines-retired = retired
routines-straight-to-paper = No steps: seed goes dry, straight to paper.
routines-start-a-trial = Start a trial
routines-mix-solution = Mix { $solution }
routines-edit = Edit
routines-copy = Copy as a new routine
routines-older-versions = Older versions
routines-used-by = { $n ->
    [one] Used by { $n } trial.
   *[other] Used by { $n } trials.
 }
routines-use-again = Take into use again
routines-retire = Retire this routine

# Editing one.

routines-edit-a-routine = Edit a routine
routines-edit-named = Edit: { $routine }
routines-saving-makes-version = Version { $number } was used, so saving makes version { $next }.
routines-name = Name
routines-note = Note
routines-note-help = Where it comes from; common practice, or whose advice.
routines-step-number = Step { $n }
routines-what-is-done = What is done
routines-no-step = no step
routines-agent = Agent
routines-agent-help = Such as water, hydrogen peroxide.
routines-time = Time
routines-time-in = in
routines-minutes = minutes
routines-hours = hours
routines-temperature = Temperature, { $unit }
routines-more-of-step = Strength, dose, place, note<span class="vh"> of step { $n }</span>
routines-stock-strength = Stock strength, %
routines-stock-strength-help = As on the bottle.
routines-wanted-strength = Wanted strength, %
routines-dose = Or a dose in words
routines-dose-help = Such as 2 drops to the vial.
routines-place = Place
routines-place-help = Such as refrigerator.
routines-caution-or-note = Caution or note
routines-save-the-routine = Save the routine
routines-more-rows = More rows

# The fields of a step, in errors that are read apart from them.

routines-field-of-step = Step { $n }, { $field }
routines-field-act = what is done
routines-field-agent = agent
routines-field-stock = stock strength
routines-field-strength = wanted strength
routines-field-dose = dose
routines-field-time = time
routines-field-unit = unit of time
routines-field-warmth = temperature
routines-field-place = place
routines-field-note = note
routines-quoted = “{ $act }”

# What was saved, and what cannot be.

routines-saved-named = Saved: { $routine }.
routines-saved = Saved.
routines-saved-as-version = Saved as version { $number }. Trials that ran keep the version they used.
routines-in-use-again = In use again.
routines-now-retired = Retired: it is no longer offered for new trials.
routines-name-taken = There is a routine of this name. Please choose another.
routines-choose-the-act = Please choose what this step does.
routines-stronger-than-the-stock = Stronger than the stock: a stock cannot be diluted to more than its own strength.

# Steps in words.

routines-act-in = { $act } in { $agent }
routines-act-stand-water = Let tap water stand
routines-act-sanitising-soak = Sanitising soak
routines-act-rinse = Rinse
routines-act-priming-soak = Priming soak
routines-act-drain = Drain
routines-act-rest = Rest
routines-act-step = Step
routines-at-warmth = at { $warmth }

# Names of the ready routines.

routines-ready-peroxide = Peroxide soak, then overnight in the cold
routines-ready-overnight = Plain water overnight
routines-ready-standing = Standing water, then overnight
routines-ready-dry = Dry seed, straight to paper

# What the ready routines hold.

routines-common-practice = Common practice, no source.
routines-hydrogen-peroxide = hydrogen peroxide
routines-equal-parts-of-peroxide = equal parts of 3 % peroxide and water
routines-water = water
routines-three-waters = three waters
routines-tap-water = tap water
routines-open-jar = In an open jar; the seeds stay dry until the next step.
routines-refrigerator = refrigerator

# Mixing.

routines-mix = Mix
routines-vials-or-vessels = Vials or vessels
routines-vials-or-vessels-help = How many.
routines-each-holds = Each holds
routines-measured-in = measured in
routines-us-teaspoons = US teaspoons
routines-us-fluid-ounces = US fluid ounces
routines-work-it-out = Work it out
routines-give-a-number = Please give a number.
routines-not-possible = Not possible: { $reason }.
routines-no-volume = the volume is 0
routines-not-above-its-strength = a stock cannot be diluted to more than its own strength
routines-not-reachable = adding stock to water never reaches the strength of the stock
routines-stock-is-zero = the strength of the stock is 0
routines-vessels = { $n ->
    [one] { $n } vessel
   *[other] { $n } vessels
 }
routines-stock-as-it-is = the stock as it is, without water
routines-equal-parts = equal parts of stock and water
routines-parts-of-water = 1 part of stock to { $parts } parts of water
routines-pour = Pour
routines-each-vessel = Each vessel
routines-in-all = In all
routines-stock = Stock
routines-diluting-water = Water
routines-together = Together
routines-drops = { $n ->
    [one] { $n } drop
   *[other] { $n } drops
 }
routines-teaspoons = { $n } tsp
routines-less-than-a-teaspoon = less than 1/8 tsp, { $share } of one
routines-how-reckoned = Stock strength times stock volume is wanted strength times whole volume. A dropper gives 18 to 22 drops to the ml; 20 are reckoned with.

# Solutions as made.

routines-made-it = Made it?
routines-opened-on = Bottle opened on
routines-opened-on-help = An opened bottle loses strength.
routines-opened-in-the-future = That is in the future. Give the day the bottle was opened.
routines-discard-on = Discard by
routines-discard-on-help = The last day you would use it.
routines-discard-is-over = That day is over. Give a day to come, or leave it empty.
routines-which-vials = Which vials, or a note
routines-note-as-made = Note it as made
routines-noted-as-made = Noted: { $agent } as made now.
routines-your-solutions = Your solutions
routines-no-solution-yet = None noted yet.
routines-made = made { $when }
routines-discard-by = discard by { $day }
routines-bottle-opened = bottle opened { $day }
routines-past-its-discard-day = past its discard day
routines-used-before = used before

# Cautions. The manual says them in the same words.

routines-oxidiser = Strong oxidiser.
routines-oxidiser-what-to-do = Peroxide above 8 % burns eyes and skin and can set other things alight. Wear goggles and gloves, keep it in its own vented bottle away from heat, metal and anything that burns, and always pour it into water.
routines-peroxide = Stronger than household peroxide.
routines-peroxide-what-to-do = It burns skin and eyes. Wear gloves and eye protection, and have water at hand to rinse.
routines-bleach = Bleach.
routines-bleach-what-to-do = Never with acid (vinegar too), ammonia or peroxide: the gases are poisonous. Rinse vessels and seed well before another agent follows. Open a window, wear gloves and eye protection.
routines-hot-water = Hot water.
routines-hot-water-what-to-do = It scalds, and a few degrees too many kill the seed. Measure with a thermometer, keep children away, and keep cords and plugs out of reach of water.
routines-treated-seed = Treated seed.
routines-treated-seed-what-to-do = The coat can hold a poison: gloves, no dust breathed in, nothing of it eaten or fed. Soaking washes it into the water, which then may not go down the drain.
routines-coated-seed = Pelleted or primed seed.
routines-coated-seed-what-to-do = It is made to be sown as it is: a soak dissolves the pellet or undoes the priming, and there is no float tally.
routines-pepper-seed = Pepper seed.
routines-pepper-seed-what-to-do = Hot peppers leave their burn on seeds, water and fingers. Wear gloves and keep your hands off your eyes.
routines-electricity = Electricity near water.
routines-electricity-what-to-do = Heat mats and wet bags: use a mat made for it, behind a protective switch (RCD or GFCI), with dry hands at the plug.
routines-first-of-all = First of all
routines-first-of-all-what = the label of your product, the rules where you live, and what licensed practice says. They come before this page.
