# Die Liste.
rings-ring-trials = Ringversuche
rings-what-they-are = Dieselben Partien einer Sorte, geprüft von mehreren Gärtnern, die nicht wissen, welche welche ist. So klärt sich, welche Bezugsquelle besser ist, und nicht, wer die bessere Hand hat.
rings-set-up = Ringversuch anlegen
rings-none-yet = Noch keine.
rings-none-for-you = Du nimmst an keinem teil, und noch keiner wurde aufgedeckt. Die Leitung legt sie an.
rings-stage-given-up = aufgegeben
rings-stage-opened = aufgedeckt: sieh, was herauskam
rings-stage-running = läuft, verdeckt
rings-stage-planned = geplant
rings-listed = { $what }: { $lots ->
    [one] { $lots } Partie
   *[other] { $lots } Partien
 }, { $growers ->
    [one] { $growers } Gärtner
   *[other] { $growers } Gärtner
 }
rings-listed-yours = { $what }: { $lots ->
    [one] { $lots } Partie
   *[other] { $lots } Partien
 }, { $growers ->
    [one] { $growers } Gärtner
   *[other] { $growers } Gärtner
 }; du nimmst teil

# Eine Sorte wählen.
rings-which-variety = Welche Sorte? Das sind die, von denen der Verein Saatgut aus zwei oder mehr Partien hat.
rings-no-variety-yet = Noch gibt es keine: Von keiner Sorte liegt in irgendjemandes Tüten Saatgut aus zwei Partien.
rings-packets = Tüten
rings-lots-of-one-source = { $lots } Partien, alle aus einer Bezugsquelle
rings-lots-of-sources = { $lots } Partien, { $sources } Bezugsquellen
rings-choose-this = <span class="vh">{ $variety } </span>wählen

# Einen anlegen.
rings-ring-trial-of = Ringversuch mit { $variety }
rings-ring-trial-of-kind = Ringversuch mit { $variety }, { $kind }
rings-name = Name
rings-name-help = Die Gärtner lesen ihn auf ihren Etiketten: Er darf nicht verraten, was geprüft wird. Höchstens 40 Zeichen.
rings-which-packets = Welche Tüten werden verglichen? Eine von jeder Partie.
rings-with-owner = { $left }, bei { $owner }
rings-who-takes-part = Wer nimmt teil?
rings-difference = Unterschied, den zu finden sich lohnt
rings-difference-help-new = In bewurzelten Samen von 100. Der halbe braucht viermal so viel Saatgut.
rings-difference-help = In bewurzelten Samen von 100.
rings-certainty = Wie sicher soll er gefunden werden?
rings-certainty-80 = 80 % (üblich)
rings-certainty-90 = 90 %: braucht mehr Saatgut
rings-certainty-70 = 70 %: braucht weniger Saatgut
rings-quoted = „{ $words }“
rings-most-lots = Höchstens so viele Partien für einen Gärtner
rings-most-lots-help = Leer: bis zu { $n }.
rings-next-page = Auf der nächsten Seite steht, wie viele Beutel und Samen das braucht und ob die Tüten so viel enthalten. Dort kannst du die Zahlen ändern.
rings-make-the-plan = Plan aufstellen
rings-two-growers-please = Bitte mindestens zwei Gärtner: Was einer findet, kann an seiner Hand liegen.
rings-most-growers = Höchstens { $n } Gärtner.
rings-name-tells = Der Name steht auf jedem Etikett und darf nichts verraten: Lass { $told } weg.
rings-two-packets-please = Bitte mindestens zwei Tüten, von verschiedenen Partien.
rings-most-lots-of-one = Höchstens { $n } Partien in einem Ringversuch.
rings-same-lot = { $one } und { $other } sind von derselben Partie. Kreuze eine davon an.
rings-planned = Geplant: { $name }. Noch ist nichts ausgelost oder ausgeteilt.

