# Die Liste der Abläufe.

routines-routines = Abläufe
routines-what-they-are = Die Schritte vor dem Papier, in ihrer Reihenfolge. Eine Version, die ein Ansatz benutzt hat, bleibt, wie sie war; eine Änderung macht eine neue daraus.
routines-new-routine = Neuer Ablauf
routines-mix-a-solution = Lösung mischen
routines-calculators = Rechner
routines-your-trials = Deine Ansätze
routines-none-yet = Noch kein Ablauf.
routines-steps = { $n ->
    [0] keine Schritte
    [one] { $n } Schritt
   *[other] { $n } Schritte
 }
routines-version = Version { $number }
routines-by = von { $name }
routines-ready-starter = fertig mitgeliefert
routines-start-with = Ansetzen<span class="vh"> mit { $routine }</span>
routines-retired-ones = Außer Gebrauch

# Ein Ablauf.

routines-version-title = Version { $number }
routines-used-and-frozen = benutzt und darum unveränderlich
routines-retired = außer Gebrauch
routines-straight-to-paper = Keine Schritte: Der Samen kommt trocken gleich aufs Papier.
routines-start-a-trial = Neuer Ansatz
routines-mix-solution = { $solution } mischen
routines-edit = Bearbeiten
routines-copy = Als neuen Ablauf kopieren
routines-older-versions = Ältere Versionen
routines-used-by = { $n ->
    [one] Von { $n } Ansatz benutzt.
   *[other] Von { $n } Ansätzen benutzt.
 }
routines-use-again = Wieder in Gebrauch nehmen
routines-retire = Diesen Ablauf außer Gebrauch nehmen

# Einen bearbeiten.

routines-edit-a-routine = Ablauf bearbeiten
routines-edit-named = Bearbeiten: { $routine }
routines-saving-makes-version = Version { $number } wurde benutzt; beim Speichern entsteht darum Version { $next }.
routines-name = Name
routines-note = Notiz
routines-note-help = Woher er kommt: gängige Praxis, oder wessen Rat.
routines-step-number = Schritt { $n }
routines-what-is-done = Was geschieht
routines-no-step = kein Schritt
routines-agent = Mittel
routines-agent-help = Zum Beispiel Wasser, Wasserstoffperoxid.
routines-time = Dauer
routines-time-in = in
routines-minutes = Minuten
routines-hours = Stunden
routines-temperature = Temperatur, { $unit }
routines-more-of-step = Stärke, Dosis, Ort, Notiz<span class="vh"> zu Schritt { $n }</span>
routines-stock-strength = Stärke der Stammlösung, %
routines-stock-strength-help = Wie auf der Flasche.
routines-wanted-strength = Gewünschte Stärke, %
routines-dose = Oder eine Dosis in Worten
routines-dose-help = Zum Beispiel 2 Tropfen je Röhrchen.
routines-place = Ort
routines-place-help = Zum Beispiel Kühlschrank.
routines-caution-or-note = Warnung oder Notiz
routines-save-the-routine = Ablauf speichern
routines-more-rows = Mehr Zeilen

# Die Felder eines Schritts, in Fehlern, die fern von ihnen stehen.

routines-field-of-step = Schritt { $n }, { $field }
routines-field-act = was geschieht
routines-field-agent = Mittel
routines-field-stock = Stärke der Stammlösung
routines-field-strength = gewünschte Stärke
routines-field-dose = Dosis
routines-field-time = Dauer
routines-field-unit = Zeiteinheit
routines-field-warmth = Temperatur
routines-field-place = Ort
routines-field-note = Notiz
routines-quoted = „{ $act }“

# Was gespeichert wurde, und was nicht geht.

routines-saved-named = Gespeichert: { $routine }.
routines-saved = Gespeichert.
routines-saved-as-version = Als Version { $number } gespeichert. Ansätze, die schon liefen, behalten die Version, die sie benutzt haben.
routines-in-use-again = Wieder in Gebrauch.
routines-now-retired = Außer Gebrauch: Für neue Ansätze wird er nicht mehr angeboten.
routines-name-taken = Einen Ablauf mit diesem Namen gibt es schon. Bitte wähle einen anderen.
routines-choose-the-act = Bitte wähle, was in diesem Schritt geschieht.
routines-stronger-than-the-stock = Stärker als die Stammlösung: Verdünnen macht nichts stärker, als es selbst ist.

# Schritte in Worten.

routines-act-in = { $act } ({ $agent })
routines-act-stand-water = Leitungswasser abstehen lassen
routines-act-sanitising-soak = Desinfektionsbad
routines-act-rinse = Spülen
routines-act-priming-soak = Quellbad
routines-act-drain = Abgießen
routines-act-rest = Ruhen lassen
routines-act-step = Schritt
routines-at-warmth = bei { $warmth }

# Namen der mitgelieferten Abläufe.

routines-ready-peroxide = Peroxidbad, dann über Nacht kühl
routines-ready-overnight = Über Nacht in Wasser
routines-ready-standing = Abgestandenes Wasser, dann über Nacht
routines-ready-dry = Trocken, gleich aufs Papier

# Was in den mitgelieferten Abläufen steht.

routines-common-practice = Gängige Praxis, keine Quelle.
routines-hydrogen-peroxide = Wasserstoffperoxid
routines-equal-parts-of-peroxide = gleiche Teile Peroxid 3 % und Wasser
routines-water = Wasser
routines-three-waters = dreimal frisches Wasser
routines-tap-water = Leitungswasser
routines-open-jar = In einem offenen Glas; die Samen bleiben bis zum nächsten Schritt trocken.
routines-refrigerator = Kühlschrank

# Mischen.

