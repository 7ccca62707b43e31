# Wörter für Platten und Zellen.

trays-tray = Platte
trays-name = Name
trays-place = Ort
trays-cells = Zellen
trays-planted = Gepflanzt
trays-free-cells = Frei
trays-bag = Beutel
trays-variety = Sorte
trays-source = Bezugs­quelle
trays-seeds = Samen
trays-size = Größe
trays-when = Wann
trays-state = Stand
trays-save = Speichern

# Zellen in Worten.

trays-grid = { $n } Zellen ({ $across } × { $down })
trays-number-across-down = { $n }: { $across } nebeneinander, { $down } untereinander
trays-sheet-grid = { $n } Zellen, { $across } nebeneinander, { $down } untereinander
trays-tray-across-down = { $tray }, { $across } Zellen nebeneinander, { $down } untereinander
trays-cells-free-of = { $free } von { $n } Zellen frei
trays-cells-from-to = { $first } bis { $last }
trays-cells-between = { $n } Zellen zwischen { $first } und { $last }
trays-days-from-to = { $first } bis { $last }
trays-free = frei
trays-free-was = frei; zuletzt { $state }
trays-next-free = nächste freie

# Was aus Samen wurde.

trays-waiting = wartet
trays-waiting-seeds = wartet, { $n } Samen
trays-up = aufgelaufen
trays-so-many-up = { $up } von { $n } aufgelaufen
trays-so-many-lost = { $n } verloren
trays-so-many-thinned = { $n } ausgedünnt
trays-so-many-potted-on = { $n } umgetopft
trays-potted-on = umgetopft
trays-lost-why = verloren: { $why }
trays-ended-why = beendet: { $why }

trays-why-damped-off = umgefallen
trays-why-did-not-come-up = nicht aufgelaufen
trays-why-eaten = gefressen
trays-why-broke = abgebrochen
trays-why-dried = vertrocknet
trays-why-other = anderes
trays-why-replanted = neu bepflanzt
trays-why-tray-emptied = Platte geleert

# Die Liste der Platten.

trays-make-a-tray = Platte anlegen
trays-none-in-use-make-one = Keine Platte ist in Gebrauch. Lege eine an, schreib ihr Kennzeichen darauf und pflanze bewurzelte Samen in ihre Zellen.
trays-in-use = In Gebrauch
trays-finished = Abgeschlossen

# Eine neue Platte.

trays-cells-help = Die lange Seite läuft nach unten. Eine Platte mit versetzten Reihen, etwa die mit 38 Zellen (Reihen zu 8 und 7), wird mit 8 nebeneinander und 5 untereinander gezeichnet; lass die Zellen frei, die es nicht gibt.
trays-another-one = Eine andere: Ich gebe Reihen und Spalten an
trays-rows-and-columns = Reihen und Spalten einer anderen Platte
trays-cells-across = Zellen nebeneinander
trays-cells-down = Zellen untereinander
trays-up-to-sixty = 1 bis 60
trays-name-help = Wenn du magst: die große, Anzuchtkasten 2. Ein eigenes Kennzeichen bekommt die Platte so oder so.
trays-place-help = Wo sie steht.
trays-make-the-tray = Platte anlegen
trays-where-sizes-come-from = Woher die Größen stammen
trays-outer-sizes = Außenmaße
trays-common-layouts = übliche Aufteilungen
trays-grower-supply-catalogues = Katalogseiten für Gärtnereibedarf
trays-catalogue = Katalog
trays-catalogue-and-trade = Katalog/Handel
trays-from-memory = { $source }, aus dem Gedächtnis
trays-one-size-only = Reihen und Spalten sind auch angegeben. Wähle „{ $other }“ oder leere beide.
trays-choose-or-give-rows = Bitte wähle eine Platte oder gib Reihen und Spalten an.
trays-no-letters-yet = Du hast noch keine Buchstaben für Kennzeichen.
trays-is-ready = { $tray } ist bereit: { $n } Zellen. Schreib das Kennzeichen auf die Platte.

# Eine Platte.

