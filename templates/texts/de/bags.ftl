# Wie ein Beutel steht

bags-still-on-paper = { $n ->
    [one] { $n } Same noch auf Papier
   *[other] { $n } Samen noch auf Papier
 }
bags-on-paper-since-today = seit heute auf Papier
bags-day-on-paper = Tag { $n } auf Papier
bags-rooted = { $n } bewurzelt
bags-rooted-not-planted = { $rooted } bewurzelt, davon { $n } noch nicht gepflanzt
bags-seeds-in-bag = { $n ->
    [one] { $n } Same in diesem Beutel
   *[other] { $n } Samen in diesem Beutel
 }
bags-sign-taken-back = zurückgenommen
bags-sign-in-doubt = unklar
bags-sign-floaters = Schwimmer
bags-sign-treated-again = nochmals behandelt
bags-sign-weekly = wöchentliche Kontrolle
bags-sign-abandoned = aufgegeben
bags-sign-final-count = Endauszählung gemacht
bags-place = Ort: { $place }
bags-at-warmth = bei { $warmth }
bags-warmth-celsius = Wärme, °C
bags-warmth-fahrenheit = Wärme, °F

# Wörter mehrerer Formulare

bags-save = Speichern
bags-back-to-the-bag = Zurück zum Beutel
bags-when = Wann
bags-when-you-looked = Wann du nachgesehen hast
bags-empty-means-now = Leer heißt jetzt.
bags-note = Notiz
bags-seeds = Samen
bags-mark = Kennzeichen
bags-root-out = Wurzel sichtbar
bags-dead-removed = Tot und entfernt
bags-new-place = Neuer Ort
bags-only-when-it-moves = Nur beim Umstellen.
bags-only-when-it-moved = Nur beim Umstellen.
bags-holder = Sammelbeutel
bags-holders = Sammelbeutel
bags-close-the-bag = Beutel abschließen
bags-without-a-label = Ein Beutel ohne Etikett
bags-place-or-warmth = Gib den Ort, die Wärme oder beides an.

# Die Seite eines Beutels

bags-never-on-paper = Zurückgenommen: Er kam nie auf Papier.
bags-origin = { $kind } von { $source }. <a href="/trials/{ $trial }">Zum Ansatz</a>, <a href="/packets/{ $packet }">zur Tüte</a>
bags-origin-in-holder = { $kind } von { $source }. <a href="/trials/{ $trial }">Zum Ansatz</a>, <a href="/packets/{ $packet }">zur Tüte</a>, in <a class="mark small" href="/holders/{ $holder }">{ $mark }</a>
bags-root-out-help = Neu seit der letzten Kontrolle: Die Wurzel ist 2 mm oder länger zu sehen.
bags-dead-removed-help = Schimmlig oder weich, herausgenommen.
bags-from-the-start = Samen in diesem Beutel von Anfang an
bags-from-the-start-help = Nur wenn es falsch eingetragen war.
bags-also = Außerdem
bags-mould-seen = Schimmel gesehen
bags-damped-again = Nachgefeuchtet
bags-paper-changed = Papier gewechselt
bags-more-fields = Notiz, Foto, frühere Zeit, mehr Samen
bags-looked-late-help = Leer heißt jetzt. Eine Kontrolle darf später nachgetragen werden, zwischen anderen.
bags-photo = Foto
bags-photo-help = JPEG, PNG oder WebP, höchstens 12 MB. Wo und wann es aufgenommen wurde, wird nicht gespeichert.
bags-save-the-count = Zählung speichern
bags-nothing-new = Kontrolliert, nichts Neues
bags-closed-when = Abgeschlossen { $when }.
bags-rooted-after-closing = Nach dem Abschluss hat ein Same Wurzeln gebildet
bags-reopening = Der Abschluss wird mit dem Grund „nach dem Abschluss bewurzelt“ zurückgenommen, und die Kontrolle wird eingetragen. Schließe den Beutel wieder ab, wenn er fertig ist.
bags-when-you-saw-it = Wann du es gesehen hast
bags-reopen = Wieder öffnen und Zählung speichern
bags-plant-rooted = { $n ->
    [one] { $n } bewurzelten Samen pflanzen
   *[other] { $n } bewurzelte Samen pflanzen
 }