routines-mix = Mischen
routines-vials-or-vessels = Röhrchen oder Gefäße
routines-vials-or-vessels-help = Wie viele.
routines-each-holds = Jedes fasst
routines-measured-in = gemessen in
routines-us-teaspoons = US-Teelöffeln
routines-us-fluid-ounces = US-Flüssigunzen
routines-work-it-out = Ausrechnen
routines-give-a-number = Bitte gib eine Zahl an.
routines-not-possible = Geht nicht: { $reason }.
routines-no-volume = die Menge ist 0
routines-not-above-its-strength = Verdünnen macht nichts stärker, als es selbst ist
routines-not-reachable = mit Wasser gemischt erreicht die Stammlösung nie ihre eigene Stärke
routines-stock-is-zero = die Stärke der Stammlösung ist 0
routines-vessels = { $n ->
    [one] { $n } Gefäß
   *[other] { $n } Gefäße
 }
routines-stock-as-it-is = die Stammlösung, wie sie ist, ohne Wasser
routines-equal-parts = gleiche Teile Stammlösung und Wasser
routines-parts-of-water = 1 Teil Stammlösung auf { $parts } Teile Wasser
routines-pour = Eingießen
routines-each-vessel = Je Gefäß
routines-in-all = Insgesamt
routines-stock = Stammlösung
routines-diluting-water = Wasser
routines-together = Zusammen
routines-drops = { $n ->
    [one] { $n } Tropfen
   *[other] { $n } Tropfen
 }
routines-teaspoons = { $n } US-TL
routines-less-than-a-teaspoon = weniger als 1/8 US-TL, { $share } davon
routines-how-reckoned = Stärke der Stammlösung mal Menge der Stammlösung ist gewünschte Stärke mal ganze Menge. Eine Pipette gibt 18 bis 22 Tropfen je ml; gerechnet wird mit 20.

# Angesetzte Lösungen.

routines-made-it = Angesetzt?
routines-opened-on = Flasche geöffnet am
routines-opened-on-help = In einer offenen Flasche lässt die Stärke nach.
routines-opened-in-the-future = Das liegt in der Zukunft. Gib den Tag an, an dem die Flasche geöffnet wurde.
routines-discard-on = Verwenden bis
routines-discard-on-help = Der letzte Tag, an dem du sie noch nehmen würdest.
routines-discard-is-over = Der Tag ist vorbei. Gib einen kommenden Tag an, oder lass das Feld leer.
routines-which-vials = Welche Röhrchen, oder eine Notiz
routines-note-as-made = Als angesetzt notieren
routines-noted-as-made = Notiert: { $agent }, jetzt angesetzt.
routines-your-solutions = Deine Lösungen
routines-no-solution-yet = Noch keine notiert.
routines-made = angesetzt { $when }
routines-discard-by = verwenden bis { $day }
routines-bottle-opened = Flasche geöffnet { $day }
routines-past-its-discard-day = Frist abgelaufen
routines-used-before = schon benutzt

# Warnungen. Das Handbuch sagt sie mit denselben Worten.

routines-oxidiser = Starkes Oxidationsmittel.
routines-oxidiser-what-to-do = Peroxid über 8 % verätzt Augen und Haut und kann anderes in Brand setzen. Trage Schutzbrille und Handschuhe, bewahre es in seiner eigenen Flasche mit Entlüftung auf, fern von Hitze, Metall und allem Brennbaren, und gieße es immer ins Wasser.
routines-peroxide = Stärker als Haushaltsperoxid.
routines-peroxide-what-to-do = Es verätzt Haut und Augen. Trage Handschuhe und Augenschutz und halte Wasser zum Spülen bereit.
routines-bleach = Chlorbleiche.
routines-bleach-what-to-do = Niemals zusammen mit Säure (auch nicht mit Essig), Ammoniak oder Peroxid: Die Gase sind giftig. Spüle Gefäße und Samen gründlich, bevor ein anderes Mittel folgt. Öffne ein Fenster, trage Handschuhe und Augenschutz.
routines-hot-water = Heißes Wasser.
routines-hot-water-what-to-do = Es verbrüht, und ein paar Grad zu viel töten den Samen. Miss mit einem Thermometer, halte Kinder fern, und halte Kabel und Stecker außer Reichweite von Wasser.
routines-treated-seed = Gebeiztes Saatgut.
routines-treated-seed-what-to-do = Die Hülle kann Gift enthalten: Handschuhe tragen, keinen Staub einatmen, nichts davon essen oder verfüttern. Beim Einweichen gelangt es ins Wasser, und das darf dann nicht in den Abfluss.
routines-coated-seed = Pilliertes oder geprimtes Saatgut.
routines-coated-seed-what-to-do = Es ist dafür gemacht, so gesät zu werden, wie es ist: Ein Bad löst die Pille auf oder macht die Vorbehandlung zunichte, und eine Schwimmprobe gibt es nicht.
routines-pepper-seed = Paprika- und Chilisamen.
routines-pepper-seed-what-to-do = Scharfe Sorten hinterlassen ihre Schärfe an Samen, Wasser und Fingern. Trage Handschuhe und fass dir nicht an die Augen.
routines-electricity = Strom in der Nähe von Wasser.
routines-electricity-what-to-do = Heizmatten und nasse Beutel: Nimm eine Matte, die dafür gemacht ist, hinter einem Fehlerstrom-Schutzschalter (FI oder RCD), und fass den Stecker nur mit trockenen Händen an.
routines-first-of-all = Zuallererst
routines-first-of-all-what = gelten das Etikett deines Produkts, die Vorschriften bei dir vor Ort und das, was die zugelassene Fachpraxis sagt. Sie gehen dieser Seite vor.
