# Die Liste der Ansätze.

trials-trials = Ansätze
trials-your-trials = Deine Ansätze
trials-start-trials = Neue Ansätze
trials-print-labels = Etiketten drucken
trials-routines = Abläufe
trials-mix-a-solution = Lösung mischen
trials-running = Laufende
trials-nothing-runs = Nichts wird eingeweicht, und kein Beutel ist offen.
trials-past = Frühere
trials-pages-of-past = Seiten mit früheren Ansätzen
trials-later = Spätere
trials-earlier = Frühere
trials-line = { $n ->
    [one] { $routine }, { $n } Same, begonnen { $began }
   *[other] { $routine }, { $n } Samen, begonnen { $began }
 }
trials-paired = gepaart
trials-open-bags = { $bags ->
    [one] { $open } von { $bags } Beutel offen
   *[other] { $open } von { $bags } Beuteln offen
 }
trials-next-waits = { $next }: { $n ->
    [one] { $n } Same wartet
   *[other] { $n } Samen warten
 }
trials-next-is-out = { $next }: { $seeds }, heraus { $moment }

# Ansetzen.

trials-no-packet-yet = Du hast noch keine Tüte.
trials-new-packet = Neue Tüte
trials-holds-the-letters = Enthält die Buchstaben
trials-which-packets = Welche Tüten?
trials-none-started-yet = Noch ist kein Ansatz begonnen.
trials-tick-a-packet = Bitte kreuze mindestens eine an.
trials-or-split-one = Oder eine aufteilen
trials-split-to-compare = Eine Tüte in gepaarte Ansätze aufteilen, um Abläufe oder Wärme zu vergleichen
trials-go-on = Weiter
trials-start-so-many = { $n ->
    [one] Neuer Ansatz
   *[other] { $n } neue Ansätze
 }
trials-split-a-packet = Tüte in gepaarte Ansätze aufteilen
trials-split-this-packet = Diese Tüte in gepaarte Ansätze aufteilen
trials-began-at = Begonnen am
trials-began-at-help = Wann die Samen hineinkamen; für alle gleich.
trials-routine = Ablauf
trials-choose = bitte wählen
trials-so-many-left = noch { $seeds }
trials-about-so-many-left = noch etwa { $seeds }
trials-left-in-state = { $state ->
    [pelleted] { $left }, pilliert
    [primed] { $left }, geprimt
    [treated] { $left }, gebeizt
   *[other] { $left }, { $state }
 }
trials-promised = Der Plan hat { $seeds } zugesagt.
trials-promised-but-short = Der Plan hat { $seeds } zugesagt: { $short } zu wenig.
trials-seeds-of = Samen von { $mark }
trials-counted-in = Gezählt: wirklich in { $mark }
trials-recount-help = Nur wenn du die Tüte gezählt hast, mit den Samen, die du jetzt nimmst. Leer: Es gilt, was im Buch steht.
trials-trial-number = Ansatz { $n }
trials-seeds = Samen
trials-warmth-meant-for = Vorgesehene Wärme, { $unit }
trials-warmth-meant-help = Leer lassen, wenn sie gleich ist.
trials-meant-for = gedacht für { $warmth }
trials-what-sets-it-apart = Was ihn sonst unterscheidet
trials-start-without-the-promise = Ohne die Zusage ansetzen
trials-start = Ansetzen
trials-more-trials = Mehr Ansätze
trials-started = { $trials ->
    [one] Angesetzt: { $trials } Ansatz, { $seeds }.
   *[other] Angesetzt: { $trials } Ansätze, { $seeds }.
 }
trials-too-few-left = { $left ->
    [one] Nach dem Buch ist noch { $left } Same da, gebraucht werden { $wanted }.
   *[other] Nach dem Buch sind noch { $left } Samen da, gebraucht werden { $wanted }.
 } Zähle die Tüte und gib die Zahl an, oder nimm weniger.
trials-promise-was-started = Die Zusage des Plans ({ $seeds } von { $mark }) gilt nicht mehr: Inzwischen wurde dafür ein Ansatz angesetzt. Ohne sie ansetzen?
trials-promise-was-withdrawn = Die Zusage des Plans ({ $seeds } von { $mark }) gilt nicht mehr: Sie wurde inzwischen zurückgenommen. Ohne sie ansetzen?
trials-before-there-was-seed = { $mark } ist Saatgut von { $year }: Der Ansatz kann nicht { $began } begonnen haben. Prüfe das Jahr.
trials-routine-was-retired = Dieser Ablauf ist außer Gebrauch. Bitte wähle einen anderen.

