# Die Vereinstabelle.
rates-club-table = Vereinstabelle
rates-of-started-by-day = Von den angesetzten Samen, ohne verlorene und zurückgelegte (weggeworfene Schwimmer zählen als nicht bewurzelt): der Anteil, dessen Wurzel bis zum Stichtag der Art sichtbar war.
rates-of-started-at-close = Von den angesetzten Samen, ohne verlorene und zurückgelegte (weggeworfene Schwimmer zählen als nicht bewurzelt): der Anteil, dessen Wurzel sichtbar war, als der Beutel abgeschlossen wurde, egal wie spät.
rates-of-paper-by-day = Von den Samen, die aufs Papier kamen, ohne verlorene: der Anteil, dessen Wurzel bis zum Stichtag der Art sichtbar war.
rates-of-paper-at-close = Von den Samen, die aufs Papier kamen, ohne verlorene: der Anteil, dessen Wurzel sichtbar war, als der Beutel abgeschlossen wurde, egal wie spät.
rates-in-brackets = In Klammern steht das 95-%-Intervall; es berücksichtigt, dass Beutel, Ansätze und Gärtner verschieden sind.
rates-about-the-standard-day = Der Stichtag ist der veröffentlichte Tag der letzten Zählung normaler Keimlinge. Hier geht es um bewurzelte Samen, nicht um Keimlinge: Vergleiche sie nicht mit einer aufgedruckten Keimfähigkeit in Prozent.
rates-standard-days = Stichtage: { $days }.
rates-own-standard-days = Für diese Arten ist kein Tag veröffentlicht, darum gilt der eigene des Vereins, bis zu dem 95 % aller seiner bewurzelten Samen so weit waren: { $days }.
rates-kind-and-day = { $kind } Tag { $day }
rates-as-of-now = Die Raten sind von { $when }, mit jeder Zählung darin.
rates-as-of-before = Die Raten sind von { $when }, seitdem { $n ->
    [one] kam 1 Zählung hinzu: Sie ist
   *[other] kamen { $n } Zählungen hinzu: Sie sind
 } in einer Minute darin.
rates-rest-is-our-own = Alles andere in dieser Tabelle stammt allein aus unseren eigenen Zählungen.
rates-not-in-the-rates = Nicht in den Raten: { $late }, { $doubt }, { $abandoned }.
rates-bags-too-late = { $n ->
    [one] { $n } Beutel, der erst zu kurz auf Papier liegt
   *[other] { $n } Beutel, die erst zu kurz auf Papier liegen
 }
rates-running-bags-count = Beutel, die noch laufen oder früh abgeschlossen wurden, zählen mit dem, was von ihnen bekannt ist, und nie als Fehlschläge.
rates-do-floaters-fail = Fallen Schwimmer aus?
rates-calculators = Rechner
rates-other-clubs = Andere Vereine
rates-table-as-file = Diese Tabelle als Datei (CSV)
rates-counts-as-file = Die Zählungen dahinter (CSV)
rates-files-without-names = Mit diesen Dateien geht kein Name eines anderen Mitglieds hinaus: In den Zählungen sind Gärtner, Ansätze und Beutel Nummern, dieselben durch die ganze Datei, und Saatgut, das ein Mitglied selbst gewonnen hat, heißt nach dieser Nummer. Was dir gehört, behält in den Zählungen seine Kennzeichen.
rates-counts-with-names = Die Zählungen mit Namen, für die Leitung
rates-with-names = Mit den Namen der Gärtner und den Kennzeichen ihrer Beutel; sie sind einverstanden
rates-save-the-file = Datei speichern (CSV)
rates-about-the-files = Die Datei der Tabelle enthält auch die bereinigten Raten, wenn keine Saison, kein Gärtner und kein Ablauf gewählt ist, und nennt zu jeder Zeile ihren Stand. Die Zählungen kann <code>hilum analyse</code> lesen; mit <code>--as-of</code> und dem heutigen Datum gibt es diese Tabelle aus.
rates-about-the-files-of-clubs = Die Datei der Tabelle enthält auch die bereinigten Raten, wenn keine Saison, kein Gärtner und kein Ablauf gewählt ist, und nennt zu jeder Zeile ihren Stand. Die Zählungen kann <code>hilum analyse</code> lesen; mit <code>--as-of</code> und dem heutigen Datum gibt es diese Tabelle aus, allein anhand unserer eigenen Zählungen bereinigt.

