# Rollen und Einstellungen.

accounts-grower = Mitglied
accounts-organiser = Leitung
accounts-role-grower = Mitglied
accounts-role-organiser = Leitung
accounts-a-grower = Mitglied
accounts-an-organiser = Leitung
accounts-letters-please = Bitte 1 bis 4 Buchstaben von A bis Z.
accounts-tick-if-sure = Bitte kreuze das an, wenn du sicher bist.

# Was mehrere Seiten sagen.

accounts-your-name = Dein Name
accounts-as-others-read-it = So, wie ihn andere Mitglieder lesen sollen.
accounts-sign-in-name = Anmeldename
accounts-your-letters = Deine Buchstaben
accounts-letters = Buchstaben
accounts-role = Rolle
accounts-name = Name
accounts-password = Passwort
accounts-your-password = Dein Passwort
accounts-new-password = Neues Passwort
accounts-password-help = Mindestens 15 Zeichen; vier Wörter ohne Zusammenhang taugen gut.
accounts-first-sign-in-help = Hilfe: deine erste Anmeldung
accounts-sign-in = Anmelden
accounts-go-on = Weiter
accounts-prove-with-password = Mit dem Passwort bestätigen
accounts-prove-that-it-is-you = Bestätige, dass du es bist
accounts-how-programs-ask = Wie Programme abfragen
accounts-back-to-your-settings = Zurück zu deinen Einstellungen
accounts-all-members = Alle Mitglieder
accounts-not-used-yet = noch nicht benutzt
accounts-last-used = zuletzt benutzt { $moment }
accounts-you-have-none = Du hast keine.

# Anmelden.

accounts-nobody-can-sign-in = Bis dahin kann sich niemand anmelden. Wo du schon angemeldet bist, kannst du weiter lesen, und Zählungen, die auf einem Handy warten, bleiben dort.
accounts-you-were-signed-out = <strong>Du wurdest abgemeldet, und nichts wurde gespeichert.</strong> Was du eingegeben hast, ist noch auf diesem Gerät: Melde dich an, dann steht es wieder auf seiner Seite.
accounts-data-is-erased = <strong>Erledigt.</strong> Deine Daten sind gelöscht, und deine Mitgliedschaft ist beendet.
accounts-not-signed-in = Nicht angemeldet.
accounts-sign-in-cannot-be-written = Jede Anmeldung muss aufgeschrieben werden, und das geht nicht: Die Daten des Vereins sind beschädigt.
accounts-sign-in-with-passkey = Mit einem Passkey anmelden
accounts-no-account-yet = Noch kein Konto? Die Leitung deines Vereins kann dir einen Einladungslink geben. Passwort vergessen? Dann kann sie dir einen Link für ein neues Passwort geben.
accounts-do-not-go-together = Anmeldename und Passwort passen nicht zusammen.
accounts-too-many-tries = { $n ->
    [one] Zu viele Versuche hintereinander. Warte { $n } Sekunde und versuch es noch einmal. Wenn das so weitergeht, rät vielleicht jemand anderes: Bitte die Leitung um einen Link, mit dem kommst du sofort hinein.
   *[other] Zu viele Versuche hintereinander. Warte { $n } Sekunden und versuch es noch einmal. Wenn das so weitergeht, rät vielleicht jemand anderes: Bitte die Leitung um einen Link, mit dem kommst du sofort hinein.
 }
accounts-signed-in = Angemeldet
accounts-you-are-signed-in-as = Du bist als { $name } angemeldet.
accounts-go-to-due-now = Zu dem, was jetzt fällig ist
accounts-sign-out-to-change = Abmelden, um dich als jemand anderes anzumelden

# Über einen Link beitreten oder ein neues Passwort wählen.

accounts-set-up-your-club = Richte deinen Verein ein
accounts-first-organiser = Du bist dann seine erste Leitung. Dieser Link gilt einmal.
accounts-start-the-club = Verein einrichten
accounts-join-the-club = Tritt dem Verein bei
accounts-club-invites-you = { $role ->
    [organiser] { $club } lädt dich in die Leitung ein. Diese Einladung gilt einmal.
   *[grower] { $club } lädt dich als Mitglied ein. Diese Einladung gilt einmal.
 }
