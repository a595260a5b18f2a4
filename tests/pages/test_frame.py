"""What all pages have in common: headers, request ids, log lines, error pages, the health address."""

from __future__ import annotations

import json
import logging

import pytest
from django.db import DatabaseError, connection
from django.test import Client

from config.log_lines import JsonLine, bound
from tests.pages.reading import Page

pytestmark = pytest.mark.django_db

POLICY = "default-src 'self'; base-uri 'none'; object-src 'none'; form-action 'self'; frame-ancestors 'none'"


@pytest.mark.parametrize("path", ["/sign-in/", "/kits/", "/nothing/", "/health"])
def test_every_answer_carries_the_content_policy_and_an_id(client, path):
    answer = client.get(path)
    assert answer.headers["Content-Security-Policy"] == POLICY
    assert answer.headers["X-Content-Type-Options"] == "nosniff"
    assert answer.headers["X-Frame-Options"] == "DENY"
    assert answer.headers["Referrer-Policy"] == "same-origin"
    assert len(answer.headers["X-Request-ID"]) == 16


def test_an_id_that_a_visitor_sends_is_not_taken(client):
    answer = client.get("/health", headers={"X-Request-ID": "mine", "KITPROOF-REQUEST": "mine"})
    assert "mine" not in answer.headers["X-Request-ID"]


def test_no_draft_is_kept_by_a_browser(draft, planner):
    for path in ("/kits/", "/kits/2027-05/", "/kits/2027-05/document.json"):
        assert "no-store" in planner.get(path).headers["Cache-Control"]


def test_each_request_writes_one_line(planner, cast, caplog):
    with caplog.at_level(logging.INFO, "kitproof.requests"):
        answer = planner.get("/kits/?page=2")
    [record] = [one for one in caplog.records if one.name == "kitproof.requests"]
    line = json.loads(JsonLine().format(record))
    assert (line["method"], line["path"], line["status"], line["person"]) == ("GET", "/kits/", 200, cast["planner"].pk)
    assert line["ms"] >= 0
    assert answer.status_code == 200


def test_a_key_that_opens_an_account_is_in_no_line(client, caplog):
    with caplog.at_level(logging.INFO, "kitproof.requests"):
        client.get("/sign-in/password/1-sesame-open/")
    assert "sesame" not in caplog.text


def test_a_line_is_one_line_and_carries_what_was_bound():
    record = logging.makeLogRecord({"name": "kitproof", "levelname": "INFO", "msg": "two\nlines %s", "args": ("“x”",)})
    record.run = 7
    with bound(request="abc"):
        text = JsonLine().format(record)
    assert "\n" not in text
    assert {"message": "two\nlines “x”", "request": "abc", "run": 7, "level": "info"}.items() <= json.loads(
        text
    ).items()
    assert "request" not in json.loads(JsonLine().format(record))


def test_health_tells_whether_the_database_answers(client, monkeypatch):
    assert (client.get("/health").status_code, client.get("/health").json()["status"]) == (200, "up")

    def dead(*args, **kwargs):
        raise DatabaseError("gone")

    monkeypatch.setattr(connection, "cursor", dead)
    assert (client.get("/health").status_code, client.get("/health").json()["status"]) == (503, "down")


def test_a_page_that_is_not_there_says_so(client):
    answer = client.get("/nothing/")
    assert answer.status_code == 404
    assert Page(answer.content.decode()).one("h1").text == "There is no such page"


def test_a_defect_is_told_with_the_id_under_which_the_log_knows_it(monkeypatch, draft, cast, caplog):
    def broken(*args, **kwargs):
        raise ZeroDivisionError("by nought")

    monkeypatch.setattr("frontend.views.kits.kits_for", broken)
    client = Client(raise_request_exception=False)
    client.force_login(cast["planner"])
    answer = client.get("/kits/")
    assert answer.status_code == 500
    page = Page(answer.content.decode())
    assert page.one("h1").text == "Something broke"
    assert page.one("code").text == answer.headers["X-Request-ID"]
    assert "by nought" not in page.html


def test_a_host_that_is_not_ours_is_refused(client):
    answer = client.get("/health", headers={"Host": "elsewhere.example"})
    assert answer.status_code == 400


@pytest.mark.parametrize("path", ["/kits/2027-05/undo/", "/kits/2027-05/pieces/", "/kits/2027-05/check/again/"])
def test_what_changes_something_is_never_a_link(draft, planner, path):
    assert planner.get(path).status_code == 405


def test_the_typeface_comes_with_its_licence():
    from django.contrib.staticfiles import finders

    for name in ("OFL.txt", *(f"commissioner-latin-{weight}-normal.woff2" for weight in (400, 600, 700))):
        assert finders.find(f"frontend/fonts/{name}"), name
