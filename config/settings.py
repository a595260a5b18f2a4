"""All settings, in one flat list. With no variable set they serve this machine alone, from one folder.

Whoever serves others sets KITPROOF_HOSTS, KITPROOF_SECRET_KEY, KITPROOF_HTTPS and KITPROOF_MAIL_URL: the same parts,
other values.
"""

from pathlib import Path

from django.utils.csp import CSP

from config import env

_CHECKOUT = Path(__file__).resolve().parent.parent
_THIS_MACHINE = ["localhost", "127.0.0.1", "[::1]"]

# Where everything lives that is not code: the database first of all.
HOME = env.folder("KITPROOF_HOME", default=_CHECKOUT / ".kitproof")

DEBUG = env.switch("KITPROOF_DEBUG", default=False)
ALLOWED_HOSTS = env.names("KITPROOF_HOSTS", default=_THIS_MACHINE)
_ALONE = set(ALLOWED_HOSTS) <= set(_THIS_MACHINE)
# The key in the open is for trying out at home; with any other host name a real one must be given.
SECRET_KEY = env.secret("KITPROOF_SECRET_KEY", default="django-insecure-for-this-machine-alone" if _ALONE else None)
# Example kits, and accounts whose password is shown at the start: never where others could sign in.
DEMO = env.switch("KITPROOF_DEMO", default=_ALONE)
if DEMO and not _ALONE:
    raise env.BadSetting("KITPROOF_DEMO is on, but KITPROOF_HOSTS serves other machines. Example: KITPROOF_DEMO=off")

INSTALLED_APPS = [
    "django.contrib.auth",
    "django.contrib.contenttypes",
    "django.contrib.messages",
    "django.contrib.sessions",
    "django.contrib.staticfiles",
    "config",
    "layouts",
    "inventory",
    "kits.members",
    "kits.planning",
    "kits.sheets",
    # Before allauth: our templates are found first.
    "frontend",
    "allauth",
    "allauth.account",
    "django_htmx",
]
MIDDLEWARE = [
    "config.request_lines.RequestLines",
    "django.middleware.security.SecurityMiddleware",
    "django.middleware.csp.ContentSecurityPolicyMiddleware",
    "whitenoise.middleware.WhiteNoiseMiddleware",
    "django.contrib.sessions.middleware.SessionMiddleware",
    "django.middleware.common.CommonMiddleware",
    "django.middleware.csrf.CsrfViewMiddleware",
    "django.contrib.auth.middleware.AuthenticationMiddleware",
    "django.contrib.messages.middleware.MessageMiddleware",
    "django.middleware.clickjacking.XFrameOptionsMiddleware",
    "allauth.account.middleware.AccountMiddleware",
    # The last: what it refuses has passed all others, and what they need is there.
    "frontend.access.SignInRequired",
]
ROOT_URLCONF = "config.urls"
WSGI_APPLICATION = "config.wsgi.application"
TEMPLATES = [
    {
        "BACKEND": "django.template.backends.django.DjangoTemplates",
        "APP_DIRS": True,
        "OPTIONS": {
            "context_processors": [
                "django.template.context_processors.request",
                "django.contrib.auth.context_processors.auth",
                "django.contrib.messages.context_processors.messages",
                "frontend.context.who",
            ],
        },
    },
]

# No ATOMIC_REQUESTS: with IMMEDIATE transactions every page that is only read would wait for the write lock.
DATABASES = {"default": env.database("KITPROOF_DATABASE_URL", default=HOME / "kitproof.sqlite3")}
AUTH_USER_MODEL = "members.Person"
MAILERS = {"default": env.mailer("KITPROOF_MAIL_URL", default=HOME / "mail")}
DEFAULT_FROM_EMAIL = env.sender("KITPROOF_MAIL_FROM", default="kitproof@localhost")

# Signing in: by e-mail address and password; people are made by the team, nobody signs up.
LOGIN_URL = "account_login"
LOGIN_REDIRECT_URL = "home"
LOGOUT_REDIRECT_URL = "account_login"
ACCOUNT_LOGIN_METHODS = {"email"}
ACCOUNT_SIGNUP_FIELDS = ["email*", "password1*"]
ACCOUNT_USER_MODEL_USERNAME_FIELD = None
ACCOUNT_EMAIL_VERIFICATION = "none"
ACCOUNT_EMAIL_SUBJECT_PREFIX = ""
ACCOUNT_ADAPTER = "frontend.sign_in.NoSignUp"
ACCOUNT_FORMS = {
    "login": "frontend.sign_in.SignInForm",
    "reset_password": "frontend.sign_in.LostPasswordForm",
    "reset_password_from_key": "frontend.sign_in.NewPasswordForm",
}
AUTH_PASSWORD_VALIDATORS = [
    {"NAME": "django.contrib.auth.password_validation.MinimumLengthValidator", "OPTIONS": {"min_length": 12}},
    {"NAME": "django.contrib.auth.password_validation.CommonPasswordValidator"},
    {
        "NAME": "django.contrib.auth.password_validation.UserAttributeSimilarityValidator",
        "OPTIONS": {"user_attributes": ("email", "name")},
    },
]
CSRF_FAILURE_VIEW = "frontend.views.errors.form_too_old"
# Files, so that all web processes together count how often somebody has tried a password.
CACHES = {
    "default": {"BACKEND": "django.core.cache.backends.filebased.FileBasedCache", "LOCATION": str(HOME / "cache")},
}

