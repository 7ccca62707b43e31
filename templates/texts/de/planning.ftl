# Wege im Plan
planning-add-lines = Zeilen hinzufügen
planning-lines = Zeilen
planning-week-by-week = Woche für Woche
planning-shopping-list = Einkaufsliste
planning-ageing-seed = Alterndes Saatgut
planning-print-the-list = Liste drucken
planning-back-to-the-plan = Zurück zum Plan
planning-save-as-a-file = Als Datei speichern

# Wörter mehrerer Seiten
planning-plan-named = Plan { $name }
planning-mark = Kennzeichen
planning-variety = Sorte
planning-source = Bezugs­quelle
planning-plants = Pflanzen
planning-ready = Fertig
planning-ready-on = Fertig am
planning-start = Beginn
planning-seeds = Samen
planning-seeds-to-soak = Samen zum Einweichen
planning-bags = Beutel
planning-cells = Zellen
planning-into-cells = In Zellen
planning-out-of = Aus Tüte
planning-state = Stand
planning-certainty = Sicherheit, %
planning-warmth-of-mat = Wärme der Heizmatte, { $unit }
planning-how-worked-out = Wie das ausgerechnet wird
planning-choose-one = Bitte wähle eins aus.
planning-give-a-number = Bitte gib eine Zahl an.
planning-not-known = nicht bekannt
planning-interval = { $rate } % ({ $low } bis { $high })

# Der Plan
planning-nothing-planned = Noch ist nichts geplant. Füge eine Liste ein oder tippe mehrere Zeilen auf einer Seite.
planning-without-adjusted-rates = Gerechnet ohne bereinigte Raten.
planning-days-not-worked-out = Wie lange manche Sorten bis zur Wurzel brauchen, ist noch nicht aus den Beuteln des Vereins berechnet; öffne diese Seite gleich noch einmal.
planning-tick-all = Alle ankreuzen, die sich annehmen lassen
planning-tick-line = { $name }, fertig am { $ready }, ankreuzen
planning-start-is-past = { $start }: vorbei
planning-accept-ticked = Angekreuzte Zeilen annehmen
planning-about-accepting = Neben den Samen steht, mit wessen Rate gerechnet ist; die Seite der Zeile sagt alles dazu. Wird eine Zeile angenommen, sind ihre Samen zugesagt, und sie steht vom Beginn an unter „Jetzt fällig“. Eine Zeile, für die keine Tüte Samen hat, lässt sich nicht annehmen; warum, steht unter „Aus Tüte“.
planning-what-reckoned-with = Womit gerechnet wird
planning-a-new-plan = Neuer Plan
planning-plans = Pläne:
planning-out-of-reach = unerreichbar
planning-taken = { $seeds } aus { $mark }
planning-short = { $n } zu wenig
planning-no-number-to-promise = keine Samenzahl, die sich zusagen lässt
planning-all-is-promised = alles in den Tüten ist schon zugesagt
planning-no-packet-holds-any = keine Tüte hat davon
planning-not-accepted = nicht angenommen
planning-accepted = angenommen
planning-partly-started = zum Teil begonnen
planning-started = begonnen
planning-total = Insgesamt { $seeds ->
    [one] { $seeds } Same
   *[other] { $seeds } Samen
 } in { $bags ->
    [one] { $bags } Beutel
   *[other] { $bags } Beuteln
 }, { $cells ->
    [one] { $cells } Zelle
   *[other] { $cells } Zellen
 } in { $trays ->
    [one] { $trays } Platte
   *[other] { $trays } Platten
 } zu { $size }.
planning-seeds-short = { $n ->
    [one] { $n } Same zu wenig.
   *[other] { $n } Samen zu wenig.
 }
planning-without-lines = { $n ->
    [one] Ohne { $n } Zeile, für die sich keine Samenzahl nennen lässt.
   *[other] Ohne { $n } Zeilen, für die sich keine Samenzahl nennen lässt.
 }