accounts-join = Beitreten
accounts-name-of-the-club = Name des Vereins
accounts-time-zone = Zeitzone
accounts-time-zone-help = Tippe eine große Stadt in deiner Nähe ein, etwa Berlin oder Denver, und wähle aus.
accounts-no-such-time-zone = Diese Zeitzone gibt es nicht. Versuch es mit der größten Stadt deines Landes oder deiner Gegend, etwa Berlin oder Denver.
accounts-your-letters-help = 1 bis 4 Buchstaben, mit denen jedes Kennzeichen von dir beginnt, wie JB in JB 42. Niemand sonst kann sie haben.
accounts-sign-in-name-taken = Diesen Anmeldenamen hat schon jemand. Bitte wähle einen anderen.
accounts-reset-link-works-once = Für { $name }. Dieser Link gilt einmal; danach bist du überall sonst abgemeldet, und frühere Passkeys gelten nicht mehr.
accounts-keep-this-password = Passwort übernehmen
accounts-link-does-not-work = Dieser Link gilt nicht
accounts-link-was-used = Er wurde schon benutzt, ist abgelaufen oder wurde zurückgezogen. Die Leitung deines Vereins kann dir einen neuen geben.
accounts-all-is-well = Wenn du ihn gerade selbst benutzt hast, ist alles in Ordnung: Melde dich mit dem Passwort an, das du gewählt hast.

# Wie ein Passwort sein muss.

accounts-password-too-short = Bitte mindestens { $least } Zeichen; das sind { $n }.
accounts-password-too-long = Bitte höchstens { $most } Zeichen; das sind { $n }.
accounts-password-common = Dieses würden andere mit als Erstes versuchen. Vier Wörter ohne Zusammenhang taugen gut.
accounts-password-mostly-a-name = Das ist zum größten Teil ein Name, den andere kennen: deiner, der des Vereins oder ein Fachwort. Vier Wörter ohne Zusammenhang taugen gut.

# Noch einmal bestätigen, wer man ist.

accounts-needs-a-fresh-proof = Was jemandem den Verein oder dein Konto öffnet, musst du frisch bestätigen, damit ein liegen gelassenes Handy nicht genügt.
accounts-nothing-was-done-yet = Noch ist nichts geschehen: Bestätige zuerst, dass du es bist.
accounts-not-your-password = Das ist nicht dein Passwort.
accounts-thank-you-go-on = Danke. Mach weiter.

# Die eigenen Einstellungen.

accounts-measures-metric = Metrisch: ml, Gramm, °C
accounts-measures-us = US: Teelöffel, Unzen, °F
accounts-you-measure-in = Du misst in
accounts-save = Speichern
accounts-saved = Gespeichert.
accounts-letters-start-marks = { $letters }. Jedes Kennzeichen von dir beginnt damit.
accounts-take-another-set = Andere Buchstaben nehmen, für eine neue Saison
accounts-new-letters = Neue Buchstaben
accounts-new-letters-help = 1 bis 4 Buchstaben. Die Nummern beginnen wieder bei 1; früher vergebene Kennzeichen bleiben, wie sie sind.
accounts-take-these-letters = Diese Buchstaben nehmen
accounts-letters-are-yours = { $letters } gehört dir. Neue Tüten bekommen diese Buchstaben.
accounts-most-sets-of-letters = Du hast schon { $n } Buchstabenfolgen; mehr geht nicht.
accounts-letters-taken = Diese Buchstaben sehen aus wie andere, die schon vergeben sind. Bitte wähle andere.
accounts-without-signal = Ohne Empfang
accounts-can-this-phone-keep-counts = Kann dieses Handy Zählungen ohne Empfang behalten?
accounts-what-waits-on-this-phone = Was auf diesem Handy wartet
accounts-your-sign-in-name-is = Dein Anmeldename ist { $name }.
accounts-current-password = Jetziges Passwort
accounts-sign-out-and-end-tokens = Überall sonst abmelden und alle Tokens beenden
accounts-change-the-password = Passwort ändern
accounts-not-your-current-password = Das ist nicht dein jetziges Passwort.
accounts-new-password-holds = Das neue Passwort gilt.
accounts-passkeys = Passkeys
accounts-sign-in-by-unlocking = Melde dich an, indem du dein Handy oder deinen Computer entsperrst.
accounts-calendar = Kalender
accounts-calendar-by-address = Deine Kalender-App darf über eine geheime Adresse lesen, was fällig ist; erstellt { $since }. Die Adresse selbst wird nicht noch einmal gezeigt.
accounts-make-a-new-address = Neue Adresse erstellen
accounts-end-the-address = Adresse beenden
accounts-new-address-ends-the-old = Eine neue Adresse beendet die vorige.
accounts-calendar-can-show = Deine Kalender-App kann zeigen, wann Bäder zu Ende und welche Kontrollen fällig sind: Sie liest das von einer geheimen Adresse.
accounts-make-the-address = Adresse erstellen
accounts-your-own-programs = Deine eigenen Programme
accounts-your-own-programs-text = Ein Programm oder Sensor von dir kann mit einem eigenen Token lesen, was du siehst, und in deinem Namen eintragen.
accounts-your-tokens = Deine Tokens
accounts-your-passkeys = Deine Passkeys
accounts-save-or-erase = Als Datei speichern oder löschen und austreten
accounts-sign-out-here = Hier abmelden