bags-next-bag-due = Nächster fälliger Beutel: { $mark }
bags-something-happened = Es ist etwas passiert
bags-seeds-went-elsewhere = Samen kamen woandershin
bags-what-to-expect = Was zu erwarten ist
bags-history = Verlauf
bags-nothing-written = Noch ist nichts eingetragen.
bags-photo-of = Foto von { $of }
bags-take-back-line = Zurücknehmen<span class="vh">: { $line }, { $when }</span>
bags-taken-back-by = Zurückgenommen von { $by }: { $why }

# Zählen

bags-numbers-here = Hier stehen Zahlen. Speichere die Zählung oder leere die Felder.
bags-type-what-is-new = Trage ein, was neu ist, oder speichere, dass nichts neu ist.
bags-more-accounted-for = Es sind schon mehr Samen als das eingetragen.
bags-cannot-have-held = { $n ->
    [one] Mit dieser Zählung ist { $n } Same des Beutels nachgewiesen: Er kann nicht { $held } enthalten haben.
   *[other] Mit dieser Zählung sind { $n } Samen des Beutels nachgewiesen: Er kann nicht { $held } enthalten haben.
 }
bags-counted-too-many = Du hast { $n } Samen gezählt; nach dem Buch: { $paper }. Waren von Anfang an { $need } Samen im Beutel und nicht { $held }, trage bei „Samen in diesem Beutel von Anfang an“ { $need } ein; sonst berichtige die Zählung.
bags-no-look-recorded = Keine Kontrolle eingetragen
bags-counted = { $rooted } bewurzelt, { $dead } tot gezählt
bags-with-a-photo = mit Foto
bags-plant-rooted-seeds = { $n ->
    [one] { $n } bewurzelten Samen pflanzen
   *[other] { $n } bewurzelte Samen pflanzen
 }
bags-was-taken-back = Der Beutel { $mark } wurde zurückgenommen. Öffne seine Seite noch einmal.
bags-is-closed = Der Beutel { $mark } ist abgeschlossen. Öffne seine Seite noch einmal.
bags-saved-meanwhile = Seit du diese Seite geöffnet hast, wurde zu { $mark } etwas gespeichert: jetzt { $paper }, { $rooted } bewurzelt. Ist deine Kontrolle eine andere, speichere sie noch einmal.
bags-more-than-on-paper = { $n ->
    [one] Das ist { $n } Same, aber { $paper }. Öffne die Seite des Beutels, wenn es mehr waren.
   *[other] Das sind { $n } Samen, aber { $paper }. Öffne die Seite des Beutels, wenn es mehr waren.
 }

# Kontrollen an vielen Beuteln

bags-looks = Kontrollen
bags-looks-at = { $n ->
    [one] Kontrolle von { $n } Beutel
   *[other] Kontrolle von { $n } Beuteln
 }
