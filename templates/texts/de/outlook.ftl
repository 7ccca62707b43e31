# Was noch kommt

outlook-unlikely = Eine weitere Wurzel ist bald nicht zu erwarten, aber zum Aufgeben ist es zu früh.
outlook-behind = Hinter den anderen Beuteln des Vereins zurück ({ $of }): Dort sind bis zu diesem Tag etwa { $usual } von { $seeds } bewurzelt.
outlook-more-by = bis { $day } { $more } zu erwarten
outlook-next-tomorrow = Nächste Wurzel wahrscheinlich morgen; { $more }.
outlook-look-tomorrow = Morgen kontrollieren: { $more }.
outlook-first-root = Erste Wurzel etwa an Tag { $n } zu erwarten ({ $date })
outlook-next-root = Nächste Wurzel etwa an Tag { $n } zu erwarten ({ $date })
outlook-fewer-than-one = noch weniger als 1
outlook-up-to = noch höchstens { $n }
outlook-about = noch etwa { $n }
outlook-from-to = noch { $low } bis { $high }
outlook-guess = Schätzung nach einer veröffentlichten Tabelle: Sämlinge von { $kind } sind in Erde bei { $warmth } etwa an Tag { $n } aufgelaufen. Wurzeln kommen früher.
outlook-chance = Die Wahrscheinlichkeit, dass ein Same auf dem Papier überhaupt noch Wurzeln bildet, liegt bei etwa { $mid } % ({ $low } bis { $high }): am Ende { $more }.
outlook-if-lost = Entfernte schimmlige Samen gelten als solche, die nie Wurzeln bilden. Gelten sie nur als aus dem Blick verloren, ist die Wahrscheinlichkeit { $chance } %.

# Wann man aufgibt

outlook-give-up-by-bags = Denk an die Endauszählung: Nach den anderen Beuteln des Vereins sind keine weiteren Wurzeln zu erwarten.
outlook-give-up-by-record = Denk an die Endauszählung: Von { $seeds } Samen des Vereins, die so lange warteten, { $rooted ->
    [0] bildete später keiner Wurzeln.
    [one] bildete später { $rooted } Wurzeln.
   *[other] bildeten später { $rooted } Wurzeln.
 }
outlook-give-up-by-own-looks = Denk an die Endauszählung: Nach den Kontrollen dieses Beutels sind keine weiteren Wurzeln zu erwarten.
outlook-too-early = Wann man aufgeben sollte, lässt sich noch nicht sagen.
outlook-worth-considering-today = Findet eine Kontrolle heute nichts, ist die Endauszählung eine Überlegung wert.
outlook-worth-considering-from = Zeigt sich keine Wurzel mehr, ist die Endauszählung etwa ab Tag { $n } ({ $date }) eine Überlegung wert.

# Worauf es beruht

outlook-how-reckoned = Wie das berechnet ist
outlook-on-paper-counts = Samen, die noch auf Papier liegen, zählen als noch nicht bewurzelt.
outlook-floaters-of = { $of }, Schwimmer
outlook-basis = Aus { $bags ->
    [one] { $bags } Beutel
   *[other] { $bags } Beuteln
 } ({ $of }) von { $growers ->
    [one] { $growers } Mitglied
   *[other] { $growers } Mitgliedern
 }, alle Bezugsquellen zusammen.
outlook-basis-at = Aus { $bags ->
    [one] { $bags } Beutel
   *[other] { $bags } Beuteln
 } ({ $of }) von { $growers ->
    [one] { $growers } Mitglied
   *[other] { $growers } Mitgliedern
 } bei { $warmth }, alle Bezugsquellen zusammen.
outlook-warmths = { $low } bis { $high } { $unit }
outlook-too-few-of-variety = Von dieser Sorte allein hat der Verein zu wenige Beutel.
outlook-ring-trial-runs = Für diesen Beutel gibt es keine Vorhersage: Ein laufender Ringversuch bleibt aus dem Buch des Vereins, bis er aufgedeckt wird.
outlook-still-reckoned = Die Beutel des Vereins werden noch ausgewertet. Öffne diese Seite gleich noch einmal.
outlook-too-few = Der Verein hat zu wenige Beutel dieser Sorte ({ $of }) oder anderer Sorten ({ $kind }), um mehr zu sagen: Nötig sind { $bags } Beutel mit { $rooted } bewurzelten Samen.
outlook-too-few-at = Der Verein hat zu wenige Beutel dieser Sorte ({ $of }) oder anderer Sorten ({ $kind }) bei etwa { $warmth }, um mehr zu sagen: Nötig sind { $bags } Beutel mit { $rooted } bewurzelten Samen.
outlook-of-emergence = Die veröffentlichte Tabelle nennt das Auflaufen in Erde, nicht die Wurzeln: Harrington & Minges 1954, nach dem Abdruck in Knott 1997 (Samen einen halben Zoll tief in Erde).
outlook-write-down-warmth = Trage seine Wärme ein, dann gibt es eine Schätzung nach einer veröffentlichten Tabelle.