# Wo ein Mitglied angemeldet ist.

accounts-where-you-are-signed-in = Wo du angemeldet bist
accounts-a-browser = Ein Browser
accounts-browser-on = { $browser } ({ $system })
accounts-an-iphone = iPhone
accounts-an-ipad = iPad
accounts-a-mac = Mac
accounts-device-is-here = { $device }: das ist hier
accounts-place-since = Angemeldet seit { $since }, zuletzt benutzt { $seen }; endet von selbst am { $until }
accounts-sign-out-there = Dort abmelden
accounts-sign-out-of-device = Dort abmelden: { $device }, seit { $since }
accounts-a-place-ends = Eine Anmeldung endet von selbst, wenn sie 30 Tage nicht benutzt wird, und nach 90 Tagen auf jeden Fall.
accounts-you-proved-last = Zuletzt hast du { $proved } bestätigt, dass du es bist; was dein Konto für andere öffnet, fragt neu danach.
accounts-you-proved-last-organiser = Zuletzt hast du { $proved } bestätigt, dass du es bist; was dein Konto oder den Verein für andere öffnet, fragt neu danach.
accounts-prove-it-now = Jetzt bestätigen
accounts-sign-out-everywhere-else = Überall sonst abmelden
accounts-signed-out-elsewhere = { $n ->
    [one] An { $n } anderen Stelle abgemeldet.
   *[other] An { $n } anderen Stellen abgemeldet.
 }
accounts-signed-out-there = Dort abgemeldet.

# Die Adresse des Kalenders.

accounts-your-calendar = Dein Kalender
accounts-add-this-address = Trag diese Adresse in deiner Kalender-App als Kalender zum Abonnieren ein. Er zeigt, wann Bäder zu Ende, welche Kontrollen fällig und welche Ansätze geplant sind, und fragt nach keinem Passwort: <strong>Wer die Adresse hat, kann ihn lesen</strong>.
accounts-address-shown-only-now = <strong>Sie wird nur jetzt gezeigt.</strong> Sie gilt, bis du sie beendest oder eine neue erstellst.
accounts-address-to-copy = Die Adresse zum Kopieren
accounts-address-to-scan = Dieselbe Adresse zum Scannen mit einem Handy
accounts-qr-code-of-the-address = QR-Code der Adresse
accounts-set-an-alarm = Kalender-Apps fragen nur ein paarmal am Tag nach; stell dir für ein kurzes Bad also den Wecker deines Handys.
accounts-address-ended = Die Adresse des Kalenders gilt nicht mehr.

# Tokens für Programme.

accounts-tokens-text = Mit einem Token liest ein eigenes Programm oder ein Sensor, was du siehst, und trägt in deinem Namen ein, wo du es erlaubst. Gib jedem Programm ein eigenes, damit du eines allein beenden kannst.
accounts-a-new-token = Ein neues Token
accounts-token-what-for = Wofür ist es?
accounts-token-what-for-help = Etwa: Waage im Schuppen.
accounts-token-it-may = Es darf
accounts-token-may-read = nur lesen, was ich sehe
accounts-token-may-record = lesen und in meinem Namen Zählungen und alles andere eintragen
accounts-token-lasts = Es gilt
accounts-token-30-days = 30 Tage
accounts-token-90-days = 90 Tage
accounts-token-a-year = ein Jahr
accounts-token-until-ended = bis ich es beende
accounts-make-the-token = Token erstellen
accounts-tokens-end-when = Alle Tokens enden, wenn sich deine Rolle ändert, wenn du über einen Link ein neues Passwort wählst oder wenn du dich mit einem neuen Passwort überall abmeldest.
accounts-token-reads = liest
accounts-token-reads-and-records = liest und trägt ein
accounts-token-works-until-ended = gilt, bis du es beendest
accounts-token-ends = endet am { $day }
accounts-token-used = zuletzt benutzt am { $day }
accounts-token-line = { $may }; erstellt am { $made }, { $used }, { $until }
accounts-end-token = Beenden
accounts-most-tokens = Du hast { $n } Tokens. Beende erst eines.
accounts-token-ended = Beendet. Das Token gilt nicht mehr.
accounts-your-token = Dein Token
accounts-token-for = Token für { $name }
accounts-give-it-to-nobody-else = Gib es diesem Programm und sonst niemandem: <strong>Wer es hat, kann tun, was du erlaubt hast</strong>.
accounts-token-shown-only-now = <strong>Es wird nur jetzt gezeigt.</strong> Es gilt, bis es abläuft oder du es beendest.
accounts-token-to-copy = Das Token zum Kopieren
accounts-program-sends-it = Das Programm sendet es mit jeder Anfrage, als Kopfzeile <code>Authorization: Bearer</code> und das Token. Anfragen beginnen mit <code>{ $base }/api/v1</code>.
accounts-back-to-your-tokens = Zurück zu deinen Tokens