# Ein Ansatz.

trials-trial-of = Ansatz von { $mark }
trials-vial = , Röhrchen { $number }
trials-in-routine = Ansatz nach <a href="{ $path }">{ $routine }</a>, Version { $number }, begonnen { $began }.
trials-taken-back = zurückgenommen
trials-treated-again = nochmals behandelt
trials-floaters-thrown-out = Schwimmer weggeworfen
trials-note-of = Notiz: { $note }
trials-set-your-alarm = Stell dir den Wecker am Handy: Auf einem gesperrten Handy bleibt die Seite stumm.
trials-no-steps = Dieser Ablauf hat keine Schritte: Der Samen kommt trocken gleich aufs Papier.
trials-lost-returned-sown = Verloren, zurückgelegt, gesät
trials-started-with = Angesetzt mit
trials-still-soaking = Noch eingeweicht
trials-sank-and-floated = { $sank } gesunken, { $floated } geschwommen
trials-lost = Verloren
trials-returned = Zurückgelegt
trials-source = Bezugsquelle
trials-bags = Beutel
trials-floaters = Schwimmer
trials-so-many-rooted = { $n } bewurzelt
trials-closed-with-final-count = abgeschlossen (Endauszählung)
trials-closed-abandoned = abgeschlossen (aufgegeben)
trials-closed = abgeschlossen ({ $ending })
trials-still-on-paper = { $n } noch auf Papier
trials-at-warmth = bei { $warmth }
trials-on-paper-since = auf Papier gelegt { $moment }
trials-photos = Fotos
trials-photo-of = Foto von { $thing }
trials-paired-with = Gepaart mit
trials-companion = { $n ->
    [one] { $routine }, { $n } Same, { $soaking } eingeweicht
   *[other] { $routine }, { $n } Samen, { $soaking } eingeweicht
 }
trials-history = Verlauf
trials-taken-back-by = Zurückgenommen von { $name }: { $why }
trials-take-back = Zurücknehmen
trials-add-a-note = Notiz hinzufügen
trials-note-sort = Was
trials-note-sort-note = Eine Notiz
trials-note-sort-treated-again = Nochmals behandelt oder eingeweicht
trials-in-words = In Worten
trials-save-the-note = Notiz speichern
trials-noted = Notiert.
trials-began-after-that = Der Ansatz hat erst danach begonnen. Gib einen späteren Zeitpunkt an.

# Seine Schritte.

trials-state-done = erledigt
trials-state-skipped = übersprungen
trials-state-not-recorded = nicht notiert
trials-state-late = überfällig
trials-state-now = jetzt
trials-state-then = danach
trials-late-by = {" "}seit { $late }, vorgesehen: { $out }
trials-took = dauerte { $span }
trials-longer-than-planned = { $span } länger als vorgesehen
trials-shorter-than-planned = { $span } kürzer als vorgesehen
trials-at-strength = mit { $strength }
trials-from-the-noted = aus der notierten Lösung ({ $agent })
trials-done-at = Erledigt am
trials-done-at-help = Die wirkliche Zeit; war es zu spät, wird das einfach notiert.
trials-also-done-for = Auch erledigt für
trials-all-of-them = Alle
trials-so-many-seeds = { $n ->
    [one] { $n } Same
   *[other] { $n } Samen
 }
trials-what-was-used = Was wirklich genommen wurde
trials-minutes-it-took = Dauer in Minuten
trials-minutes-it-took-help = Leer: seit dem Schritt davor.
trials-strength = Stärke, %
trials-from-the-solution = Aus der Lösung
trials-no-solution = keine notiert
trials-solution-made = { $solution }, angesetzt { $moment }
trials-note = Notiz
trials-step-done = Schritt erledigt
trials-skip = Übersprungen
trials-did-step = { $trials ->
    [one] Erledigt: Schritt { $step } bei { $trials } Ansatz.
   *[other] Erledigt: Schritt { $step } bei { $trials } Ansätzen.
 }
trials-skipped-step = { $trials ->
    [one] Übersprungen: Schritt { $step } bei { $trials } Ansatz.
   *[other] Übersprungen: Schritt { $step } bei { $trials } Ansätzen.
 }
