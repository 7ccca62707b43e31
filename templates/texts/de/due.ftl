# Jetzt fällig

due-look-at-all-due = Alle { $n } fälligen Beutel auf einer Seite kontrollieren
due-none-on-paper-yet = Noch kein Beutel auf Papier.
due-nothing-due = Nichts ist fällig, und noch nichts liegt auf Papier.
due-bring-in-a-list = Eine Liste einlesen
due-start-trials = Neue Ansätze
due-none-due = Kein Beutel ist jetzt fällig.
due-root-likely-today = Heute wahrscheinlich eine Wurzel.
due-and-more = Und { $n } weitere. <a href="/looks">Alle fälligen Beutel auf einer Seite kontrollieren</a>.
due-the-plan = Zum Plan
due-all-open-bags = Alle offenen Beutel
due-print-labels = Etiketten drucken
due-count-cards = Zählkarten
due-later-looks = { $n ->
    [one] { $n } Beutel auf Papier wartet auf eine spätere Kontrolle: { $day }.
   *[other] { $n } Beutel auf Papier warten auf eine spätere Kontrolle, die nächste: { $day }.
 }
due-next-start = Im Plan ist als Nächstes anzusetzen, { $day }: { $seeds }.
due-late = { $n ->
    [one] { $n } Tag überfällig
   *[other] { $n } Tage überfällig
 }

# Was an einer Sache fällig ist

due-look = { $variety }: Kontrolle, { $day }. { $paper }.
due-plant = { $n ->
    [one] { $variety }: { $n } bewurzelter Same wartet auf eine Zelle.
   *[other] { $variety }: { $n } bewurzelte Samen warten auf eine Zelle.
 }
due-close = { $variety }: Auf dem Papier ist nichts mehr. Schließe den Beutel ab.
due-start = { $day ->
    [today] { $variety }: heute { $n } Samen von { $mark } ansetzen.
   *[other] { $variety }: { $n } Samen von { $mark } ansetzen, geplant für { $day }.
 }
due-start-none = { $day ->
    [today] { $variety }: Heute sind { $n } Samen anzusetzen, { $mark } hat keine.
   *[other] { $variety }: Für { $day } war geplant, { $n } Samen anzusetzen, { $mark } hat keine.
 }
due-start-short = { $day ->
    [today] { $variety }: heute { $gives } der { $n } Samen von { $mark } ansetzen
   *[other] { $variety }: { $gives } der { $n } Samen von { $mark } ansetzen, geplant für { $day }
 }; { $short ->
    [one] { $short } fehlt.
   *[other] { $short } fehlen.
 }
due-blind = Ringversuch { $ring }: Setze deine verdeckte Tüte an.
due-blinds = Ringversuch { $ring }: Setze deine verdeckten Tüten gemeinsam an: { $marks }.
due-step = { $variety }{ $vial }: { $step }, { $seeds }
due-tally = { $n ->
    [one] { $variety }{ $vial }: eingeweicht, { $n } Same wartet auf die Schwimmprobe.
   *[other] { $variety }{ $vial }: eingeweicht, { $n } Samen warten auf die Schwimmprobe.
 }
due-paper = { $n ->
    [one] { $variety }{ $vial }: { $n } Same wartet auf das Papier.
   *[other] { $variety }{ $vial }: { $n } Samen warten auf das Papier.
 }
due-button-start = Ansetzen
due-button-step = Nächster Schritt
due-button-tally = Schwimmprobe
due-button-paper = Auf Papier legen
due-button-plant = Pflanzen
due-button-close = Abschließen
due-button-count = Zählen