# Beutel, Samen und wie weit jede Tüte ist.
rings-bags-of-seeds = { $bags ->
    [one] { $bags } Beutel mit
   *[other] { $bags } Beutel mit je
 } { $seeds } Samen
rings-about-seeds = etwa { $n ->
    [one] { $n } Same
   *[other] { $n } Samen
 }
rings-not-handed-out = nicht ausgeteilt
rings-handed-out = ausgeteilt
rings-soaking = im Bad
rings-closed = abgeschlossen
rings-on-paper = auf Papier
rings-on-paper-and-soaking = auf Papier, einige im Bad
rings-counted = { $n } von { $all } bewurzelt
rings-lot-number = Partie { $n }

# Der Plan.
rings-plan-of = Ringversuch mit { $variety }, { $kind }: { $lots } Partien, { $n } Gärtner ({ $growers }). Geplant von { $by }. Noch ist nichts ausgelost oder ausgeteilt.
rings-what-it-can-show = Was dieser Plan zeigen kann
rings-plan-size = { $bags } <small>von jeder Partie bei jedem Gärtner, { $seeds } Samen.</small>
rings-too-few = <strong>Dafür reichen diese Zahlen nicht.</strong> { $enough }
rings-too-little-to-show = Das ist zu wenig, um irgendeinen Unterschied nachzuweisen.
rings-hardly-ever-seen = Ein wahrer Unterschied von { $difference } bewurzelten Samen in 100 würde kaum je sichtbar. Mit { $certainty } % Sicherheit zeigen sie Unterschiede von { $least } bewurzelten Samen in 100 oder mehr.
rings-seen-nearly-always = Ein wahrer Unterschied von { $difference } bewurzelten Samen in 100 würde in mindestens 99 von 100 solchen Versuchen sichtbar. Mit { $certainty } % Sicherheit zeigen sie Unterschiede von { $least } bewurzelten Samen in 100 oder mehr.
rings-seen-in = Ein wahrer Unterschied von { $difference } bewurzelten Samen in 100 würde in etwa { $n } von 100 solchen Versuchen sichtbar. Mit { $certainty } % Sicherheit zeigen sie Unterschiede von { $least } bewurzelten Samen in 100 oder mehr.
rings-it-takes = Dieser Unterschied braucht { $bags } Beutel mit je { $seeds } Samen von jeder Partie bei jedem Gärtner.
rings-rate-of-variety = { $percent } % von { $seeds } Samen dieser Sorte bewurzelten bisher im Verein
rings-rate-of-kind = { $percent } % von { $seeds } Samen dieser Art bewurzelten bisher im Verein
rings-rate-assumed = Angenommen ist, dass 80 % bewurzeln, bis der Verein 30 Samen der Art gezählt hat
rings-bags-share-luck = Samen in einem Beutel teilen sein Glück, darum sagen 100 Samen in Beuteln zu { $size } so viel aus wie { $n } einzelne ({ $why }).
rings-likeness-measured = gemessen an { $n } eigenen Beuteln des Vereins, jeder neben anderen aus derselben Tüte mit demselben Ablauf
rings-likeness-assumed = angenommen, bis der Verein etwa zwanzig Beutel neben anderen aus derselben Tüte mit demselben Ablauf hat
rings-do-packets-hold-enough = Enthalten die Tüten genug?
rings-no-not-enough = <strong>Nein.</strong> { $held } Ändere die Zahlen unten, oder lass die Tüten erst nachzählen oder auffüllen.
rings-yes = Ja.
rings-not-one-seed-each = Sie enthalten nicht einmal einen Samen für jeden Gärtner.
rings-they-hold = Sie reichen für { $bags } von jeder Partie für jeden Gärtner. { $sure }
rings-take-what-they-hold = Nehmen, was sie enthalten
rings-packet = Tüte
rings-lot = Partie
rings-with = Bei
rings-holds = Enthält
rings-needs = Braucht
rings-short-by = Es fehlen
rings-needs-for-growers = { $seeds }, für { $n } Gärtner
rings-short-seeds = { $n } Samen
rings-packets-unlike = Die Tüten sind nicht alle im selben Zustand: Die Gärtner sehen, ob ein Same gebeizt oder pilliert ist, und erraten vielleicht etwas. Die Warnung steht trotzdem auf ihren Tüten.
rings-who-tests-what = Wer was prüft
rings-every-grower-all = Jeder Gärtner prüft alle { $lots } Partien, darum { $n ->
    [one] vergleicht { $n } Gärtner
   *[other] vergleichen { $n } Gärtner
 } je zwei Partien miteinander.