trials-minutes = { $n ->
    [one] { $n } Minute
   *[other] { $n } Minuten
 }
trials-note-of-step = Schritt { $n }: { $told }
trials-save-it-as-a-note = Was du zu dem Schritt eingetippt hast, steht hier: Speichere es als Notiz zum Ansatz.
trials-step-is-not-running = Dieser Schritt läuft nicht mehr. Sieh nach, wie der Ansatz steht.
trials-step-before-was-later = Der Schritt davor oder der Beginn des Ansatzes war später.
trials-choose-your-solution = Bitte wähle eine deiner Lösungen.

# Die Schwimmprobe.

trials-float-tally = Schwimmprobe
trials-float-tally-of = Schwimmprobe von { $mark }
trials-so-many-soaking = { $n ->
    [one] { $n } Same ist eingeweicht.
   *[other] { $n } Samen sind eingeweicht.
 }
trials-the-trial = Zum Ansatz
trials-nothing-to-tally = Davon ist nichts mehr eingeweicht, also gibt es nichts zu zählen.
trials-nothing-to-tally-of-such-seed = { $state ->
    [pelleted] Dieses Saatgut ist pilliert: Es sinkt oder schwimmt aus anderen Gründen, also gibt es nichts zu zählen.
    [primed] Dieses Saatgut ist geprimt: Es sinkt oder schwimmt aus anderen Gründen, also gibt es nichts zu zählen.
   *[other] Dieses Saatgut ist { $state }: Es sinkt oder schwimmt aus anderen Gründen, also gibt es nichts zu zählen.
 }
trials-tally-is-written-down = Das Ergebnis der Schwimmprobe steht schon da: { $sank } gesunken, { $floated } geschwommen. Stimmt das nicht, nimm es im Verlauf des Ansatzes zurück und zähle noch einmal.
trials-sank = Gesunken
trials-floated = Geschwommen
trials-counted-right-go-on = Ich habe richtig gezählt: mit diesen Zahlen weiter
trials-what-became-of-the-floaters = Was wurde aus den Schwimmern?
trials-floaters-to-own-bag = Eigener Beutel: getrennt gezählt, damit der Verein erfährt, ob Schwimmer bewurzeln
trials-floaters-to-throw-out = Weggeworfen: Sie zählen als nicht bewurzelt, denn bezahlt waren sie
trials-floaters-to-keep-in = Bei den anderen gelassen
trials-floaters-own-bag = eigener Beutel
trials-floaters-out = weggeworfen
trials-floaters-kept-in = dabeigelassen
trials-do-floaters-fail = Bewurzeln Schwimmer nicht? Was die Samen des Vereins dazu sagen
trials-seen-at = Gesehen am
trials-save-the-tally = Ergebnis speichern
trials-tally-saved = Schwimmprobe: { $sank } gesunken, { $floated } geschwommen.
trials-floats-for-other-reasons = { $state ->
    [pelleted] Pilliertes Saatgut sinkt oder schwimmt aus anderen Gründen.
    [primed] Geprimtes Saatgut sinkt oder schwimmt aus anderen Gründen.
   *[other] Saatgut in diesem Zustand ({ $state }) sinkt oder schwimmt aus anderen Gründen.
 }
trials-tally-was-made = Das Ergebnis der Schwimmprobe steht schon da. Nimm es im Verlauf zurück, um neu zu zählen.
trials-say-what-became-of-floaters = Bitte sag, was aus den Schwimmern wurde.
trials-differs-from-the-book = { $book ->
    [one] Nach dem Buch ist { $book } Same eingeweicht, und das hier ergibt { $found }. Kreuze an, dass du richtig gezählt hast, oder ändere die Zahlen.
   *[other] Nach dem Buch sind { $book } Samen eingeweicht, und das hier ergibt { $found }. Kreuze an, dass du richtig gezählt hast, oder ändere die Zahlen.
 }

# Aufs Papier.

trials-on-paper = Aufs Papier
trials-put-on-paper = Auf Papier legen
trials-mark-on-paper = { $mark } aufs Papier
trials-nothing-to-put-on-paper = Davon ist nichts mehr eingeweicht, also gibt es nichts auf Papier zu legen.
trials-soaking-and-floated = { $n ->
    [one] { $n } Same ist eingeweicht, { $floated } geschwommen.
   *[other] { $n } Samen sind eingeweicht, { $floated } geschwommen.
 }
