# Zeilen und Spalten von Listen.

transfer-line = Zeile
transfer-row = Zeile
transfer-line-number = Zeile { $n }
transfer-row-number = Zeile { $n }
transfer-in-line = Zeile { $n }
transfer-in-row = Zeile { $n }
transfer-headings-in-line = Die Überschriften stehen in Zeile
transfer-headings-in-row = Die Überschriften stehen in Zeile
transfer-column = Spalte
transfer-column-number = Nummer
transfer-column-kind = Art
transfer-column-variety = Sorte
transfer-column-source = Bezugsquelle
transfer-column-year = Jahr
transfer-column-lot-code = Partienummer
transfer-column-seeds = Samen
transfer-column-grams = Gramm
transfer-column-seeds-per-gram = Samen je Gramm
transfer-column-place = Ort
transfer-column-state = Zustand
transfer-column-species = botanischer Name
transfer-column-note = Notiz
transfer-column-genus = Gattung
transfer-column-subspecies = Unterart
transfer-column-bag = Beutel
transfer-column-date = Tag der Kontrolle
transfer-column-hours = Stunden
transfer-column-rooted = bewurzelt
transfer-column-abnormal = anomal
transfer-column-dead = tot
transfer-column-trial = Ansatz
transfer-column-on-paper = auf Papier seit
transfer-column-routine = Ablauf
transfer-column-warmth = Wärme
transfer-column-soaked = eingeweicht
transfer-column-floated = geschwommen
transfer-column-closed = abgeschlossen

# Die Liste einer Saison einlesen.

transfer-bring-in-list = Liste einlesen
transfer-bring-in-season-list = Deine Saisonliste einlesen
transfer-season-list-lead = Eine Tabelle als XLSX, ODS oder CSV, oder kopiert und eingefügt. Eine der ersten Zeilen nennt die Spalten, auf Deutsch oder Englisch; was nicht erkannt wird, ordnest du im nächsten Schritt selbst zu. Nötig: Art, Sorte, Bezugsquelle und Samen oder Gramm. Außerdem: Nummer, Jahr, Partienummer, Samen je Gramm, Ort, Zustand (unbehandelt, pilliert, geprimt oder gebeizt), botanischer Name, Notiz. Bevor etwas gespeichert wird, siehst du, wie die Tabelle verstanden wird, und kannst es ändern; höchstens 20.000 Tüten auf einmal.
transfer-file = Datei
transfer-up-to-10-mb = Bis 10 MB.
transfer-or-the-list = oder die Liste selbst
transfer-season-list-such-as = Etwa: Nummer, Art, Sorte, Bezugsquelle, Jahr, Samen
transfer-letters-of-marks = Buchstaben der Kennzeichen
transfer-letters-of-marks-help = Nummern der Liste bleiben als Kennzeichen erhalten, wo sie frei sind. Wer jede Saison bei 1 anfängt, nimmt vorher neue Buchstaben.
transfer-new-letters = Neue Buchstaben für diese Saison
transfer-look-first = Erst ansehen
transfer-twice-counts-once = Dieselbe Liste, zweimal eingelesen, zählt einmal. Zwei gleiche Zeilen in einer Liste sind zwei Tüten.
transfer-bring-in-counts-instead = Stattdessen Zählungen einlesen
transfer-choose-or-paste = Wähle eine Datei oder füge die Liste hier ein.
transfer-too-many-packets = Das sind mehr als 20.000 Tüten. Bitte lies sie in Teilen ein.
transfer-brought-in = Eingelesen: { $count }.

# Eine Liste, wie sie sein wird.