rings-each-grower-balanced = Jeder Gärtner prüft { $each } der { $lots } Partien, und je zwei Partien haben genau { $n ->
    [one] { $n } gemeinsamen Gärtner
   *[other] { $n } gemeinsame Gärtner
 }: Kein Paar ist im Vorteil.
rings-each-grower-uneven = Jeder Gärtner prüft { $each } der { $lots } Partien. Diese Zahlen gehen nicht für alle Paare gleich auf: Zwei Partien haben { $fewest } bis { $most } gemeinsame Gärtner.
rings-through-the-others = Paare ohne gemeinsamen Gärtner werden über die anderen verglichen.
rings-all-are-linked = Alle Partien sind verbunden: Eine Kette gemeinsamer Gärtner führt von jeder zu jeder anderen.
rings-splitting-costs = Die Partien aufzuteilen kostet etwas Saatgut: 100 Samen sagen so viel aus wie { $n }, wenn jeder Gärtner alle Partien prüfte. Die Zahlen oben berücksichtigen das.
rings-how-many-share = Wie viele Gärtner je zwei Partien gemeinsam haben
rings-chance-numbers = Der Zufall entscheidet beim Auslosen, welche Partie hier welche Nummer hat.
rings-lots = Partien
rings-other-numbers = Andere Zahlen
rings-numbers-are-yours = Das Programm hat eine Größe vorgeschlagen; du kannst sie hier ändern. Was die Zahlen zeigen können, steht dann oben.
rings-bags-each = Beutel von jeder Partie bei jedem Gärtner
rings-seeds-in-a-bag = Samen je Beutel
rings-seeds-in-a-bag-help = Mehr Beutel sagen mehr aus als vollere.
rings-lots-for-one = Partien für einen Gärtner
rings-see-what-these-show = Sieh, was sie zeigen können
rings-numbers-saved = Gespeichert. Was diese Zahlen zeigen können, steht unten.
rings-draw-the-lots = Auslosen
rings-about-the-draw = Der Zufall entscheidet, wer was prüft, und jede Tüte bekommt ein Kennzeichen, das die Partie nicht verrät. Danach stehen die Zahlen fest. Die Gärtner sehen dann, dass er läuft und welche Kennzeichen ihre sind; ansetzen können sie, sobald du austeilst.
rings-not-yet = <strong>Noch nicht:</strong> Die Tüten enthalten nicht, was die Zahlen verlangen.
rings-give-up-this-plan = Diesen Plan aufgeben
rings-why = Warum
rings-why-help = Darf leer bleiben. Um Tüten oder Gärtner zu ändern, gib den Plan auf und lege ihn neu an.
rings-give-up-the-plan = Plan aufgeben
rings-cannot-link = { $growers } Gärtner mit je { $each } Partien können nicht alle { $lots } Partien verbinden. Gib jedem Gärtner mindestens { $more } Partien, oder frag mindestens { $people } Gärtner.
rings-from-two-lots = Bitte 2 bis { $lots } Partien für jeden Gärtner.
rings-too-large = Das sind zu viele Partien oder Gärtner für einen Plan.
rings-nothing-to-plan = Bitte mindestens zwei Partien und einen Gärtner.
rings-was-given-up = Dieser Ringversuch wurde aufgegeben.
rings-drawn-already = Die Partien dieses Ringversuchs sind schon ausgelost, und seine Zahlen stehen fest.
rings-numbers-changed = Die Zahlen wurden inzwischen geändert. Sieh dir den Plan noch einmal an.
rings-has-left = { $name } hat den Verein verlassen. Gib diesen Ringversuch auf und plane ihn ohne { $name } neu.
rings-no-such-plan = Mit diesen Zahlen gibt es keinen Plan. Ändere sie zuerst.
rings-packet-is-short = In { $mark } von { $owner } { $n ->
    [one] fehlt { $n } Same
   *[other] fehlen { $n } Samen
 }. Nimm weniger oder kleinere Beutel, oder lass die Tüte nachzählen.