trials-others-can-follow = Samen, die du auslässt, bleiben im Bad und können an einem anderen Tag folgen.
trials-counted-right-so-many = Ich habe richtig gezählt: So viele waren es
trials-bag-number = Beutel { $n }
trials-no-such-bag = Leer: kein solcher Beutel.
trials-place = Ort
trials-place-help = Zum Beispiel Matte, Heizungskeller.
trials-warmth = Wärme, { $unit }
trials-rooted-in-the-soak = Beim Einweichen bewurzelt
trials-of-these-seeds = Von diesen Samen.
trials-these-are-the-floaters = Das sind die Schwimmer
trials-on-paper-at = Auf Papier am
trials-on-paper-at-help = Von hier an zählt Tag 0.
trials-more-bags = Mehr Beutel
trials-how-many-go-on-paper = Wie viele Samen kommen aufs Papier?
trials-more-rooted-than-seeds = Mehr bewurzelt, als Samen in diesem Beutel sind.
trials-put-so-many-on-paper = { $bags ->
    [one] Auf Papier: { $seeds } in { $bags } Beutel.
   *[other] Auf Papier: { $seeds } in { $bags } Beuteln.
 }
trials-soak-ended-later = Das Bad endete erst später: { $when }.
trials-only-so-many-sank = { $sank ->
    [one] Nur { $sank } Same ist gesunken, und die Schwimmer haben einen eigenen Beutel. Kreuze an, in welchem Beutel die Schwimmer sind.
   *[other] Nur { $sank } Samen sind gesunken, und die Schwimmer haben einen eigenen Beutel. Kreuze an, in welchem Beutel die Schwimmer sind.
 }

# Samen, die das Bad ohne Papier verlassen.

trials-seeds-that-leave = Samen, die nicht aufs Papier kommen
trials-what-became-of-them = Was wurde aus ihnen?
trials-leave-lost = Verloren
trials-leave-returned = In die Tüte zurückgelegt
trials-leave-sown = Direkt gesät, ohne Papier
trials-leave-spoiled = Verdorben
trials-when = Wann
trials-save = Speichern
trials-noted-lost = Notiert: { $seeds } verloren.
trials-noted-returned = Notiert: { $seeds } zurückgelegt.
trials-noted-sown = Notiert: { $seeds } gesät.
trials-noted-spoiled = Notiert: { $seeds } verdorben.
trials-at-most-so-many = Höchstens { $n }: So viele sind eingeweicht.

# Was bis jetzt bewurzelt ist.

trials-rooting = Bewurzelung
trials-chart-title = Anteil der Samen von { $mark } auf Papier, deren Wurzel sichtbar war, nach Tagen auf Papier
trials-what-the-chart-shows = Die Linie ist der Anteil, dessen Wurzel sichtbar war; das Band und die Klammern darüber sind sein 95-%-Intervall. Samen, die tot herausgenommen oder als anomal beurteilt wurden, zählen als nie bewurzelt; Samen, die noch auf Papier liegen, zählen so weit, wie sie beobachtet wurden.
trials-span = ({ $low } bis { $high })
trials-rooted-by-the-last-look = der Samen auf Papier waren bis Tag { $day }, der letzten Kontrolle, bewurzelt: { $rooted } von { $seeds } Samen in { $bags ->
    [one] { $bags } Beutel.
   *[other] { $bags } Beuteln.
 }
trials-rooted-when-closed = der Samen auf Papier waren bis Tag { $day }, als der letzte Beutel abgeschlossen wurde, bewurzelt: { $rooted } von { $seeds } Samen in { $bags ->
    [one] { $bags } Beutel.
   *[other] { $bags } Beuteln.
 }
trials-share-allows = Nicht jeder Same wurde gleich lange beobachtet, und der Anteil berücksichtigt das: { $rooted } von { $seeds } allein ergäben { $simple } %.
trials-nothing-rooted = Nichts hat Wurzeln gebildet.
trials-nothing-rooted-yet = Noch hat nichts Wurzeln gebildet.
trials-half-of-all-by = Bei der Hälfte der bewurzelten Samen war die Wurzel bis Tag { $day } sichtbar.
trials-half-so-far-by = Bei der Hälfte der bisher bewurzelten Samen war die Wurzel bis Tag { $day } sichtbar.
trials-half-of-all-between = Bei der Hälfte der bewurzelten Samen wurde die Wurzel zwischen Tag { $low } und Tag { $high } sichtbar; wann genau, sagen die Kontrollen nicht.
trials-half-so-far-between = Bei der Hälfte der bisher bewurzelten Samen wurde die Wurzel zwischen Tag { $low } und Tag { $high } sichtbar; wann genau, sagen die Kontrollen nicht.
trials-left-out-in-doubt = ist unklar und wird darum ausgelassen.
trials-left-out-abandoned = wurde aufgegeben und wird darum ausgelassen.
trials-not-looked-at = wurde noch nicht kontrolliert.