# The longest kit document has 4 MiB; pasted into a form it grows by what the form must escape.
DATA_UPLOAD_MAX_MEMORY_SIZE = 9 * 1024 * 1024
FILE_UPLOAD_HANDLERS = ["frontend.requests.BoundedUpload"]
FORM_RENDERER = "frontend.forms.Renderer"
STATIC_URL = "static/"
STATIC_ROOT = env.folder("KITPROOF_STATIC", default=HOME / "static")
# Sheets that were made. No address leads here: pages hand them out, to whom they are for.
MEDIA_ROOT = HOME / "media"
STORAGES = {
    "default": {"BACKEND": "django.core.files.storage.FileSystemStorage"},
    # Names with a hash of what is in them: a browser may keep a file for ever, and never keeps an old one.
    "staticfiles": {"BACKEND": "whitenoise.storage.CompressedManifestStaticFilesStorage"},
}
WHITENOISE_ALLOW_ALL_ORIGINS = False

# Nothing comes from elsewhere, nothing is written into a page: no inline script, no style attribute, no frame.
SECURE_CSP = {
    "default-src": [CSP.SELF],
    "base-uri": [CSP.NONE],
    "object-src": [CSP.NONE],
    "form-action": [CSP.SELF],
    "frame-ancestors": [CSP.NONE],
}
SECURE_REFERRER_POLICY = "same-origin"

LANGUAGE_CODE = "en"
USE_I18N = False
TIME_ZONE = "UTC"

# On: the pages are reached by https only. A proxy in front ends it and must set X-Forwarded-Proto itself, dropping
# what a visitor sent under that name.
_HTTPS = env.switch("KITPROOF_HTTPS", default=False)
SECURE_PROXY_SSL_HEADER = ("HTTP_X_FORWARDED_PROTO", "https") if _HTTPS else None
SECURE_SSL_REDIRECT = _HTTPS
SECURE_HSTS_SECONDS = 31_536_000 if _HTTPS else 0  # one year
SECURE_HSTS_INCLUDE_SUBDOMAINS = _HTTPS
SECURE_HSTS_PRELOAD = _HTTPS
CSRF_COOKIE_SECURE = _HTTPS
SESSION_COOKIE_SECURE = _HTTPS
# Whoever asks whether we are alive stands behind the proxy.
SECURE_REDIRECT_EXEMPT = [r"^health$"]
# The proxy adds the visitor's address to X-Forwarded-For as its last: by it, tries at a password are counted.
ALLAUTH_TRUSTED_PROXY_COUNT = 1 if _HTTPS else 0

# Work in the background. A message carries the number of a row and may be lost or come twice: the rows know what is to
# be done, and a sweep sends again what nobody took up (layouts/jobs.py).
CELERY_BROKER_URL = env.broker("KITPROOF_BROKER_URL", noted=HOME / "broker" / "address")
# Seconds. A page that asks for a check must not wait for a broker that has gone: one try, and one more on a connection
# made anew, since the broker may have been started again meanwhile.
_ONCE_MORE = {"max_retries": 1, "interval_start": 0, "interval_step": 0, "interval_max": 0}
CELERY_BROKER_TRANSPORT_OPTIONS = {"socket_connect_timeout": 2, "socket_timeout": 5, **_ONCE_MORE}
CELERY_TASK_PUBLISH_RETRY_POLICY = _ONCE_MORE
# A worker waits for its broker for as long as it takes, also at its start, and meanwhile goes on with what it has.
CELERY_BROKER_CONNECTION_RETRY_ON_STARTUP = True
CELERY_BROKER_CONNECTION_MAX_RETRIES = None
CELERY_WORKER_CANCEL_LONG_RUNNING_TASKS_ON_CONNECTION_LOSS = False
CELERY_TASK_SERIALIZER = "json"
CELERY_ACCEPT_CONTENT = ["json"]
CELERY_TASK_IGNORE_RESULT = True
CELERY_TASK_ACKS_LATE = True
CELERY_WORKER_PREFETCH_MULTIPLIER = 1
# Our own log lines and nothing beside them.
CELERY_WORKER_HIJACK_ROOT_LOGGER = False
CELERY_WORKER_REDIRECT_STDOUTS = False
CELERY_BEAT_SCHEDULE_FILENAME = str(HOME / "beat-schedule")
# A sweep that nobody took up in time is dropped: after a pause one is enough.
CELERY_BEAT_SCHEDULE = {
    "sweep checks": {"task": "layouts.sweep_checks", "schedule": 10.0, "options": {"expires": 10}},
    "tidy checks": {"task": "layouts.tidy_checks", "schedule": 3600.0, "options": {"expires": 3600}},
    "sweep renders": {"task": "sheets.sweep_renders", "schedule": 10.0, "options": {"expires": 10}},
}

LOGGING = {
    "version": 1,
    "disable_existing_loggers": False,
    "formatters": {"json": {"()": "config.log_lines.JsonLine"}},
    "handlers": {"lines": {"class": "logging.StreamHandler", "formatter": "json"}},
    "root": {"handlers": ["lines"], "level": "WARNING"},
    "loggers": {
        "kitproof": {"level": "INFO"},
        # Its own handlers would print a second time, and send mail. A request's status is in its own line.
        "django": {"handlers": [], "level": "INFO"},
        "django.request": {"level": "ERROR"},
        "django.server": {"handlers": [], "level": "ERROR", "propagate": True},
    },
}