# Was zusammengefasst wird.
rates-choose = Wähle, was zusammengefasst wird
rates-rate-of = Rate von
rates-seeds-started = angesetzten Samen
rates-seeds-on-paper = Samen auf Papier
rates-by-the-standard-day = bis zum Stichtag
rates-at-the-close = bis zum Abschluss
rates-on-paper-in = Auf Papier im Jahr
rates-grower = Gärtner
rates-routine = Ablauf
rates-any = alle
rates-show = Anzeigen
rates-everything = Alles

# Die Zeilen.
rates-no-rows = Noch kein Beutel hat seinen Stichtag erreicht, oder keiner passt zu deiner Auswahl. Ein Beutel kommt nach dem Tag hinein, an dem er aufs Papier kam; kontrolliere ihn, und seine Samen zählen hier.
rates-rows-of-started-by-day = Bewurzelt von angesetzten Samen, bis zum Stichtag; 95-%-Intervall in Klammern
rates-rows-of-started-at-close = Bewurzelt von angesetzten Samen, bis zum Abschluss; 95-%-Intervall in Klammern
rates-rows-of-paper-by-day = Bewurzelt von Samen auf Papier, bis zum Stichtag; 95-%-Intervall in Klammern
rates-rows-of-paper-at-close = Bewurzelt von Samen auf Papier, bis zum Abschluss; 95-%-Intervall in Klammern
rates-variety = Sorte
rates-source = Bezugsquelle
rates-kind = Art
rates-rate = Rate
rates-adjusted = Bereinigt
rates-rooted = Bewurzelt
rates-trials = Ansätze
rates-bags = Beutel
rates-growers = Gärtner
rates-half-rooted-by = Hälfte bewurzelt nach
rates-signs = Zeichen
rates-not-known-yet = noch nicht bekannt
rates-span = ({ $low } bis { $high })
rates-seeds-of-growers = { $seeds ->
    [one] { $seeds } Same
   *[other] { $seeds } Samen
 }, { $growers ->
    [one] { $growers } Gärtner
   *[other] { $growers } Gärtner
 }
rates-part-of = { $n } von { $all }
rates-days = { $n } Tagen
rates-doubtful-cross = { $variety } (vielleicht verkreuzt)
rates-pages = Seiten der Tabelle
rates-earlier = Zurück
rates-later = Weiter
rates-page = Seite { $n } von { $all }

# Die Zeichen einer Zeile und was sie bedeuten.
rates-few-seeds = wenige Samen
rates-estimated = geschätzt
rates-bags-closed-early = { $n ->
    [one] { $n } Beutel vor dem Stichtag abgeschlossen
   *[other] { $n } Beutel vor dem Stichtag abgeschlossen
 }
rates-bags-running = { $n ->
    [one] { $n } Beutel läuft noch
   *[other] { $n } Beutel laufen noch
 }
rates-bags-not-there = { $n ->
    [one] { $n } Beutel noch nicht so weit
   *[other] { $n } Beutel noch nicht so weit
 }
rates-floaters-thrown-out = Schwimmer weggeworfen
rates-bags-in-doubt = { $n ->
    [one] { $n } Beutel unklar
   *[other] { $n } Beutel unklar
 }
rates-bags-abandoned = { $n ->
    [one] { $n } Beutel aufgegeben
   *[other] { $n } Beutel aufgegeben
 }
rates-own-day = eigener Stichtag des Vereins
rates-group = Gruppe { $n } von { $all }
rates-what-signs-mean = Was die Zeichen bedeuten
rates-few-seeds-means = Weniger wert als 30 unabhängige Samen; das Intervall zeigt, wie wenig bekannt ist.
rates-estimated-means = Bei einem Beutel fiel keine Kontrolle auf den Stichtag oder einen Tag davor oder danach; dafür steht die Kurve durch alle Kontrollen.
rates-closed-early = vor dem Stichtag abgeschlossen
rates-closed-early-means = Der Beutel wurde beendet, als noch Samen auf dem Papier lagen; sie zählen als nicht bekannt, nicht als ausgefallen.
rates-not-there = noch nicht so weit
rates-not-there-means = Beutel, die weniger Tage auf Papier liegen als bis zum Stichtag. Alle Beutel eines Tages kommen zusammen hinein, damit die schnellen nicht vorgehen.
rates-thrown-out-means = Sie waren bezahlt, darum zählen sie unter den angesetzten Samen als nicht bewurzelt; ob sie es noch wären, weiß niemand.
rates-doubt-or-abandoned = unklar, aufgegeben
rates-doubt-means = Diese Beutel sind nicht mehr in der Rate.
rates-adjusted-means = Öffne eine Sorte: Dort stehen ihre Bezugsquellen im Vergleich, und warum rohe und bereinigte Rate sich unterscheiden.
rates-group-sign = Gruppe
rates-group-means = Bezugsquellen einer Sorte lassen sich nur innerhalb einer Gruppe vergleichen: Eine Kette von Gärtnern mit gemeinsamen Bezugsquellen verbindet sie.
rates-half-rooted-means = Tage auf Papier, bis die Hälfte der Samen, die überhaupt bewurzeln, bewurzelt war.