# Eine Zeile
planning-line-title = { $variety } im Plan
planning-not-accepted-in = Nicht angenommen, im Plan <a href="/plan?{ $query }">{ $plan }</a>.
planning-accepted-in = Angenommen, im Plan <a href="/plan?{ $query }">{ $plan }</a>.
planning-partly-started-in = Zum Teil begonnen, im Plan <a href="/plan?{ $query }">{ $plan }</a>.
planning-started-in = Begonnen, im Plan <a href="/plan?{ $query }">{ $plan }</a>.
planning-start-seeds-on = { $n } Samen am { $day } ansetzen.
planning-plants-out-of-reach = So viele Pflanzen sind bei dieser Sicherheit nicht zu erreichen. Plane weniger Pflanzen oder weniger Sicherheit, oder prüfe mehr Samen.
planning-no-rate-known = Von dieser Art ist keine Rate bekannt, deshalb kann das Programm keine Samenzahl nennen. Gib unten deine eigene an.
planning-promised-to-start = { $given }, Beginn am { $day }: zugesagt
planning-started-to-start = { $given }, Beginn am { $day }: begonnen
planning-withdrawn-to-start = { $given }, Beginn am { $day }: zurückgenommen
planning-start-mark = { $mark } ansetzen
planning-its-trial = Zum Ansatz
planning-withdraw-promised = Zusage zurücknehmen
planning-accept-it = Zeile annehmen
planning-seeds-to-promise = Samen zusagen
planning-start-on = Beginn am
planning-oldest-first = die älteste zuerst
planning-accept = Annehmen
planning-on-shopping-list = Du hast keine Tüte davon mit Samen. Es steht auf der <a href="/plan/shopping?{ $query }">Einkaufsliste</a>.
planning-change-it = Zeile ändern
planning-weeks-in-cell = Wochen in der Zelle
planning-empty-as-plan-certainty = Leer: wie im Plan, { $n }.
planning-empty-as-plan = Leer: wie im Plan.
planning-empty-as-usual = Leer: wie bei der Art üblich.
planning-save-the-change = Änderung speichern
planning-take-off = Aus dem Plan nehmen

# Wie eine Zeile gerechnet ist
planning-how-reckoned = So ist gerechnet
planning-the-sum = Die Rechnung
planning-wanted = Gewünscht
planning-plants-ready = { $n ->
    [one] { $n } Pflanze, fertig am { $day }
   *[other] { $n } Pflanzen, fertig am { $day }
 }
planning-seeds-for-certainty = { $n }, für { $certainty } % Sicherheit; im Mittel geben sie { $plants ->
    [one] { $plants } Pflanze
   *[other] { $plants } Pflanzen
 }.
planning-rooting = Bewurzelung
planning-rooting-not-known = nicht bekannt.
planning-in-the-cell = In der Zelle
planning-no-tray-tells = noch sagt keine Platte des Vereins etwas dazu, deshalb gilt jeder bewurzelte Same als Pflanze.
planning-bags-on-the-mat = { $n } Beutel mit bis zu { $most } Samen, auf der Matte bei { $warmth }
planning-cells-in-trays-of = { $n ->
    [one] { $n } Zelle, in Platten zu { $size }
   *[other] { $n } Zellen, in Platten zu { $size }
 }
planning-soak = Bad
planning-days-before-paper = { $n ->
    [one] { $routine }: { $n } Tag vor dem Papier.
   *[other] { $routine }: { $n } Tage vor dem Papier.
 }
planning-on-paper = Auf Papier
planning-in-cells = In Zellen
planning-from-day = ab { $day }: { $words }

# Tage auf Papier
planning-days-in-soil = { $n ->
    [one] etwa { $n } Tag, die veröffentlichte Zeit bis zum Auflaufen in Erde bei { $warmth } (Harrington & Minges 1954); die Wurzel ist einige Tage früher sichtbar.
   *[other] etwa { $n } Tage, die veröffentlichte Zeit bis zum Auflaufen in Erde bei { $warmth } (Harrington & Minges 1954); die Wurzel ist einige Tage früher sichtbar.
 }
planning-days-of-laboratory = { $n ->
    [one] { $n } Tag, der Tag der Endauszählung im Labor; über { $kind } bei { $warmth } ist nichts bekannt.
   *[other] { $n } Tage, der Tag der Endauszählung im Labor; über { $kind } bei { $warmth } ist nichts bekannt.
 }
planning-days-guessed = { $n } Tage, geschätzt: über { $kind } bei { $warmth } ist nichts bekannt.
planning-days-until-share = { $n ->
    [one] { $n } Tag
   *[other] { $n } Tage
 }, bis { $share } von 100 Samen bewurzelt sind, nach { $bags ->
    [one] { $bags } Beutel
   *[other] { $bags } Beuteln
 } des Vereins mit { $of } bei etwa { $warmth }.
planning-days-until-most = { $n ->
    [one] { $n } Tag
   *[other] { $n } Tage
 }, bis die meisten heraus sind, die überhaupt Wurzeln treiben, nach { $bags ->
    [one] { $bags } Beutel
   *[other] { $bags } Beuteln
 } des Vereins mit { $of } bei etwa { $warmth }.

# Wochen in der Zelle
planning-weeks-own = { $n ->
    [one] { $n } Woche, deine eigene Zahl.
   *[other] { $n } Wochen, deine eigene Zahl.
 }
