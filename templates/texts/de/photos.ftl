# Was an einem Foto nicht stimmt

photos-not-a-photo = Das ist kein Foto in JPEG, PNG oder WebP. Wähle ein anderes.
photos-too-many-pixels = Dieses Foto hat mehr als 50 Millionen Pixel. Nimm ein kleineres.
photos-cannot-be-read = Dieses Foto lässt sich nicht lesen; vielleicht wurde es abgeschnitten. Wähle ein anderes.
photos-choose-again = Wähle das Foto noch einmal: Eine Seite, die zurückkommt, kann es nicht behalten.
photos-empty = Dieses Foto ist leer. Wähle ein anderes.
photos-too-long = Diese Datei hat mehr als 12 MB. Nimm ein kleineres Foto.

# Was ein Foto zeigt

photos-of-day = { $mark }, Tag { $n }
