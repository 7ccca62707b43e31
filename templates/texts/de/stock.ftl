# Wörter der Tüten, Sorten und Bezugsquellen.

stock-mark = Kennzeichen
stock-variety = Sorte
stock-kind = Art
stock-species = Botanischer Name
stock-source = Bezugs­quelle
stock-sort = Herkunft
stock-year = Jahr
stock-lot-code = Partienummer
stock-letters = Buchstaben
stock-seeds = Samen
stock-seeds-in-a-gram = Samen je Gramm
stock-rough-count = Ungefähre Zahl
stock-kept-in = Aufbewahrt in
stock-state = Zustand
stock-received-on = Erhalten am
stock-came-through = Erhalten über
stock-pollination = Bestäubung
stock-doubtful-cross-label = Vielleicht verkreuzt
stock-note = Notiz
stock-when = Wann
stock-name = Name
stock-lots = Partien
stock-kinds = Arten
stock-varieties = Sorten
stock-sources = Bezugsquellen
stock-packets-title = Tüten
stock-trials = Ansätze
stock-history = Verlauf
stock-choose = bitte wählen
stock-save = Speichern
stock-take-back = Zurücknehmen
stock-taken-back-by = Zurückgenommen von { $by }.
stock-taken-back-by-because = Zurückgenommen von { $by }: { $why }.

# Zustände von Saatgut.

stock-plain = unbehandelt
stock-pelleted = pilliert
stock-primed = geprimt
stock-treated = gebeizt

# Arten von Bezugsquellen.

stock-merchant = Händler
stock-swap = Tausch
stock-gene-bank = Genbank
stock-saved-by = selbst gewonnen

# Wie eigenes Saatgut bestäubt wurde.

stock-open-pollinated = frei abgeblüht
stock-isolated = isoliert
stock-doubtful-cross = vielleicht verkreuzt

# Wie viele Samen da sind, und was davon zugesagt ist.

stock-about-so-many = etwa { $seeds }
stock-left = noch { $seeds }
stock-left-by-the-book = { $variety }, { $kind }: laut Buch noch { $seeds }.
stock-left-and-promised = { $left }, { $n } zugesagt
stock-left-promised-and-short = { $left }, { $n } zugesagt: { $short } zu wenig
stock-promised = { $n } zugesagt
stock-promised-and-short = { $n } zugesagt: <span class="late">{ $short } zu wenig</span>
stock-gives = { $n ->
    [one] { $n } Same aus { $mark }
   *[other] { $n } Samen aus { $mark }
 }
stock-gives-short = { $gives } von { $n } Samen aus { $mark }, { $short } zu wenig
stock-rough-number = Eine ungefähre Zahl. Zähl neu, dann ist sie sicher.

# Liste der Tüten.

stock-your-packets = Deine Tüten
stock-add-a-packet = Tüte hinzufügen
stock-bring-in-list = Liste einlesen
stock-save-as-list = Als Liste speichern
stock-as-gene-banks = Wie Genbanken sie führen (MCPD)
stock-new-letters = Neue Buchstaben
stock-ageing-seed = Alterndes Saatgut
stock-narrow-list = Liste eingrenzen
stock-holds-letters = Enthält die Buchstaben
stock-in-order-of = Sortiert nach
stock-by-mark = Kennzeichen
stock-by-variety = Sorte
stock-by-age = Alter, älteste zuerst
stock-all-kinds = alle Arten
stock-hide-empty = Leere Tüten ausblenden
stock-show = Anzeigen
stock-no-packet-like-that = So eine Tüte gibt es nicht.
stock-show-all = Alle anzeigen
stock-tick-all = Alle angezeigten ankreuzen
stock-tick-mark = { $mark } ankreuzen
stock-left-column = Übrig
stock-signs = Hinweise
stock-packets = { $n ->
    [one] { $n } Tüte
   *[other] { $n } Tüten
 }
stock-packets-of = { $n ->
    [one] { $shown } von { $n } Tüte
   *[other] { $shown } von { $n } Tüten
 }
