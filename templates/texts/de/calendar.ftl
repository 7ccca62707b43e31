# Der Kalender, den Mitglieder abonnieren.

calendar-due-now = Jetzt fällig: { $club }
calendar-asked-too-often = Diese Adresse wurde zu oft abgerufen. Warte eine Minute und versuch es noch einmal.

# Titel der Termine.

calendar-out-of-the-soak = Aus dem Bad: { $marks }
calendar-soaks-go-on = { $n ->
    [one] { $n } Bad geht weiter
   *[other] { $n } Bäder gehen weiter
 }
calendar-look-at = { $n ->
    [one] { $n } Beutel kontrollieren
   *[other] { $n } Beutel kontrollieren
 }
calendar-plant = { $n ->
    [one] { $n } bewurzelten Samen pflanzen
   *[other] { $n } bewurzelte Samen pflanzen
 }
calendar-close = { $n ->
    [one] { $n } Beutel abschließen
   *[other] { $n } Beutel abschließen
 }
calendar-start-trials = { $n ->
    [one] { $n } neuer Ansatz
   *[other] { $n } neue Ansätze
 }
calendar-start-blind = { $n ->
    [one] { $n } verdeckte Tüte ansetzen
   *[other] { $n } verdeckte Tüten ansetzen
 }
calendar-and-more = { $marks } und { $n } weitere

# Was unter einem Titel steht.

calendar-rooted = { $variety }, { $n } bewurzelt
calendar-ring-trial = Ringversuch { $name }
calendar-float-tally = Schwimmprobe
calendar-on-paper = auf Papier
calendar-let-water-stand = Leitungswasser abstehen lassen
calendar-sanitising-soak = Desinfektionsbad
calendar-rinse = spülen
calendar-priming-soak = Quellbad
calendar-drain = abgießen
calendar-rest = ruhen lassen
calendar-step = Schritt
calendar-step-in = { $step } ({ $agent })
