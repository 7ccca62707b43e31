# Zeitpunkte, Dauern, Zahlen und Aufzählungen.
#
# Die festen Wörter aller deutschen Texte. Wir duzen.
# packet: Tüte · lot: Partie · kind: Art · variety: Sorte · source: Bezugsquelle · letters: Buchstaben · mark: Kennzeichen
# trial: Ansatz · to start a trial: ansetzen · to tick: ankreuzen · phone: Handy · vial: Röhrchen · sanitising soak: Desinfektionsbad · overnight soak: Quellbad · solution: Lösung
# routine: Ablauf · float check: Schwimmprobe · float tally: Ergebnis der Schwimmprobe · floater: Schwimmer · sinker: Sinker
# damp paper: feuchtes Papier · bag: Beutel · holder: Sammelbeutel · look: Kontrolle · count: Zählung · root out: Wurzel sichtbar
# rooted: bewurzelt · dead: tot · abnormal: anomal · mould: Schimmel · warmth: Wärme · closed: abgeschlossen · final count: Endauszählung · in doubt: unklar · taken back: zurückgenommen
# tray: Platte · cell: Zelle · planted: gepflanzt · potted on: umgetopft · came up: aufgelaufen · seedling: Sämling
# due now: jetzt fällig · plan: Plan · club: Verein · member: Mitglied · grower: Mitglied (Rolle), Gärtner (wo verglichen wird) · organiser: Leitung · host: Betreiber
# club table: Vereinstabelle · germination: Keimung · germination rate: Keimrate · care: Pflege · ring trial: Ringversuch · blind: verdeckt · standard day: Stichtag
# label: Etikett · count card: Zählkarte · outbox: Ausgang · signal: Empfang · passkey: Passkey · backup: Sicherung

words-weekdays = Mo Di Mi Do Fr Sa So
words-months = Jan Feb März Apr Mai Juni Juli Aug Sept Okt Nov Dez
words-day = { $weekday } { $day }. { $month }
words-date = { $day }. { $month } { $year }
words-short-date = { $day }. { $month }
words-today = heute
words-yesterday = gestern
words-tomorrow = morgen

words-out-at = heraus um { $time }
words-out-on = heraus { $moment }
words-out-in = heraus in { $span }
words-out-now = jetzt heraus
words-out-over = jetzt heraus, { $span } darüber

words-seconds = { $n } s
words-minutes = { $n } min
words-hours = { $n } h
words-hours-minutes = { $hours } h { $minutes } min
words-days = { $n ->
    [one] { $n } Tag
   *[other] { $n } Tage
 }

words-decimal-mark = ,
words-seeds = { $n ->
    [one] { $n } Same
   *[other] { $n } Samen
 }
words-and = und
words-or = oder
