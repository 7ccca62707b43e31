# Saatgut, das altert
ageing-seed-that-ages = Saatgut, das altert
ageing-no-packet-with-seed = Du hast keine Tüte mit Samen.
ageing-test-again = Noch einmal prüfen
ageing-no-test-needed = Keine Tüte braucht jetzt eine Keimprobe.
ageing-past-but-tested = Die überalterten unten wurden vor Kurzem geprüft oder sind vor Kurzem gekommen.
ageing-test-mark = Prüfen <span class="vh">{ $mark }</span>
ageing-use-first = Zuerst verbrauchen
ageing-packets-by-end = Tüten mit Samen, zuerst die, deren Ende am nächsten ist
ageing-age = Alter
ageing-left = Noch da
ageing-roots-at-this-age = Bewurzelt in diesem Alter
ageing-published-life = Veröffentlichte Haltbarkeit
ageing-how-long-good = Wie lange es gut ist
ageing-cannot-say-yet = das kann der Verein noch nicht sagen
ageing-what-trials-say = Was die eigenen Ansätze des Vereins sagen
ageing-published-lives = Veröffentlichte Haltbarkeit: <span lang="en">{ $lists }</span>. Das sind Jahre bei üblicher guter Lagerung, und sie widersprechen sich.
ageing-years = { $n ->
    [one] { $n } Jahr
   *[other] { $n } Jahre
 }
ageing-root-by-bags = { $n ->
    [one] { $rate } % ({ $low } bis { $high }), nach { $n } Beutel des Vereins mit { $kind }
   *[other] { $rate } % ({ $low } bis { $high }), nach { $n } Beuteln des Vereins mit { $kind }
 }
ageing-life-by-list = { $n ->
    [one] { $n } Jahr ({ $who })
   *[other] { $n } Jahre ({ $who })
 }
ageing-list-from-memory = { $list } (aus dem Gedächtnis)
ageing-tested = { $rooted } von { $seeds } bewurzelt, auf Papier am { $day }
ageing-not-tested = vom Verein nicht geprüft
ageing-past-by-trials = überaltert nach den eigenen Ansätzen des Vereins
ageing-past-by-lists = überaltert nach der kürzeren veröffentlichten Haltbarkeit
ageing-last-season-by-trials = letzte gute Saison nach den eigenen Ansätzen des Vereins
ageing-last-season-by-lists = letzte gute Saison nach der kürzeren veröffentlichten Haltbarkeit
ageing-more-years-by-trials = { $n ->
    [one] noch etwa { $n } Jahr nach den eigenen Ansätzen des Vereins
   *[other] noch etwa { $n } Jahre nach den eigenen Ansätzen des Vereins
 }
ageing-more-years-by-lists = { $n ->
    [one] noch etwa { $n } Jahr nach der kürzeren veröffentlichten Haltbarkeit
   *[other] noch etwa { $n } Jahre nach der kürzeren veröffentlichten Haltbarkeit
 }
ageing-not-tested-within-a-year = Nicht im ersten Jahr nach der Ankunft geprüft.
ageing-fell = Von { $first } auf { $last } % gefallen, unter 85 % des ersten Werts: Prüfe noch einmal oder ersetze die Tüte.
ageing-tested-years-ago = { $n ->
    [one] Zuletzt vor mehr als { $n } Jahr geprüft.
   *[other] Zuletzt vor mehr als { $n } Jahren geprüft.
 }
ageing-tested-months-ago = { $n ->
    [one] Zuletzt vor mehr als { $n } Monat geprüft.
   *[other] Zuletzt vor mehr als { $n } Monaten geprüft.
 }
ageing-past-every-life = Über jede veröffentlichte Haltbarkeit hinaus und zuletzt vor über einem Jahr geprüft.
ageing-no-test-since-tested = vor dem { $due } ist keine Keimprobe fällig, denn geprüft wurde am { $day }
ageing-no-test-since-came = vor dem { $due } ist keine Keimprobe fällig, denn die Tüte kam am { $day }
ageing-no-test-first-year = im ersten Jahr ist keine Keimprobe fällig
ageing-falls-with-age = { $n ->
    [one] { $kind }: Die Keimrate fällt mit dem Alter, nach { $n } abgeschlossenen Beutel.
   *[other] { $kind }: Die Keimrate fällt mit dem Alter, nach { $n } abgeschlossenen Beuteln.
 }
ageing-down-after-years = { $n ->
    [one] Neues Saatgut bewurzelt zu { $rate } %; auf 85 % davon ist es nach etwa { $n } Jahr gefallen.
   *[other] Neues Saatgut bewurzelt zu { $rate } %; auf 85 % davon ist es nach etwa { $n } Jahren gefallen.
 }
ageing-down-after-months = { $n ->
    [one] Neues Saatgut bewurzelt zu { $rate } %; auf 85 % davon ist es nach etwa { $n } Monat gefallen.
   *[other] Neues Saatgut bewurzelt zu { $rate } %; auf 85 % davon ist es nach etwa { $n } Monaten gefallen.
 }
ageing-half-still-root = { $n ->
    [one] Die Hälfte bewurzelt noch mit etwa { $n } Jahr.
   *[other] Die Hälfte bewurzelt noch mit etwa { $n } Jahren.
 }
ageing-too-little-to-tell = { $kind }: zu wenig, um etwas zu sagen: { $n ->
    [one] { $n } abgeschlossener Beutel
   *[other] { $n } abgeschlossene Beutel
 } mit { $ages ->
    [one] { $ages } Alter
   *[other] { $ages } verschiedenen Altern
 }. Nötig sind { $bags_needed } Beutel mit { $ages_needed } verschiedenen Altern.
ageing-no-fall-so-far = { $n ->
    [one] { $kind }: { $n } abgeschlossener Beutel zeigt bisher kein Nachlassen mit dem Alter; es gilt die veröffentlichte Haltbarkeit.
   *[other] { $kind }: { $n } abgeschlossene Beutel zeigen bisher kein Nachlassen mit dem Alter; es gilt die veröffentlichte Haltbarkeit.
 }