transfer-list-as-it-will-be = Die Liste, wie sie sein wird
transfer-nothing-saved-yet = Noch ist nichts gespeichert: { $count }, die zusammen eingelesen werden.
transfer-mend-this = <strong>Nichts wurde gespeichert.</strong> Bitte berichtige das in der Liste oder ändere unten, wie sie gelesen wird:
transfer-and-more = Und { $n } weitere.
transfer-brought-in-before = Wurde diese Liste schon einmal eingelesen? Wenn du jede Saison wieder bei 1 anfängst, <a href="/packets/letters">nimm neue Buchstaben</a> und wähle sie unten; oder lass diese Nummern leer, dann bekommst du die nächsten freien.
transfer-rows-brought-in-before = Schon eingelesene Zeilen, darum ausgelassen: { $n }.
transfer-no-such-column = Ausgelassen, weil es diese Spalten hier nicht gibt:
transfer-bring-in = { $count } einlesen
transfer-start-over = Von vorn beginnen
transfer-how-it-is-read = Wie sie gelesen wird
transfer-sheet = Tabellenblatt
transfer-the-sheet-that-suits = das am besten passende
transfer-such-as = etwa { $example }
transfer-leave-column-out = auslassen
transfer-the-list = Die Liste
transfer-or-the-mended-file = oder die berichtigte Datei
transfer-look-again = Noch einmal ansehen
transfer-the-first-and-faults = Die ersten von { $count }, und Zeilen mit Fehlern
transfer-the-first-of = : die ersten { $shown } von { $total }
transfer-the-first = : die ersten { $shown }
transfer-next-number = nächste

# Was eine Liste offen lässt.

transfer-say-which-is-meant = <strong>Nichts wurde gespeichert.</strong> Bitte sag, was gemeint ist:
transfer-which-is-meant = Was ist gemeint?
transfer-near-or-swapped = Ähnlich geschrieben oder vielleicht vertauscht. Wenn Art und Sorte durchweg vertauscht sind, ändere unten, wie die Spalten gelesen werden.
transfer-kind-and-variety = Art { $kind }, Sorte { $variety }
transfer-the-row-with = Die Zeile mit { $names }
transfer-is-right = stimmt so
transfer-or-is-it = Es gibt eine Zeile mit { $names }. Oder ist es { $other }?

# Zählungen einlesen.

transfer-bring-in-counts = Zählungen einlesen
transfer-counts-lead = Eine Tabelle von Kontrollen als XLSX, ODS oder CSV, oder kopiert und eingefügt: eine Zeile für jede Kontrolle eines Beutels. Eine der ersten Zeilen nennt die Spalten, auf Deutsch oder Englisch; was nicht erkannt wird, ordnest du im nächsten Schritt selbst zu. Zahlen sagen, was seit der Kontrolle davor neu ist.
transfer-counts-of-bags-here = <b>Kontrollen deiner Beutel, die hier sind:</b> Beutel (sein Kennzeichen), Datum (der Tag der Kontrolle; oder Stunden, die auf Papier) und was neu war: bewurzelt, anomal, tot. Eine Kontrolle, die mit denselben Zahlen schon hier ist, wird ausgelassen.
transfer-counts-of-past = <b>Beutel früherer Saisons:</b> außerdem Art, Sorte, Bezugsquelle, Samen und „auf Papier seit“ (ein Tag); wenn du hast, auch Ansatz, Jahr, Ablauf, Wärme, eingeweicht, geschwommen und abgeschlossen (ja oder nein). Jeder Ansatz wird zu einer Tüte von dir unter der nächsten freien Nummer, deren Samen alle verbraucht sind; Zeilen, die denselben Ansatz nennen, sind einer. Was bei der letzten Kontrolle noch auf Papier war, wird als nicht untersucht vermerkt, außer unter „abgeschlossen“ steht nein. Sie zählen dann in der Vereinstabelle wie alle anderen, als deine, gleich welches Mitglied die Datei nennt.
transfer-counts-of-club-table = Die Datei „Die Zählungen dahinter“ der Vereinstabelle lässt sich einlesen. Bevor etwas gespeichert wird, siehst du, wie alles verstanden wird, und eine Liste, die zweimal eingelesen wird, zählt einmal.
transfer-counts-such-as = Etwa: Beutel, Datum, bewurzelt, tot
transfer-letters-for-past = Buchstaben für Tüten früherer Saisons
transfer-counts-as-they-will-be = Die Zählungen, wie sie sein werden
transfer-rows-here-already = Zeilen, die schon hier sind, darum ausgelassen: { $n }.
transfer-days-such-as = Tage wie 3/4/2026
transfer-as-the-list-tells = wie die Liste sagt
transfer-day-first = Tag zuerst
transfer-month-first = Monat zuerst
transfer-read-day-first = Tage wie 3/4/2026 werden mit dem Tag zuerst gelesen: 3. April.
transfer-read-month-first = Tage wie 3/4/2026 werden mit dem Monat zuerst gelesen: 4. März.
transfer-looks = { $n ->
    [one] { $n } Kontrolle
   *[other] { $n } Kontrollen
 }
