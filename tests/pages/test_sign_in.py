"""Signing in, a new password by mail, signing out."""

from __future__ import annotations

import re

import pytest
from django.core import mail
from django.core.cache import cache
from django.test import Client

from kits.members.models import Person
from tests.pages.reading import Page

pytestmark = pytest.mark.django_db

PASSWORD = "tide table lantern"


@pytest.fixture(autouse=True)
def _no_tries_counted(settings, tmp_path):
    """Wrong passwords are counted over all processes; those of other tests do not count here."""
    settings.CACHES = {"default": {**settings.CACHES["default"], "LOCATION": str(tmp_path)}}
    cache.clear()


@pytest.fixture
def ines() -> Person:
    return Person.objects.create_user(email="ines@example.org", name="Ines Varga", password=PASSWORD)


def _sign_in(client: Client, password: str = PASSWORD, email: str = "ines@example.org", **more: str):
    return client.post("/sign-in/", {"login": email, "password": password, **more})


@pytest.mark.parametrize("email", ["ines@example.org", " Ines@Example.ORG "])
def test_signing_in_leads_to_where_one_wanted_to_go(ines, client, email):
    page = Page(client.get("/kits/", follow=True).content.decode())
    assert page.one("h1").text == "Sign in"
    sent = page.one("main").one("form")
    assert sent.values()["next"] == "/kits/"
    answer = client.post(sent.attributes["action"], {**sent.values(), "login": email, "password": PASSWORD})
    assert (answer.status_code, answer.headers["Location"]) == (302, "/kits/")


@pytest.mark.parametrize("elsewhere", ["https://elsewhere.example/", "//elsewhere.example/", "javascript:alert(1)"])
def test_signing_in_never_leads_away(ines, client, elsewhere):
    assert _sign_in(client, next=elsewhere).headers["Location"] == "/"


@pytest.mark.parametrize(
    ("email", "password"),
    [
        pytest.param("ines@example.org", "tide table", id="wrong password"),
        pytest.param("nobody@example.org", PASSWORD, id="nobody's address"),
    ],
)
def test_what_does_not_belong_together_is_refused_in_the_same_words(ines, client, email, password):
    page = Page(_sign_in(client, password, email).content.decode())
    assert page.one("div", role="alert").text == "This e-mail address and this password do not belong together."
    assert page.one("input", name="login").attributes["value"] == email
    assert "_auth_user_id" not in client.session


def test_a_closed_account_does_not_sign_in(ines, client):
    Person.objects.update(is_active=False)
    _sign_in(client)
    assert "_auth_user_id" not in client.session


def test_guessing_is_slowed_down(ines, client):
    for _ in range(5):
        _sign_in(client, "wrong")
    page = Page(_sign_in(client).content.decode())
    assert "Too many wrong passwords." in page.one("div", role="alert").text
    assert "_auth_user_id" not in client.session


def test_nobody_signs_up(client):
    assert "sign up" not in client.get("/sign-in/").content.decode().lower()
    assert client.get("/sign-up/").status_code == 404
    assert client.get("/accounts/signup/").status_code == 404


def test_staying_signed_in_is_a_choice(ines, client):
    _sign_in(client)
    assert client.session.get_expire_at_browser_close()
    _sign_in(client := Client(), remember="on")
    assert not client.session.get_expire_at_browser_close()


def test_signing_out_asks_and_then_ends_the_session(ines, client):
    _sign_in(client)
    assert client.get("/sign-out/").status_code == 200
    assert "_auth_user_id" in client.session
    assert client.post("/sign-out/").headers["Location"] == "/sign-in/"
    assert "_auth_user_id" not in client.session


def test_a_new_password_is_set_by_a_link_that_works_once(ines, client):
    answer = client.post("/sign-in/password/", {"email": "INES@example.org"})
    assert answer.headers["Location"] == "/sign-in/password/sent/"
    [letter] = mail.outbox
    assert letter.to == ["ines@example.org"]
    [link] = re.findall(r"http://testserver(/sign-in/password/\S+)", str(letter.body))
    form_at = client.get(link).headers["Location"]
    # The key is not in the address any more: nobody reads it over a shoulder or in a log.
    assert form_at.endswith("-set-password/")
    new = "lantern of the harbour"
    answer = client.post(form_at, {"password1": new, "password2": new})
    assert answer.headers["Location"] == "/sign-in/password/set/"
    assert _sign_in(Client(), new).status_code == 302
    assert "This link no longer works" in Client().get(link).content.decode()


@pytest.mark.parametrize(
    ("password", "again"),
    [
        pytest.param("short", "short", id="short"),
        pytest.param("passwordpassword", "passwordpasswords", id="not the same"),
        pytest.param("ines@example.org", "ines@example.org", id="one's own address"),
    ],
)
def test_a_bad_new_password_is_refused(ines, client, password, again):
    client.post("/sign-in/password/", {"email": "ines@example.org"})
    [link] = re.findall(r"http://testserver(/sign-in/password/\S+)", str(mail.outbox[0].body))
    form_at = client.get(link).headers["Location"]
    answer = client.post(form_at, {"password1": password, "password2": again})
    assert answer.status_code == 200
    assert Page(answer.content.decode()).all("ul", class_="errorlist")
    assert _sign_in(Client()).status_code == 302


def test_who_asks_for_a_stranger_sees_the_same_and_the_stranger_is_told(ines, client):
    answer = client.post("/sign-in/password/", {"email": "nobody@example.org"})
    assert answer.headers["Location"] == "/sign-in/password/sent/"
    [letter] = mail.outbox
    assert (letter.to, letter.subject) == (["nobody@example.org"], "No account at Kitproof")


def test_a_form_without_its_token_changes_nothing(ines):
    client = Client(enforce_csrf_checks=True)
    answer = _sign_in(client)
    assert answer.status_code == 403
    assert "This form was open for too long" in answer.content.decode()
