"""All settings, in one flat list. With no variable set they serve this machine alone, from one folder.

Whoever serves others sets KITPROOF_HOSTS, KITPROOF_SECRET_KEY and KITPROOF_HTTPS: the same parts, other values.
"""

from pathlib import Path

from config import env

_CHECKOUT = Path(__file__).resolve().parent.parent
_THIS_MACHINE = ["localhost", "127.0.0.1", "[::1]"]

# Where everything lives that is not code: the database first of all.
HOME = env.folder("KITPROOF_HOME", default=_CHECKOUT / ".kitproof")

DEBUG = env.switch("KITPROOF_DEBUG", default=False)
ALLOWED_HOSTS = env.names("KITPROOF_HOSTS", default=_THIS_MACHINE)
# The key in the open is for trying out at home; with any other host name a real one must be given.
SECRET_KEY = env.secret(
    "KITPROOF_SECRET_KEY",
    default="django-insecure-for-this-machine-alone" if set(ALLOWED_HOSTS) <= set(_THIS_MACHINE) else None,
)

INSTALLED_APPS = [
    "django.contrib.auth",
    "django.contrib.contenttypes",
    "config",
    "layouts",
    "kits.members",
]
MIDDLEWARE = [
    "django.middleware.security.SecurityMiddleware",
    "django.middleware.common.CommonMiddleware",
    "django.middleware.csrf.CsrfViewMiddleware",
    "django.middleware.clickjacking.XFrameOptionsMiddleware",
]
ROOT_URLCONF = "config.urls"
WSGI_APPLICATION = "config.wsgi.application"

# No ATOMIC_REQUESTS: with IMMEDIATE transactions every page that is only read would wait for the write lock.
DATABASES = {"default": env.database("KITPROOF_DATABASE_URL", default=HOME / "kitproof.sqlite3")}
AUTH_USER_MODEL = "members.Person"

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
