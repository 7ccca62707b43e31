# Wörter für Etiketten und ihre Bögen.

labels-labels = Etiketten
labels-label-sheets = Etikettenbögen
labels-print = Etiketten drucken
labels-test-page = Testseite

# Was ein Etikett bekommt.

labels-nothing-needs-one = Nichts braucht jetzt ein Etikett: Keine Samen sind im Bad, kein Beutel ist offen, keine Platte ist in Gebrauch.
labels-start-trials = Neue Ansätze
labels-what-is-labelled = Ein Etikett für jedes Röhrchen mit Samen, jeden offenen Beutel und jeden Topf, und zwei für jede Platte. Ein Code darauf öffnet die Seite dazu, wenn ein Handy ihn sieht.
labels-for-which-trials = Für welche Ansätze
labels-pots = Töpfe
labels-ends-of-trays = Enden von Platten, je zwei
labels-all-of-them = Alle
labels-one-vial = 1 Röhrchen
labels-so-many-bags = { $n } Beutel
labels-pots-of = { $n ->
    [one] { $variety }, { $cell }: { $n } Topf, umgetopft { $day }
   *[other] { $variety }, { $cell }: { $n } Töpfe, umgetopft { $day }
 }
labels-show = Etiketten zeigen

# Was auf Etiketten steht: kurz.

labels-tray-and-cell = { $tray }, Zelle { $cell }
labels-so-many-cells = { $n } Zellen
labels-so-many-floaters = { $n } Schwimmer
labels-potted = Topf { $day }
labels-first-row = erste Reihe
labels-last-row = letzte Reihe

# Worauf gedruckt wird.

labels-other-sheets = Andere Bögen, nach ihren Maßen
labels-first-free = Erstes freies Etikett
labels-first-free-help = Die Reihen entlang gezählt, auf einem angefangenen Bogen.
labels-first-from-one-to = Bitte eine ganze Zahl von 1 bis { $n }: So viele Etiketten sind auf diesem Bogen.
labels-outlines-to-cut = Umrisse, zum Ausschneiden aus einfachem Papier

# Die Etiketten, wie sie gedruckt werden.

labels-show-them-so = So zeigen
labels-other-labels = Andere Etiketten
labels-nothing-here-needs-one = Nichts hier braucht jetzt ein Etikett.
labels-how-to-print = { $n ->
    [one] { $n } Etikett. Drucke aus dem Menü des Browsers mit 100 %, auf Papier von { $width } mal { $height } mm, ohne Ränder. Tinte, die nass verläuft, braucht klares Klebeband darüber.
   *[other] { $n } Etiketten. Drucke aus dem Menü des Browsers mit 100 %, auf Papier von { $width } mal { $height } mm, ohne Ränder. Tinte, die nass verläuft, braucht klares Klebeband darüber.
 }
labels-no-code-on = <strong>Auf { $n } davon ohne Code:</strong> Neben dem Kennzeichen ist kein Platz für einen, den ein Handy lesen kann (ein halber Millimeter für jedes seiner kleinen Quadrate). Nimm größere Etiketten, wo du den Code haben willst.
labels-label-of = Etikett von { $mark }

# Etikettenbögen.

labels-any-sheet-will-do = Jeder Bogen und jede Rolle mit Etiketten ist recht, sobald du die Maße hast. Drucke zuerst die Testseite: Sie zeigt die Umrisse, damit sich ablesen und ausgleichen lässt, wie weit dein Drucker danebenliegt.
labels-measure-a-sheet = Etikettenbogen ausmessen
labels-a-label-sheet = Ein Etikettenbogen
labels-change = Ändern<span class="vh">: { $name }</span>
labels-nudge-or-change = Verschieben oder ändern<span class="vh">: { $name }</span>
labels-test-page-of-this = Testseite<span class="vh"> von { $name }</span>
labels-one-label = 1 Etikett, { $size }
labels-page-with-labels = { $page }, { $across } mal { $down }, { $size }

