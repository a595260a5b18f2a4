"""The days of kits: set by planners, noted with what they were, and read by calendar programs at a secret address."""

from __future__ import annotations

from datetime import UTC, date, datetime
from typing import Any

import pytest

from kits.members.models import Role
from kits.members.services import role_withdraw
from kits.planning.agenda import calendar_for, months_for, person_at
from kits.planning.calendar import Day, calendar_bytes
from kits.planning.errors import BadDates, DatesMoved, NotAllowed
from kits.planning.models import CalendarAddress, Draft, KitDates, KitDatesChange
from kits.planning.services import calendar_renew, calendar_revoke, dates_set
from tests.services.planning_cast import drafted, ines, mila, person

MAY = date(2027, 5, 12)
JUNE = date(2027, 6, 1)


def a_day(**changes: Any) -> Day:
    day: dict[str, Any] = {
        "uid": "kit-1-print@kits.example",
        "day": MAY,
        "summary": "2027-05: print day",
        "url": "https://kits.example/kits/2027-05/",
        "stamp": datetime(2027, 1, 2, 3, 4, 5, tzinfo=UTC),
        "version": 2,
    }
    return Day(**{**day, **changes})


def test_a_calendar_is_what_the_standard_asks_for():
    """Written by hand after RFC 5545, 3.4, 3.6.1 and 3.8; NAME is RFC 7986, 5.1."""
    assert calendar_bytes([a_day()], name="Kits") == (
        b"BEGIN:VCALENDAR\r\n"
        b"VERSION:2.0\r\n"
        b"PRODID:-//Kitproof//Months//EN\r\n"
        b"CALSCALE:GREGORIAN\r\n"
        b"NAME:Kits\r\n"
        b"BEGIN:VEVENT\r\n"
        b"UID:kit-1-print@kits.example\r\n"
        b"DTSTAMP:20270102T030405Z\r\n"
        b"SEQUENCE:2\r\n"
        b"DTSTART;VALUE=DATE:20270512\r\n"
        b"SUMMARY:2027-05: print day\r\n"
        b"URL:https://kits.example/kits/2027-05/\r\n"
        b"TRANSP:TRANSPARENT\r\n"
        b"END:VEVENT\r\n"
        b"END:VCALENDAR\r\n"
    )


@pytest.mark.parametrize(
    ("summary", "line"),
    [
        pytest.param("a, b; c\\d", b"SUMMARY:a\\, b\\; c\\\\d\r\n", id="marks"),
        pytest.param("a\r\nEND:VCALENDAR", b"SUMMARY:a\\nEND:VCALENDAR\r\n", id="line end"),
        pytest.param("a\x07b", b"SUMMARY:ab\r\n", id="control character"),
        # “SUMMARY:” takes 8 octets of 75; what goes on has a space in front, so 74.
        pytest.param("x" * 67, b"SUMMARY:" + b"x" * 67 + b"\r\n", id="a full line"),
        pytest.param("x" * 68, b"SUMMARY:" + b"x" * 67 + b"\r\n x\r\n", id="one letter more"),
        pytest.param(
            "x" * 142, b"SUMMARY:" + b"x" * 67 + b"\r\n " + b"x" * 74 + b"\r\n x\r\n", id="what goes on is full"
        ),
        # “é” is two octets: it does not fit into the last one of a line.
        pytest.param("x" * 66 + "é", b"SUMMARY:" + b"x" * 66 + b"\r\n \xc3\xa9\r\n", id="never inside a letter"),
    ],
)
def test_words_are_escaped_and_folded(summary, line):
    assert line in calendar_bytes([a_day(summary=summary)], name="Kits")


def test_a_stamp_is_in_universal_time_and_a_day_in_none():
    from datetime import timedelta, timezone

    stamp = datetime(2027, 1, 2, 0, 30, tzinfo=timezone(timedelta(hours=2)))
    written = calendar_bytes([a_day(stamp=stamp)], name="Kits")
    assert b"DTSTAMP:20270101T223000Z\r\n" in written


@pytest.fixture
def by(db: None):
    return ines()


@pytest.fixture
def draft(by) -> Draft:
    return drafted(by)


def set_days(draft: Draft, by, version: int = 0, **changes: Any) -> KitDates | None:
    days: dict[str, Any] = {"print_day": MAY, "post_day": JUNE, "planner": None, "editor": None}
    return dates_set(kit=draft.kit, version=version, by=by, **{**days, **changes})


@pytest.mark.django_db
def test_days_are_set_and_what_they_were_is_noted(draft, by):
    editor = person("Runa Holm", Role.EDITOR)
    set_days(draft, by)
    set_days(draft, by, 1, post_day=None, editor=editor)
    dates = KitDates.objects.get(kit=draft.kit)
    assert (dates.version, dates.print_day, dates.post_day, dates.editor) == (2, MAY, None, editor)
    last, first = KitDatesChange.objects.all()
    assert first.before == {"print_day": None, "post_day": None, "planner": None, "editor": None}
    assert first.after == {"print_day": "2027-05-12", "post_day": "2027-06-01", "planner": None, "editor": None}
    assert last.after == {"print_day": "2027-05-12", "post_day": None, "planner": None, "editor": editor.pk}
    assert (last.version, last.by) == (2, by)


@pytest.mark.django_db
def test_the_same_days_are_no_change(draft, by):
    set_days(draft, by)
    set_days(draft, by, 1)
    assert KitDatesChange.objects.count() == 1


