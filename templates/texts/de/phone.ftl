# Was auf diesem Handy wartet.
phone-scripts-off = Skripte sind hier ausgeschaltet, darum bleibt nichts auf diesem Handy: Jedes Formular wird gesendet, wenn du es speicherst.
phone-waiting-title = Wartet auf diesem Handy
phone-send-now = Jetzt senden
phone-due-now = Jetzt fällig
phone-can-it = Kann dieses Handy Zählungen behalten?

# Was dieses Handy behalten kann.
phone-no-scripts = <strong>Nein.</strong> Skripte sind hier ausgeschaltet, darum kann auf diesem Handy nichts bleiben. Jede Seite geht, aber nur mit Empfang.
phone-without-signal = Dieses Handy ohne Empfang
phone-secure = Vertrauenswürdige Adresse (https)
phone-secure-else = Seiten lassen sich ohne Empfang nicht öffnen. Zählungen bleiben trotzdem erhalten, solange eine Seite offen ist: Lass sie offen, bis sie „Gesendet“ sagt. Bitte den, der den Verein betreibt, um eine https-Adresse.
phone-pages = Seiten öffnen sich ohne Empfang
phone-pages-else = Dieser Browser verweigert es hier, oder der Betreiber hat es ausgeschaltet. Öffne den Verein im eigenen Browser des Handys, nicht in einem privaten Fenster.
phone-counts = Zählungen bleiben auf dem Handy
phone-counts-else = Dieser Browser behält nichts. Verlass das private Fenster oder schaffe Platz auf dem Handy.
phone-lasting = Bleiben, bis du sie löschst
phone-lasting-else = Der Browser darf sie löschen, wenn der Platz knapp wird, manche schon nach einer Woche ohne Besuch. Lege den Verein auf den Startbildschirm und sende vor einer langen Pause.
phone-ask-lasting = Den Browser bitten, sie zu behalten
phone-what-waits = Was auf diesem Handy wartet