trays-planted-and-free = { $planted }, { $free } frei
trays-made = Angelegt
trays-next-free-cell = Nächste freie Zelle: <strong>{ $cell }</strong>.
trays-every-cell-is-taken = Jede Zelle ist belegt.
trays-note-what-came-up = Aufgelaufenes notieren
trays-print-the-sheet = Blatt drucken
trays-lots-in-this-tray = Was in dieser Platte steht
trays-what-to-do = Was zu tun ist
trays-outcome-of = Ergebnis<span class="vh"> von { $bag }</span>
trays-move-the-tray = Platte umstellen
trays-save-the-place = Ort speichern
trays-place-cleared = Der Ort wurde gelöscht.
trays-is-at = Die Platte steht jetzt hier: { $place }.
trays-finish-this-tray = Diese Platte abschließen
trays-finished-takes-no-more = Eine abgeschlossene Platte nimmt keine Samen mehr auf. Ihre Pflanzungen und ihr Kennzeichen bleiben erhalten.
trays-end-what-is-in-cells = Beenden, was noch in den Zellen ist
trays-why-it-ends = Warum sie endet
trays-why-tray-ends-help = Zum Beispiel: ausgepflanzt, verschenkt. Leer: Platte geleert.
trays-finish-the-tray = Platte abschließen
trays-cells-still-hold = { $n ->
    [one] In { $n } Zelle sind noch Samen oder Pflanzen. Notiere, was aus ihnen wurde, oder kreuze dies an, um sie zu beenden.
   *[other] In { $n } Zellen sind noch Samen oder Pflanzen. Notiere, was aus ihnen wurde, oder kreuze dies an, um sie zu beenden.
 }
trays-is-finished = { $tray } ist abgeschlossen.
trays-is-finished-and-ended = { $n ->
    [one] { $tray } ist abgeschlossen. { $n } Pflanzung beendet: { $why }.
   *[other] { $tray } ist abgeschlossen. { $n } Pflanzungen beendet: { $why }.
 }
trays-take-into-use-again = Wieder in Gebrauch nehmen
trays-in-use-again = Die Platte ist wieder in Gebrauch.

# Pflanzen.

trays-plant-bag = { $bag } pflanzen
trays-sow-unrooted = { $bag } unbewurzelt säen
trays-plant-of = <a class="mark" href="/bags/{ $id }">{ $bag }</a> pflanzen
trays-sow-unrooted-of = Unbewurzelt säen: <a class="mark" href="/bags/{ $id }">{ $bag }</a>
trays-seeds-still-on-paper = { $n ->
    [one] Noch { $n } Same auf Papier. Samen zu säen, bevor sie Wurzeln haben, ist eine letzte Chance; sie zählen als unbekannt, nicht als Fehlschlag.
   *[other] Noch { $n } Samen auf Papier. Samen zu säen, bevor sie Wurzeln haben, ist eine letzte Chance; sie zählen als unbekannt, nicht als Fehlschlag.
 }
trays-seeds-rooted-to-plant = { $n ->
    [one] { $n } Same bewurzelt und noch nicht gepflanzt. Wurzel nach unten.
   *[other] { $n } Samen bewurzelt und noch nicht gepflanzt. Wurzel nach unten.
 }
trays-none-in-use = Keine Platte ist in Gebrauch.
trays-nothing-to-plant = Aus diesem Beutel gibt es jetzt nichts zu pflanzen.
trays-note-a-look-first = Notiere zuerst eine Kontrolle, wenn mehr bewurzelt sind.
trays-to-the-bag = Zum Beutel
trays-make-another-tray = Weitere Platte anlegen
trays-seeds-to-plant = Samen zum Pflanzen
trays-seeds-to-a-cell = Samen je Zelle
trays-last-cell-takes-rest = Die letzte Zelle nimmt den Rest.
trays-from-cell = Ab Zelle
trays-from-cell-help = Leer: die nächsten freien Zellen, Reihe für Reihe. Oder nenne eine, etwa B3: Sie muss frei sein, und belegte Zellen danach werden übersprungen.
trays-as-it-stands = So wie es steht: { $takes }
trays-takes = { $seeds }, { $each ->
    [1] 1 je Zelle
   *[other] bis zu { $each } je Zelle
 }, in { $tray }: { $n ->
    [one] Zelle { $cells }.
   *[other] { $cells }.
 }