planning-weeks-usual = { $n } Wochen, wie bei { $kind } üblich; ohne Quelle.
planning-weeks-guessed = { $n } Wochen, geschätzt: für { $kind } ist nichts Übliches vermerkt. Gib unten deine eigene Zahl an.

# Raten
planning-club-adjusted = bereinigte Rate des Vereins
planning-club-adjusted-words = die bereinigte Rate des Vereins für { $variety } von { $source }, { $rate } % ({ $low } bis { $high }) der Samen auf Papier. Ansätze, Gärtner und Partien sind verschieden, und das ist berücksichtigt.
planning-club-own = Zählung des Vereins
planning-club-own-words = { $seeds ->
    [one] die rohe Rate des Vereins für { $variety } von { $source }, { $rate } % von { $seeds } Samen, der so viel sagt wie eine Keimprobe mit { $test }; eine bereinigte Rate gibt es nicht.
   *[other] die rohe Rate des Vereins für { $variety } von { $source }, { $rate } % von { $seeds } Samen, die so viel sagen wie eine Keimprobe mit { $test }; eine bereinigte Rate gibt es nicht.
 }
planning-club-variety = Zählung des Vereins für die Sorte
planning-club-variety-words = { $n ->
    [one] die rohe Rate des Vereins für { $variety } von { $n } anderen Bezugsquelle, { $rate } %; die hier gemeinte ist nicht dabei.
   *[other] die rohe Rate des Vereins für { $variety } von { $n } anderen Bezugsquellen, { $rate } %; die hier gemeinte ist nicht dabei.
 }
planning-club-kind = Zählung des Vereins für die Art
planning-club-kind-words = { $n ->
    [one] der Verein hat diese Sorte nicht gezählt: seine rohe Rate für { $kind }, { $rate } % über { $n } Sorte und Bezugsquelle.
   *[other] der Verein hat diese Sorte nicht gezählt: seine rohe Rate für { $kind }, { $rate } % über { $n } Sorten und Bezugsquellen.
 }
planning-unlike-allowed-for = Wie verschieden sie sind, ist berücksichtigt.
planning-so-few-tell = So wenige sagen nicht mehr als eine Keimprobe mit { $n } Samen.
planning-published-standard = veröffentlichte Norm
planning-published-standard-words = der Verein hat noch keine Samen von { $kind } gezählt: die veröffentlichte Norm, { $rate } % ({ $source }). So viele normale Keimlinge muss verkauftes Saatgut mindestens geben, nicht bewurzelte Samen; das meiste Saatgut ist besser.
planning-club-trays = Platten des Vereins
planning-trays-of-source = die Platten des Vereins mit { $variety } von dieser Bezugsquelle: { $grown } von { $planted } bewurzelten Samen wurden Pflanzen.
planning-trays-of-variety = die Platten des Vereins mit { $variety }: { $grown } von { $planted } bewurzelten Samen wurden Pflanzen.
planning-trays-of-kind = die Platten des Vereins mit jeder Sorte { $kind }: { $grown } von { $planted } bewurzelten Samen wurden Pflanzen.
planning-trays-of-all = die Platten des Vereins mit allen Arten: { $grown } von { $planted } bewurzelten Samen wurden Pflanzen.

# Zeilen ändern und annehmen
planning-trial-was-started = Für diese Zeile wurde schon ein Ansatz begonnen; sie bleibt, wie sie ist.
planning-saved = Gespeichert.
planning-accept-anew = Die Zusage ist zurückgenommen: Nimm die Zeile neu an.
planning-day-is-past = Dieser Tag ist vorbei.
planning-ready-which-day = An welchem Tag fertig?
planning-start-which-day = An welchem Tag ist der Beginn?
planning-accepted-already = Diese Zeile ist schon angenommen, oder es gibt keine Tüte dafür.
planning-accepted-seeds = { $n ->
    [one] Angenommen: { $n } Same zugesagt.
   *[other] Angenommen: { $n } Samen zugesagt.
 }
planning-short-see-shopping = { $n ->
    [one] { $n } Same zu wenig: siehe Einkaufsliste.
   *[other] { $n } Samen zu wenig: siehe Einkaufsliste.
 }
planning-accepted-lines = Angenommen: { $lines ->
    [one] { $lines } Zeile
   *[other] { $lines } Zeilen
 }, { $seeds ->
    [one] { $seeds } Same
   *[other] { $seeds } Samen
 } zugesagt.
planning-of-them-short = { $n ->
    [one] { $n } davon fehlt.
   *[other] { $n } davon fehlen.
 }