rings-no-letters = Einer der Gärtner hat noch keine Buchstaben für Kennzeichen.
rings-drawn = Ausgelost. Drucke die Etiketten und den Schlüssel, fülle die Tüten und teile sie dann aus.

# Solange er läuft.
rings-running = Ringversuch, läuft. <strong>Verdeckt</strong>: Niemand, der mitmacht, weiß bis zum Ende, welche Tüte welche Partie ist.
rings-your-packets = Deine Tüten
rings-how-to-treat = Lege jede als <strong>{ $bags }</strong> auf Papier. Behandle alle gleich: derselbe Ablauf, derselbe Tag, derselbe Platz und dieselbe Wärme. Sieh dann jeden Tag nach wie immer; deine Beutel stehen unter <a href="/">Jetzt fällig</a>. Vergleicht eure Notizen bitte nicht vor dem Ende.
rings-start-this = Ansetzen<span class="vh">: { $mark }</span>
rings-start-together = Gemeinsam ansetzen
rings-progress = Fortgang
rings-counted-to-the-end = { $n } von { $all } Tüten sind zu Ende gezählt.
rings-linked-by-growers = Alle Partien sind über gemeinsame Gärtner verbunden.
rings-labels = Etiketten
rings-key-for-filling = Schlüssel zum Füllen der Tüten
rings-you-grow-too = Du machst in diesem Ringversuch selbst mit, darum stehen die Partien nicht hier. Lass besser jemand anderen aus der Leitung den Schlüssel drucken und die Tüten füllen.
rings-hand-out = Austeilen
rings-about-handing-out = Wenn die gefüllten Tüten an die Gärtner gehen: Die Samen verlassen die Tüten, aus denen sie kommen, und jeder Gärtner hat eine verdeckte Tüte für { $bags } in seiner Liste.
rings-hand-out-to = An
rings-everybody = alle, die noch keine haben
rings-how-far-each-is = Wie weit jede Tüte ist
rings-mark = Kennzeichen
rings-state = Stand
rings-counted-so-far = Bisher gezählt
rings-end-it = Beenden
rings-all-is-counted = Alles ist gezählt.
rings-not-all-is-counted = Noch ist nicht alles gezählt; du kannst früher aufdecken, mit einem Grund.
rings-opening-shows-all = Das Aufdecken zeigt allen jeden Namen, lässt die Zählungen in die Vereinstabelle und kann nicht zurückgenommen werden.
rings-open-the-ring-trial = Ringversuch aufdecken
rings-give-it-up-because = Aufgeben, weil
rings-give-it-up-help = Noch ist nichts ausgeteilt, also wurde kein Saatgut bewegt. Darf leer bleiben.
rings-give-up = Aufgeben
rings-handed-out-to = Ausgeteilt: { $packets ->
    [one] { $packets } Tüte
   *[other] { $packets } Tüten
 }, jede für { $bags }.
rings-not-drawn-yet = Die Partien dieses Ringversuchs sind noch nicht ausgelost.
rings-not-running = Dieser Ringversuch läuft nicht mehr.
rings-nothing-left-for-them = Für sie ist nichts mehr auszuteilen.
rings-not-enough-any-more = { $mark } von { $owner } enthält nicht mehr genug Saatgut. Lass nachzählen, und teile dann noch einmal aus.

