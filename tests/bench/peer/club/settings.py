"""The peer's settings: production ones, with SQLite as its documentation advises for a server."""
import os

SECRET_KEY = "only for the bench, on this machine"
DEBUG = False
ALLOWED_HOSTS = ["127.0.0.1"]
ROOT_URLCONF = "club.urls"
WSGI_APPLICATION = "club.wsgi.application"
INSTALLED_APPS = ["django.contrib.sessions", "club"]
MIDDLEWARE = [
    "django.middleware.security.SecurityMiddleware",
    "django.middleware.gzip.GZipMiddleware",
    "django.contrib.sessions.middleware.SessionMiddleware",
    "django.middleware.common.CommonMiddleware",
    "django.middleware.csrf.CsrfViewMiddleware",
]
# no query for the session
SESSION_ENGINE = "django.contrib.sessions.backends.signed_cookies"
TEMPLATES = [
    {
        "BACKEND": "django.template.backends.django.DjangoTemplates",
        "DIRS": [os.path.join(os.path.dirname(__file__), "..", "templates")],
        "OPTIONS": {
            "loaders": [
                (
                    "django.template.loaders.cached.Loader",
                    ["django.template.loaders.filesystem.Loader"],
                )
            ],
        },
    }
]
DATABASES = {
    "default": {
        "ENGINE": "django.db.backends.sqlite3",
        "NAME": os.environ["PEER_DATABASE"],
        "CONN_MAX_AGE": None,
        "OPTIONS": {
            "transaction_mode": "IMMEDIATE",
            "timeout": 10,
            "init_command": "PRAGMA journal_mode=WAL; PRAGMA synchronous=FULL; PRAGMA cache_size=-65536;"
            " PRAGMA mmap_size=268435456; PRAGMA foreign_keys=ON;",
        },
    }
}
USE_TZ = True
DEFAULT_AUTO_FIELD = "django.db.models.BigAutoField"