trays-takes-is-said-here = Welche Zellen es werden, steht hier, sobald die Zahlen stimmen.
trays-show-cells-again = Zellen noch einmal zeigen
trays-plant-over-or-another-time = Belegtes ersetzen oder zu anderer Zeit pflanzen
trays-cells-that-are-taken = Belegte Zellen
trays-skip-them = Überspringen
trays-end-and-plant-over = Beenden, was darin ist, und neu bepflanzen, Zelle für Zelle ab der oben genannten
trays-why-old-planting-ends = Warum die alte Pflanzung endet
trays-why-old-planting-ends-help = Leer: neu bepflanzt. Was zu ihr notiert wurde, bleibt.
trays-plant = Pflanzen
trays-sow = Säen
trays-choose-or-make = Wähle eine Platte oder lege eine an.
trays-no-such-cell = Diese Zelle gibt es nicht. Die Zellen von { $tray } gehen von A1 bis { $last }.
trays-name-the-first-cell = Nenne die erste Zelle, die neu bepflanzt werden soll.
trays-cell-is-taken = In Zelle { $cell } ist { $bag }. Lass das Feld für die nächste freie Zelle leer oder bepflanze sie neu.
trays-too-few-free = { $n ->
    [one] Nur { $n } Zelle ist frei. Pflanze weniger oder nimm eine andere Platte.
   *[other] Nur { $n } Zellen sind frei. Pflanze weniger oder nimm eine andere Platte.
 }
trays-too-few-free-from = { $n ->
    [one] Nur { $n } Zelle ist ab { $cell } frei. Pflanze weniger oder nimm eine andere Platte.
   *[other] Nur { $n } Zellen sind ab { $cell } frei. Pflanze weniger oder nimm eine andere Platte.
 }
trays-tray-is-finished = Diese Platte ist abgeschlossen. Wähle eine andere.
trays-not-so-many-on-paper = { $n ->
    [one] Von { $bag } ist noch { $n } Same auf Papier, nicht mehr.
   *[other] Von { $bag } sind noch { $n } Samen auf Papier, nicht mehr.
 }
trays-not-so-many-rooted = { $n ->
    [one] Von { $bag } ist { $n } Same bewurzelt und noch nicht gepflanzt oder beendet. Notiere zuerst eine Kontrolle, wenn mehr bewurzelt sind.
   *[other] Von { $bag } sind { $n } Samen bewurzelt und noch nicht gepflanzt oder beendet. Notiere zuerst eine Kontrolle, wenn mehr bewurzelt sind.
 }
trays-seeds-in-cells = { $n ->
    [one] { $seeds } von { $bag } in { $tray }: Zelle { $cells }.
   *[other] { $seeds } von { $bag } in { $tray }: { $cells }.
 }
trays-plant-rooted-of = Bewurzelte Samen von { $bag } pflanzen: { $n }

# Was aus den Samen in einer Platte wurde.

