# Was jede Seite umgibt, Formulare und Fehler. In langen Wörtern der Navigation stehen weiche Trennzeichen.

web-skip = Zum Inhalt
web-main-places = Bereiche
web-place-due-now = Jetzt fällig
web-place-packets = Tüten
web-place-plan = Plan
web-place-trays = Platten
web-place-club-table = Vereins­tabelle
web-place-ring-trials = Ring­versuche
web-place-routines = Abläufe
web-place-members = Mitglieder
web-find-by-mark = Nach Kennzeichen suchen
web-find-mark = Suchen
web-undo = Rückgängig
web-help = Hilfe
web-sign-out = Abmelden

web-not-saved = Nicht gespeichert.
web-not-saved-yet = Noch nicht gespeichert.
web-look-again = Bitte sieh noch einmal hin:
web-one-fewer = eins weniger
web-one-more = eins mehr

web-language = Sprache
web-language-of-browser = Wie der Browser

# Eingaben, die so nicht gehen.
web-at-most = Bitte höchstens { $n } Zeichen.
web-unprintable = Darin sind Zeichen, die sich nicht darstellen lassen.
web-fill-in = Bitte ausfüllen.
web-whole-from-to = Bitte eine ganze Zahl von { $least } bis { $most }.
web-whole = Bitte eine ganze Zahl, zum Beispiel 10.
web-year = Bitte ein Jahr, zum Beispiel 2026.
web-give-number = Bitte gib eine Zahl an.
web-number-from-to = Bitte eine Zahl von { $least } bis { $most }.
web-number = Bitte eine Zahl, zum Beispiel 2,5.
web-which-number = Ist das { $whole } oder { $part }? Bitte schreib es so.
web-date = Bitte ein Datum, zum Beispiel 2026-02-28.
web-moment = Bitte Datum und Uhrzeit, zum Beispiel 2026-02-28 07:30.
web-future = Das liegt in der Zukunft. Gib an, wann es geschah.
web-long-ago = Das ist mehr als 30 Jahre her. Sieh auf das Jahr.
web-choose = Bitte wähle eins aus.

# Eine Änderung, die auf eine andere trifft.
web-meanwhile = Inzwischen wurde es zu { $now } geändert; das steht jetzt hier.
web-meanwhile-by = Inzwischen hat { $name } es zu { $now } geändert; das steht jetzt hier.
web-typed-meanwhile = Du hast { $typed } eingegeben; inzwischen wurde es zu { $now } geändert. Speichere noch einmal, damit deins gilt.
web-typed-meanwhile-by = Du hast { $typed } eingegeben; inzwischen hat { $name } es zu { $now } geändert. Speichere noch einmal, damit deins gilt.
web-ticked = angekreuzt
web-not-ticked = nicht angekreuzt
web-empty = leer
web-quoted = „{ $text }“
web-quoted-cut = „{ $text } …“

# Formulare, die nicht ankamen.
web-unreadable = Das Formular ließ sich nicht lesen.
web-form-cut = Das Formular war zu groß oder wurde unterwegs abgeschnitten.
web-file-cut = Die Datei war zu groß oder wurde unterwegs abgeschnitten.
web-file-again = Wähle die Datei noch einmal aus: Eine Seite, die zurückkommt, kann sie nicht behalten.
web-foreign = Dieses Formular kam nicht von dieser Website. Öffne die Seite neu und versuch es noch einmal.
web-no-key = Das Formular kam ohne seinen Schlüssel. Öffne die Seite neu und versuch es noch einmal.
web-saved-before = Dieses Formular wurde schon mit anderen Werten gespeichert, und die gelten. Öffne die Seite neu, um mehr einzutragen.
web-entry-cut = Der Eintrag war zu groß oder wurde unterwegs abgeschnitten.
web-not-from-outbox = Das lässt sich nicht aus dem Ausgang des Handys speichern. Öffne seine Seite.
web-not-saved-open = Das wurde nicht gespeichert. Öffne seine Seite.
web-only-organiser = Das kann nur die Leitung.

