# Rechner
calculators-title = Rechner
calculators-nothing-stored = Nichts, was du eingibst, wird gespeichert, außer du vermerkst eine Lösung als angesetzt. Die Adresse einer Antwort enthält die Frage, du kannst sie also jemandem schicken.
calculators-mixing = Mischen
calculators-about-mixing = Wie viel Stammlösung und wie viel Wasser für die benutzten Röhrchen, in ml, Teelöffeln und Tropfen, mit den Vorsichtshinweisen.
calculators-how-many-to-sow = Wie viel säen
calculators-about-sowing = So viele Pflanzen sollen es werden: wie viele Samen einzuweichen sind, damit du darauf zählen kannst.
calculators-comparison = Samen für einen Vergleich
calculators-about-comparison = Zwei Bezugsquellen, die sich unterscheiden könnten: wie viele Samen und Beutel von jeder es braucht, um es zu sehen.

# Wörter beider
calculators-no-answer-yet = Noch keine Antwort.
calculators-answer = Antwort
calculators-ask-again = Noch einmal fragen
calculators-how-worked-out = Wie das ausgerechnet wird
calculators-work-it-out = Ausrechnen
calculators-certainty = Sicherheit
calculators-certainty-percent = Sicherheit, %
calculators-seeds-to-soak = Samen zum Einweichen
calculators-plants-on-average = Pflanzen im Mittel
calculators-seeds = Samen
calculators-bags = Beutel
calculators-give-a-number = Bitte gib eine Zahl an.

# Wie viel säen: die Antwort
calculators-for-plants = Für { $plants } oder mehr Pflanzen
calculators-soak = { $n } Samen einweichen.
calculators-no-number-is-enough = Bis { $most } reicht keine Samenzahl.
calculators-each-must-become = Jeder Same muss eine Pflanze werden, und das ist zu { $certainty } % sicher.
calculators-certain-to = { $plants ->
    [one] Sicher zu { $certainty } %: Von 100 Aussaaten mit je { $seeds } würden etwa { $share } mindestens { $plants } Pflanze geben. Mit einem Samen weniger wären es etwa { $fewer }.
   *[other] Sicher zu { $certainty } %: Von 100 Aussaaten mit je { $seeds } würden etwa { $share } mindestens { $plants } Pflanzen geben. Mit einem Samen weniger wären es etwa { $fewer }.
 }
calculators-plants-out-of-reach = So viele Pflanzen sind mit { $certainty } % Sicherheit nicht zu erreichen, solange so wenig über die Rate bekannt ist oder die Rate so niedrig ist. Plane weniger Pflanzen oder weniger Sicherheit, oder prüfe mehr Samen.
calculators-on-average = Im Mittel geben so viele { $plants } Pflanzen.
calculators-out-of-reach = unerreichbar
calculators-sum = { $n ->
    [one] { $plants } ÷ { $rates } = { $n } Same
   *[other] { $plants } ÷ { $rates } = { $n } Samen
 }
calculators-by-hand-less = { $plants ->
    [one] Von Hand gerechnet: { $sum }. Im Mittel stimmt das, aber nur etwa { $share } von 100 solchen Aussaaten würden mindestens { $plants } Pflanze geben.
   *[other] Von Hand gerechnet: { $sum }. Im Mittel stimmt das, aber nur etwa { $share } von 100 solchen Aussaaten würden mindestens { $plants } Pflanzen geben.
 }
calculators-by-hand-enough = Von Hand gerechnet: { $sum }, das sind hier nicht weniger.
calculators-by-hand-uncertain = Von Hand gerechnet: { $sum }, ganz ohne Sicherheit.
calculators-where-numbers-came-from = Woher die Zahlen kommen
calculators-rooting-from-club = Bewurzelung: aus der Vereinstabelle, { $name }: { $rate } % ({ $low } bis { $high }) bis zum Stichtag, von { $seeds } angesetzten Samen in { $bags ->
    [one] { $bags } Beutel
   *[other] { $bags } Beuteln
 } von { $growers ->
    [one] { $growers } Gärtner
   *[other] { $growers } Gärtnern
 }. Beutel und Ansätze sind untereinander verschieden, deshalb sagen diese nicht mehr als eine Keimprobe mit { $test } Samen, davon { $rooted } bewurzelt, und damit ist gerechnet.