stock-start-ticked = Neue Ansätze mit den angekreuzten Tüten
stock-no-packet-yet = Noch keine Tüte. Füge sie einzeln hinzu oder lies die Liste ein, die du in einer Tabelle führst: Deine eigenen Nummern bleiben.

# Eine Tüte.

stock-caution-treated = <strong>Vorsicht:</strong> Dieses Saatgut ist gebeizt. Weiche es nicht ein, es sei denn, das Etikett erlaubt es; trage Handschuhe, atme den Staub nicht ein und halte das Wasser von Abflüssen und Lebensmitteln fern. Das Etikett und die örtlichen Vorschriften gehen vor.
stock-caution-pelleted = <strong>Vorsicht:</strong> Dieses Saatgut ist pilliert. Ein Bad löst die Hülle auf, und eine Schwimmprobe sagt nichts aus. Halte dich an die Angaben auf der Tüte.
stock-caution-primed = <strong>Vorsicht:</strong> Dieses Saatgut ist geprimt. Es wurde schon einmal eingeweicht und wieder getrocknet; ein zweites Bad kann die Samen ersticken, und sie halten nicht lange. Halte dich an die Angaben auf der Tüte.
stock-start-trial = Neuer Ansatz
stock-start-paired-trials = Neue gepaarte Ansätze
stock-change = Ändern
stock-seed-saved-from-it = Saatgut daraus gewonnen
stock-ring-trial = Ringversuch
stock-blind = verdeckt
stock-blind-until-opened = verdeckt: wird am Ende des Ringversuchs aufgedeckt
stock-blind-lot = verdeckte Partie
stock-hidden-source = eine verdeckte Bezugsquelle
stock-which-counts-under = , zählt unter { $name }
stock-through-out-of = { $through }, aus <span class="mark small">{ $mark }</span>
stock-saved-from = Gewonnen aus
stock-published-facts-about = Veröffentlichte Werte zu { $kind }
stock-promised-title = Zugesagt
stock-start-on = Ansetzen { $day }
stock-start-seeds = Ansetzen <span class="vh">{ $seeds }</span>
stock-bags = { $n } Beutel
stock-seed-saved-from-plants = Saatgut von Pflanzen daraus
stock-seeds-in-and-out = Zu- und Abgänge
stock-recount-and-more = Neu gezählt, gefunden, verdorben, zurückgelegt
stock-give-to-another = An ein anderes Mitglied abgeben
stock-take-back-entry = Zurücknehmen<span class="vh">: { $entry }, { $when }</span>
stock-this-years-seed = Saatgut von diesem Jahr
stock-years-old = { $n ->
    [one] { $n } Jahr alt
   *[other] { $n } Jahre alt
 }
stock-age-keeps-about = { $n ->
    [one] { $age }; hält laut Veröffentlichung etwa { $n } Jahr
   *[other] { $age }; hält laut Veröffentlichung etwa { $n } Jahre
 }
stock-age-keeps-from-to = { $age }; hält laut Veröffentlichung { $least } bis { $most } Jahre

# Tüte hinzufügen und ändern.