# Etiketten und Schlüssel.
rings-labels-of = Etiketten von { $ring }
rings-back-to-the-ring = Zurück zum Ringversuch
rings-sheets-of-a4 = Für Etikettenbögen mit 3 mal 8 (70 mal 37 mm) oder einfaches Papier zum Zerschneiden. Drucke mit 100 %.
rings-sheets-of-letter = Für Etikettenbögen mit 3 mal 10 (66,7 mal 25,4 mm) oder einfaches Papier zum Zerschneiden. Drucke mit 100 %.
rings-on-the-label = { $ring } (verdeckt). { $kind }, { $bags }.
rings-code-opens = Code, der { $mark } öffnet
rings-key-of = Schlüssel von { $ring }
rings-you-grow-in-it = Du machst in diesem Ringversuch mit. Wer den Schlüssel gesehen hat, weiß, was er zählt, und bevorzugt es unwillkürlich. Lass ihn besser jemand anderen aus der Leitung drucken und die Tüten füllen.
rings-back = Zurück
rings-show-the-key = Den Schlüssel trotzdem anzeigen
rings-key = Schlüssel: { $ring }
rings-about-the-key = <strong>Vor dem Ende nicht für die Gärtner.</strong> { $variety }, { $kind }. Jede Tüte unten bekommt { $bags }{ $n ->
    [one] {""}
   *[other] {""}, zusammen { $seeds } Samen
 }. Klebe das Etikett auf eine leere Tüte, fülle sie, kreuze sie hier an. Gedruckt am { $printed }.
rings-fill-from = Aus <span class="mark">{ $mark }</span> { $lot }, bei { $owner }: { $seeds } Samen
rings-fill-from-treated = Aus <span class="mark">{ $mark }</span> { $lot } ({ $state }), bei { $owner }: { $seeds } Samen
rings-fill = Füllen
rings-for = Für
rings-seeds = Samen
rings-filled = Gefüllt

# Aufdecken oder aufgeben.
rings-open-title = { $ring } aufdecken
rings-open-this = <a href="{ $path }">{ $ring }</a> aufdecken?
rings-opening-means = Jede Tüte zeigt dann ihrem Gärtner Sorte und Bezugsquelle, und die Zählungen kommen in die Vereinstabelle. Das kann nicht zurückgenommen werden.
rings-all-counted-to-the-end = Alle { $n } Tüten sind zu Ende gezählt.
rings-still-counting = <strong>{ $n } von { $all } Tüten sind nicht zu Ende gezählt.</strong> Wer danach weiterzählt, weiß, was er zählt.
rings-why-now = Warum jetzt?
rings-why-now-help = Steht auf der Seite mit dem Ergebnis.
rings-open-it = Aufdecken
rings-why-opened-now = Nicht alle Beutel sind abgeschlossen. Warum wird er jetzt aufgedeckt?
rings-opened = Aufgedeckt. Die Tüten zeigen ihre Namen, und die Zählungen sind in der Vereinstabelle.
rings-open-it-instead = Es wurde Saatgut ausgeteilt, oder der Ringversuch ist zu Ende. Decke ihn stattdessen auf, mit einem Grund.
rings-given-up = Aufgegeben: { $name }. Es wurde kein Saatgut bewegt.
rings-was-given-up-of = Dieser Ringversuch mit { $variety } wurde aufgegeben, bevor Saatgut ausgeteilt wurde.
rings-why-given-up = Warum: { $why }
rings-set-up-another = Einen neuen mit { $variety } anlegen

