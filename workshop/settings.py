"""Django's settings for the workshop. What differs from place to place is read in env.py."""

import sqlite3

from workshop import env

BASE_DIR = env.ROOT
DATA = env.make_data_folder()
DEMO = env.is_demo()
DEBUG = False
SECRET_KEY = env.secret_key(DATA)
ALLOWED_HOSTS = list(env.LOOPBACK) if DEMO else env.allowed_hosts()
CSRF_TRUSTED_ORIGINS = env.trusted_origins()

INSTALLED_APPS = [
    "django.contrib.auth",
    "django.contrib.contenttypes",
    "django.contrib.sessions",
    "django.contrib.messages",
    "whitenoise.runserver_nostatic",
    "django.contrib.staticfiles",
    "django.forms",
    "django_htmx",
    "workshop",
    "clients",
    "drafting",
    "orders",
]

MIDDLEWARE = [
    "django.middleware.security.SecurityMiddleware",
    "whitenoise.middleware.WhiteNoiseMiddleware",
    "django.contrib.sessions.middleware.SessionMiddleware",
    "django.middleware.common.CommonMiddleware",
    "django.middleware.csrf.CsrfViewMiddleware",
    "django.contrib.auth.middleware.AuthenticationMiddleware",
    "django.contrib.messages.middleware.MessageMiddleware",
    "django.middleware.clickjacking.XFrameOptionsMiddleware",
    "django_htmx.middleware.HtmxMiddleware",
    "workshop.access.AccessMiddleware",
    "workshop.security.ContentSecurityMiddleware",
]

ROOT_URLCONF = "workshop.urls"
WSGI_APPLICATION = "workshop.wsgi.application"
DEFAULT_AUTO_FIELD = "django.db.models.BigAutoField"
FORM_RENDERER = "workshop.drawn_inputs.InputsByPython"

TEMPLATES = [
    {
        "BACKEND": "django.template.backends.django.DjangoTemplates",
        "DIRS": [BASE_DIR / "templates"],
        "APP_DIRS": True,
        "OPTIONS": {
            "context_processors": [
                "django.template.context_processors.request",
                "django.contrib.auth.context_processors.auth",
                "django.contrib.messages.context_processors.messages",
                "workshop.access.may",
                "workshop.access.workshop",
                "workshop.layout.layout",
            ],
        },
    },
]

# One writer at a time, told so from the first statement; every answer that says "saved" is on the disk.
SQLITE = {
    "ENGINE": "django.db.backends.sqlite3",
    "NAME": DATA / ("demo.sqlite3" if DEMO else "workshop.sqlite3"),
    "CONN_MAX_AGE": None,
    "OPTIONS": {
        "transaction_mode": "IMMEDIATE",
        "timeout": 20,
        "init_command": (
            f"PRAGMA journal_mode={env.journal_mode(sqlite3.sqlite_version_info)};"
            "PRAGMA synchronous=FULL;"
            "PRAGMA cache_size=-20000;"
            "PRAGMA temp_store=MEMORY;"
            "PRAGMA journal_size_limit=67108864;"
        ),
    },
    "TEST": {"NAME": DATA / "tests.sqlite3"},
}
DATABASES = {"default": env.postgresql() or SQLITE}

# What is done in the background, by kind of job.
JOBS = {"shorter-lay": "orders.cloth.looking.work", "day-pack": "orders.paper.pack.work", "shared-lay": "orders.cloth.together.work"}

# What `doctor` looks at in the book, by the parts whose matter it is.
FINDINGS = ["orders.money.looked_at.finding"]

AUTH_USER_MODEL = "workshop.Person"
LOGIN_URL = "sign-in"
LOGIN_REDIRECT_URL = "today"
LOGOUT_REDIRECT_URL = "sign-in"
PASSWORD_HASHERS = [
    "django.contrib.auth.hashers.Argon2PasswordHasher",
    "django.contrib.auth.hashers.ScryptPasswordHasher",
    "django.contrib.auth.hashers.PBKDF2PasswordHasher",
]
AUTH_PASSWORD_VALIDATORS = [
    {
        "NAME": "django.contrib.auth.password_validation.MinimumLengthValidator",
        "OPTIONS": {"min_length": 12},
    },
    {"NAME": "django.contrib.auth.password_validation.CommonPasswordValidator"},
    {"NAME": "django.contrib.auth.password_validation.NumericPasswordValidator"},
    {"NAME": "django.contrib.auth.password_validation.UserAttributeSimilarityValidator"},
]

AUTHENTICATION_BACKENDS = ["workshop.signed_in.ByPassword"]
SESSION_ENGINE = "workshop.signed_in"
SESSION_COOKIE_HTTPONLY = True
SESSION_COOKIE_SAMESITE = "Lax"
SESSION_COOKIE_SECURE = CSRF_COOKIE_SECURE = env.behind_https()
SESSION_COOKIE_AGE = 12 * 60 * 60
SESSION_COOKIE_NAME = "chalk-demo" if DEMO else "chalk"
SECURE_PROXY_SSL_HEADER = ("HTTP_X_FORWARDED_PROTO", "https") if env.behind_https() else None
PROXY_HOPS = 1 if env.behind_https() else 0
SECURE_SSL_REDIRECT = env.behind_https()
SECURE_HSTS_SECONDS = 31_536_000 if env.behind_https() else 0
SECURE_REFERRER_POLICY = "same-origin"
X_FRAME_OPTIONS = "DENY"
SILENCED_SYSTEM_CHECKS = [
    "security.W005",  # the other names under the same domain are not ours to bind to HTTPS
    "security.W021",  # nor is the browsers' built-in list ours to enter a workshop's domain in
]

LANGUAGE_CODE = "en-gb"
TIME_ZONE = env.time_zone()
USE_TZ = True
USE_I18N = True

STATIC_URL = "static/"
STATIC_ROOT = DATA / "staticfiles"
STATICFILES_DIRS = [BASE_DIR / "static"]
STORAGES = {
    "default": {"BACKEND": "django.core.files.storage.FileSystemStorage"},
    "staticfiles": {"BACKEND": "workshop.named_once.NamedOnce"},
}
WHITENOISE_KEEP_ONLY_HASHED_FILES = True
# Browsers get woff2, which is compressed; ttf is for paper and never leaves this machine.
WHITENOISE_SKIP_COMPRESS_EXTENSIONS = ("woff2", "ttf", "png", "jpg", "txt", "pdf")

LOGGING = {
    "version": 1,
    "disable_existing_loggers": False,
    "formatters": {"plain": {"format": "{asctime} {levelname} {name}: {message}", "style": "{"}},
    "filters": {"in one line": {"()": "workshop.broken.InOneLine"}},
    "handlers": {"terminal": {"class": "logging.StreamHandler", "formatter": "plain", "filters": ["in one line"]}},
    "root": {"handlers": ["terminal"], "level": "WARNING"},
    "loggers": {"waitress.queue": {"level": "ERROR"}},  # it warns whenever two people ask at once
}
