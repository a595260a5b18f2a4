"""The history of a kit: what is told of each change, what is brought back, and what is undone and redone."""

from __future__ import annotations

import pytest

from kits.planning.documents import build_bytes
from kits.planning.services import draft_undo, id_rename, piece_change, thing_remove, values_change
from tests.pages.reading import Page
from tests.services.planning_cast import A, mila

pytestmark = pytest.mark.django_db

KIT = "/kits/2027-05/"
HISTORY = f"{KIT}history/"


@pytest.fixture
def by(cast):
    return cast["planner"]


def changed(draft, by, times=1):
    for _ in range(times):
        draft.refresh_from_db()
        at = {"draft": draft, "revision": draft.revision, "by": by}
        draft = piece_change(place=A, field="count", value=draft.revision + 1, **at)
    return draft


def rows(page: Page) -> list[list[str]]:
    return [[cell.text for cell in (*row.all("th"), *row.all("td"))] for row in page.all("tr")[1:]]


def test_each_change_is_told_newest_first_with_who_and_what(draft, look, by):
    other = mila()
    piece_change(draft=draft, place=A, field="count", value=2, revision=1, by=by)
    values_change(draft=draft, values=[("paper:slate/sheets", 3), (f"{A}/count", 4)], revision=2, by=other)
    draft_undo(draft=draft, revision=3, by=other)
    thing_remove(draft=draft, place="project:tag/piece:H", with_mentions=True, revision=4, by=by)
    id_rename(draft=draft, place="project:tag/piece:A", to="M", revision=5, by=by)
    told = [(row[0], row[1]) for row in rows(look(HISTORY))]
    assert told == [
        ("6", "A is now called M"),
        ("5", "Tag, piece H (picture) was removed"),
        ("4", "undid revision 3: Slate, sheets: 2 to 3, and 1 more value"),
        ("3", "Slate, sheets: 2 to 3, and 1 more value"),
        ("2", "Box, A, count: 1 to 2"),
        ("1", "the kit came from a document"),
    ]


def test_an_earlier_state_is_brought_back_by_its_button_and_undone(draft, look, planner, by):
    before = build_bytes(draft)
    changed(draft, by, 2)
    form = look(HISTORY).all("form", action=f"{HISTORY}restore/")[-1]
    assert form.one("button").text == "Bring back revision 1"
    response = planner.post(form.attributes["action"], form.values(), follow=True)
    assert "again as it was at revision 1" in response.content.decode()
    assert build_bytes(draft) == before
    undo = look(KIT).one("form", action=f"{KIT}undo/")
    assert "an earlier state was brought back" in undo.one("button").text
    planner.post(undo.attributes["action"], undo.values())
    draft.refresh_from_db()
    assert draft.revision == 5


def test_nothing_is_brought_back_over_a_change_that_was_not_seen(draft, look, planner, by):
    changed(draft, by, 2)
    sent = look(HISTORY).all("form", action=f"{HISTORY}restore/")[-1].values()
    changed(draft, mila())
    now = build_bytes(draft)
    response = planner.post(f"{HISTORY}restore/", sent)
    assert response.status_code == 409
    assert "Mila Okoro changed this kit meanwhile" in response.content.decode()
    assert build_bytes(draft) == now


def test_a_long_history_is_read_page_by_page(draft, look, by):
    changed(draft, by, 53)
    page = look(HISTORY)
    assert [row[0] for row in rows(page)] == [str(number) for number in range(54, 4, -1)]
    earlier = next(link for link in page.all("a") if link.text == "Earlier changes").attributes["href"]
    assert [row[0] for row in rows(look(earlier))] == ["4", "3", "2", "1"]
    assert "Nothing was changed before that" in look(f"{HISTORY}?below=1").text


@pytest.mark.parametrize("below", ["x", "-1", "1.5", "9" * 12])
def test_a_page_of_the_history_is_named_by_a_revision(draft, planner, below):
    assert planner.get(HISTORY, {"below": below}).status_code == 400


def test_what_was_undone_is_redone_by_its_button(draft, look, planner, by):
    changed(draft, by)
    after = build_bytes(draft)
    undo = look(KIT).one("form", action=f"{KIT}undo/")
    planner.post(undo.attributes["action"], undo.values())
    redo = look(KIT).one("form", action=f"{KIT}redo/")
    assert redo.one("button").text.split() == ["Redo", "Box,", "A,", "count:", "1", "to", "2"]
    response = planner.post(redo.attributes["action"], redo.values(), follow=True)
    assert "Redone: Box, A, count: 1 to 2." in response.content.decode()
    assert build_bytes(draft) == after
    assert not look(KIT).all("form", action=f"{KIT}redo/")


def test_nobody_is_offered_to_redo_what_somebody_else_undid(draft, look, planner):
    other = mila()
    changed(draft, other)
    draft.refresh_from_db()
    draft_undo(draft=draft, revision=2, by=other)
    assert not look(KIT).all("form", action=f"{KIT}redo/")
    response = planner.post(f"{KIT}redo/", {"revision": "3"})
    assert response.status_code == 409
    assert "only they can redo it" in response.content.decode()


@pytest.mark.parametrize("role", ["editor", "care", "stock"])
def test_who_only_reads_sees_the_history_and_no_buttons(draft, signed_in, role):
    html = signed_in(role).get(HISTORY).content.decode()
    assert "the kit came from a document" in html
    assert "restore" not in html