bags-choose-bags = Beutel nach Sammelbeutel oder Ort auswählen
bags-filter-place = Ort
bags-also-not-due = Auch Beutel, die noch nicht fällig sind
bags-show = Anzeigen
bags-all-due-bags = Alle fälligen Beutel
bags-none-due-here = Hier ist für keinen Beutel eine Kontrolle fällig.
bags-type-only-new = Trage nur ein, was seit der letzten Kontrolle neu ist. Ein leer gelassener Beutel wurde nicht kontrolliert, außer du sagst es am Ende.
bags-find-in-list = In dieser Liste suchen
bags-find-in-list-help = Mindestens drei Zeichen eines Kennzeichens oder einer Sorte. Ausgeblendete Beutel bleiben in der Liste.
bags-so-many-on-paper = <b>{ $n }</b> noch auf Papier
bags-root-out-in = Wurzel sichtbar<span class="vh"> in { $mark }</span>
bags-root-out-one-fewer = Wurzel sichtbar in { $mark }: eins weniger
bags-root-out-one-more = Wurzel sichtbar in { $mark }: eins mehr
bags-dead-in = Tot<span class="vh"> in { $mark }</span>
bags-dead-removed-from = Tot und entfernt<span class="vh"> aus { $mark }</span>
bags-dead-one-fewer = Tot in { $mark }: eins weniger
bags-dead-one-more = Tot in { $mark }: eins mehr
bags-rest-looked-at = Auch alle anderen Beutel dieser Liste wurden kontrolliert: nichts Neues
bags-save-the-looks = Kontrollen speichern
bags-any-holder = jeder Sammelbeutel
bags-any-place = jeder Ort
bags-type-or-tick = Trage ein, was in einem Beutel neu ist, oder kreuze an, dass die anderen kontrolliert wurden.
bags-saved-same = { $n ->
    [one] Gespeichert: { $n } Beutel kontrolliert, nichts Neues.
   *[other] Gespeichert: { $n } Beutel kontrolliert, nichts Neues.
 }
bags-saved-counts = { $n ->
    [one] { $n } Zählung gespeichert: { $rooted } bewurzelt, { $dead } tot.
   *[other] { $n } Zählungen gespeichert: { $rooted } bewurzelt, { $dead } tot.
 }
bags-saved-counts-and-same = { $n ->
    [one] { $n } Zählung
   *[other] { $n } Zählungen
 } gespeichert: { $rooted } bewurzelt, { $dead } tot; { $same ->
    [one] den anderen Beutel
   *[other] die anderen { $same } Beutel
 } kontrolliert, nichts Neues.
bags-only-since = { $mark } liegt erst seit { $since } auf Papier.

# Abschließen

bags-close-title = { $mark } abschließen
bags-not-open = Dieser Beutel ist nicht offen. <a href="/bags/{ $bag }">Zurück zum Beutel</a>
bags-count-first = <strong>{ $paper }.</strong> Seit der letzten Kontrolle eine Wurzel sichtbar? <a href="/bags/{ $bag }">Erst zählen</a>.
bags-sown-as-last-chance = Samen, die als letzte Chance unbewurzelt gesät wurden, <a href="/bags/{ $bag }/plant?unrooted=yes">trägst du dort ein</a>.
bags-how-it-ends = Wie er endet
bags-ending-final-count = Endauszählung: Jeder Same, der noch auf Papier liegt, wird unten angegeben
bags-ending-kept-on = Weitergeführt: nicht abgeschlossen, ab jetzt wöchentlich kontrollieren
bags-ending-abandoned = Aufgegeben: geht nicht in die Keimraten ein, seine Zahl wird angezeigt; gib den Grund an
bags-what-is-on-paper = Was noch auf Papier liegt
bags-must-add-up = Zusammen müssen es { $n } sein. Ein aufgegebener Beutel ohne Zahlen gilt als nicht untersucht.
bags-fresh = Frisch
bags-fresh-help = Hat Wasser aufgenommen, ist fest und gesund, aber nicht bewurzelt: Er kann es vielleicht noch.
bags-hard = Hart
bags-hard-help = So hart wie trocken: Er hat nie Wasser aufgenommen.
bags-dead-by-pressing = Tot beim Drücken
bags-dead-by-pressing-help = Weich oder schimmlig; gibt beim Drücken nach oder ist innen grau und verfault.
bags-abnormal = Anomal
bags-abnormal-help = Begann zu wachsen, ist aber so verkümmert oder beschädigt, dass keine Pflanze daraus wird.
bags-not-examined = Nicht untersucht
bags-not-examined-help = Noch da, aber niemand hat ihn gedrückt oder aufgeschnitten.
bags-lost = Verloren
bags-lost-help = Weg: verschüttet, heruntergefallen, gefressen.
bags-why-or-note = Grund oder Notiz
bags-why-help = Für einen aufgegebenen Beutel braucht es einen Grund.
bags-why-abandoned = Warum wurde er aufgegeben?
bags-sum-too-many = { $paper }, und die Zahlen ergeben { $told }: { $n ->
    [one] { $n } Same zu viel.
   *[other] { $n } Samen zu viel.
 }
