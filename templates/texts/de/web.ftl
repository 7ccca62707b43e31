# Was jede Seite umgibt, Formulare und Fehler.

web-skip = Zum Inhalt
web-main-places = Bereiche
web-place-due-now = Jetzt fällig
web-place-packets = Tüten
web-place-plan = Plan
web-place-trays = Platten
web-place-club-table = Vereinstabelle
web-place-ring-trials = Ringversuche
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
