# Das Handbuch: was seine Seiten umgibt.

manual-on-this-page = Auf dieser Seite
manual-next = Weiter: { $title }
manual-sign-in = Anmelden
manual-all-methods = Alle Verfahren