trays-outcomes-in = Ergebnisse in { $tray }
trays-what-became-of-seeds-in = Was aus den Samen in <a class="mark" href="/trays/{ $id }">{ $tray }</a> wurde
trays-tick-cells-with-same-news = Hake die Zellen an, von denen es dasselbe zu melden gibt; es wird für alles notiert, was noch in ihnen ist. Betrifft es nur einen Teil der Samen einer Zelle, öffne die Zelle von der Platte aus.
trays-the-news = Was es Neues gibt
trays-news-up = Aufgelaufen
trays-news-lost = Verloren
trays-news-thinned = Ausgedünnt
trays-news-potted-on = Umgetopft
trays-news-up-help = Seit der letzten Notiz über der Erde zu sehen.
trays-news-thinned-help = Herausgenommen, um Platz zu schaffen; kein Verlust.
trays-why-lost = Warum verloren
trays-where-news-is-lost = Wenn etwas verloren ist.
trays-other-reason = Anderer Grund
trays-where-reason-is-other = Wenn es ein anderer Grund ist.
trays-every-planted-cell = Jede bepflanzte Zelle
trays-save-for-ticked-cells = Für die angekreuzten Zellen speichern
trays-nothing-planted = In dieser Platte ist nichts gepflanzt.
trays-tick-one-cell = Hake mindestens eine Zelle an.
trays-nothing-left-in-ticked = In den angekreuzten Zellen ist nichts mehr übrig, wovon sich das notieren ließe.
trays-not-noted-how-many-up = { $n ->
    [one] Zelle { $cell }: Es ist nicht notiert, ob der Same aufgelaufen ist. Öffne die Zelle und notiere es dort.
   *[other] Zelle { $cell }: Es ist nicht notiert, wie viele der { $n } Samen aufgelaufen sind. Öffne die Zelle und notiere es dort.
 }
trays-cells-noted-up = { $n ->
    [one] { $n } Zelle notiert: aufgelaufen.
   *[other] { $n } Zellen notiert: aufgelaufen.
 }
trays-cells-noted-lost = { $n ->
    [one] { $n } Zelle notiert: verloren.
   *[other] { $n } Zellen notiert: verloren.
 }
trays-cells-noted-thinned = { $n ->
    [one] { $n } Zelle notiert: ausgedünnt.
   *[other] { $n } Zellen notiert: ausgedünnt.
 }
trays-cells-noted-potted-on = { $n ->
    [one] { $n } Zelle notiert: umgetopft.
   *[other] { $n } Zellen notiert: umgetopft.
 }
trays-nothing-left-in-others = { $n ->
    [one] In { $n } Zelle war nichts mehr zu notieren.
   *[other] In { $n } Zellen war nichts mehr zu notieren.
 }

# Eine Pflanzung.

trays-bag-in-tray-cell = { $bag } in { $tray }, Zelle { $cell }
trays-bag-in-cell = <a class="mark" href="/bags/{ $id }">{ $bag }</a> in Zelle { $cell }
trays-sown-unrooted = Unbewurzelt gesät
trays-ended = Beendet
trays-what-is-new = Was es Neues gibt
trays-empty-is-now = Leer: jetzt.
trays-give-a-number = Gib für das Neue eine Zahl über 0 an.
trays-noted = Notiert. { $bag }: { $state }.
trays-the-whole-tray = Die ganze Platte
trays-end-this-planting = Diese Pflanzung beenden
trays-why-planting-ends-help = Zum Beispiel: verschenkt, Zelle gebraucht. Die Zelle wird frei; was notiert wurde, bleibt.
trays-end-it = Beenden
trays-history = Verlauf
trays-taken-back-by = Zurückgenommen von { $name }: { $why }
trays-take-back = Zurücknehmen<span class="vh">: { $entry }, { $when }</span>
trays-other-plantings-of-cell = Andere Pflanzungen in Zelle { $cell }
trays-planted-on = gepflanzt { $day }, { $state }

# Das gedruckte Blatt.

trays-sheet-of = Blatt zu { $tray }
trays-back-to-the-tray = Zurück zur Platte
trays-a4-instead = Stattdessen A4
trays-us-letter-instead = Stattdessen US Letter
trays-print-at-full-size = Drucke aus dem Menü des Browsers, mit 100 %.
trays-printed = Gedruckt am { $day }.
trays-page-of = Seite { $n } von { $all }
trays-page-of-list = Seite { $n } von { $all }: Liste der Beutel
trays-list-goes-on = Die Liste der Beutel geht auf der nächsten Seite weiter.
trays-text-is-smaller = Text in schmalen Zellen ist kleiner als 9 pt; in der Liste steht jedes Kennzeichen in 9 pt.
trays-number-stands-for-mark = Eine Zahl in einer Zelle steht für das Kennzeichen daneben in der Liste.
trays-code-that-opens = Code, der { $tray } öffnet
trays-the-cells-of = Die Zellen von { $tray }
