# Was auf mehreren Seiten steht.
compare-of-paper = Bewurzelt { $when }, von Samen auf Papier. { $note }
compare-beside-our-own = Bereinigte Raten und Vergleiche rechnen { $others } neben unseren eigenen.
compare-lots-differ = Die Partien (Jahre) einer Bezugsquelle unterscheiden sich in den Daten dieses Vereins. Darum berücksichtigt der Unterschied, den der ganze Verein zeigt, dass die nächste Partie anders sein kann als die erprobten, und er ist weniger sicher als das, was Gärtner mit ihren Partien fanden.
compare-group-head = Gruppe
compare-raw = Roh
compare-from = Aus
compare-chance = Wahrscheinlich­keit
compare-none-of-ours = keine eigenen; { $others }

# Ein Unterschied von 100 Samen.
compare-as-many = gleich viele von 100 Samen
compare-more-of-100 = { $n } mehr von 100 Samen
compare-fewer-of-100 = { $n } weniger von 100 Samen
compare-as-many-as = gleich viele von 100 Samen wie { $other }
compare-more-than = { $n } mehr von 100 Samen als { $other }
compare-fewer-than = { $n } weniger von 100 Samen als { $other }
compare-span-from = (von { $low } bis { $high })
compare-none = 0
compare-more = { $n } mehr
compare-fewer = { $n } weniger
compare-found-with-chance = { $found }, Wahrscheinlichkeit { $chance } %

# Zwei Bezugsquellen.
compare-shown = { $better } bewurzelt besser als { $worse }: { $how }. { $both }
compare-probable = { $better } bewurzelt wahrscheinlich besser als { $worse }: { $how }. { $both }
compare-probable-by-both = { $better } bewurzelt wahrscheinlich besser als { $worse }: Gärtner, die beide hatten ({ $n }), fanden { $found }. Der ganze Verein neigt in dieselbe Richtung: { $how }.
compare-probable-by-both-of-lots = { $better } bewurzelt wahrscheinlich besser als { $worse }: Gärtner, die beide hatten ({ $n }), fanden { $found }. Der ganze Verein, weniger sicher, weil die nächste Partie anders sein kann, neigt in dieselbe Richtung: { $how }.
compare-unsettled = Nicht geklärt: Der ganze Verein sieht { $better } vor { $worse }: { $how }. { $both }
compare-if-anything = Wenn überhaupt, liegt { $better } vor { $worse }: { $how }. { $both }
compare-nobody-had-both = Niemand hatte beide; eine Kette von Gärtnern verbindet sie.
compare-one-is-not-enough = Der eine Gärtner, der beide hatte, fand dasselbe: { $found }; einer allein genügt nicht.
compare-both-found-the-same = { $n ->
    [one] Der eine Gärtner, der beide hatte, fand dasselbe: { $found }.
   *[other] Gärtner, die beide hatten ({ $n }), fanden dasselbe: { $found }.
 }
compare-both-saw-no-difference = { $n ->
    [one] Der eine Gärtner, der beide hatte, sah keinen Unterschied: { $found }.
   *[other] Gärtner, die beide hatten ({ $n }), sahen keinen Unterschied: { $found }.
 }
compare-both-lean-the-same = { $n ->
    [one] Der eine Gärtner, der beide hatte, neigt in dieselbe Richtung: { $found }; zu wenige Samen, um es allein nachzuweisen.
   *[other] Gärtner, die beide hatten ({ $n }), neigen in dieselbe Richtung: { $found }; zu wenige Samen, um es allein nachzuweisen.
 }
compare-both-lean-against = { $n ->
    [one] Der eine Gärtner, der beide hatte, neigt in die andere Richtung: { $found }; zu wenige Samen, um es allein nachzuweisen.
   *[other] Gärtner, die beide hatten ({ $n }), neigen in die andere Richtung: { $found }; zu wenige Samen, um es allein nachzuweisen.
 }
compare-both-found-the-opposite = { $n ->
    [one] Der eine Gärtner, der beide hatte, fand das Gegenteil: { $found }.
   *[other] Gärtner, die beide hatten ({ $n }), fanden das Gegenteil: { $found }.
 }
compare-verdict-shown = nachgewiesen
compare-verdict-by-both = wahrscheinlich, nach den Gärtnern, die beide hatten
compare-verdict-by-club = wahrscheinlich, nach dem ganzen Verein
compare-verdict-probable = wahrscheinlich; bei so vielen Paaren nicht sicher
compare-verdict-not-shown = kein Unterschied nachgewiesen
compare-verdict-unsettled = nicht geklärt: die beiden widersprechen sich