transfer-looks-into-bags-here = Kontrollen von Beuteln, die hier sind
transfer-bags-of-seasons-past = Beutel früherer Saisons
transfer-bag = Beutel
transfer-found = Gefunden
transfer-on-paper = Auf Papier
transfer-routine = Ablauf

# Was an einer Datei nicht stimmt.

transfer-file-is-large = Diese Datei ist größer als 10 MB. Bitte lies sie in Teilen ein.
transfer-file-is-empty = Diese Datei ist leer.
transfer-file-is-gone = Die Datei wird hier nicht mehr aufbewahrt. Bitte wähle sie noch einmal.
transfer-file-is-locked = Diese Datei ist mit einem Passwort gesperrt. Entferne das Passwort, speichere sie und versuche es noch einmal.
transfer-locked-or-old = Diese Datei ist mit einem Passwort gesperrt oder stammt von einem alten Büroprogramm. Speichere sie als CSV, XLSX oder ODS und versuche es noch einmal.
transfer-file-is-damaged = Diese Datei ist beschädigt oder keine Tabelle. Speichere sie als CSV, XLSX oder ODS und versuche es noch einmal.
transfer-no-spreadsheet = Diese Datei ist keine Tabelle. Speichere sie als CSV, XLSX oder ODS und versuche es noch einmal.
transfer-no-table-in-file = In dieser Datei ist keine Tabelle. Speichere sie als CSV, XLSX oder ODS und versuche es noch einmal.
transfer-not-a-table = Diese Datei ist keine Tabelle, die sich hier lesen lässt. Speichere sie als CSV, XLSX oder ODS und versuche es noch einmal.
transfer-not-utf-8 = Die Datei ist nicht in UTF-8, darum wurde sie als Windows-1252 gelesen: Sieh nach, ob Umlaute und Akzente stimmen.
transfer-list-not-read = Die Liste ließ sich nicht lesen.
transfer-too-many-rows = Sie hat mehr als { $most } Zeilen. Bitte lies sie in Teilen ein.
transfer-too-many-columns = Sie hat mehr als { $most } Spalten. Lass die weg, die nicht zur Liste gehören.
transfer-too-much-text = Sie enthält zu viel Text für eine Liste.
transfer-part-is-missing = Es ist keine { $part } darin.
transfer-part-is-damaged = { $part } darin ist beschädigt.
transfer-part-is-large = { $part } darin ist zu groß.

# Was an einer Liste nicht stimmt.

transfer-nothing-in-list = In der Liste steht nichts. Ihre erste Zeile nennt die Spalten.
transfer-no-packet-below = Unter den Überschriften steht keine Tüte.
transfer-no-count-below = Unter den Überschriften steht keine Zählung.
transfer-no-column-named = Es gibt keine Spalte namens { $name }.
transfer-no-seeds-nor-grams = Es gibt keine Spalte namens Samen und keine namens Gramm.
transfer-no-column-for = Es gibt keine Spalte für „{ $column }“.
transfer-no-date-nor-hours = Es gibt keine Spalte für den Tag der Kontrolle und keine für die Stunden auf Papier.
transfer-two-columns = Es gibt zwei Spalten für „{ $column }“.
transfer-no-heading = „{ $cell }“ steht, wo es keine Überschrift gibt.
transfer-cell-not-worked-out = Das Tabellenprogramm konnte diese Zelle nicht berechnen: { $cell }.
transfer-not-a-number = „{ $cell }“ ist keine Zahl. { $please }
transfer-not-a-day = „{ $cell }“ ist kein Tag. Schreib etwa 2026-02-28 oder 28.2.2026.
transfer-neither-yes-nor-no = „{ $cell }“ ist weder ja noch nein.
transfer-not-a-state = Bitte eins von diesen: unbehandelt, pilliert, geprimt, gebeizt.
transfer-nothing-left = Jede Zeile dieser Liste wurde schon eingelesen, es bleibt nichts hinzuzufügen.
transfer-species-noted = { $variety } ist schon als { $species } vermerkt.
transfer-letters-not-yours = Die Buchstaben { $letters } sind nicht deine.
transfer-mark-given-before = { $mark } wurde schon vergeben, und ein Kennzeichen wird nie zweimal vergeben.
transfer-mark-stands-twice = { $mark } steht auch in { $place }.

