"""Changing a value in its place: with a plain form, by htmx, refused, and when somebody else was quicker."""

from __future__ import annotations

import pytest
from django.test import Client

from kits.planning.queries import kit_page
from tests.pages.checked import proved
from tests.pages.reading import Page
from tests.services.planning_cast import A, mila

pytestmark = pytest.mark.django_db

KIT = "/kits/2027-05/"
PIECES = "/kits/2027-05/pieces/"
HTMX = {"HX-Request": "true"}
B = "project:box/piece:B"


def _form(page: Page) -> dict[str, str]:
    return page.one("form", class_="change").values()


def _piece(name: str = "A"):
    return next(piece for piece in kit_page("2027-05").document.projects[0].pieces if piece.id == name)


VALUES = [
    pytest.param(
        "size", {"width": "6", "height": "4"}, {"width": "5 1/2", "height": "10 cm"}, "5 1⁄2 × 100 mm", id="size"
    ),
    pytest.param("count", {"value": "1"}, {"value": "3"}, "3", id="count"),
    pytest.param("paper", {"value": "kelp"}, {"value": "slate"}, "Slate", id="print"),
    pytest.param("side", {"value": "front"}, {"value": "back"}, "back", id="side"),
    pytest.param("print_reads", {"value": "up"}, {"value": "left"}, "left", id="direction"),
]


@pytest.mark.parametrize(("field", "before", "typed", "shown"), VALUES)
def test_a_value_is_changed_by_links_and_forms_alone(draft, look, planner, field, before, typed, shown):
    """What a browser without scripts does: follow the value's link, send the form, follow the answer."""
    link = look(KIT).at(f"{A}/{field}").one("a").attributes["href"]
    sent = _form(look(link))
    assert {name: sent[name] for name in before} == before
    response = planner.post(PIECES, {**sent, **typed})
    assert (response.status_code, response.headers["Location"]) == (302, f"{KIT}#{A}")
    assert look(KIT).at(f"{A}/{field}").one("a").text.startswith(shown)


@pytest.mark.parametrize(("field", "before", "typed", "shown"), VALUES)
def test_htmx_gets_the_same_form_and_then_the_value(draft, look, planner, field, before, typed, shown):
    cell = look(KIT).at(f"{A}/{field}").one("a")
    form = look(cell.attributes["hx-get"], **HTMX)
    assert _form(form) == _form(look(cell.attributes["href"]))
    answer = planner.post(PIECES, {**_form(form), **typed}, headers=HTMX)
    assert answer.status_code == 200
    part = Page(answer.content.decode())
    value = part.one("a", class_="value")
    assert value.text.startswith(shown)
    # The keyboard stays where it was.
    assert "autofocus" in value.attributes
    # Other forms that are open go on from here, and everything that a check changes says so at once.
    assert part.one("input", hx_swap_oob="outerHTML:input[name='revision']").attributes["value"] == "2"
    assert part.at("verdict").text == "Being checked."
    assert part.at("standing").one("button").text.startswith("Undo Box, A")


def test_cancelling_shows_the_value_again(draft, look):
    form = look(f"{KIT}?change={A}&field=count", **HTMX)
    cancel = form.one("a", class_="cancel").attributes
    assert look(cancel["hx-get"], **HTMX).one("a", class_="value").text == "1, change the count of A"
    assert cancel["href"] == f"{KIT}#{A}"


REFUSED = [
    pytest.param("size", {"width": "6 3/5", "height": "4"}, "width", "Width: “6 3/5” is not a length", id="no length"),
    pytest.param("size", {"width": "6", "height": ""}, "height", "Height: ", id="nothing"),
    pytest.param(
        "size", {"width": "6", "height": "0"}, "height", "Height: this length must be more than zero", id="zero"
    ),
    pytest.param("count", {"value": "many"}, "value", "", id="no number"),
    pytest.param("count", {"value": "10001"}, "value", "", id="too many"),
    pytest.param("count", {"value": "-1"}, "value", "", id="fewer than none"),
]


@pytest.mark.parametrize("htmx", [False, True], ids=["plain", "htmx"])
@pytest.mark.parametrize(("field", "typed", "wrong", "sentence"), REFUSED)
def test_what_is_refused_is_kept_as_typed(draft, planner, field, typed, wrong, sentence, htmx):
    sent = {"place": A, "field": field, "revision": "1", **typed}
    answer = planner.post(PIECES, sent, headers=HTMX if htmx else {})
    assert answer.status_code == 422
    page = Page(answer.content.decode())
    form = page.one("form", class_="change")
    assert form.values() == sent
    box = form.one("input", name=wrong)
    assert box.attributes["aria-invalid"] == "true"
    assert "autofocus" in box.attributes
    why = page.at(box.attributes["aria-describedby"])
    assert why.has("role", "alert")
    assert why.text.replace("⁄", "/").startswith(sentence)
    assert kit_page("2027-05").draft.revision == 1