stock-add-the-packet = Tüte hinzufügen
stock-change-mark = { $mark } ändern
stock-change-packet = <a class="mark" href="/packets/{ $id }">{ $mark }</a> ändern
stock-kind-is-blind = { $kind }, <strong>verdeckt</strong>: Sorte, Bezugsquelle und Jahr werden am Ende des Ringversuchs aufgedeckt.
stock-saved-from-plants-of = Saatgut, das du von Pflanzen aus <a class="mark" href="/packets/{ $id }">{ $mark }</a> { $variety } gewonnen hast. Die Bezugsquelle bist du.
stock-kind-help = Etwa Paprika. Ein neuer Name legt eine eigene Art an.
stock-species-help = Falls du ihn kennst: Manche langsamen Paprika-Arten brauchen andere Tage als sonst bei Paprika.
stock-kept-in-help = Etwa Kühlschrank, Dose 3.
stock-state-of-seed = Zustand des Saatguts
stock-state-help = Bei pilliertem, geprimtem und gebeiztem Saatgut wird vor einem Bad gewarnt.
stock-came-through-help = Wer es weitergegeben hat, wenn das nicht die Bezugsquelle ist.
stock-how-pollinated = Wie wurde es bestäubt?
stock-may-be-a-cross = Es kann verkreuzt sein: nicht zu den Zahlen der genannten Sorte zählen
stock-source-help = Von wem das Saatgut zuerst kam.
stock-sort-of-source = Art der Bezugsquelle
stock-sort-of-source-help = Zählt nur, wenn die Bezugsquelle neu ist.
stock-year-help = Auf der Tüte, oder das der Ernte. Leer, wenn unbekannt.
stock-lot-code-help = Die des Anbieters, wie aufgedruckt. Leer, wenn es keine gibt.
stock-seeds-by-count = Samen, gezählt
stock-seeds-by-weight = oder gewogen, in Gramm
stock-seeds-in-a-gram-help = Leer: der veröffentlichte Wert der Art, wenn es einen gibt.
stock-about-number = Etwa: eine ungefähre Zahl
stock-about-packet = Etwa: Die Zahl der Samen ist ungefähr
stock-published-per-gram = Veröffentlichte Samen je Gramm
stock-published-per-gram-are = { $list }. Aus 7 CFR 201.46 Table 1, aus dem Gedächtnis notiert; selbst gewogen ist besser.
stock-own-number = Deine eigene Nummer
stock-own-number-help = Leer: die nächste freie.
stock-more = Mehr
stock-numbers-changed-there = Die Zahl der Samen änderst du unter <a href="/packets/{ $id }/seeds">Zu- und Abgänge</a>; das Kennzeichen bleibt für immer.
stock-added-packet = Hinzugefügt: { $mark }, { $seeds }. Schreib { $mark } darauf.
stock-add-another = Noch eine hinzufügen
stock-saved-mark = Gespeichert: { $mark }.

# Zu- und Abgänge, und Saatgut, das abgegeben wird.

stock-seeds-of = Samen von { $mark }
stock-seeds-in-and-out-of = Zu- und Abgänge von <a class="mark" href="/packets/{ $id }">{ $mark }</a>
stock-what-happened = Was ist passiert?
stock-by-hand-recount = Neu gezählt: so viele sind jetzt in der Tüte
stock-by-hand-found = Mehr gefunden
stock-by-hand-spoiled = Verdorben oder verloren
stock-by-hand-returned = Von anderswo zurückgelegt
stock-seeds-help = Bei neuer Zählung die Zahl, die da ist; sonst die Zahl, die dazukam oder wegging.
stock-about-recount = Etwa: Die neue Zählung ist ungefähr
stock-left-over-returned = Samen, die von einem Ansatz übrig sind, legst du auf der Seite des Ansatzes zurück.
stock-saved-seeds-left = Gespeichert: { $mark } hat laut Buch noch { $seeds }.
stock-saved-meanwhile = Seit du diese Seite geöffnet hast, wurde zu dieser Tüte etwas gespeichert: damals laut Buch { $then }, jetzt { $now }. Wenn deine Zahl die ist, die jetzt darin ist, speichere noch einmal.
stock-give-seed-of = Saatgut von { $mark } abgeben
stock-give-seed-of-packet = Saatgut von <a class="mark" href="/packets/{ $id }">{ $mark }</a> abgeben
stock-to = An
stock-to-help = Das Mitglied bekommt eine Tüte derselben Partie und Bezugsquelle, mit eigenem Kennzeichen.
stock-seeds-given = Abgegebene Samen
stock-give = Abgeben
stock-no-other-member = Es gibt noch kein anderes Mitglied.
stock-who-gets-the-seed = Wer bekommt das Saatgut?
stock-given-to = Abgegeben: { $seeds } aus { $mark } an { $to }. Die neue Tüte heißt { $theirs }.
stock-give-in-ring-trial = Diese Tüte gehört zu einem Ringversuch. Sie bleibt bei dir, bis er aufgedeckt ist.
stock-member-without-letters = Dieses Mitglied hat noch keine Buchstaben.