# Was an Zählungen nicht stimmt.

transfer-mark-of-packet = { $mark } ist das Kennzeichen einer Tüte, nicht eines Beutels.
transfer-mark-of-tray = { $mark } ist das Kennzeichen einer Platte, nicht eines Beutels.
transfer-mark-of-holder = { $mark } ist das Kennzeichen eines Sammelbeutels, nicht eines Beutels.
transfer-anothers-bag = { $mark } ist der Beutel eines anderen Mitglieds oder wurde zurückgenommen.
transfer-other-numbers = { $mark } hat zu dieser Zeit eine Kontrolle mit anderen Zahlen.
transfer-in-the-future = Das liegt in der Zukunft.
transfer-when-was-this-look = Wann war diese Kontrolle?
transfer-not-on-paper-yet = Der Beutel war noch nicht auf Papier.
transfer-say-when-on-paper = Kein Beutel hier hat dieses Kennzeichen. Um einen früheren Beutel einzulesen, gib an, seit wann er auf Papier ist.
transfer-say-how-many-seeds = Kein Beutel hier hat dieses Kennzeichen. Um einen früheren Beutel einzulesen, gib an, wie viele Samen er enthielt.
transfer-another-in-trial = „{ $column }“ ist hier anders als in { $place }, beim selben Ansatz.
transfer-other-things-of-bag = Diese Zeile sagt anderes über den Beutel als { $place }.
transfer-look-at-same-time = Der Beutel hat in { $place } eine Kontrolle zur selben Zeit.
transfer-more-counted-than-seeds = Bis zu dieser Kontrolle wurden mehr Samen gezählt als die { $n } des Beutels.
transfer-soaked-fewer = { $n ->
    [one] { $n } Same wurde eingeweicht, doch { $paper } kamen auf Papier.
   *[other] { $n } Samen wurden eingeweicht, doch { $paper } kamen auf Papier.
 }
transfer-floaters-both-ways = Schwimmer in einem eigenen Beutel und weggeworfene Schwimmer in einem Ansatz: Das lässt sich hier nicht vermerken.
transfer-no-such-routine = Einen Ablauf dieses Namens gibt es hier nicht. Lege ihn zuerst unter „Abläufe“ an oder lass die Zelle leer.
transfer-nothing-is-counted = Hier ist nichts gezählt. Eine Kontrolle ohne Neues ist eine 0; sonst lass die Zeile weg.

# Andere Vereine.

transfer-other-clubs = Andere Vereine
transfer-club-table = Vereinstabelle
transfer-clubs-lead = Zwei Vereine, die Hilum betreiben, können einander ihre Zählungen als Dateien leihen. Was ein anderer Verein fand, hilft, Bezugsquellen zu vergleichen; zu unseren eigenen Zählungen kommt es nie hinzu. Im Vergleich darf jeder Verein etwas besser oder schlechter sein als die anderen, und jedes seiner Mitglieder ebenso.
transfer-file-is-being-made = <strong>Die Datei wird erstellt.</strong> Alle Zählungen des Vereins kommen hinein, das dauert eine Weile. Drück in einer Minute noch einmal auf „Datei speichern“.
transfer-nothing-brought-in = <strong>Nichts wurde eingelesen.</strong> In den Zählungen der Datei:
transfer-ask-the-other-club = Bitte den anderen Verein, die Datei noch einmal zu speichern.
transfer-tables-here = Tabellen, die hier sind
transfer-none-yet = Noch keine.
transfer-left-out = ausgelassen
transfer-brought-in-by = Eingelesen von { $by }, { $when }.
transfer-leave-out-of-comparison = Aus dem Vergleich weglassen
transfer-take-into-comparison = In den Vergleich aufnehmen
transfer-remove = Entfernen
transfer-table-is-to-go = Die Tabelle von { $name } soll weg
transfer-tick-that-it-goes = Kreuze an, dass sie weg soll.
transfer-bring-in-table = Tabelle eines anderen Vereins einlesen
transfer-bring-in-table-lead = Die .zip-Datei, die er auf seiner Seite „Andere Vereine“ gespeichert hat. Eine neuere Datei desselben Vereins ersetzt die ältere.
transfer-save-our-table = Unsere Tabelle für einen anderen Verein speichern
transfer-save-our-table-lead = Eine .zip-Datei mit jeder Zählung, die in der Vereinstabelle ist: ein Data Package 2.0, das auch andere Programme lesen. Mitglieder und Ansätze sind darin nummeriert, und Kennzeichen bleiben hier; Sorten, Bezugsquellen und Abläufe behalten ihre Namen. Was andere Vereine uns geliehen haben, ist nicht darin.
transfer-licence = Lizenz
transfer-licence-help = Was der andere Verein damit tun darf: ein Kurzname wie CC-BY-4.0 oder eine Adresse. Darf leer bleiben.
transfer-licence-name-or-address = Ein Kurzname wie CC-BY-4.0 oder die Adresse des Textes.
transfer-with-names = Mit den Namen der Mitglieder und den Kennzeichen ihrer Tüten; sie sind einverstanden
transfer-save-the-file = Datei speichern
transfer-numbers = { $seeds } in { $bags } von { $growers }
transfer-in-so-many-bags = { $n ->
    [one] { $n } Beutel
   *[other] { $n } Beuteln
 }
