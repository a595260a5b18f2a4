"""Who may open which page: a table over all addresses, which fails when a new one has no line."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any
from urllib.parse import quote

import pytest
from django.urls import URLPattern, get_resolver, reverse

from tests.services.planning_cast import A

pytestmark = pytest.mark.django_db

ROLES = ("planner", "editor", "care", "stock", "member", "stranger")
KIT = {"code": "2027-05"}


@dataclass(frozen=True)
class Line:
    """What each role is answered, in the order of ROLES; 302 of a stranger leads to the sign-in page."""

    answers: tuple[int, ...]
    method: str = "get"
    where: dict[str, str] = field(default_factory=dict)
    sent: dict[str, Any] = field(default_factory=dict)


CHANGE = {"place": A, "field": "count", "value": "2", "revision": "1"}
SETTING = {"page": "a4", "unit": "mm", "print": "normal", "cut": "trimmer"}
RUN = {**KIT, "run": "1"}
TABLE = {
    "home": Line((302, 302, 302, 302, 200, 302)),
    "health": Line((200,) * 6),
    "months": Line((200, 200, 200, 200, 404, 302)),
    "calendar-on": Line((200, 200, 200, 200, 404, 302), "post"),
    "calendar-off": Line((302, 302, 302, 302, 404, 302), "post"),
    # Nobody's address; of one that is somebody's, see test_months.
    "calendar-feed": Line((404,) * 6, where={"key": "wrong"}),
    "kit-dates": Line((200, 403, 403, 403, 404, 302), where=KIT),
    "kit-dates POST": Line((302, 403, 403, 403, 404, 302), "post", KIT, {"version": "0", "print_day": "2027-04-12"}),
    "kit-comments": Line((200, 200, 200, 200, 404, 302), where=KIT),
    "kit-comments POST": Line((302, 302, 302, 302, 404, 302), "post", KIT, {"place": A, "text": "Look here."}),
    # Nobody has said anything yet; of a comment that is there, see test_reviews.
    "comment": Line((404, 404, 404, 404, 404, 302), "post", {**KIT, "number": "1"}, {"do": "resolve"}),
    "kit-handover": Line((200, 200, 200, 200, 404, 302), where=KIT),
    "kit-handover POST": Line((302, 403, 403, 403, 404, 302), "post", KIT, {"number": "0", "sentence": "Prove it."}),
    "kit-builds": Line((200, 200, 200, 200, 404, 302), where=KIT),
    # The planner planned it; the others did not say how long it took.
    "kit-builds POST": Line(
        (403, 422, 422, 422, 404, 302), "post", KIT, {"revision": "1", "unit": "in", "tools": "knife"}
    ),
    # There is none yet; of one that is there, see test_builds.
    "build-photos": Line((404, 404, 404, 404, 404, 302), "post", {**KIT, "number": "1"}),
    "build-photo": Line((404, 404, 404, 404, 404, 302), where={**KIT, "number": "1", "photo": "1"}),
    "kits": Line((200, 200, 200, 200, 404, 302)),
    "kit-new": Line((200, 403, 403, 403, 404, 302)),
    "kit-new POST": Line((422, 403, 403, 403, 404, 302), "post"),
    "kit": Line((200, 200, 200, 200, 404, 302), where=KIT),
    # There is no proof yet, and so there are no cuts; with one, they are in test_cuts.
    "kit-cuts": Line((404, 404, 404, 404, 404, 302), where={**KIT, "paper": "slate"}),
    "kit-check": Line((200, 200, 200, 200, 404, 302), where=KIT),
    "check-again": Line((302, 302, 403, 403, 404, 302), "post", KIT),
    "check-cancel": Line((302, 302, 403, 403, 404, 302), "post", KIT, {"run": "1"}),
    "piece-change": Line((302, 403, 403, 403, 404, 302), "post", KIT, CHANGE),
    "project-pieces": Line((200, 403, 403, 403, 404, 302), where={**KIT, "project": "box"}),
    "project-pieces POST": Line((302, 403, 403, 403, 404, 302), "post", {**KIT, "project": "box"}, {"revision": "1"}),
    "project-placements": Line((200, 200, 200, 200, 404, 302), where={**KIT, "project": "box"}),
    "project-placements POST": Line(
        (302, 403, 403, 403, 404, 302), "post", {**KIT, "project": "box"}, {"revision": "1", "do": "down:shell"}
    ),
    "project-steps": Line((200, 200, 200, 200, 404, 302), where={**KIT, "project": "box"}),
    "project-steps POST": Line(
        (302, 403, 403, 403, 404, 302), "post", {**KIT, "project": "box"}, {"revision": "1", "do": "down:cut"}
    ),
    "thing": Line((200, 200, 200, 200, 404, 302), where={**KIT, "place": A}),
    # Without what it is made of, a piece is none.
    "thing POST": Line((422, 403, 403, 403, 404, 302), "post", {**KIT, "place": A}, {"revision": "1"}),
    # There is no picture yet.
    "print-picture": Line((404, 404, 404, 404, 404, 302), where={**KIT, "paper": "kelp", "side": "front"}),
    "print-picture POST": Line((302, 403, 403, 403, 404, 302), "post", {**KIT, "paper": "kelp", "side": "front"}),
    "length": Line((200, 200, 200, 200, 404, 302), where=KIT),
    "thing-check": Line((200, 200, 200, 200, 404, 302), where={**KIT, "place": A}),
    "thing-new": Line((200, 403, 403, 403, 404, 302), where={**KIT, "kind": "blank"}),
    "thing-new POST": Line(
        (422, 403, 403, 403, 404, 302), "post", {**KIT, "kind": "blank"}, {"revision": "1", "to": "box"}
    ),
    "thing-new-in": Line((200, 403, 403, 403, 404, 302), where={**KIT, "project": "box", "kind": "form"}),
    "thing-new-in POST": Line(
        (422, 403, 403, 403, 404, 302), "post", {**KIT, "project": "box", "kind": "piece"}, {"revision": "1", "to": "Q"}
    ),
    "kit-bring": Line((200, 403, 403, 403, 404, 302), where=KIT),
    # Nothing is ticked.
    "kit-bring POST": Line((422, 403, 403, 403, 404, 302), "post", KIT, {"revision": "1"}),
    "part-keep": Line((200, 403, 403, 403, 404, 302), where={**KIT, "place": A}),
    "part-keep POST": Line((302, 403, 403, 403, 404, 302), "post", {**KIT, "place": A}, {"name": "Front"}),
    "parts": Line((200, 200, 200, 200, 404, 302)),
    # None is kept yet; of one that is, see test_parts.
    "part": Line((404, 404, 404, 404, 404, 302), where={"number": "1"}),
    "part-forget": Line((404, 403, 403, 403, 404, 302), "post", {"number": "1"}),
    # There is no proof yet, and so nothing that it would offer.
    "kit-mend": Line((409, 403, 403, 403, 404, 302), "post", KIT, {"revision": "1", "mend": "1-1"}),
    # There is no proof yet, and so nothing to accept.
    "finding-accept": Line(
        (403, 409, 403, 403, 404, 302), "post", KIT, {"finding": "1", "because": "x", "revision": "1"}
    ),
    "finding-recall": Line((403, 409, 403, 403, 404, 302), "post", KIT, {"finding": "1", "revision": "1"}),
    "kit-undo": Line((409, 403, 403, 403, 404, 302), "post", KIT, {"revision": "1"}),
    "kit-redo": Line((409, 403, 403, 403, 404, 302), "post", KIT, {"revision": "1"}),
    "kit-history": Line((200, 200, 200, 200, 404, 302), where=KIT),
    # The kit is at its first revision: there is nothing before it.
    "history-restore": Line((409, 403, 403, 403, 404, 302), "post", KIT, {"revision": "1", "to": "1"}),
    "kit-replace": Line((200, 403, 403, 403, 404, 302), where=KIT),
    "kit-replace POST": Line((422, 403, 403, 403, 404, 302), "post", KIT, {"revision": "1"}),
    "kit-document": Line((200, 200, 200, 200, 404, 302), where=KIT),
    # There is no proof yet: nobody has one, and who may not see it learns no more.
    "kit-proof": Line((404, 404, 404, 404, 404, 302), where=KIT),
    "sheets": Line((302, 302, 302, 302, 404, 302), where=KIT),
    # There is no proof to make sheets from; what is made by a kit's sheets is in test_sheets.
    "sheets-make": Line((409, 409, 409, 409, 404, 302), "post", KIT, SETTING),
    "sheets-again": Line((404, 404, 404, 404, 404, 302), "post", RUN),
    "sheets-cancel": Line((404, 404, 404, 404, 404, 302), "post", RUN),
    "sheet-pdf": Line((404, 404, 404, 404, 404, 302), where={**RUN, "number": "1"}),
    "sheet-picture": Line((404, 404, 404, 404, 404, 302), where={**RUN, "number": "1", "page": "1"}),
    # Whoever has signed in is led on.
    "account_login": Line((302, 302, 302, 302, 302, 200)),
    "account_logout": Line((200, 200, 200, 200, 200, 302)),
    "account_inactive": Line((200,) * 6),
    "account_reset_password": Line((200,) * 6),
    "account_reset_password_done": Line((200,) * 6),
    "account_reset_password_from_key": Line((200,) * 6, where={"uidb36": "1", "key": "wrong"}),
    "account_reset_password_from_key_done": Line((200,) * 6),
}


def test_every_address_has_a_line():
    named = {str(pattern.name) for pattern in _patterns(get_resolver().url_patterns)}
    assert named == {name.removesuffix(" POST") for name in TABLE}


def _patterns(entries: list[Any]) -> list[URLPattern]:
    return [
        pattern
        for entry in entries
        for pattern in ([entry] if isinstance(entry, URLPattern) else _patterns(entry.url_patterns))
    ]


@pytest.mark.parametrize("name", TABLE)
def test_each_role_is_answered_as_it_may(draft, signed_in, name):
    line = TABLE[name]
    path = reverse(name.removesuffix(" POST"), kwargs=line.where)
    # The planner comes last: they may change what the others are asked about.
    answers = {role: getattr(signed_in(role), line.method)(path, line.sent) for role in reversed(ROLES)}
    assert tuple(answers[role].status_code for role in ROLES) == line.answers
    if answers["stranger"].status_code == 302:
        to = "/sign-in/" if name == "account_logout" else f"/sign-in/?next={quote(path)}"
        assert answers["stranger"].headers["Location"] == to


@pytest.mark.parametrize("role", ["editor", "care", "stock"])
def test_who_only_reads_is_offered_no_change(draft, signed_in, role):
    html = signed_in(role).get("/kits/2027-05/").content.decode()
    assert "change=" not in html
    assert "/replace/" not in html
    assert "/undo/" not in html
    opened = signed_in(role).get("/kits/2027-05/", {"change": A, "field": "size"}).content.decode()
    assert 'name="width"' not in opened


def test_a_kit_that_is_not_there_and_one_that_a_member_may_not_see_look_the_same(draft, signed_in):
    member = signed_in("member")
    there, missing = member.get("/kits/2027-05/"), member.get("/kits/2099-01/")
    assert (there.status_code, missing.status_code) == (404, 404)
    assert _without_token(there) == _without_token(missing)


def _without_token(response) -> str:
    before, _, _ = response.content.decode().partition("csrfmiddlewaretoken")
    return str(before)


def test_a_part_asked_for_after_the_session_ended_sends_the_whole_page_to_sign_in(draft, signed_in):
    """Else the sign-in page would be set into the cell of a table."""
    response = signed_in("stranger").get(
        "/kits/2027-05/check/",
        headers={"HX-Request": "true", "HX-Current-URL": "http://testserver/kits/2027-05/?change=x"},
    )
    assert response.status_code == 200
    assert response.headers["HX-Redirect"] == "/sign-in/?next=/kits/2027-05/%3Fchange%3Dx"
    assert response.content == b""


def test_a_role_that_is_withdrawn_ends_at_once(draft, cast, signed_in):
    from kits.members.models import Role
    from kits.members.services import role_withdraw

    planner = signed_in("planner")
    assert planner.get("/kits/").status_code == 200
    role_withdraw(person=cast["planner"], role=Role.PLANNER, by=None)
    assert planner.get("/kits/").status_code == 404