planning-stand-on-due-now = Von ihrem Tag an stehen sie unter „Jetzt fällig“.
planning-nothing-accepted = Nichts wurde angenommen: Kreuze Zeilen an, für die es eine Tüte gibt.
planning-withdrawn = Zurückgenommen: Die Samen sind wieder frei.
planning-taken-off = { $n ->
    [one] Aus dem Plan genommen: { $n } Pflanze { $variety }.
   *[other] Aus dem Plan genommen: { $n } Pflanzen { $variety }.
 }

# Zeilen eingeben
planning-lines-of-the-plan = Zeilen des Plans
planning-add-to-plan = Zum Plan { $plan } hinzufügen
planning-in-the-list = In der Liste:
planning-line-n = Zeile { $n }
planning-paste-a-list = Liste einfügen
planning-list = Liste
planning-list-help = Je eine Zeile: Sorte, Pflanzen, Tag, an dem sie fertig sein sollen, und eine Bezugsquelle, wenn es diese sein muss. Dazwischen Kommas, Semikolons oder Tabulatoren. Oder tippe unten; beides kommt zusammen dazu.
planning-source-help = Bezugsquelle: Leer nimmt das älteste Saatgut, das du hast, von wem auch immer. Eine Sorte, die der Verein noch nicht hat: Schreibe ihre Art davor, etwa „Tomate: Curlew“.
planning-add-these-lines = Zeilen hinzufügen
planning-more-rows = Mehr Zeilen
planning-list-not-read = Nicht jede Zeile der Liste ist lesbar; welche und warum, steht darüber.
planning-type-a-line = Tippe hier eine Zeile oder füge unten eine Liste ein.
planning-most-lines = Bitte höchstens { $n } Zeilen in einem Plan.
planning-added = { $n ->
    [one] Hinzugefügt: { $n } Zeile.
   *[other] Hinzugefügt: { $n } Zeilen.
 }
planning-which-variety = Welche Sorte?
planning-most-characters = Bitte höchstens { $n } Zeichen.
planning-which-of-them = Welche davon? Schreibe { $names }.
planning-no-variety = Der Verein hat keine Sorte { $name }.
planning-did-you-mean = Meinst du { $names }?
planning-write-its-kind = Um eine neue zu planen, schreibe ihre Art davor: Tomate: { $name }.
planning-no-kind = Der Verein hat keine Art { $name }.
planning-no-source = Der Verein hat keine Bezugsquelle { $name }.
planning-empty-for-any = Lass das Feld leer, wenn jede recht ist.
planning-a-date = Bitte ein Datum, etwa 20.5.2027 oder 20. Mai.
planning-is-past = { $day } ist schon vorbei.
planning-is-too-far = { $day } liegt zu weit voraus.
planning-how-many-plants = Wie viele Pflanzen?
planning-a-whole-number = Bitte eine ganze Zahl von 1 bis { $most }.

# Womit ein Plan rechnet
planning-plan-reckoned-with = Womit der Plan rechnet
planning-plan-for-a-season = Ein Plan für eine Saison
planning-about-a-plan = Sag, wie viele Pflanzen wovon wann fertig sein sollen: Der Plan sagt, wie viele Samen einzuweichen sind, in wie vielen Beuteln und Zellen, an welchem Tag du beginnst und was in deinen Tüten fehlt.
planning-season = Saison
planning-season-help = Etwa 2026 oder Frühjahr 2026.
planning-routine = Ablauf
planning-routine-help = Seine Schritte brauchen Zeit vor dem Papier.
planning-seeds-in-a-bag = Samen in einem Beutel, höchstens
planning-lines-own-warmth = Zeilen können eine eigene haben.
planning-certainty-help = 90: Neun von zehn Aussaaten geben genug Pflanzen.
planning-tray = Platte
planning-cells-across = Andere Platte: Zellen nebeneinander
planning-cells-down = Andere Platte: Zellen untereinander
planning-bags-on-mat = Beutel, die auf die Heizmatte passen
planning-trays-of-room = Platten, für die Platz ist
planning-no-limit = Leer: Es gilt keine Grenze.
planning-make-the-plan = Plan anlegen
planning-save = Speichern
planning-back = Zurück
planning-choose = auswählen
planning-another-one = eine andere
planning-another-tray = Eine andere: Ich gebe Reihen und Spalten an
planning-name-needs-letters = Bitte ein Name mit Buchstaben oder Ziffern.
planning-name-taken = Du hast schon einen Plan mit diesem Namen.
planning-plan-is-made = Der Plan { $name } ist angelegt. Nun seine Zeilen.
planning-plan-saved = Gespeichert. Angenommene Zeilen behalten ihre Zahlen.