# Welche Bezugsquelle wieder.
compare-only-one-source = Nur { $source } wurde erprobt, darum gibt es keinen Vergleich.
compare-no-two-yet = Noch lassen sich keine zwei ihrer Bezugsquellen vergleichen.
compare-too-little-to-compare = Über ihre Bezugsquellen ist zu wenig bekannt, um sie zu vergleichen.
compare-no-difference-between = Kein Unterschied nachgewiesen zwischen { $sources }.
compare-buy = Kaufe wieder bei { $best }: Das Saatgut bewurzelt besser als das von { $others }.
compare-probably-buy = Kaufe wieder bei { $best }: Das Saatgut bewurzelt wahrscheinlich besser als das von { $others }.
compare-buy-one-of = Kaufe wieder bei { $best }, nicht bei { $others }.
compare-probably-buy-one-of = Kaufe wieder bei { $best }, wahrscheinlich nicht bei { $others }.
compare-to-show-it = Um einen Unterschied von 10 in 100 nachzuweisen, wären etwa { $seeds } Samen von jeder nötig: { $trials } Ansätze mit { $each } Samen jeder Bezugsquelle, wobei jeder Gärtner beide sät.
compare-apart = Nicht vergleichbar: { $these } mit { $main }. Kein Gärtner und keine Kette von Gärtnern hatte beide. Um sie zu verbinden, lass einige Gärtner beide säen.
compare-apart-each = Nicht vergleichbar: { $these } mit { $main }. Kein Gärtner und keine Kette von Gärtnern hatte beide. Auch untereinander lassen sie sich nicht vergleichen. Um sie zu verbinden, lass einige Gärtner beide säen.
compare-no-count-yet = noch keine Zählung
compare-grown-by = angebaut von { $growers }
compare-grown-by-others = angebaut von { $n } anderen

# Eine Sorte nach Bezugsquelle.
compare-variety-by-source = { $variety } nach Bezugsquelle
compare-set-up-a-ring = Ringversuch mit { $variety } anlegen
compare-ask-for-a-ring = In einem Ringversuch säen mehrere Gärtner dieselben Partien nach einem Plan: Bitte die Leitung um einen.
compare-of-paper-adjusted = Bewurzelt { $when }, von Samen auf Papier; bereinigt um { $effects }. { $note }
compare-by-the-day-instead = Stattdessen bis zum Stichtag
compare-at-close-instead = Stattdessen bis zum Abschluss
compare-raw-rates = Rohe Raten
compare-raw-rates-are = Von Samen auf Papier, bewurzelt { $when }. Diese sind noch nicht vergleichbar: Ein sorgfältiger Gärtner lässt eine Bezugsquelle gut aussehen.
compare-raw-rate = { $rate } ({ $low } bis { $high }), { $seeds } Samen
compare-pair-by-pair = Paar für Paar: wie viele von 100 Samen mit der ersten mehr bewurzeln
compare-pair = Paar
compare-growers-who-had-both = Gärtner, die beide hatten
compare-whole-club = Ganzer Verein
compare-chance-first = Wahrscheinlich­keit, dass die erste besser ist
compare-so = Also
compare-disagree = die beiden widersprechen sich
compare-many-pairs = Bei { $n } Paaren auf einmal kann eines durch Glück klar aussehen. „Nachgewiesen“ steht nur bei Paaren, die so klar sind, dass die Wahrscheinlichkeit für mindestens einen Fehlalarm über diese Paare unter 5 % bleibt.
compare-side-by-side = Ihre Bezugsquellen nebeneinander
compare-group-alone = Gruppe { $n } von { $all }: steht allein
compare-group-together = Gruppe { $n } von { $all }: untereinander vergleichbar
compare-chart = { $variety } nach Bezugsquelle, bewurzelt { $when }, von Samen auf Papier
compare-against = { $better } gegen { $worse }
compare-pair-nobody = niemand hatte beide
compare-pair-within = { $found }, { $n ->
    [one] 1 Gärtner
   *[other] { $n } Gärtner
 }
compare-too-little-for-adjusted = Für eine bereinigte Rate ist zu wenig über sie bekannt.
compare-floaters-bound = In { $n ->
    [one] 1 Ansatz
   *[other] { $n } Ansätzen
 } wurden Schwimmer weggeworfen: Wäre keiner davon bewurzelt, so läge die bereinigte Rate bei { $bound } % der angesetzten Samen, nicht bei { $all } %.

