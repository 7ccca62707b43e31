# Sammelbeutel

holders-what-a-holder-is = Ein Sammelbeutel ist ein Zip-Beutel oder eine Dose mit mehreren Beuteln darin, jeder auf eigenem Papier. Er wird als Ganzes umgestellt und angefeuchtet.
holders-a-new-holder = Ein neuer Sammelbeutel
holders-where-it-is = Wo er liegt
holders-where-it-is-help = Zum Beispiel Heizmatte, Fensterbank, Kühlschrank.
holders-make-a-holder = Sammelbeutel anlegen
holders-write-on-holder = Schreib { $mark } auf den Sammelbeutel. Lege jetzt Beutel hinein.
holders-title = Sammelbeutel { $mark }
holders-open-bags = { $n ->
    [one] { $n } offener Beutel
   *[other] { $n } offene Beutel
 }
holders-look-at-its-bags = Beutel darin kontrollieren
holders-what-is-done = Was getan wird
holders-put-in = Die angekreuzten Beutel hineinlegen
holders-damp = Alle Beutel darin nachfeuchten
holders-move = Mit allen Beuteln darin umstellen
holders-take-out = Die angekreuzten Beutel herausnehmen
holders-in-it = Darin
holders-not-in-it = Nicht darin
holders-tick-the-bags = Hake die Beutel an.
holders-were-put-in = hineingelegt
holders-were-taken-out = herausgenommen
holders-done = { $n ->
    [one] { $what }: { $n } Beutel.
   *[other] { $what }: { $n } Beutel.
 }
holders-no-letters = Du hast noch keine Buchstaben.