# Passkeys.

accounts-passkeys-text = Mit einem Passkey meldest du dich an, indem du dein Handy oder deinen Computer entsperrst, ohne ein Passwort einzutippen. Dein Fingerabdruck oder Gesicht bleibt auf dem Gerät; der Verein behält nur die öffentliche Hälfte des Schlüssels.
accounts-password-goes-on = Dein Passwort gilt weiter.
accounts-add-a-passkey = Passkey hinzufügen
accounts-passkeys-not-here = Hier nicht: Browser bieten Passkeys nur unter einer Adresse mit https und einem Namen an, und Mitglieder kommen über { $base } hierher. Der Betreiber kann das ändern.
accounts-passkeys-need-proof = Um einen Passkey hinzuzufügen oder zu entfernen, bestätige frisch, dass du es bist.
accounts-browser-offers-no-passkeys = Dieser Browser bietet hier keine Passkeys an oder führt keine Skripte aus.
accounts-passkey-name = Wie nennst du ihn?
accounts-passkey-name-help = Etwa: mein Handy.
accounts-device-was-lost = Wenn du ein Gerät verloren hast: Entferne hier seinen Passkey und melde dich auf deiner eigenen Seite überall sonst ab. Passkeys bleiben, wenn du hier dein Passwort änderst; ein Link der Leitung für ein neues Passwort beendet sie.
accounts-passkey-line = hinzugefügt am { $day }, { $used }
accounts-remove-passkey = Entfernen
accounts-passkey-did-not-fit = Der Passkey passte nicht, oder es hat zu lange gedauert. Versuch es noch einmal oder nimm dein Passwort.
accounts-passkey-added = Hinzugefügt. Ab jetzt kannst du dich mit diesem Passkey anmelden.
accounts-passkey-removed = Entfernt. Niemand meldet sich mehr damit an; vielleicht bietet dein Handy oder Computer ihn weiter an.
accounts-passkeys-asked-too-often = Von hier wurde zu oft nach Passkeys gefragt. Warte eine Minute.
accounts-most-passkeys = Du hast { $n } Passkeys. Entferne erst einen.
accounts-passkey-kept-already = Dieser Passkey ist schon gespeichert.
accounts-organisers-by-passkey = Die Leitung dieses Vereins meldet sich mit einem Passkey an; mit dem Passwort allein lässt sich nur der erste hinzufügen.
accounts-use-your-passkey = Die Leitung meldet sich hier mit einem Passkey an. Nimm deinen, mit dem Knopf darunter.
accounts-first-a-passkey = Die Leitung dieses Vereins meldet sich mit einem Passkey an. Füge zuerst hier deinen hinzu: Bis dahin öffnet sich für dich keine andere Seite.
accounts-sign-in-by-yours = Du bist mit deinem Passwort hereingekommen. Die Leitung dieses Vereins meldet sich mit einem Passkey an: Nimm deinen.
accounts-last-passkey-stays = Das ist dein einziger Passkey, und die Leitung dieses Vereins meldet sich mit einem an. Füge erst einen anderen hinzu.

# Die Mitglieder.

