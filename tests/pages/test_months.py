"""The months as the team sees them, the form of a kit's days, and the calendar that needs no signing in."""

from __future__ import annotations

from datetime import timedelta

import pytest
from django.test import Client
from django.utils import timezone

from kits.members.models import Role
from kits.members.services import role_withdraw
from kits.planning.models import KitDates
from kits.planning.services import dates_set, piece_change
from tests.pages.checked import proved
from tests.pages.reading import Page
from tests.services.planning_cast import A, drafted, mila

pytestmark = pytest.mark.django_db


def _read(response) -> Page:
    return Page(response.content.decode())


def _in(days: int) -> str:
    return (timezone.localdate() + timedelta(days=days)).isoformat()


def test_an_empty_month_leads_to_a_new_kit(planner, signed_in):
    page = _read(planner.get("/", follow=True))
    assert page.one("h1").text == "Months"
    assert page.one("a", class_="main").attributes["href"] == "/new-kit/"
    assert "As soon as a planner starts one" in _read(signed_in("stock").get("/months/")).text


def test_months_come_first_in_the_navigation(draft, look):
    links = look("/months/").one("nav").all("a")
    assert [link.text for link in links[:2]] == ["Months", "Kits"]
    assert links[0].attributes["aria-current"] == "page"


@pytest.mark.parametrize(
    ("print_in", "post_in", "words"),
    [
        (12, 30, ["prints in 12 days", "is posted in 30 days"]),
        (0, 1, ["prints today", "is posted tomorrow"]),
        (-3, 2, ["was to print 3 days ago", "is posted in 2 days"]),
        (-9, -1, ["was to print 9 days ago", "was to be posted yesterday"]),
    ],
)
def test_days_left_are_said_in_words(draft, planner, print_in, post_in, words):
    answer = planner.post(
        "/kits/2027-05/dates/", {"version": "0", "print_day": _in(print_in), "post_day": _in(post_in)}, follow=True
    )
    page = _read(answer)
    assert "The dates of 2027-05 are saved." in page.text
    when = page.one("div", class_="month-when")
    assert [strong.text for strong in when.all("strong")] == words


@pytest.mark.parametrize(
    ("print_in", "post_in", "where"),
    [(-9, -1, "past"), (-9, 0, "coming"), (-9, None, "coming"), (None, -1, "past"), (None, None, "undated")],
)
def test_a_kit_is_past_once_it_should_have_been_posted(draft, planner, print_in, post_in, where):
    days = {"print_day": print_in, "post_day": post_in}
    sent = {name: "" if day is None else _in(day) for name, day in days.items()}
    planner.post("/kits/2027-05/dates/", {"version": "0", **sent})
    page = _read(planner.get("/months/"))
    (section,) = [one for one in page.all("section") if one.all("ul", class_="months")]
    assert section.one("h2").attributes["id"] == where


def test_who_changed_a_kit_last_is_named(draft, look):
    assert "changed last by Ines Varga" in look("/months/").one("div", class_="month-who").text
    piece_change(draft=draft, place=A, field="count", value=2, revision=1, by=mila())
    assert "changed last by Mila Okoro" in look("/months/").one("div", class_="month-who").text


def test_a_kit_without_days_has_a_form_for_them(draft, look, planner, signed_in):
    form = look("/months/").one("form", class_="give-dates")
    assert form.values() == {"version": "0", "planner": "", "editor": "", "print_day": "", "post_day": ""}
    planner.post(form.attributes["action"], {**form.values(), "print_day": _in(5)})
    assert str(KitDates.objects.get().print_day) == _in(5)
    assert not _read(signed_in("editor").get("/months/")).all("form", class_="give-dates")


def test_the_first_thing_to_mend_is_shown_and_leads_to_its_finding(draft, look):
    proved(draft)
    page = look("/months/")
    what = page.one("div", class_="month-what")
    assert what.one("span", class_="bar").has("class", "not-ready")
    assert "Not ready" in what.text
    links = [one for one in what.all("a") if "#finding-" in one.attributes["href"]]
    assert len(links) == 1
    assert look("/kits/2027-05/").at(links[0].attributes["href"].partition("#")[2])