# Bereinigte Raten.
rates-no-adjusted-here = Hier gibt es keine bereinigten Raten: Sie stammen aus dem ganzen Verein zugleich, denn nur so lässt sich das Saatgut von seinen Gärtnern trennen. Wähle bei Jahr, Gärtner und Ablauf „alle“, um sie zu sehen.
rates-about-adjusted = Bereinigt heißt: was ein Gärtner mit durchschnittlicher Pflege sähe, von Samen auf Papier. Es stammt aus dem ganzen Verein zugleich und ist bereinigt um { $effects }. { $age }
rates-about-adjusted-with-others = Bereinigt heißt: was ein Gärtner mit durchschnittlicher Pflege sähe, von Samen auf Papier. Es stammt aus dem ganzen Verein zugleich, { $others }, und ist bereinigt um { $effects }. { $age }
rates-adjusted-for-grower = Gärtner
rates-adjusted-for-routine = Ablauf
rates-adjusted-for-warmth = Wärme
rates-adjusted-for-age = Alter des Saatguts
rates-too-little-known = zu wenig bekannt
rates-not-worked-out-yet = noch nicht ausgerechnet
rates-of-other-clubs = { $seeds ->
    [one] { $seeds } Same
   *[other] { $seeds } Samen
 } aus { $clubs ->
    [one] einem anderen Verein
   *[other] { $clubs } anderen Vereinen
 }
rates-with-other-clubs = mit { $seeds } Samen aus { $clubs ->
    [one] einem anderen Verein
   *[other] { $clubs } anderen Vereinen
 }
rates-first-comparison = Die Bezugsquellen werden zum ersten Mal verglichen. Öffne diese Seite in einer Minute noch einmal.
rates-did-not-settle = Der Vergleich kam zu keinem Ergebnis: Aus den Zählungen bis jetzt lässt sich nicht sagen, wie sicher seine Zahlen wären, darum steht hier keine. Die rohen Raten gelten. Mehr Ansätze helfen.
rates-nothing-to-compare = Noch kein Beutel hat seinen Stichtag erreicht, darum gibt es nichts zu vergleichen.
rates-cannot-be-worked-out = Der Vergleich lässt sich aus diesen Zählungen nicht ausrechnen, darum steht hier keine Zahl davon. Die rohen Raten gelten.
rates-standing-as-of = Stand: { $when }, mit jeder Zählung darin.
rates-standing-before = Stand: { $when }. Spätere Zählungen sind noch nicht darin; in wenigen Minuten wird neu gerechnet.

# Falsche Adressen und Dateien.
rates-no-such-column = Diese Spalte hat die Tabelle nicht.
rates-no-such-table = Die Adresse fragt nach einer Tabelle, die es nicht gibt. Wähle auf der Seite der Tabelle.
rates-file-is-being-made = Die Datei wird erstellt
rates-file-takes-a-while = Alle Zählungen des Vereins kommen hinein, das dauert eine Weile. Öffne sie in einer Minute noch einmal.

# Schwimmer.
rates-floaters = Schwimmer
rates-rule-of-thumb = Eine Faustregel sagt, dass Samen, die am Ende des Bads schwimmen, selten bewurzeln. Ob das für deine Samen gilt, können nur deine Samen zeigen: Wähle bei der Schwimmprobe für die Schwimmer „eigener Beutel“, kontrolliere beide Beutel und schließe beide ab.
rates-floaters-rooted = Von den Schwimmern trotzdem bewurzelt
rates-sinkers-rooted = Von den Sinkern bewurzelt
rates-odds-of-failing = Chancenverhältnis (Odds Ratio) für einen Ausfall, Schwimmer gegen Sinker derselben Partie
rates-brackets = In Klammern stehen 95-%-Intervalle.
rates-about-odds = Das Chancenverhältnis vergleicht innerhalb jeder Partie, damit eine schlechte Partie mit vielen Schwimmern nicht täuscht: 1 hieße, dass das Schwimmen nichts aussagt; über 1 fallen Schwimmer öfter aus.
rates-no-evidence-for-peppers = Veröffentlichte Belege für Paprika und Chili wurden nicht gefunden. Hilum schreibt Schwimmer nie von sich aus ab: Was aus ihnen wird, sagst du bei der Schwimmprobe.
rates-floats-by-lot = Nach Partie: Samen auf Papier, und wie viele bis zum Abschluss bewurzelten, in { $n ->
    [one] { $n } Ansatz
   *[other] { $n } Ansätzen
 }