bags-sum-missing = { $paper }, und die Zahlen ergeben { $told }: { $n ->
    [one] { $n } Same fehlt.
   *[other] { $n } Samen fehlen.
 }
bags-kept-on = { $mark } wird weitergeführt: wöchentlich kontrollieren.
bags-now-closed = { $mark } ist abgeschlossen: { $ending }.
bags-open-again = { $mark } ist wieder offen: { $n } nach dem Abschluss bewurzelt.
bags-looked-at-later = Der Beutel wurde danach noch kontrolliert, { $when }.
bags-open-count-as-usual = Der Beutel ist offen. Zähle ihn wie gewohnt.

# Was passiert ist

bags-happened-title = Was mit { $mark } passiert ist
bags-what-happened-to-it = Was ist mit diesem Beutel passiert? Immer nur eines auf einmal, mit eigenem Datum.
bags-it-was = Es war
bags-event-rinsed = Gespült
bags-event-soaked-again = Nochmals eingeweicht (der Ansatz gilt dann als nochmals behandelt)
bags-event-mouldy-removed = Schimmlige Samen entfernt (sie zählen als tot)
bags-event-dried-out = Ausgetrocknet
bags-event-overheated = Überhitzt
bags-event-moved = Umgestellt: anderer Ort, andere Wärme
bags-event-into-holder = In einen Sammelbeutel gelegt
bags-event-out-of-holder = Aus dem Sammelbeutel genommen
bags-event-handed-on = An ein anderes Mitglied weitergegeben
bags-event-look-weekly = Ab jetzt wöchentlich kontrollieren
bags-event-look-daily = Ab jetzt täglich kontrollieren
bags-event-in-doubt = Unklar: Etikett verloren, Beutel vertauscht, Samen verschüttet
bags-event-resolved = Wieder geklärt
bags-event-note = Nur eine Notiz
bags-mouldy-removed = Schimmlige Samen entfernt
bags-mouldy-removed-help = Nur bei schimmligen Samen.
bags-new-place-help = Nur beim Umstellen: Heizmatte, Fensterbank, Kühlschrank.
bags-only-when-put-in = Nur wenn er in einen gelegt wurde.
bags-handed-on-to = Weitergegeben an
bags-handed-on-help = Ab dann gehört der Beutel diesem Mitglied; der Ansatz bleibt deiner.
bags-choose-a-holder = Sammelbeutel wählen
bags-choose-a-member = Mitglied wählen
bags-how-many-removed = Wie viele wurden entfernt?
bags-choose-the-holder = Wähle den Sammelbeutel.
bags-choose-the-member = Wähle das Mitglied.
bags-write-what-happened = Schreib in ein paar Worten, was passiert ist.
bags-not-your-holder = Das ist keiner deiner Sammelbeutel.
bags-no-such-member = Dieses Mitglied gibt es nicht.

# Samen, die woandershin kamen