# Buchstaben.

stock-your-letters = Deine Buchstaben
stock-letters-lead = Mit Buchstaben beginnen deine Kennzeichen. Wer jede Saison wieder bei 1 anfängt, nimmt dafür neue Buchstaben; alte Kennzeichen bleiben, wie sie sind.
stock-no-number-yet = noch keine Nummer vergeben
stock-last-number = letzte Nummer { $n }
stock-new-letters-help = 1 bis 4 Buchstaben von A bis Z, die niemand hat. Sie werden dir künftig zuerst angeboten.
stock-take-these-letters = Diese Buchstaben nehmen
stock-letters-yours-now = Jetzt deine: { $letters }. Neue Tüten beginnen damit.

# Arten, und was über sie veröffentlicht ist.

stock-kinds-lead = Veröffentlichte Zähltage und Prozentwerte gelten für <strong>normale Keimlinge</strong> im Labor, nicht für sichtbare Wurzeln: Der Anteil bewurzelter Samen kann höher sein und früher erreicht werden. Die Seite jeder Art zeigt ihre Quellen.
stock-kinds-caption = Arten, und was über sie veröffentlicht ist
stock-first-and-final-day = Erst- und Endauszählung, Tag
stock-standard-normal-seedlings = Mindestwert, normale Keimlinge
stock-varieties-here = Sorten hier
stock-two-days = { $first } und { $last }
stock-another-kind = Eine weitere Art
stock-name-of-kind = Name der Art
stock-name-of-kind-help = Sie hat keinen veröffentlichten Tag; der des Vereins wird verwendet und gekennzeichnet.
stock-add-kind = Art hinzufügen
stock-added-kind = Hinzugefügt: { $name }.
stock-kind-is-here = Diese Art gibt es hier schon, als { $name }.
stock-call-kind-otherwise = Anders nennen
stock-rename = Umbenennen
stock-kind-is-called = { $name } heißt jetzt { $other }.
stock-kind-is-another = Ist es eine andere Art?
stock-same-as-kind = Es ist dasselbe wie
stock-same-as-kind-help = Ihre Sorten gehen mit ihren Tüten dorthin und werden nach den Tagen jener Art gezählt; wer ihren Namen eintippt, meint jene Art. Eine Sorte, die beide haben, zählt als eine und heißt von da an { $example }.
stock-join-is-for-good = Ich bin sicher: Das lässt sich nicht zurücknehmen
stock-join-kind = Dieser Art zuordnen
stock-kind-was-joined = { $name } gehört jetzt zu { $other }.
stock-kind-is-part-of = Diese Art gehört inzwischen zu { $other }.
stock-some-variety = Sorte
stock-published-facts = Veröffentlichte Werte zu { $kind }. Tage und Prozentwerte gelten für <strong>normale Keimlinge</strong> in einer Laborprüfung, nicht für sichtbare Wurzeln.
stock-first-count = Erst­auszählung
stock-final-count = End­auszählung
stock-on-day = Tag { $n }
stock-temperature = Temperatur
stock-cooler-by-night = (nachts kühler, tags wärmer)
stock-directions = Hinweise zur Prüfung
stock-source-of-these = Quelle dafür
stock-count-days = Zähltage
stock-no-count-days = keine veröffentlicht, die wir kennen; der Tag des Vereins wird verwendet und gekennzeichnet
stock-standard = Mindestwert
stock-standard-at-least = mindestens { $percent } % normale Keimlinge
stock-storage-life = Haltbarkeit
stock-years = { $n ->
    [one] { $n } Jahr
   *[other] { $n } Jahre
 }
stock-from-memory = ; aus dem Gedächtnis notiert, prüfe es, bevor du dich darauf verlässt
stock-nothing-published = Zu dieser Art ist hier nichts Veröffentlichtes bekannt. Der letzte Zähltag des Vereins wird verwendet und so gekennzeichnet.
stock-varieties-of-kind = Sorten davon im Verein: { $n }.
stock-all-varieties = Alle Sorten

# Sorten und Bezugsquellen, und Namen, die als einer zählen.