# Warum bereinigte und rohe Rate sich unterscheiden.
compare-adjusted-is-lower = Die bereinigte Rate ist niedriger als die rohe: { $why }.
compare-adjusted-is-higher = Die bereinigte Rate ist höher als die rohe: { $why }.
compare-growers-do-better = ihre Gärtner haben mit ihrem übrigen Saatgut mehr Erfolg als der Durchschnitt (um { $n } von 100)
compare-growers-do-worse = ihre Gärtner haben mit ihrem übrigen Saatgut weniger Erfolg als der Durchschnitt (um { $n } von 100)
compare-drawn-to-the-usual = sie wird zu dem hingezogen, was für ihre Sorte und Art üblich ist, umso mehr, je weniger von ihr bekannt ist
compare-more-root-so = so bewurzeln mehr Samen
compare-fewer-root-so = so bewurzeln weniger Samen
compare-another-routine = ein großer Teil ihres Saatguts durchlief einen anderen Ablauf, „{ $routine }“
compare-lay-warmer = ihre Beutel lagen wärmer als die meisten
compare-lay-colder = ihre Beutel lagen kälter als die meisten
compare-was-older = ihr Saatgut war älter als das meiste
compare-was-fresher = ihr Saatgut war frischer als das meiste

# Eine Bezugsquelle über die Sorten.
compare-source-across = { $source } über die Sorten
compare-beside-others = Ihre Sorten neben denen anderer Bezugsquellen
compare-of-100-root = Von 100 Samen bewurzeln
compare-cannot-be-compared = Nicht vergleichbar mit { $sources }: Kein Gärtner und keine Kette von Gärtnern hatte beide.
compare-no-other-source = Keine andere Bezugsquelle wurde erprobt.
compare-across-better = Ihr Saatgut bewurzelt besser als das der durchschnittlichen Bezugsquelle des Vereins: { $found }, Wahrscheinlichkeit { $chance } %.
compare-across-worse = Ihr Saatgut bewurzelt schlechter als das der durchschnittlichen Bezugsquelle des Vereins: { $found }, Wahrscheinlichkeit { $chance } %.
compare-across-if-better = Kein Unterschied zur durchschnittlichen Bezugsquelle des Vereins nachgewiesen; wenn überhaupt, dann besser: { $found }, Wahrscheinlichkeit { $chance } %.
compare-across-if-worse = Kein Unterschied zur durchschnittlichen Bezugsquelle des Vereins nachgewiesen; wenn überhaupt, dann schlechter: { $found }, Wahrscheinlichkeit { $chance } %.
compare-across-missing = Keine einzelne Zahl für diese Bezugsquelle über die Sorten: Sie wurde mit { $n ->
    [one] 1 Sorte
   *[other] { $n } Sorten
 } erprobt, und es braucht zwei oder mehr, dazu drei Bezugsquellen, die gemeinsame Gärtner verbinden, und einen Unterschied zwischen Bezugsquellen, der durch ihre Sorten hindurchgeht.
compare-sure-probable = wahrscheinlich
compare-sure-unsettled = nicht geklärt

# Was hilft.
compare-what-helps-short = Was hilft
compare-what-helps = Was hilft: Ablauf, Wärme, Alter, Schwimmer
compare-how-answers-come = Jede Antwort kommt nur von Gärtnern, die es auf beide Weisen versucht haben, jeder mit sich selbst verglichen: Sonst ließe ein sorgfältiger Gärtner, der zufällig auch einweicht, das Einweichen gut aussehen. Sorte, Bezugsquelle und die anderen Fragen hier sind berücksichtigt.
compare-nobody-tried-both = Noch hat es niemand auf beide Weisen versucht, darum gibt es keine Antwort. { $advice }
compare-start-trials = Neue Ansätze
compare-does-the-routine-help = Hilft der Ablauf?
compare-does-warmth-help = Hilft Wärme?
compare-does-age-matter = Spielt das Alter des Saatguts eine Rolle?
compare-do-floaters-root = Bewurzeln Schwimmer?
compare-advice-split = Teile eine Tüte in gepaarte Ansätze, die sich nur darin unterscheiden; was du damit findest, erscheint hier.
compare-advice-age = Zieh altes und frisches Saatgut einer Sorte und Bezugsquelle nebeneinander; was du damit findest, erscheint hier.
compare-advice-floaters = Gib die Schwimmer bei der Schwimmprobe in einen eigenen Beutel; was du damit findest, erscheint hier.
compare-routine-against-usual = { $verdict ->
    [more] Mit „{ $routine }“ bewurzeln mehr Samen als mit dem üblichen Ablauf des Vereins.
    [fewer] Mit „{ $routine }“ bewurzeln weniger Samen als mit dem üblichen Ablauf des Vereins.
   *[none] „{ $routine }“ gegen den üblichen Ablauf des Vereins: kein Unterschied nachgewiesen.
 }