transfer-of-so-many-growers = { $n ->
    [one] { $n } Mitglied
   *[other] { $n } Mitgliedern
 }
transfer-made = { $numbers }, Stand { $day }.
transfer-made-under = { $numbers }, Stand { $day }, unter { $licence }.
transfer-table-of = Die Tabelle von { $name }
transfer-nothing-saved-yet-here = Noch ist nichts gespeichert.
transfer-takes-the-place = Sie ersetzt die Tabelle mit Stand { $day } ({ $numbers }).
transfer-that-one-is-newer = Jene ist neuer als diese Datei.
transfer-a-little-differently = Was ein anderer Verein etwas anders nennt.
transfer-is-another-one = ist eine andere
transfer-bring-it-in = Einlesen
transfer-leave-it = Verwerfen
transfer-its-varieties-and-sources = Ihre Sorten und Bezugsquellen
transfer-here = Hier
transfer-not-grown-here = hier nicht angebaut
transfer-here-as = als { $variety }, { $source }
transfer-table-brought-in = Eingelesen: die Tabelle von { $name }. Der Vergleich nimmt sie in wenigen Minuten auf.
transfer-table-counts-again = Die Tabelle von { $name } zählt in wenigen Minuten wieder im Vergleich.
transfer-table-is-left-out = Die Tabelle von { $name } wird in wenigen Minuten aus dem Vergleich weggelassen.
transfer-table-is-gone = Die Tabelle von { $name } ist weg. Die Datei lässt sich wieder einlesen.

# Was an der Datei eines anderen Vereins nicht stimmt.

transfer-choose-club-file = Bitte wähle die Datei des anderen Vereins.
transfer-counts-do-not-come-out = Die Zählungen darin gehen nicht auf.
transfer-not-a-shared-table = Das ist nicht die geteilte Tabelle eines Vereins: eine .zip-Datei, gespeichert unter „Andere Vereine“.
transfer-table-of-our-own = Das ist die Tabelle unseres eigenen Vereins. Ihre Zählungen sind schon hier.
transfer-counts-not-utf-8 = counts.csv darin ist nicht in UTF-8.
transfer-file-names-no-club = Die Datei nennt ihren Verein nicht.
transfer-file-names-no-installation = Die Datei sagt nicht, von welcher Installation sie kommt.
transfer-file-names-no-day = Die Datei sagt nicht, wann sie erstellt wurde, oder nennt einen Tag in der Zukunft.
transfer-counts-were-changed = Die Zählungen darin wurden unterwegs geändert oder beschädigt.
transfer-counts-not-described = Die Datei beschreibt ihre Zählungen nicht.
transfer-too-many-looks = Es sind mehr als { $most } Kontrollen darin.
transfer-no-count-in-it = Es ist keine Zählung darin.
transfer-too-long = „{ $text }“ ist zu lang oder lässt sich nicht drucken.
transfer-no-name = „{ $text }“ ist kein Name: Es ist kein Buchstabe und keine Ziffer darin.
transfer-day-is-missing = Der Tag, seit dem er auf Papier ist, fehlt.
transfer-day-is-out-of-range = Das liegt in der Zukunft oder vor 1970.