accounts-members = Mitglieder
accounts-link-shown-already = Dieser Link wurde schon gezeigt und wird nicht zweimal gezeigt. Wenn du ihn nicht behalten hast, zieh ihn unten zurück und erstelle einen neuen.
accounts-member = Dabei
accounts-since = seit { $day }
accounts-no-longer-members = Nicht mehr Mitglied
accounts-letters-stay-taken = Ihre Buchstaben bleiben vergeben, damit kein Kennzeichen je zweimal vergeben wird.
accounts-left = Ausgetreten
accounts-who-did-what = Wer was getan hat
accounts-backups = Sicherungen der Daten des Vereins
accounts-invite-somebody = Jemanden einladen
accounts-they-join-as = Tritt bei als
accounts-organisers-also = Die Leitung lädt auch Leute ein, setzt Passwörter zurück und ändert Rollen.
accounts-make-an-invitation-link = Einladungslink erstellen
accounts-open-links = Offene Links
accounts-no-open-links = Keine.
accounts-reset-link-for = Link für ein neues Passwort für { $name }
accounts-invitation-as = { $role ->
    [organiser] Einladung in die Leitung
   *[grower] Einladung als Mitglied
 }
accounts-link-made-by = { $link }, erstellt von { $name }
accounts-works-until = gilt bis { $until }
accounts-withdraw = Zurückziehen
accounts-withdraw-link = Zurückziehen: { $link }, bis { $until }
accounts-link-withdrawn = Zurückgezogen. Der Link gilt nicht mehr.
accounts-link-shown-only-now = <strong>Er wird nur jetzt gezeigt.</strong> Er gilt bis { $until }.
accounts-link-to-copy = Der Link zum Kopieren
accounts-link-to-scan = Derselbe Link zum Scannen mit einem Handy
accounts-qr-code-of-the-link = QR-Code des Links
accounts-back-to-the-members = Zurück zu den Mitgliedern
accounts-invitation = Einladung
accounts-invitation-text = { $role ->
    [organiser] Wer diesen Link öffnet, kann einmal in die Leitung beitreten. Verschick ihn oder lass den Code scannen.
   *[grower] Wer diesen Link öffnet, kann einmal als Mitglied beitreten. Verschick ihn oder lass den Code scannen.
 }
accounts-reset-link = Link für ein neues Passwort
accounts-reset-link-text = Mit diesem Link wählt { $name } einmal ein neues Passwort und ist danach überall sonst abgemeldet. Gib ihn niemand anderem, und nur, wenn du sicher bist, dass wirklich { $name } darum bittet.

# Ein Mitglied, für die Leitung.

accounts-no-longer-a-member = Nicht mehr Mitglied.
accounts-what-follows-needs-proof = Für das Folgende bestätige frisch, dass du es bist.
accounts-password-forgotten = Passwort vergessen
accounts-password-forgotten-text = Erstelle einen Link, über den { $name } ein neues Passwort wählt. Er gilt einmal und einen Tag lang. Frühere Links für ein neues Passwort gelten dann nicht mehr.
accounts-make-a-reset-link = Link für ein neues Passwort erstellen
accounts-phone-lost = Handy verloren oder gestohlen
accounts-phone-lost-text = Melde { $name } überall ab. Zählungen, die auf einem Handy warten, bleiben dort und werden gesendet, wenn { $name } sich wieder anmeldet.
accounts-sign-out-everywhere = Überall abmelden
accounts-is-signed-out = { $n ->
    [one] { $name } ist an { $n } Stelle abgemeldet.
   *[other] { $name } ist an { $n } Stellen abgemeldet.
 }
accounts-role-yours = Du musst dich dann neu anmelden und kannst keine Rollen mehr ändern, wenn du nicht mehr in der Leitung bist.
accounts-role-theirs = { $name } muss sich dann neu anmelden.
accounts-change-the-role = Rolle ändern
accounts-has-that-role-already = { $role ->
    [organiser] { $name } ist schon in der Leitung.
   *[grower] { $name } ist schon Mitglied ohne Leitung.
 }
accounts-role-is-changed = { $role ->
    [organiser] { $name } ist jetzt in der Leitung und muss sich neu anmelden.
   *[grower] { $name } ist jetzt Mitglied ohne Leitung und muss sich neu anmelden.
 }
accounts-last-organiser = Ein Verein braucht eine Leitung, und dies ist die letzte. Nimm erst jemand anderen in die Leitung auf.
accounts-leaving-the-club = Austritt aus dem Verein
accounts-leaving-text = Niemand kann sich mehr als { $name } anmelden. Buchstaben, Tüten und Einträge bleiben, wie sie sind. Es gibt kein Zurück: Wer wiederkommt, tritt neu bei, mit anderen Buchstaben.
accounts-yes-this-member-leaves = Ja, dieses Mitglied tritt aus
accounts-end-the-membership = Mitgliedschaft beenden
accounts-is-no-longer-a-member = { $name } ist nicht mehr Mitglied. Die Buchstaben und Einträge behalten diesen Namen.
accounts-what-member-did = Was { $name } getan hat