# Die Maße eines Bogens.

labels-lengths-in-mm = Jede Länge ist in mm. Oft stehen sie im Datenblatt des Herstellers; sonst lege ein Lineal an den Bogen.
labels-your-name = Dein Name dafür
labels-your-name-help = Zum Beispiel: weiß, Drucker im Schuppen.
labels-the-page = Die Seite
labels-page = Seite
labels-page-a4 = A4, 210 × 297 mm
labels-page-letter = US Letter, 215,9 × 279,4 mm
labels-page-own = eine andere, oder eine Rolle: Ein Etikett ist eine Seite
labels-page-width = Breite einer anderen Seite
labels-page-height = Höhe einer anderen Seite
labels-from-left = Vom linken Rand zum ersten Etikett
labels-from-top = Vom oberen Rand zum ersten Etikett
labels-nought-on-a-roll = Bei einer Rolle 0.
labels-the-labels = Die Etiketten
labels-width = Breite eines Etiketts
labels-width-help = 28 mm oder mehr.
labels-height = Höhe eines Etiketts
labels-height-help = 12 mm oder mehr.
labels-across = Etiketten nebeneinander
labels-down = Etiketten untereinander
labels-pitch-across = Von der linken Kante zur nächsten linken Kante
labels-pitch-down = Von der oberen Kante zur nächsten oberen Kante
labels-pitch-help = Leer: kein Abstand zwischen den Etiketten.
labels-the-nudge = Die Verschiebung
labels-what-the-nudge-is = Gleicht aus, wie weit dein Drucker danebenliegt: Lies es von der Testseite ab.
labels-nudge-right = Nach rechts verschieben
labels-nudge-right-help = Weniger als 0 ist nach links.
labels-nudge-down = Nach unten verschieben
labels-nudge-down-help = Weniger als 0 ist nach oben.
labels-everybody-may-print = Alle im Verein dürfen darauf drucken
labels-keep-this-sheet = Bogen behalten
labels-forget-this-sheet = Bogen vergessen
labels-give-a-number-of-mm = Bitte gib eine Zahl in mm an.
labels-on-one-another-wide = Die Etiketten lägen aufeinander: Jedes ist { $size } mm breit.
labels-on-one-another-high = Die Etiketten lägen aufeinander: Jedes ist { $size } mm hoch.
labels-page-too-narrow = Das letzte Etikett würde { $end } mm vom Rand enden, und die Seite ist nur { $page } mm breit.
labels-page-too-low = Das letzte Etikett würde { $end } mm vom Rand enden, und die Seite ist nur { $page } mm hoch.
labels-name-is-taken = Du hast schon einen Etikettenbogen mit diesem Namen.
labels-is-kept = { $name } ist gespeichert. Drucke einmal die Testseite und halte sie gegen einen Etikettenbogen.
labels-is-changed = { $name } ist geändert.
labels-is-forgotten = { $name } ist vergessen.

# Die Testseite.

labels-test-page-of = Testseite von { $name }
labels-test-print-it = Drucke diese Seite auf einfaches Papier, aus dem Menü des Browsers: mit 100 %, ohne Ränder.
labels-test-lay-a-rule = Lege ein echtes Lineal an das gedruckte. Ist es nicht so lang, wie es sagt, hat der Drucker die Seite verkleinert oder vergrößert: Drucke noch einmal mit 100 %.
labels-test-hold-against-light = Halte die Seite mit einem Etikettenbogen gegen das Licht. Liegen die gedruckten Linien 1 mm rechts von den Kanten der Etiketten, gib eine Verschiebung von −1 nach rechts ein; liegen sie 1 mm zu hoch, eine Verschiebung von 1 nach unten.
labels-write-the-nudge-down = Verschiebung eintragen
labels-outlines-with-a-rule = Umrisse der Etiketten, mit einem Lineal
labels-rule = { $length } mm; versetzt { $right } / { $down }