@pytest.mark.parametrize("htmx", [False, True], ids=["plain", "htmx"])
def test_who_comes_second_sees_both_values_and_keeps_what_they_typed(draft, planner, htmx):
    second = Client()
    second.force_login(mila())
    planner.post(PIECES, {"place": A, "field": "size", "width": "5", "height": "4", "revision": "1"})
    sent = {"place": A, "field": "size", "width": "5 1/2", "height": "4", "revision": "1"}
    answer = second.post(PIECES, sent, headers=HTMX if htmx else {})
    assert answer.status_code == 409
    form = Page(answer.content.decode()).one("form", class_="change")
    told = form.one("div", role="alert").text
    assert "Ines Varga changed this kit meanwhile." in told
    assert "It is now: 5 × 4" in told
    assert "You typed: 5 1⁄2 × 4" in told
    assert form.values() == {**sent, "revision": "2", "whole": "1"}
    # Sent again it is meant, and the whole page is loaded anew: the rest of it is as old.
    again = second.post(PIECES, form.values(), headers=HTMX if htmx else {})
    assert again.status_code == (200 if htmx else 302)
    assert again.headers.get("HX-Refresh") == ("true" if htmx else None)
    assert _piece().size.width.text("in") == "5 1/2"


def test_in_two_windows_of_one_person_it_is_oneself(draft, planner):
    planner.post(PIECES, {"place": A, "field": "count", "value": "2", "revision": "1"})
    answer = planner.post(PIECES, {"place": B, "field": "count", "value": "2", "revision": "1"})
    told = Page(answer.content.decode()).one("form", class_="change").one("div", role="alert").all("p")
    assert [one.text for one in told[:2]] == ["You, in another window, changed this kit meanwhile.", "It is now: 1"]


def test_a_piece_that_has_gone_is_said_to_have_gone(draft, planner):
    answer = planner.post(PIECES, {"place": "project:box/piece:Z", "field": "count", "value": "2", "revision": "1"})
    assert answer.status_code == 409
    assert "This piece has been removed meanwhile." in answer.content.decode()


@pytest.mark.parametrize(
    "changed",
    [{"field": "name"}, {"field": ""}, {"revision": "one"}, {"revision": ""}, {"revision": "１"}, {"revision": "-1"}],
)
def test_what_no_form_sends_is_400(draft, planner, changed):
    sent = {"place": A, "field": "count", "value": "2", "revision": "1", **changed}
    assert planner.post(PIECES, sent).status_code == 400
    assert kit_page("2027-05").draft.revision == 1


def test_a_piece_out_of_a_window_keeps_its_window(draft, look):
    cell = look(KIT).at("project:tag/piece:H/paper")
    assert (cell.text, cell.all("a")) == ("window pane of A of box", [])
    assert look(KIT).at("project:tag/piece:A/paper").text == "one of each: Kelp and Slate"


def test_undo_takes_back_one_change_after_the_other(draft, look, planner):
    for count in ("2", "3"):
        sent = _form(look(f"{KIT}?change={A}&field=count"))
        planner.post(PIECES, {**sent, "value": count})
    for count, words in (("2", "Undo Box, A, count: 2 to 3"), ("1", "Undo Box, A, count: 1 to 2")):
        undo = look(KIT).at("standing").one("form", action=f"{KIT}undo/")
        assert undo.one("button").text == words
        answer = planner.post(f"{KIT}undo/", undo.values())
        assert (answer.status_code, answer.headers["Location"]) == (302, f"{KIT}#{A}")
        assert look(KIT).at(f"{A}/count").text.startswith(count)
    assert [button.text for button in look(KIT).at("standing").all("button")] == ["Redo Box, A, count: 1 to 2"]


def test_undo_is_refused_when_the_kit_has_moved_on(draft, planner):
    planner.post(PIECES, {"place": A, "field": "count", "value": "2", "revision": "1"})
    planner.post(PIECES, {"place": A, "field": "count", "value": "3", "revision": "2"})
    answer = planner.post(f"{KIT}undo/", {"revision": "2"})
    assert answer.status_code == 409
    assert "nothing has been undone" in answer.content.decode()
    assert _piece().count == 3


def test_only_who_made_a_change_is_offered_to_undo_it(draft, planner):
    planner.post(PIECES, {"place": A, "field": "count", "value": "2", "revision": "1"})
    second = Client()
    second.force_login(mila())
    assert Page(second.get(KIT).content.decode()).at("standing").all("button") == []
    answer = second.post(f"{KIT}undo/", {"revision": "2"})
    assert answer.status_code == 409
    assert "The last change is Ines Varga’s (Box, A, count: 1 to 2)." in answer.content.decode()


def test_a_finding_appears_beside_the_piece_and_goes_with_the_cause(draft, look, planner):
    proved(draft)
    assert "larger than a sheet" not in look(KIT).at(f"said:{A}").text
    planner.post(PIECES, {"place": A, "field": "size", "width": "9", "height": "4", "revision": "1"})
    proved(draft)
    page = look(KIT)
    # 9 in is more than the 8 in of the pad.
    assert "Stop: A, front, 9 × 4 in, is larger than a sheet of Kelp" in page.at(f"said:{A}").text
    planner.post(f"{KIT}undo/", page.at("standing").one("form").values())
    proved(draft)
    assert "larger than a sheet" not in look(KIT).at(f"said:{A}").text