rates-source-and-year = Bezugsquelle und Jahr
rates-floated = Geschwommen
rates-sank = Gesunken
rates-lots-that-tell-most = Gezeigt sind die { $shown } Partien, die am meisten aussagen; in den Zahlen oben sind alle { $all }.
rates-not-in-the-figures = Was nicht in diesen Zahlen ist
rates-thrown-out = Weggeworfene Schwimmer: { $seeds }. Ob sie bewurzelt wären, kann niemand mehr beurteilen.
rates-kept-in = Schwimmer, die bei den Sinkern blieben: { $seeds }. Sie wurden nicht getrennt verfolgt, darum lassen auch sie sich nicht beurteilen.
rates-seeds-of-trials = { $seeds ->
    [one] { $seeds } Same
   *[other] { $seeds } Samen
 } aus { $trials ->
    [one] { $trials } Ansatz
   *[other] { $trials } Ansätzen
 }
rates-nothing-else-left-out = Sonst ist nichts weggelassen.
rates-left-out = Weggelassen: { $what }.
rates-left-out-running = { $n ->
    [one] { $n } Same aus Ansätzen mit einem Beutel, der noch läuft
   *[other] { $n } Samen aus Ansätzen mit einem Beutel, der noch läuft
 }
rates-left-out-sown = { $n ->
    [one] { $n } Same unbewurzelt gesät
   *[other] { $n } Samen unbewurzelt gesät
 }
rates-when-a-trial-enters = Ein Ansatz kommt hinein, sobald jeder seiner Beutel abgeschlossen oder leer ist oder am Stichtag seiner Art kontrolliert wurde; aus Ansätzen ohne Beutel mit Schwimmern wird nichts genommen.
rates-none-on-paper = keine
rates-some-rooted = { $n }, bewurzelt { $rooted }
rates-lot = Partie { $code }
rates-failed-while-none-sank = Bei den Samen dieses Vereins fielen Schwimmer aus, während von den Sinkern derselben Partie kein Same ausfiel.
rates-failed-times = Bei den Samen dieses Vereins fielen Schwimmer etwa { $times }-mal so oft aus wie Sinker derselben Partie.
rates-failed-somewhat-more = Bei den Samen dieses Vereins fielen Schwimmer etwas öfter aus als Sinker derselben Partie.
rates-failed-less = Bei den Samen dieses Vereins fielen Schwimmer seltener aus als Sinker derselben Partie: Nichts spricht hier dafür, sie wegzuwerfen.
rates-rooted-as-well = Schwimmer bewurzelten etwa so gut wie Sinker derselben Partie: Nichts spricht hier dafür, sie wegzuwerfen.
rates-floaters-do-not-tell = Die Samen des Vereins sagen noch nichts: Schwimmer können öfter ausgefallen sein als Sinker oder genauso oft. Nichts spricht hier dafür, sie wegzuwerfen.
rates-all-or-none-rooted = Noch gibt es nichts zu unterscheiden: In jeder Partie mit beiden bewurzelten alle Samen oder keiner.
rates-no-lot-has-both = Noch hat keine Partie beide: Gib Schwimmer in einen eigenen Beutel, um es herauszufinden.
rates-yet-some-rooted = Doch { $percent } % der Schwimmer bewurzelten trotzdem.
rates-no-floater-rooted = Keiner der Schwimmer bewurzelte.
rates-no-seeds-yet = noch keine Samen
rates-share = { $percent } % ({ $low } bis { $high }): { $x } von { $n } Samen
rates-odds-ratio = { $ratio } ({ $low } bis { $high })
rates-odds-without-limit = unbegrenzt: kein Sinker fiel aus
rates-odds-nought = 0: kein Schwimmer fiel aus
rates-given-up-the-same = Einige Beutel wurden vor dem Stichtag beendet; ohne diese Ansätze ist der Befund derselbe.
rates-given-up-everywhere = Vorsicht: In jedem Ansatz, der vergleicht, wurde ein Beutel vor dem Stichtag beendet, und ein Schwimmer, der früh aufgegeben wird, kann nicht spät bewurzeln.
rates-given-up-otherwise = Vorsicht: Einige Beutel wurden vor dem Stichtag beendet, und ohne diese Ansätze sagen die Samen nicht dasselbe. Ein Schwimmer, der früh aufgegeben wird, kann nicht spät bewurzeln.
rates-how-worked-out = Wie das ausgerechnet wird
