# Anteile in Worten.

charts-per-cent-rooted = % bewurzelt
charts-days-on-paper = Tage auf Papier
charts-from-to = { $low } bis { $high } %
charts-share-with-interval = { $share } % ({ $low } bis { $high })
charts-raw-share = roh { $share } %

# Die Kurve.

charts-line-that-rises = Eine Linie, die von 0 % am Tag 0 in Stufen steigt und am Tag { $day } bei { $share } % endet. Das Band um sie ist ihr 95-%-Intervall, am Ende { $low } bis { $high } %.
charts-line-that-stays = Eine Linie, die bei 0 % bleibt und am Tag { $day } bei 0 % endet. Das Band um sie ist ihr 95-%-Intervall, am Ende { $low } bis { $high } %.
charts-curve-as-table = Die Kurve als Tabelle
charts-share-rooted-by-day = Bewurzelter Anteil nach Tagen, mit seinem 95-%-Intervall
charts-by-day = Bis Tag
charts-rooted = Bewurzelt
charts-interval = Intervall

# Punkte.

charts-dots-with-whiskers = { $n ->
    [one] { $n } Punkt mit Spanne: { $first } mit { $first_share } %. Die Spanne ist das 95-%-Intervall; in der Tabelle stehen die Zahlen.
   *[other] { $n } Punkte mit Spannen untereinander, von { $first } mit { $first_share } % bis { $last } mit { $last_share } %. Die Spannen sind 95-%-Intervalle; in der Tabelle stehen die Zahlen.
 }
charts-shapes = Formen sind bereinigte Raten, Linien ihre 95-%-Intervalle.
charts-shapes-and-crosses = Formen sind bereinigte Raten, Linien ihre 95-%-Intervalle; ein Kreuz ist die rohe Rate.
charts-same-as-table = Dasselbe als Tabelle
charts-source = Bezugsquelle
charts-adjusted = Bereinigt
charts-raw = Roh
charts-from = Aus