# Fehlerseiten.
web-busy-title = Zu viel auf einmal
web-busy = Nichts ging verloren, nichts wurde gespeichert. Warte einen Moment, geh zurück und versuch es noch einmal.
web-too-long-title = Das dauerte zu lange
web-too-long = Geh zurück und versuch es noch einmal; deine Eingabe ist noch da, und nichts zählt doppelt.
web-wrong-title = Etwas ging schief
web-wrong = Nichts wurde gespeichert. Geh zurück und versuch es noch einmal.
web-wrong-typed = Nichts wurde gespeichert. Geh zurück und versuch es noch einmal; deine Eingabe ist noch da.
web-not-through-title = Das kam nicht an
web-not-through = Die Adresse oder das Formular ließ sich nicht lesen. Geh zurück und versuch es noch einmal.
web-not-taken = Diese Adresse nimmt das nicht an.
web-not-here-title = Nicht hier
web-not-here = Diese Seite gibt es nicht, oder sie ist nicht für dich.
web-not-allowed-title = Nicht erlaubt
web-refused-title = Das lässt sich nicht speichern
web-changed-title = Schon geändert
web-too-large-title = Das ist zu groß
web-too-many-title = Zu viele Versuche
web-again-number = Wenn es wieder geschieht, nenne dem, der den Verein betreibt, diese Nummer: <span class="number">{ $number }</span>.
web-go-to-due = Zu dem, was jetzt fällig ist

# Der Rechner des Vereins in Not.
web-full-title = Die Platte ist voll
web-full = Auf der Festplatte des Vereinsrechners ist kein Platz mehr. Sag dem Bescheid, der sich darum kümmert. Speichere noch einmal, sobald Platz ist: Es zählt einmal.
web-disk-title = Die Festplatte meldet Fehler
web-disk = Die Festplatte des Vereinsrechners hat das nicht angenommen. Sag dem Bescheid, der sich darum kümmert. Speichere später noch einmal: Es zählt einmal.
web-damaged-title = Die Daten des Vereins sind beschädigt
web-damaged = Es wird nichts mehr gespeichert, damit es nicht schlimmer wird. Bitte den, der sich um den Vereinsrechner kümmert, die letzte Sicherung zurückzuspielen. Halte deine Zählungen bis dahin auf Papier oder auf dem Handy fest.
web-damaged-banner = <strong>Die Daten des Vereins sind beschädigt.</strong> Es wird nichts mehr gespeichert, damit es nicht schlimmer wird; auf Seiten kann etwas fehlen. Bitte den, der sich um den Vereinsrechner kümmert, die letzte Sicherung zurückzuspielen.
web-contended-title = Zu viele auf einmal
web-contended = Andere speichern im selben Moment. Nichts wurde gespeichert. Speichere gleich noch einmal: Es zählt einmal.
web-away-title = Die Daten des Vereins sind gerade nicht erreichbar
web-away = Warte einen Moment und versuch es noch einmal. Dasselbe noch einmal zu speichern ist sicher: Es zählt einmal.
web-phone-full = Die Festplatte des Vereinsrechners ist voll: Sag dem Bescheid, der sich darum kümmert. Die Zählung bleibt auf diesem Handy und wird gesendet, sobald Platz ist.
web-phone-disk = Die Festplatte des Vereinsrechners meldet Fehler: Sag dem Bescheid, der sich darum kümmert. Die Zählung bleibt auf diesem Handy und wird gesendet, sobald die Festplatte in Ordnung ist.
web-phone-damaged = Die Daten auf dem Vereinsrechner sind beschädigt, darum wird dort nichts gespeichert: Sag dem Bescheid, der sich darum kümmert. Die Zählung bleibt auf diesem Handy und wird gesendet, sobald die letzte Sicherung zurückgespielt ist.

# Eingaben, die warten.
web-held-title = Noch nicht gespeichert
web-held-typed = Was du eingegeben hast
web-held-file = Ein Foto oder eine Datei kann hier nicht behalten werden. Um es mitzusenden, geh zurück auf die Seite und wähle es noch einmal aus.
web-held-send = Noch einmal senden
web-held-safe = Lass diese Seite offen, bis es gespeichert ist. Noch einmal zu senden ist sicher: Es zählt einmal.

# Kennzeichen.
web-not-your-letters = Das sind nicht deine Buchstaben.
web-no-free-number = Unter diesen Buchstaben ist keine Nummer mehr frei. Nimm bitte andere Buchstaben.
web-given-before = { $mark } wurde schon vergeben, und ein Kennzeichen wird nie zweimal vergeben.
web-too-many-bags = Diese Tüte hatte zu viele Beutel, um noch einen zu benennen.
web-no-free-mark = Es ist kein Kennzeichen mehr frei. Nimm bitte andere Buchstaben.