stock-varieties-of-club = Sorten des Vereins
stock-sources-of-club = Bezugsquellen des Vereins
stock-no-names-yet = Noch keine: Sie kommen mit den ersten Tüten.
stock-near-in-spelling = Ähnlich geschrieben
stock-near-in-spelling-are = Ähnlich geschrieben:
stock-same-organiser = Ist das dasselbe? Öffne einen Namen, um ihn unter dem anderen zählen zu lassen. Das lässt sich zurücknehmen.
stock-same-member = Ist das dasselbe? Die Leitung kann einen Namen unter dem anderen zählen lassen. Das lässt sich zurücknehmen.
stock-all = Alle
stock-counts-under = Zählt unter
stock-counted-under-it = Darunter gezählt
stock-packets-under-name = { $n } im Verein unter genau diesem Namen
stock-same-as-another = Ist es dasselbe wie ein anderer Name?
stock-let-count-under-which = Zählen lassen unter
stock-let-count-under-help = Tüten behalten den eingetippten Namen; die Vereinstabelle zählt beide als einen. Das lässt sich zurücknehmen.
stock-let-count-there = Dort zählen lassen
stock-let-count-under = { $by } lässt { $name } unter { $other } zählen
stock-a-name = einen Namen
stock-counts-under-now = { $name } zählt jetzt unter { $other }.
stock-counts-by-itself = { $name } zählt wieder für sich.
stock-choose-a-name = Bitte wähle einen der Namen.
stock-counts-under-another = Dieser Name zählt schon unter einem anderen. Nimm das zuerst zurück.
stock-counts-under-this = Jener Name zählt schon unter diesem.
stock-of-different-kinds = Die beiden gehören zu verschiedenen Arten.
stock-merge-taken-back-already = Diese Zusammenlegung wurde schon zurückgenommen.

# Neue Namen, die bekannten ähneln.

stock-the-kind = Die Art { $name }
stock-the-variety = Die Sorte { $name }
stock-the-source = Die Bezugsquelle { $name }
stock-is-a-new-one = ist eine neue
stock-is-this-one = ist { $name }
stock-which-is-meant = { $name } wäre neu und ähnelt { $near } in der Schreibweise. Was ist gemeint?

# Was sich nicht speichern lässt.

stock-name-with-letters = Bitte einen Namen mit Buchstaben.
stock-name-with-letters-or-digits = Bitte einen Namen mit Buchstaben oder Ziffern.
stock-one-line = Bitte nur eine Zeile.
stock-came-in-the-future = Das liegt in der Zukunft. Gib den Tag an, an dem es kam.
stock-seeds-or-grams = Bitte Samen oder Gramm, nicht beides.
stock-how-many-seeds = Wie viele Samen? Eine ungefähre Zahl genügt, oder das Gewicht in Gramm.
stock-how-many-in-a-gram = Wie viele Samen dieser Art sind in einem Gramm? Veröffentlicht ist nichts dazu.
stock-more-than-most-seeds = Das wären mehr als { $most } Samen.
stock-give-kind-a-name = Bitte gib der Art einen Namen mit Buchstaben.
stock-give-source-a-name = Bitte gib der Bezugsquelle einen Namen mit Buchstaben.
stock-give-variety-a-name = Bitte gib der Sorte einen Namen mit Buchstaben.
stock-species-noted = Diese Sorte ist schon als { $species } vermerkt.
stock-another-source-of-name = Es gibt eine andere Bezugsquelle dieses Namens. Bitte die Leitung, nachzusehen.
stock-own-seed-from-others = Es gibt eigenes Saatgut dieser Sorte und dieses Jahres von anderen Pflanzen. Eine Partienummer hält die beiden auseinander.
stock-names-are-theirs = Dieses Saatgut hat ein anderes Mitglied gewonnen, das die Namen selbst ändert.
stock-parent-in-ring-trial = Diese Tüte gehört zu einem Ringversuch. Daraus gewonnenes Saatgut lässt sich eintragen, sobald der Ringversuch aufgedeckt ist.