compare-routine-against = { $verdict ->
    [more] Mit „{ $routine }“ bewurzeln mehr Samen als mit „{ $usual }“, dem üblichen Ablauf.
    [fewer] Mit „{ $routine }“ bewurzeln weniger Samen als mit „{ $usual }“, dem üblichen Ablauf.
   *[none] „{ $routine }“ gegen „{ $usual }“, den üblichen: kein Unterschied nachgewiesen.
 }
compare-each-step-warmer = { $verdict ->
    [more] Je { $step } wärmer bewurzeln mehr Samen.
    [fewer] Je { $step } wärmer bewurzeln weniger Samen.
   *[none] Je { $step } wärmer: kein Unterschied nachgewiesen.
 }
compare-each-year-older = { $verdict ->
    [more] Mit jedem Jahr Alter bewurzeln mehr Samen.
    [fewer] Mit jedem Jahr Alter bewurzeln weniger Samen.
   *[none] Jedes Jahr älter: kein Unterschied nachgewiesen.
 }
compare-floated-against-sank = { $verdict ->
    [more] Von Samen, die schwammen, bewurzeln mehr als von Samen, die im selben Ansatz sanken.
    [fewer] Von Samen, die schwammen, bewurzeln weniger als von Samen, die im selben Ansatz sanken.
   *[none] Samen, die schwammen, gegen Samen, die im selben Ansatz sanken: kein Unterschied nachgewiesen.
 }
compare-found-by = Gefunden: { $found }, von { $growers ->
    [one] 1 Gärtner, der beides versucht hat
   *[other] { $growers } Gärtnern, die beides versucht haben
 }, in { $trials ->
    [one] 1 Ansatz
   *[other] { $trials } Ansätzen
 }.

# Der Bericht für die Versammlung.
compare-report = Bericht für die Vereinsversammlung
compare-a4-instead = Stattdessen A4
compare-letter-instead = Stattdessen US Letter
compare-print-at-100 = Drucke aus dem Menü des Browsers, mit 100 %.
compare-which-to-buy = { $club }: bei welcher Bezugsquelle wieder kaufen
compare-report-of = Bewurzelt { $when }, von Samen auf Papier. { $note } Gedruckt am { $printed }.
compare-no-two-sources = Noch wurde keine Sorte aus zwei Bezugsquellen erprobt.
compare-in-short = Kurz gesagt
compare-no-differences = Noch zeigt keine Sorte einen Unterschied zwischen ihren Bezugsquellen.
compare-others-show-none = Die anderen zeigen keinen Unterschied zwischen den Bezugsquellen oder lassen sich noch nicht vergleichen.
compare-adjusted-interval = Bereinigt (95-%-Intervall)
compare-one-source-only = { $n ->
    [one] { $n } weitere Sorte wurde nur aus einer Bezugsquelle erprobt.
   *[other] { $n } weitere Sorten wurden nur aus einer Bezugsquelle erprobt.
 }
compare-how-to-read = Wie das zu lesen ist
compare-read-adjusted = Bereinigt: der Anteil, den ein Gärtner mit durchschnittlicher Pflege bewurzelt sähe; ein Modell des ganzen Vereins bereinigt um { $effects }.
compare-read-brackets = In Klammern: 95-%-Intervall; wenige Samen machen es breit. Die Raten zählen bewurzelte Samen, nicht Keimlinge wie eine aufgedruckte Keimfähigkeit in Prozent.
compare-read-chance = Wahrscheinlichkeit: dass die erste von zwei Bezugsquellen besser bewurzelt. Gärtner, die beide hatten, kommen zuerst zu Wort.
compare-read-probably = „Wahrscheinlich“: klar, wenn man es allein liest. Ohne dieses Wort: so klar, dass die Wahrscheinlichkeit für mindestens einen Fehlalarm über die Paare einer Sorte unter 5 % bleibt (Holm).
compare-read-groups = Bezugsquellen in verschiedenen Gruppen haben keine gemeinsamen Gärtner, auch keine Kette davon, und werden nicht verglichen.