# Woche für Woche
planning-plan-weeks-title = Plan { $name } Woche für Woche
planning-plan-weeks = Plan { $name }, Woche für Woche
planning-weeks-caption = { $name } Woche für Woche
planning-no-weeks = Noch ist nichts geplant. <a href="/plan/lines?{ $query }">Zeilen hinzufügen</a>
planning-about-weeks = Was dieser Plan braucht, auch für noch nicht angenommene Zeilen; Beutel, die aus anderen Gründen auf der Matte liegen, sind nicht dabei.
planning-week = Woche
planning-on-the-mat = Auf der Matte
planning-trays-standing = Stehende Platten
planning-too-full = zu voll
planning-lines-left-out = { $n ->
    [one] { $n } Zeile hat keine Samenzahl und ist nicht dabei.
   *[other] { $n } Zeilen haben keine Samenzahl und sind nicht dabei.
 }
planning-week-of = Woche ab { $day }
planning-mat-over = { $n } Beutel: { $over } mehr, als auf die Matte passen
planning-mat-of = { $most ->
    [one] { $n } von { $most } Beutel
   *[other] { $n } von { $most } Beuteln
 }
planning-mat-bags = { $n } Beutel
planning-cells-in-trays = { $cells ->
    [one] { $cells } Zelle
   *[other] { $cells } Zellen
 } in { $trays ->
    [one] { $trays } Platte
   *[other] { $trays } Platten
 }
planning-trays-over = { $n ->
    [one] { $n } Platte: { $over } mehr, als Platz haben
   *[other] { $n } Platten: { $over } mehr, als Platz haben
 }
planning-trays-of = { $most ->
    [one] { $n } von { $most } Platte
   *[other] { $n } von { $most } Platten
 }
planning-trays = { $n ->
    [one] { $n } Platte
   *[other] { $n } Platten
 }
planning-seeds-of-variety = { $n ->
    [one] { $n } Same { $variety }
   *[other] { $n } Samen { $variety }
 }

# Die Liste auf Papier
planning-plan-on-paper = Plan { $name } auf Papier
planning-a4-instead = Stattdessen A4
planning-letter-instead = Stattdessen US Letter
planning-how-to-print = Drucke aus dem Menü des Browsers, mit 100 %.
planning-list-of-member = { $plan }: die Liste der Saison von { $member }
planning-list-reckoned-with = { $routine }; Beutel mit bis zu { $seeds } Samen; Platten mit { $cells } Zellen. Nach dem Tag des Beginns. Gedruckt am { $day }.
planning-any-source = beliebig

# Einkaufsliste
planning-shopping-for = Einkaufsliste für { $plan }
planning-packets-hold-all = In deinen Tüten sind Samen für jede Zeile des Plans.
planning-about-shopping = Saatgut, das der Plan braucht und in deinen Tüten fehlt, und wie die Bezugsquellen des Vereins abschneiden.
planning-from-source = { $name }, von { $source }
planning-how-sure = Wie sicher das ist
planning-sources-of = Bezugsquellen von { $variety }
planning-group = Gruppe
planning-adjusted = Bereinigt
planning-counted = Gezählt
planning-too-little-known = zu wenig ist bekannt
planning-about-adjusted = Bereinigt heißt: So viele Samen auf Papier würden bei einem Gärtner mit durchschnittlicher Sorgfalt bewurzeln, mit dem 95-%-Intervall. Bezugsquellen verschiedener Gruppen haben keine Gärtner gemeinsam und werden nicht verglichen: Die Reihenfolge der Gruppen sagt nichts.
planning-sources-not-told-apart = Die Bezugsquellen des Vereins lassen sich jetzt nicht unterscheiden; der Hinweis oben sagt, warum.
planning-not-counted = Der Verein hat diese Sorte von keiner Bezugsquelle gezählt.
planning-seeds-by-growers = { $seeds ->
    [one] { $seeds } Same
   *[other] { $seeds } Samen
 }, { $growers } Gärtner
planning-seeds-short-of = { $n ->
    [one] { $n } Same zu wenig: Der Plan braucht { $wanted }, davon sind { $held } in deinen Tüten.
   *[other] { $n } Samen zu wenig: Der Plan braucht { $wanted }, davon sind { $held } in deinen Tüten.
 }
planning-lines-without-number = { $n ->
    [one] { $n } Zeile hat keine Samenzahl, weil keine Rate bekannt ist.
   *[other] { $n } Zeilen haben keine Samenzahl, weil keine Rate bekannt ist.
 }