@pytest.mark.django_db
def test_days_leave_the_draft_and_its_check_as_they_are(draft, by):
    set_days(draft, by)
    assert Draft.objects.get().revision == 1


@pytest.mark.django_db
@pytest.mark.parametrize("version", [0, 2])
def test_whoever_read_other_days_changes_nothing(draft, by, version):
    set_days(draft, by)
    with pytest.raises(DatesMoved) as moved:
        set_days(draft, by, version, print_day=None)
    assert (moved.value.version, moved.value.by) == (1, "Ines Varga")
    assert KitDates.objects.get().print_day == MAY


@pytest.mark.django_db
@pytest.mark.parametrize(
    ("changes", "field"),
    [
        pytest.param({"post_day": date(2027, 5, 11)}, "post_day", id="posted before it is printed"),
        pytest.param({"planner": "editor"}, "planner", id="no planner"),
        pytest.param({"editor": "planner"}, "editor", id="no editor"),
    ],
)
def test_days_that_cannot_be_are_refused(draft, by, changes, field):
    people = {"planner": by, "editor": person("Runa Holm", Role.EDITOR)}
    with pytest.raises(BadDates) as bad:
        set_days(draft, by, **{name: people.get(one, one) for name, one in changes.items()})
    assert bad.value.field == field
    assert not KitDates.objects.exists()


@pytest.mark.django_db
def test_a_kit_may_be_posted_on_the_day_that_it_is_printed(draft, by):
    assert set_days(draft, by, post_day=MAY) is not None


@pytest.mark.django_db
@pytest.mark.parametrize("role", [Role.EDITOR, Role.CARE, Role.STOCK, Role.MEMBER])
def test_planners_alone_set_days(draft, role):
    with pytest.raises(NotAllowed):
        set_days(draft, person("Otto Lind", role))


@pytest.mark.django_db
def test_kits_stand_by_their_day_and_those_without_last(draft, by):
    drafted(by, code="2027-03")
    late, early = drafted(by, code="2027-07"), drafted(by, code="2027-06")
    set_days(late, by, print_day=JUNE, post_day=None)
    # Without a print day, the post day counts.
    set_days(early, by, print_day=None, post_day=MAY)
    assert [line.kit.code for line in months_for(by)] == ["2027-06", "2027-07", "2027-03", "2027-05"]
    assert months_for(person("Lea Brandt", Role.MEMBER)) == []


@pytest.mark.django_db
def test_the_months_take_as_many_queries_however_many_kits_there_are(draft, by, django_assert_num_queries):
    from django.db import connection
    from django.test.utils import CaptureQueriesContext

    with CaptureQueriesContext(connection) as few:
        months_for(by)
    for number in range(1, 6):
        set_days(drafted(by, code=f"2028-0{number}"), by)
    with django_assert_num_queries(len(few)):
        assert len(months_for(by)) == 6


@pytest.mark.django_db
def test_an_address_opens_the_calendar_of_whom_it_was_given_to_and_is_kept_as_a_hash(draft, by):
    secret = calendar_renew(by=by)
    assert person_at(secret) == by
    kept = CalendarAddress.objects.get().secret_hash
    assert secret not in kept
    assert person_at(kept) is None


@pytest.mark.django_db
def test_a_renewed_address_closes_the_earlier_one_and_a_revoked_one_opens_nothing(by):
    first, second = calendar_renew(by=by), calendar_renew(by=by)
    assert (person_at(first), person_at(second)) == (None, by)
    assert calendar_revoke(by=by)
    assert person_at(second) is None
    assert not calendar_revoke(by=by)


@pytest.mark.django_db
def test_whoever_leaves_the_team_takes_no_calendar_along(draft, by):
    secret = calendar_renew(by=by)
    role_withdraw(person=by, role=Role.PLANNER, by=None)
    assert person_at(secret) is None
    by.refresh_from_db()
    assert b"VEVENT" not in calendar_for(by, host="kits.example", urls={})


@pytest.mark.django_db
def test_somebody_who_may_not_sign_in_any_more_has_no_calendar(by):
    secret = calendar_renew(by=by)
    type(by).objects.filter(pk=by.pk).update(is_active=False)
    assert person_at(secret) is None


@pytest.mark.django_db
def test_a_member_gets_no_address():
    with pytest.raises(NotAllowed):
        calendar_renew(by=person("Lea Brandt", Role.MEMBER))


@pytest.mark.django_db
def test_the_calendar_has_a_day_for_the_print_and_one_for_the_post(draft, by):
    set_days(draft, by)
    set_days(drafted(mila(), code="2027-06"), by, print_day=None)
    lines = calendar_for(by, host="h", urls={"2027-05": "u:5", "2027-06": "u:6"}).decode().split("\r\n")
    events = [line for line in lines if line.startswith(("UID", "DTSTART", "SUMMARY", "URL"))]
    kit = draft.kit.pk
    assert events[:8] == [
        f"UID:kit-{kit}-print@h",
        "DTSTART;VALUE=DATE:20270512",
        "SUMMARY:2027-05 The Tide Table: print day",
        "URL:u:5",
        f"UID:kit-{kit}-post@h",
        "DTSTART;VALUE=DATE:20270601",
        "SUMMARY:2027-05 The Tide Table: post day",
        "URL:u:5",
    ]
    assert len(events) == 12
