# Wörter für Zählkarten.

cards-count-cards = Zählkarten
cards-holder = Sammelbeutel
cards-place = Ort
cards-number = Nr.
cards-bag = Beutel
cards-variety = Sorte
cards-date = Datum
cards-date-n = Datum { $n }
cards-root = Wurz.
cards-root-out = Wurzel<span class="vh"> sichtbar</span>
cards-dead = Tot
cards-card = Karte { $n }
cards-type-in = Karte { $n } eintippen

# Die Liste der Karten und neue.

cards-what-a-card-is = Eine Karte hängt an der Wand im Schuppen: eine Zeile für jeden offenen Beutel, leere Spalten für die Tage einer Woche. Eingetippt wird sie später, Zeile für Zeile, in derselben Reihenfolge. Der Code darauf öffnet die Seite dafür.
cards-no-bag-has-seeds = Keiner deiner Beutel hat jetzt Samen auf Papier.
cards-any-holder = jeder Sammelbeutel
cards-any-place = jeder Ort
cards-make-cards = { $n ->
    [one] Karten für den offenen Beutel anlegen
   *[other] Karten für die { $n } offenen Beutel anlegen
 }
cards-no-such-bag = Dort ist kein offener Beutel mit Samen auf Papier.
cards-no-letters-yet = Du hast noch keine Buchstaben.
cards-no-free-number = Für die Karte fand sich keine freie Nummer. Bitte versuche es noch einmal.
cards-made = { $cards ->
    [one] { $cards } Karte
   *[other] { $cards } Karten
 } für { $bags } Beutel. Drucke aus dem Menü des Browsers mit 100 %.
cards-with-open-bags = Karten mit offenen Beuteln
cards-no-bags = 0 Beutel, angelegt { $day }
cards-one-bag = 1 Beutel, { $bag }, angelegt { $day }
cards-so-many-bags = { $n } Beutel, { $first } bis { $last }, angelegt { $day }
cards-print-card = <span class="vh">Karte { $n } </span>Drucken

# Die gedruckte Karte.

cards-all = Alle Zählkarten
cards-none-chosen = Es wurde keine Karte gewählt.
cards-card-of = Karte { $n }, { $name }
cards-code-that-opens = Code, der Karte { $n } öffnet
cards-how-to-write = Gedruckt am { $day }. Schreib unter ein Datum, was seit der Kontrolle davor neu ist: wie viele bewurzelt, wie viele tot und herausgenommen. Lass es leer, wo niemand nachgesehen hat; 0 heißt: nachgesehen, und nichts Neues.
cards-on-paper-of = Auf Papier
cards-of = { $left }/{ $seeds }
cards-closed = beendet

# Eine Karte eintippen.

cards-nothing-is-wrong = <strong>Daran ist nichts falsch.</strong> Gespeichert ist es noch nicht.
cards-as-on-paper = Wie auf dem Papier, Zeile für Zeile: was seit der Kontrolle davor neu ist. Leer: niemand hat nachgesehen. 0: nachgesehen, und nichts Neues.
cards-dates-on-this-page = Tage auf dieser Seite:
cards-print-again = Karte noch einmal drucken
cards-the-rows = Die Zeilen der Karte
cards-still-on-paper = noch { $n } auf Papier
cards-cell-root-out = Zeile { $row }, { $bag }, Datum { $date }: Wurzel sichtbar
cards-cell-dead = Zeile { $row }, { $bag }, Datum { $date }: tot
cards-another-look = eine weitere Kontrolle: auch zählen
cards-closed-or-gone = Abgeschlossen oder nicht mehr bei dir.
cards-check = Prüfen
cards-save-the-card = Karte speichern
cards-give-the-date = Darunter stehen Zählungen: Gib das Datum an, an dem gezählt wurde.
cards-type-a-date = Tippe ein Datum ein und darunter, was gezählt wurde.
cards-in-the-future = Das liegt in der Zukunft. Gib den Tag an, an dem gezählt wurde.
cards-date-stands-twice = Dieses Datum steht auch über einer anderen Spalte.
cards-counted-already = Am { $day } schon gezählt: { $rooted } bewurzelt, { $dead } tot.
cards-not-with-you = { $bag } ist nicht mehr bei dir.
cards-on-paper-only-since = { $bag } ist erst seit { $day } auf Papier.
cards-in-the-book = Karte { $card } steht im Buch: { $counts ->
    [one] { $counts } Zählung
   *[other] { $counts } Zählungen
 } mit { $rooted } bewurzelt, { $dead } tot; { $looks ->
    [one] { $looks } Kontrolle
   *[other] { $looks } Kontrollen
 } ohne Neues.
