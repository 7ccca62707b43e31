# Zeilen des Verlaufs

notebook-look-found = Kontrolle: { $found }
notebook-closed = abgeschlossen ({ $ending }): { $found }
notebook-sank-floated = Schwimmprobe: { $sank } gesunken, { $floated } geschwommen
notebook-step-skipped = Schritt { $n } übersprungen
notebook-step-done = Schritt { $n } erledigt
notebook-event-to-at = { $event }: { $place }, { $warmth } °C
notebook-event-to = { $event }: { $place }
notebook-event-at = { $event }: { $warmth } °C
notebook-in-cell = { $entry } in { $tray }, Zelle { $cell }

# Was gefunden wurde

notebook-found-rooted = { $n } bewurzelt
notebook-found-abnormal = { $n } anomal
notebook-found-dead = { $n } tot
notebook-found-fresh = { $n } frisch
notebook-found-hard = { $n } hart
notebook-found-not-examined = { $n } nicht untersucht
notebook-found-lost = { $n } verloren
notebook-found-nothing = nichts Neues

# Woher Samen kamen und wohin sie gingen

notebook-received = erhalten
notebook-taken = entnommen
notebook-returned = zurückgelegt
notebook-found = gefunden
notebook-given = abgegeben
notebook-spoiled = verdorben
notebook-recount = neu gezählt
notebook-to-paper = auf Papier gelegt
notebook-thrown-out = weggeworfen
notebook-lost = verloren
notebook-sown = gesät
notebook-on-paper = auf Papier
notebook-moved-out = in einen anderen Beutel gelegt
notebook-moved-in = aus einem anderen Beutel übernommen
notebook-sown-unrooted = unbewurzelt gesät

# Was mit einem Beutel oder Ansatz passiert ist

notebook-damped = nachgefeuchtet
notebook-paper-changed = Papier gewechselt
notebook-rinsed = gespült
notebook-soaked-again = nochmals eingeweicht
notebook-mould-seen = Schimmel gesehen
notebook-mouldy-removed = schimmlige Samen entfernt
notebook-dried-out = ausgetrocknet
notebook-overheated = überhitzt
notebook-moved = umgestellt
notebook-into-holder = in Sammelbeutel gelegt
notebook-out-of-holder = aus Sammelbeutel genommen
notebook-handed-on = weitergegeben
notebook-look-weekly = ab jetzt wöchentlich kontrollieren
notebook-look-daily = ab jetzt täglich kontrollieren
notebook-in-doubt = unklar
notebook-resolved = wieder geklärt
notebook-treated-again = nochmals behandelt
notebook-note = Notiz

# Wie Beutel, bewurzelte Samen und Pflanzungen enden

notebook-final-count = Endauszählung
notebook-kept-on = weitergeführt
notebook-abandoned = aufgegeben
notebook-planted = gepflanzt
notebook-surplus = überzählig
notebook-root-broken = Wurzel gebrochen
notebook-rotted = verfault
notebook-up = aufgelaufen
notebook-thinned = ausgedünnt
notebook-potted-on = umgetopft
notebook-ended = beendet

# Was ein Eintrag ist

notebook-ledger = Buchung
notebook-trial-seeds = Samen im Ansatz
notebook-float-tally = Schwimmprobe
notebook-step = Schritt
notebook-trial-event = Ereignis im Ansatz
notebook-look = Kontrolle
notebook-closing = Abschluss
notebook-bag-seeds = Samen im Beutel
notebook-bag-event = Ereignis am Beutel
notebook-rooted-end = Verbleib bewurzelter Samen
notebook-planting = Pflanzung
notebook-outcome = Ergebnis
notebook-entry-of = { $what }, { $mark }
notebook-entry-in-cell = { $what }, { $mark } in { $tray }, Zelle { $cell }

# Notizen und Gründe vom Programm selbst

notebook-undone = rückgängig gemacht
notebook-rooted-after-closing = nach dem Abschluss bewurzelt
notebook-mouldy-seeds-removed = schimmlige Samen entfernt
notebook-rooted-during-the-soak = beim Einweichen bewurzelt

# Warum Einträge nicht aufgehen

notebook-stands-on = Der Eintrag „{ $entry }“ vom { $when }: { $why }.
notebook-before-the-trial = er liegt vor dem Beginn des Ansatzes
notebook-before-the-planting = er liegt vor der Pflanzung
notebook-more-left-the-soak = es kamen mehr Samen aus dem Bad, als hineinkamen
notebook-closing-tells-of = es waren noch { $there } Samen auf Papier, und der Abschluss ergibt { $told }
notebook-not-on-paper-yet = der Beutel war noch nicht auf Papier
notebook-more-than-in-bag = es sind mehr Samen eingetragen, als im Beutel waren
notebook-more-than-rooted = es sind mehr bewurzelte Samen gepflanzt oder beendet, als bis dahin bewurzelt waren
notebook-closed-before-it = der Beutel war schon vorher abgeschlossen
notebook-more-than-planted = es sind mehr Samen, als in diese Zelle gepflanzt wurden
notebook-more-than-up = es sind mehr Sämlinge ausgedünnt oder umgetopft, als bis dahin aufgelaufen waren
notebook-planting-had-ended = die Pflanzung war schon vorher beendet
notebook-planting-would-be-gone = die Pflanzung, um die es geht, gäbe es nicht mehr

# Was nicht geht

notebook-left-by-the-book = { $n ->
    [one] Nach dem Buch ist noch { $n } Same da. Zähle, was in der Tüte ist, und gib die neue Zahl an, oder nimm weniger.
   *[other] Nach dem Buch sind noch { $n } Samen da. Zähle, was in der Tüte ist, und gib die neue Zahl an, oder nimm weniger.
 }
notebook-taken-later = Auf diesem Eintrag bauen Samen auf, die später aus dieser Tüte genommen wurden. Nimm zuerst jene Einträge zurück.
notebook-cell-is-taken = In dieser Zelle ist inzwischen eine andere Pflanzung. Wähle eine freie Zelle.
notebook-only-an-organiser = Solange ein Ringversuch läuft, nimmt nur die Leitung seine Ausgaben zurück.
notebook-taken-back-already = Das wurde schon zurückgenommen.
notebook-too-late-to-undo = Zum Rückgängigmachen mit einem Tipp ist es zu spät. Nimm den Eintrag in seinem Verlauf zurück, mit einem Grund.