def test_post_before_print_is_refused_and_what_was_typed_stays(draft, planner):
    answer = planner.post("/kits/2027-05/dates/", {"version": "0", "print_day": "2027-05-12", "post_day": "2027-05-11"})
    page = _read(answer)
    assert answer.status_code == 422
    assert page.at("post_day-wrong").text == "A kit is posted on the day that it is printed, or later."
    assert page.at("post_day").attributes["value"] == "2027-05-11"
    assert not KitDates.objects.exists()


@pytest.mark.parametrize("typed", ["12.5.2027", "2027-13-01", "soon"])
def test_what_is_no_day_is_refused_and_stays(draft, planner, typed):
    answer = planner.post("/kits/2027-05/dates/", {"version": "0", "print_day": typed})
    assert (answer.status_code, _read(answer).at("print_day").attributes["value"]) == (422, typed)


def test_somebody_who_was_quicker_is_shown_beside_what_was_typed(draft, planner, cast):
    dates_set(
        kit=draft.kit,
        print_day=timezone.localdate().replace(year=2027, month=5, day=12),
        post_day=None,
        planner=None,
        editor=cast["editor"],
        version=0,
        by=cast["planner"],
    )
    answer = planner.post("/kits/2027-05/dates/", {"version": "0", "print_day": "2027-05-20"})
    page = _read(answer)
    assert answer.status_code == 409
    assert page.at("print_day").attributes["value"] == "2027-05-20"
    assert page.at("print_day-now").text == "It is now: 12 May 2027"
    assert page.at("editor-now").text == "It is now: Runa Holm"
    again = page.all("form", method="post")[-1].values()
    assert planner.post("/kits/2027-05/dates/", again).status_code == 302
    assert str(KitDates.objects.get().print_day) == "2027-05-20"
    changes = _read(planner.get("/kits/2027-05/dates/")).one("ul", class_="changes")
    assert "print day: 12 May 2027 to 20 May 2027; technical editor: Runa Holm to nothing" in changes.text


@pytest.mark.parametrize(("field", "value"), [("version", "x"), ("planner", "999999"), ("planner", "x")])
def test_what_no_form_sends_is_answered_with_400(draft, planner, field, value):
    assert planner.post("/kits/2027-05/dates/", {"version": "0", field: value}).status_code == 400


def test_the_calendar_is_read_without_signing_in_at_the_address_that_is_shown_once(draft, planner, cast):
    dates_set(
        kit=draft.kit,
        print_day=timezone.localdate(),
        post_day=None,
        planner=None,
        editor=None,
        version=0,
        by=cast["planner"],
    )
    shown = _read(planner.post("/months/calendar/")).at("calendar-address").attributes["value"]
    assert not _read(planner.get("/months/")).all("input", id="calendar-address")
    answer = Client().get(shown)
    assert answer.status_code == 200
    assert answer.headers["Content-Type"] == "text/calendar; charset=utf-8"
    assert b"URL:http://testserver/kits/2027-05/\r\n" in answer.content
    planner.post("/months/calendar/close/")
    assert Client().get(shown).status_code == 404


def test_the_calendar_of_somebody_who_left_is_not_found(draft, planner, cast):
    shown = _read(planner.post("/months/calendar/")).at("calendar-address").attributes["value"]
    assert b"VEVENT" not in Client().get(shown).content
    role_withdraw(person=cast["planner"], role=Role.PLANNER, by=None)
    assert Client().get(shown).status_code == 404


def test_the_secret_of_a_calendar_is_in_no_log(draft, planner, caplog):
    with caplog.at_level("INFO", logger="kitproof.requests"):
        Client().get("/calendar/a-secret.ics")
    assert caplog.records
    assert "a-secret" not in caplog.text


def test_the_page_takes_as_many_queries_however_many_kits_there_are(
    cast, draft, planner, django_assert_max_num_queries
):
    for number in range(1, 8):
        drafted(cast["planner"], code=f"2028-0{number}")
    planner.get("/months/")
    with django_assert_max_num_queries(14):
        planner.get("/months/")