bags-elsewhere-title = Samen von { $mark } kamen woandershin
bags-paper-and-waiting = { $paper }, { $n } bewurzelt und noch ohne Zelle.
bags-the-seeds-are = Die Samen sind
bags-leaves-lost = Verloren: noch unbewurzelt, weg oder verschüttet
bags-leaves-moved = Unbewurzelt in einen anderen Beutel desselben Ansatzes gelegt
bags-leaves-surplus = Bewurzelt, aber nicht gebraucht
bags-leaves-given = Bewurzelt und verschenkt
bags-leaves-root-broken = Bewurzelt, und die Wurzel ist gebrochen
bags-leaves-rotted = Bewurzelt und beim Warten verfault
bags-other-bag = Der andere Beutel
bags-other-bag-help = Nur beim Umlegen.
bags-choose-a-bag = Beutel wählen
bags-choose-where-they-went = Wähle den Beutel, in den sie kamen.
bags-sow-unrooted-seeds = Unbewurzelte Samen säen
bags-sow-unrooted-why = Als letzte Chance können unbewurzelte Samen in Zellen kommen. In den Keimraten zählen sie dann als unbekannt, nicht als Ausfall.
bags-sow-unrooted = Unbewurzelt säen
bags-seeds-went = { $mark }: { $seeds }, { $went }.
bags-moved-over = in einen anderen Beutel gelegt
bags-only-on-paper = Nur { $paper }.
bags-only-waiting = { $n ->
    [one] In diesem Beutel wartet nur { $n } bewurzelter Same.
   *[other] In diesem Beutel warten nur { $n } bewurzelte Samen.
 }
bags-this-bag-itself = Das ist dieser Beutel selbst.
bags-not-open-of-trial = Das ist kein offener Beutel dieses Ansatzes.

# Ein Beutel ohne Etikett

bags-count-and-think-back = Zähle seine Samen und denk zurück: Welcher deiner offenen Beutel kann es sein?
bags-seeds-on-its-paper = Samen auf seinem Papier
bags-on-paper-from = Auf Papier ab
bags-on-paper-to = Auf Papier bis
bags-show-those = Diese anzeigen
bags-none-like-that = Keiner deiner offenen Beutel ist so. <a href="/bags/unknown">Alle anzeigen</a>
bags-what-it-can-be = Was es sein kann
bags-your-open-bags = Deine offenen Beutel
bags-bags = Beutel
bags-outcome = Ergebnis
bags-outcome-resolved = Es ist der eine angekreuzte Beutel: neu beschriftet
bags-outcome-in-doubt = Es kann jeder der angekreuzten Beutel sein: als unklar kennzeichnen, weiter verfolgen, aber nicht in der Tabelle
bags-what-happened = Was passiert ist
bags-what-happened-help = Zum Beispiel: Etikett abgewaschen, zwei Beutel heruntergefallen.
bags-on-paper-since = { $variety }: { $paper }, auf Papier seit { $since }
bags-tick-what-it-may-be = Hake die Beutel an, die es sein können.
bags-tick-only-one = Hake nur den einen Beutel an, der es ist.

# Ein Kennzeichen suchen

bags-near-marks = Ähnliche Kennzeichen von dir
bags-mark-help = Leerzeichen und Großschreibung sind egal.
bags-find = Suchen
bags-type-the-mark = Gib das Kennzeichen ein, das auf der Tüte, dem Beutel oder der Platte steht.
bags-not-yours = { $mark } gehört nicht dir: Ein anderes Mitglied hat es.
bags-no-such-mark = Nichts hat das Kennzeichen { $mark }.
bags-vial-words = Röhrchen röhrchen vial Vial

# Zurücknehmen

bags-take-back-an-entry = Einen Eintrag zurücknehmen
bags-nothing-is-deleted = Nichts wird gelöscht: Der Eintrag bleibt durchgestrichen im Verlauf, mit deinem Namen und dem Grund.
bags-goes-together = Was zusammen eingetragen wurde, geht zusammen:
bags-why = Warum
bags-void-why-help = Zum Beispiel: zwölf statt zwei getippt.
bags-take-back = Zurücknehmen
bags-leave-it = Stehen lassen
bags-back = Zurück
bags-taken-back = Zurückgenommen. Der Verlauf behält es, mit dem Grund.
bags-undone = Rückgängig gemacht.
