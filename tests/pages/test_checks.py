"""How far a check is, without loading the page anew; called off, and tried again."""

from __future__ import annotations

import pytest
from django.utils import timezone

from layouts.models import CheckRun, JobState
from tests.pages.checked import ended, newest, proved, under_way

pytestmark = pytest.mark.django_db

CHECK = "/kits/2027-05/check/"


def test_an_open_check_is_asked_for_every_second_and_a_closed_one_no_more(draft, look):
    asked = look("/kits/2027-05/").at("standing").attributes
    assert asked["hx-trigger"] == "every 1s"
    assert asked["hx-get"].startswith(f"{CHECK}?seen=")
    proved(draft)
    assert "hx-get" not in look(asked["hx-get"]).at("standing").attributes


def test_as_long_as_nothing_is_new_nothing_on_the_page_is_touched(draft, look):
    seen = look("/kits/2027-05/").at("standing").attributes["hx-get"]
    assert look(seen, 204).html == ""


def test_a_page_older_than_its_kit_is_told_so(draft, look, planner):
    """Its verdict would be about numbers that it does not show."""
    asked = look("/kits/2027-05/").at("standing").attributes["hx-get"]
    change = {"place": "project:box/piece:A", "field": "count", "value": "2", "revision": "1"}
    planner.post("/kits/2027-05/pieces/", change)
    standing = look(asked).at("standing")
    assert standing.one("a", class_="moved").text == "Ines Varga changed this kit: load it anew"
    # What is sent from this page is still sent as from revision 1.
    assert standing.one("form").values()["revision"] == "1"
    assert "revision=1" in standing.attributes["hx-get"]


def test_what_is_new_comes_along(draft, look):
    seen = look("/kits/2027-05/").at("standing").attributes["hx-get"]
    under_way(draft, [], 2)
    run = newest(draft)
    CheckRun.objects.filter(pk=run.pk).update(
        state=JobState.RUNNING,
        claim="12345678123456781234567812345678",
        lease_until=timezone.now(),
        attempts=1,
        started_at=timezone.now(),
    )
    part = look(seen)
    assert {one.attributes["id"] for one in part.all("div", hx_swap_oob="innerHTML")} >= {
        "verdict",
        "papers",
        "findings",
    }
    progress = part.at("standing").one("progress").attributes
    assert (progress["value"], progress["max"]) == ("0", "2")
    proved(draft)
    part = look(part.at("standing").attributes["hx-get"])
    assert "to\N{NO-BREAK SPACE}mend" in part.at("verdict").text
    # What was found stands beside each piece, too.
    assert part.at("said:project:box/piece:A") is not None


def test_the_page_tells_when_nobody_does_the_checks(draft, look):
    assert "may not be running" not in look("/kits/2027-05/").text
    CheckRun.objects.update(
        requested_at="2026-01-01T00:00Z", first_requested_at="2026-01-01T00:00Z", due_at="2026-01-01T00:00Z"
    )
    assert "No check has begun for a while" in look("/kits/2027-05/").at("verdict").text


def test_a_check_is_called_off_by_a_form(draft, look, planner):
    form = look("/kits/2027-05/").at("check-actions").one("form")
    assert form.one("button").text == "Stop the check"
    assert planner.post(form.attributes["action"], form.values()).headers["Location"] == "/kits/2027-05/"
    assert look("/kits/2027-05/").at("verdict").text == "The check was called off."


def test_calling_off_an_earlier_check_leaves_the_present_one(draft, look, planner):
    form = look("/kits/2027-05/").at("check-actions").one("form")
    change = {"place": "project:box/piece:A", "field": "count", "value": "2", "revision": "1"}
    planner.post("/kits/2027-05/pieces/", change)
    planner.post(form.attributes["action"], form.values())
    assert newest(draft).state == JobState.WAITING


@pytest.mark.parametrize("state", [JobState.FAILED, JobState.CANCELLED])
def test_a_check_that_came_to_no_end_is_tried_again(draft, look, planner, state):
    ended(draft, state, reason="The solver died." if state == JobState.FAILED else "")
    form = look("/kits/2027-05/").at("check-actions").one("form")
    assert planner.post(form.attributes["action"], form.values()).status_code == 302
    assert newest(draft).state == JobState.WAITING


def test_trying_again_twice_is_harmless(draft, planner):
    ended(draft, JobState.CANCELLED)
    for _ in range(2):
        assert planner.post("/kits/2027-05/check/again/").status_code == 302
    assert CheckRun.objects.count() == 1


def test_without_scripts_there_is_a_link_to_look_again(draft, look):
    again = look("/kits/2027-05/").at("check-actions").one("a", class_="unscripted")
    assert (again.text, again.attributes["href"]) == ("Look again", "/kits/2027-05/")


def test_care_and_stock_are_not_offered_what_they_may_not_do(draft, signed_in):
    for role, offered in (("editor", True), ("care", False), ("stock", False)):
        html = signed_in(role).get("/kits/2027-05/").content.decode()
        assert ("/check/stop/" in html) is offered
