"""The addresses of the pages."""

from __future__ import annotations

from allauth.account import views as account
from django.urls import URLPattern, URLResolver, path, re_path

from frontend.views.health import health
from frontend.views.home import home
from frontend.views.kits import kits

urlpatterns: list[URLPattern | URLResolver] = [
    path("", home, name="home"),
    path("health", health, name="health"),
    path("kits/", kits, name="kits"),
    # The names are allauth's: it looks them up itself.
    path("sign-in/", account.login, name="account_login"),
    path("sign-in/inactive/", account.account_inactive, name="account_inactive"),
    path("sign-in/password/", account.password_reset, name="account_reset_password"),
    path("sign-in/password/sent/", account.password_reset_done, name="account_reset_password_done"),
    path("sign-in/password/set/", account.password_reset_from_key_done, name="account_reset_password_from_key_done"),
    re_path(
        r"^sign-in/password/(?P<uidb36>[0-9A-Za-z]+)-(?P<key>.+)/$",
        account.password_reset_from_key,
        name="account_reset_password_from_key",
    ),
    path("sign-out/", account.logout, name="account_logout"),
]