# Das Ergebnis.
rings-result-title = { $ring }: Ergebnis
rings-what-came-out = { $ring }: was herauskam
rings-result-of = Ringversuch mit { $variety }, { $kind }, aufgedeckt { $when }.
rings-result-of-by = Ringversuch mit { $variety }, { $kind }, aufgedeckt { $when } von { $by }.
rings-opened-early = Früher aufgedeckt: { $why }
rings-nothing-comparable = Es wurde nichts gezählt, was sich vergleichen ließe.
rings-only-these-lots = Nur diese Partien wurden geprüft; eine andere Partie derselben Bezugsquelle kann sich anders verhalten. <a href="{ $path }">Alles, was der Verein über { $variety } weiß</a>.
rings-differences-shown = Nachgewiesene Unterschiede
rings-no-difference-shown = Zwischen keinen zwei Partien wurde ein Unterschied nachgewiesen. <small>Das heißt nicht, dass sie gleich sind: Sieh, was noch zu den Zählungen passt.</small>
rings-lot-against-lot = Partie gegen Partie
rings-not-shown = Nicht nachgewiesen
rings-no-number-for = Keine Zahl für { $pairs }: Es wurde zu wenig gezählt, um sie zu verbinden.
rings-own-lots-first = Die Partien jedes Gärtners werden zuerst miteinander verglichen, damit sorgsame Hände nicht einer Partie zugutekommen.
rings-holm = Bei { $n } Paaren sieht leichter eines durch Zufall verschieden aus; ein Unterschied gilt nur als nachgewiesen, wenn er auch damit besteht (Holm).
rings-brackets = In Klammern: 95-%-Intervall.
rings-still-running = { $n ->
    [one] { $n } Beutel läuft noch, darum können sich diese Zahlen noch ändern.
   *[other] { $n } Beutel laufen noch, darum können sich diese Zahlen noch ändern.
 }
rings-left-the-numbers = { $n ->
    [one] { $n } aufgegebener oder unklarer Beutel ist nicht in den Zahlen.
   *[other] { $n } aufgegebene oder unklare Beutel sind nicht in den Zahlen.
 }
rings-each-lot = Jede Partie
rings-chart = Bewurzelt von Samen auf Papier, jede Partie mit ihrem 95-%-Intervall; die Tabelle darunter hat dieselben Zahlen
rings-rooted-at-the-close = Bewurzelt von Samen auf Papier, bis zum Abschluss
rings-counted-seeds = Gezählt
rings-each-grower = Jeder Gärtner
rings-rooted-of-paper = Bewurzelt von Samen auf Papier
rings-not-counted = nicht gezählt
rings-which-mark-was-which = Welches Kennzeichen welche Partie war
rings-rooted-of-seeds = { $x } von { $n } Samen, { $growers ->
    [one] { $growers } Gärtner
   *[other] { $growers } Gärtner
 }
rings-roots-better = { $better } bewurzelt besser als { $other }: { $more } mehr von 100 Samen ({ $low } bis { $high }).
rings-no-difference = Kein Unterschied nachgewiesen zwischen { $better } und { $other }: Von { $better } bewurzelten { $more } mehr von 100 Samen, und alles von { $down } bis { $high } mehr passt zu den Zählungen.
rings-nobody-had-both = Kein Gärtner hatte beide; die Zahl kommt über ihre anderen Partien zustande.
rings-from-one-alone = Von dem einen Gärtner, der beide hatte: Einer allein weist keinen Unterschied nach, es kann an seiner Hand liegen.
rings-from-those-who-had-both = Von { $n ->
    [one] dem einen Gärtner, der beide hatte
   *[other] den { $n } Gärtnern, die beide hatten
 }.
rings-from-either = Von den { $all } Gärtnern, die eine der beiden hatten, jeder gegen seine anderen Partien; { $n ->
    [one] der eine, der beide hatte, fand
   *[other] die { $n }, die beide hatten, fanden
 } allein { $found }.
rings-found-no-difference = keinen Unterschied
rings-chance-better = Die Wahrscheinlichkeit, dass { $better } die bessere ist, beträgt { $n } von 100.
rings-chance-better-99 = Die Wahrscheinlichkeit, dass { $better } die bessere ist, beträgt mehr als 99 von 100.
rings-what-it-takes = Einen Unterschied von { $difference } Samen in 100 nachzuweisen, falls es ihn gibt, braucht etwa { $seeds } Samen jeder Partie, mit mehr Gärtnern.