calculators-rooting-your-rate = Bewurzelung: deine Rate, als sicher angenommen. Stammt sie aus einer Keimprobe, gib die Probe an: Eine Rate aus wenigen Samen braucht mehr Samen.
calculators-rooting-your-test = Bewurzelung: deine Keimprobe, { $rooted } von { $tested }. Dass die wahre Rate niedriger oder höher sein kann, ist berücksichtigt.
calculators-tray-your-numbers = In der Platte: deine Zahlen.
calculators-tray-of-club = In der Platte: aus den Platten des Vereins, wo { $grown } von { $planted } bewurzelten Samen davon, vor { $weeks } Wochen oder früher gepflanzt, Pflanzen wurden.
calculators-tray-not-counted = In der Platte: Verluste nach der Bewurzelung sind nicht gezählt, jeder bewurzelte Same gilt als Pflanze. Gib unten deine Zahlen an, wenn dir welche eingehen.

# Wie viel säen: die Frage
calculators-plants-wanted = Gewünschte Pflanzen
calculators-sowing-certainty-help = 90: Neun von zehn Aussaaten geben genug.
calculators-how-many-root = Wie viele Samen bewurzeln?
calculators-whose-numbers = Wessen Zahlen
calculators-whose-numbers-help = Die des Vereins für eine Sorte und Bezugsquelle oder deine eigenen.
calculators-my-own = Meine eigenen, unten eingetippt
calculators-choice = { $name }: { $rate } % von { $n } Samen
calculators-either-rate = Entweder: Rate, %
calculators-either-rate-help = Etwa 86, wenn du sie gut kennst.
calculators-or-a-test = Oder eine Keimprobe: bewurzelt
calculators-of-seeds-tested = von geprüften Samen
calculators-how-many-become-plants = Wie viele bewurzelte Samen werden Pflanzen?
calculators-leave-empty-for-trays = Leer gelassen gelten die Platten des Vereins, wo sie etwas sagen, sonst zählt jeder bewurzelte Same.
calculators-either-share = Entweder: Anteil, %
calculators-or-became-plants = Oder: wurden Pflanzen
calculators-of-seeds-planted = von gepflanzten bewurzelten Samen
calculators-not-in-club-table = Das steht nicht in der Vereinstabelle. Bitte wähle noch einmal.
calculators-club-or-own = Entweder die Zahlen des Vereins oder deine eigenen: Wähle hier „Meine eigenen“ oder leere die Felder unten.
calculators-give-a-rate = Gib hier eine Rate an oder so viele bewurzelte von so vielen, oder wähle die Zahlen des Vereins.
calculators-rate-or-test = Gib entweder eine Rate oder eine Keimprobe an, nicht beides.
calculators-of-how-many = Von wie vielen? Bitte gib eine Zahl an.
calculators-how-many-of-them = Wie viele davon? Bitte gib eine Zahl an.
calculators-more-than-in-all = Das sind mehr, als es insgesamt waren.
calculators-at-least-one = Bitte gib mindestens 1 an.

# Samen für einen Vergleich: die Antwort
calculators-about-two-sources = Zwei Bezugsquellen einer Sorte: Wie viele Samen von jeder müssen geprüft werden, um zu sehen, dass eine besser bewurzelt?
calculators-bags-from-each = { $bags } Beutel mit { $seeds } Samen von jeder Bezugsquelle.
calculators-that-is-seeds = Das { $n ->
    [one] ist { $n } Same
   *[other] sind { $n } Samen
 } von jeder ({ $others } würden in Beuteln anderer Größe reichen). Bewurzeln in Wahrheit { $one } % der einen und { $other } % der anderen, dann finden von 100 solchen Vergleichen etwa { $found } den Unterschied und { $missed } übersehen ihn. Sind beide in Wahrheit gleich, finden etwa 5 einen, den es nicht gibt.
