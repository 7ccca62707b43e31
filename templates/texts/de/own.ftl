# Was der Verein über ein Mitglied weiß.

own-what-the-club-holds = Was der Verein über dich weiß
own-both-need-proof = Für beides bestätige frisch, dass du es bist.
own-save-it-as-a-file = Als Datei speichern
own-save-text = Dein Konto, deine Buchstaben, Tüten, Ansätze, Beutel, Platten, Zählungen, Notizen, Fotos, Pläne, Zählkarten, die Tokens deiner Programme (nicht ihre Geheimnisse), wo du angemeldet bist und was über deine Vorgänge verzeichnet ist: eine Zip-Datei mit Tabellen in JSON und den Fotos daneben.
own-save-the-file = Datei speichern
own-erase-it-and-leave = Löschen und austreten
own-no-way-back = Damit endet deine Mitgliedschaft, und es gibt kein Zurück.
own-goes = <strong>Verschwindet:</strong> dein Name, Anmeldename, Passwort, deine Passkeys und Tokens; deine Notizen und Fotos; deine Pläne, Zählkarten und eigenen Etikettenbögen; die Orte und Namen, die du Tüten, Beuteln und Platten gegeben hast.
own-stays = <strong>Bleibt, ohne deinen Namen:</strong> was gezählt wurde, wann und von welchem Saatgut, denn die Vereinstabelle und die Vergleiche anderer beruhen darauf; deine Buchstaben auf Kennzeichen, denn kein Kennzeichen wird je zweimal vergeben; Abläufe, Ringversuche und Namen von Sorten und Bezugsquellen, die andere nutzen, und was andere geschrieben haben.
own-elsewhere = <strong>Anderswo:</strong> Sicherungen, die der Betreiber früher gemacht hat, enthalten es noch, bis sie ersetzt werden. Zählungen, die auf deinem Handy warten, gehen verloren: Sende sie vorher. Was du gedruckt hast, musst du selbst wegwerfen.
own-save-first = Speichere zuerst die Datei, wenn du deine Notizen und Fotos behalten willst.
own-yes-erase = Ja, alles löschen, was mir gehört, und meine Mitgliedschaft beenden
own-erase-and-leave = Löschen und austreten

# Die Datei neben den Tabellen, Zeile für Zeile.

own-readme-title = Was das Hilum deines Vereins über dich weiß.
own-readme-moments = Eine Datei für jede Tabelle, in JSON (RFC 8259). Zeitpunkte (Namen, die auf _at enden) sind Sekunden seit 1970-01-01 00:00 UTC;
own-readme-yes-and-no = ja und nein sind 1 und 0. Fotos sind nach dem Eintrag benannt, zu dem sie gehören. Passwörter und Schlüssel stehen nicht darin:
own-readme-secrets = Der Verein bewahrt sie nur in einer Form auf, aus der niemand sie zurücklesen kann.
