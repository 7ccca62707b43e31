# The manual: what surrounds its pages.

manual-on-this-page = On this page
manual-next = Next: { $title }
manual-sign-in = Sign in
manual-all-methods = All methods