calculators-bags-by-chance = Gerechnet ist mit Beuteln, die sich nur durch Zufall unterscheiden; unterscheiden sich deine mehr, braucht es mehr.
calculators-bags-share-luck = { $n ->
    [one] Samen in einem Beutel teilen dessen Glück, deshalb sagen hier { $alike } Samen so viel wie 1 Same allein; sonst würde { $n } Same von jeder reichen.
   *[other] Samen in einem Beutel teilen dessen Glück, deshalb sagen hier { $alike } Samen so viel wie 1 Same allein; sonst würden { $n } Samen von jeder reichen.
 }
calculators-more-bags = Mehr Beutel mit weniger Samen brauchen weniger: { $bags } Beutel mit { $seeds } Samen.
calculators-a-lot = Das ist viel.
calculators-most-tested = Die Sorte und Bezugsquelle, die dein Verein am meisten geprüft hat, hat bisher { $n } Samen.
calculators-bigger-difference = Ein größerer Unterschied braucht viel weniger Samen, wie die Tabelle zeigt; oder verteilt die Beutel auf mehrere Gärtner.
calculators-to-tell-apart = Was es zum Unterscheiden braucht, von jeder Bezugsquelle
calculators-rates = Raten
calculators-two-rates = { $one } % und { $other } %
calculators-at-the-same-time = Lasst jeden Gärtner beide Bezugsquellen zur selben Zeit auf derselben Matte prüfen: Dann hilft ein sorgfältiger Gärtner beiden gleich. Verteilt die Beutel auf mehrere Gärtner; Beutel eines Ansatzes teilen noch mehr Glück, als hier gerechnet ist.
calculators-seeds-standing-alone = Samen von jeder Bezugsquelle, wenn jeder Same für sich stünde:
calculators-normal-approximation = Normalapproximation
calculators-continuity-correction = Mit Stetigkeitskorrektur (oben benutzt)
calculators-fisher = Exakter Test nach Fisher
calculators-not-worked-out = für so viele nicht ausgerechnet; die korrigierte Zahl liegt nahe
calculators-not-found = nicht gefunden

# Samen für einen Vergleich: die Frage
calculators-one-source = Eine Bezugsquelle, %
calculators-one-source-help = So viele ihrer Samen bewurzeln.
calculators-the-other = Die andere, %
calculators-the-other-help = Der kleinste Unterschied, nach dem du handeln würdest.
calculators-comparison-certainty-help = 80: Vier von fünf Vergleichen finden ihn.
calculators-seeds-in-a-bag = Samen in einem Beutel
calculators-how-alike = Wie ähnlich Samen eines Beutels sind
calculators-how-alike-help = Von 0 bis 1.
calculators-alike-of-club = 0: Beutel einer Bezugsquelle unterscheiden sich nur durch Zufall; 1: Ein Beutel bewurzelt ganz oder gar nicht. Die Beutel deines Vereins bisher: { $alike }.
calculators-alike-guessed = 0: Beutel einer Bezugsquelle unterscheiden sich nur durch Zufall; 1: Ein Beutel bewurzelt ganz oder gar nicht. Dein Verein hat noch zu wenige Ansätze für eine eigene Zahl; { $alike } ist eine Schätzung zum Planen.
calculators-chance-only = Bitte gib eine Zahl an; 0, wenn sich Beutel nur durch Zufall unterscheiden.
calculators-two-rates-apart = Gib zwei Raten an, die mindestens ein halbes Prozent auseinander liegen.