# Ob die Beutel gleich sind.

trials-are-the-bags-alike = Sind die Beutel gleich?
trials-alike-yes = Ja:
trials-alike-no = Nein:
trials-alike-cannot-be-said = lässt sich nicht sagen: { $why }.
trials-unsaid-warmth = Die Beutel liegen verschieden warm
trials-unsaid-nothing-rooted = Nichts war bewurzelt, als zuletzt alle kontrolliert wurden
trials-unsaid-all-rooted = Jeder Same ist bewurzelt, also ist nichts zu unterscheiden
trials-unsaid-apart = Die Beutel wurden an verschiedenen Tagen kontrolliert
trials-unsaid-few-seeds = Die Beutel sind verschieden groß und enthalten zu wenige Samen
trials-spread-in-seeds = { $least } bis { $most } von { $size } waren bis Tag { $day } bewurzelt.
trials-spread-in-percent = { $least } bis { $most } % waren bis Tag { $day } bewurzelt.
trials-accepted-up-to = Die Saatgutprüfung lässt bis zu { $limit } Punkte zwischen den Beuteln gelten ({ $table }).
trials-accepted-only = Die Saatgutprüfung lässt nur { $limit } Punkte zwischen den Beuteln gelten ({ $table }).
trials-chance-can = So weit kann schon der Zufall Beutel auseinanderbringen.
trials-chance-can-up-to = Schon der Zufall kann solche Beutel bis zu { $limit } Samen auseinanderbringen.
trials-chance-seldom = So weit bringt der Zufall allein Beutel seltener als einmal in 40 Fällen auseinander.
trials-chance-seldom-more-than = Mehr als { $limit } Samen bringt der Zufall allein solche Beutel seltener als einmal in 40 Fällen auseinander.
trials-look-for-a-difference = Such nach einem Unterschied in Wärme, Feuchte oder Papier, oder nach einer Verwechslung; das Band oben ist für solche Beutel zu schmal.
trials-table-from-memory = ISTA-Tabelle 5B, aus dem Gedächtnis

# Maße jedes Beutels.

trials-bag = Beutel
trials-each-bag-in-days = Jeder Beutel, in Tagen, seit er auf Papier liegt
trials-more-measures = Weitere Maße
trials-more-measures-of-each = Weitere Maße jedes Beutels
trials-measure-rooted = Bewurzelt
trials-measure-first = Erste Wurzel
trials-measure-half = Hälfte sichtbar bis
trials-measure-mean = Mittlere Dauer
trials-measure-last = Letzte Wurzel
trials-measure-half-otherwise = Hälfte sichtbar bis, anders gerechnet
trials-measure-variance = Varianz der Dauer
trials-measure-variation = Streuung der Dauer
trials-measure-maguire = Geschwindigkeit nach Maguire
trials-measure-kotowski = Geschwindigkeit nach Kotowski
trials-measure-uncertainty = Unsicherheit
trials-measure-synchrony = Gleichzeitigkeit
trials-measure-peak = Spitzenwert
trials-share = { $rate } % ({ $low } bis { $high }), { $rooted }{"\u00A0"}von{"\u00A0"}{ $seeds }
trials-days = { $n } Tage
trials-days-guessed = { $days }, geschätzt: Als die erste gesehen wurde, war es schon die Hälfte
trials-mean-days = { $mean } ± { $error } Tage
trials-mean-days-alone = { $mean } Tage; ± –, { $why }
trials-square-days = { $n } Tage²
trials-seeds-a-day = { $n } Samen am Tag
trials-percent-a-day = { $n } % am Tag
trials-bits = { $n } Bit
trials-why-nothing-rooted = nichts bewurzelt
trials-why-one-seed = nur ein Same bewurzelt
trials-why-no-time = keine Zeit vergangen
trials-why-before-day-0 = Wurzeln waren schon vor Tag 0 sichtbar