# Das Verzeichnis der Vorgänge.

accounts-record-intro = Was Mitglieder und Leitung getan haben, das damit zu tun hat, wer hereinkommt, oder mit dem ganzen Verein.
accounts-record-sign-ins = { $good ->
    [one] In den letzten { $days } Tagen: { $good } Anmeldung, und { $failed } fehlgeschlagen mit dem Anmeldenamen eines Mitglieds.
   *[other] In den letzten { $days } Tagen: { $good } Anmeldungen, und { $failed } fehlgeschlagen mit dem Anmeldenamen eines Mitglieds.
 }
accounts-by-or-about = Von wem oder über wen
accounts-everybody = alle
accounts-which-acts = Welche Vorgänge
accounts-everything = alles
accounts-show-these = Anzeigen
accounts-record-nothing = Nichts.
accounts-record-when = Wann
accounts-record-who = Wer
accounts-record-what = Was
accounts-record-about = Über
accounts-record-earlier = Früher
accounts-record-help = In dieses Verzeichnis kommt nur Neues; nichts wird geändert: Die Datenbank selbst weigert sich, eine Zeile zu ändern oder zu löschen. Es wird so lange aufbewahrt wie die Daten des Vereins. Es enthält kein Passwort, keine Adresse und nichts, was Mitglieder eingegeben haben; wer seine Daten löscht, verliert auch hier seinen Namen.
accounts-somebody-not-known = jemand Unbekanntes
accounts-the-host-by-a-command = der Betreiber, durch einen Befehl
accounts-from-to = { $first } bis { $last }
accounts-sign-ins-failed = { $n } Anmeldungen fehlgeschlagen innerhalb von { $span }

# Vorgänge im Verzeichnis.

accounts-did-set-up = Verein eingerichtet
accounts-did-join = über eine Einladung beigetreten
accounts-did-sign-in = angemeldet
accounts-did-fail = Anmeldung fehlgeschlagen
accounts-did-prove = Identität noch einmal bestätigt
accounts-did-change-password = Passwort geändert
accounts-did-reset-password = über einen Link ein neues Passwort gewählt
accounts-did-sign-out-elsewhere = an anderen Stellen abgemeldet
accounts-did-end-sessions = alle Anmeldungen beendet
accounts-did-invite = Einladung erstellt
accounts-did-make-reset = Link für ein neues Passwort erstellt
accounts-did-withdraw-link = Link zurückgezogen
accounts-did-change-role = Rolle geändert
accounts-did-end-membership = Mitgliedschaft beendet
accounts-did-make-token = Token für ein Programm erstellt
accounts-did-end-token = Token beendet
accounts-did-make-calendar = Kalenderadresse erstellt
accounts-did-end-calendar = Kalenderadresse beendet
accounts-did-add-passkey = Passkey hinzugefügt
accounts-did-remove-passkey = Passkey entfernt
accounts-did-change-settings = eigene Einstellungen geändert
accounts-did-take-letters = neue Buchstaben genommen
accounts-did-save-data = Kopie der eigenen Daten gespeichert
accounts-did-erase = eigene Daten gelöscht und ausgetreten
accounts-did-merge-names = zwei Namen zusammengelegt
accounts-did-rename-kind = eine Art umbenannt
accounts-did-undo-merge = Zusammenlegung von Namen zurückgenommen
accounts-did-bring-list = Liste eingelesen
accounts-did-use-club = Tabelle eines anderen Vereins mitgezählt oder weggelassen
accounts-did-take-club = Tabelle eines anderen Vereins aufgenommen
accounts-did-remove-club = Tabelle eines anderen Vereins entfernt
accounts-did-back-up = Sicherung von Hand gemacht
accounts-did-restore = Verein auf einen früheren Stand zurückgesetzt; was später gespeichert wurde, fehlt hier

# Ein Wort mehr zu einem Vorgang.

accounts-by-password = Passwort
accounts-by-passkey = Passkey
accounts-by-invitation = Einladung
accounts-by-reset-link = Link für ein neues Passwort
accounts-of-everybody = von allen
accounts-to-read = lesen
accounts-to-record = eintragen
accounts-of-packets = Tüten
accounts-of-counts = Zählungen
accounts-of-variety = Sorte
accounts-of-source = Bezugsquelle
accounts-of-kind = Art
