"""The form of a thing: every value saved, looked at while it is typed, put together with what others changed."""

from __future__ import annotations

import pytest

from kits.planning.documents import build, build_bytes
from kits.planning.models import Change
from kits.planning.services import piece_change, thing_write
from layouts.document import plain_at
from tests.pages.reading import Page
from tests.services.planning_cast import A, mila

pytestmark = pytest.mark.django_db

AT = f"/kits/2027-05/at/{A}/"
HTMX = {"HX-Request": "true"}


def facts(page: Page) -> dict[str, str]:
    """What the form of a thing sends when nothing was typed; of boxes, one of each name."""
    return page.one("form", id="facts").values()


@pytest.fixture
def sent(draft, look):
    """What the form of piece A sends, with what a test types; `_` stands for `/` in the names of controls."""
    values = facts(look(AT))

    def typed(**more: str) -> dict[str, str]:
        return values | {name.replace("__", "/"): text for name, text in more.items()}

    return typed


def test_the_form_holds_every_value_of_a_piece_as_it_is_written(draft, look):
    values = facts(look(AT))
    shown = {name: values[name] for name in ("name", "size/0", "size/1", "paper", "edges/top", "windows/0/left")}
    assert shown == {
        "name": "front",
        "size/0": "6",
        "size/1": "4",
        "paper": "kelp",
        "edges/top": "wave",
        "windows/0/left": "1",
    }
    assert (values["count"], values["side"], values["windows/0/cut_out"]) == ("1", "front", "kept")


def test_a_length_is_shown_in_both_units(draft, look):
    assert look(AT).one("p", id="said:size/0").text == "6 in = 152.4 mm"


@pytest.mark.parametrize(
    ("control", "text", "at", "value"),
    [
        pytest.param("size/0", "5 1/2", "size", ["5 1/2", "4"], id="a length"),
        pytest.param("size/0", "150mm", "size", ["150 mm", "4"], id="a length in the other unit"),
        pytest.param("count", "3", "count", 3, id="a count"),
        pytest.param("side", "either", "side", "either", id="a choice"),
        pytest.param("edges/left", "wave", "edges/left", "wave", id="an edge"),
        pytest.param("windows/0/right", "2", "window:pane/right", "2", id="a window's measure"),
        pytest.param("shape/kind", "ellipse", "shape/kind", "ellipse", id="an outline"),
    ],
)
def test_a_value_is_saved_and_nothing_else_is_changed(draft, planner, sent, control, text, at, value):
    before = plain_at(build(draft), A)
    answer = planner.post(AT, {**sent(), control: text}, follow=True)
    assert "Saved. The kit is being checked." in answer.content.decode()
    kit = build(draft)
    assert plain_at(kit, f"{A}/{at}") == value
    change = Change.objects.get(revision=2)
    assert (change.what, change.place, change.before) == ("edited", A, before)
    assert plain_at(kit, "project:box/piece:B") == {
        "id": "B", "name": "rear", "paper": "slate", "size": ["6", "4"], "mirror_of": "A"
    }  # fmt: skip


def test_a_form_sent_as_it_is_makes_no_revision(draft, planner, sent):
    before = build_bytes(draft)
    planner.post(AT, sent())
    draft.refresh_from_db()
    assert (draft.revision, build_bytes(draft)) == (1, before)


def test_one_more_window_is_added_by_filling_its_empty_row(draft, planner, sent):
    more = {"id": "eye", "left": "1/4", "width": "1/2", "top": "1/4", "height": "1/2"}
    planner.post(AT, {**sent(), **{f"windows/1/{name}": text for name, text in more.items()}})
    assert plain_at(build(draft), f"{A}/window:eye") == more
    assert plain_at(build(draft), f"{A}/window:pane")["cut_out"] == "kept"


def test_a_window_that_another_piece_comes_from_is_not_dropped(draft, planner, sent):
    answer = planner.post(AT, {**sent(), "do": "drop:windows/0"})
    assert answer.status_code == 422
    assert plain_at(build(draft), f"{A}/window:pane")["left"] == "1"


def test_what_is_refused_is_said_where_it_was_typed_and_stays(draft, planner, sent):
    answer = planner.post(AT, sent(size__0="wide", count="0"))
    page = Page(answer.content.decode())
    assert answer.status_code == 422
    assert page.one("p", id="said:size/0").text.startswith("“wide” is not a length")
    assert page.one("input", name="size/0").attributes["value"] == "wide"
    assert page.one("input", name="count").attributes["aria-invalid"] == "true"
    assert "2 values cannot be so" in page.one("div", id="saying").text
    draft.refresh_from_db()
    assert draft.revision == 1


def test_a_look_says_what_a_length_is_and_draws_it_but_saves_nothing(draft, planner, sent):
    page = Page(planner.post(AT, sent(size__0="5", do="look"), headers=HTMX).content.decode())
    assert page.one("p", id="said:size/0").text == "5 in = 127 mm"
    assert "5" in [text.text for text in page.one("div", id="picture").all("text")]
    draft.refresh_from_db()
    assert draft.revision == 1


def test_a_look_at_what_cannot_be_leaves_the_drawing_as_it_is(draft, planner, sent):
    page = Page(planner.post(AT, sent(size__0="5 2/3", do="look"), headers=HTMX).content.decode())
    assert "is not a length" in page.one("p", id="said:size/0").text
    assert page.all("div", id="picture") == []


def test_what_somebody_else_changed_meanwhile_stays(draft, planner, sent):
    typed = sent(size__0="5")
    piece_change(draft=draft, place=A, field="count", value=4, revision=1, by=mila())
    answer = planner.post(AT, typed, headers=HTMX)
    kit = build(draft)
    assert (plain_at(kit, f"{A}/size"), plain_at(kit, f"{A}/count")) == (["5", "4"], 4)
    # The form comes back whole, with their value in it: the next save must not take it back.
    assert answer.headers["HX-Retarget"] == "#facts"
    assert facts(Page(answer.content.decode()))["count"] == "4"


def test_of_a_value_that_both_changed_both_are_shown_and_nothing_is_saved(draft, planner, sent):
    typed = sent(count="2")
    piece_change(draft=draft, place=A, field="count", value=4, revision=1, by=mila())
    answer = planner.post(AT, typed)
    page = Page(answer.content.decode())
    assert answer.status_code == 409
    assert page.one("p", id="said:count").text == "It is now: 4"
    assert page.one("input", name="count").attributes["value"] == "2"
    assert "Mila Okoro changed this kit meanwhile" in page.one("div", id="saying").text
    assert plain_at(build(draft), f"{A}/count") == 4
    # Sent once more it was chosen.
    planner.post(AT, facts(page))
    assert plain_at(build(draft), f"{A}/count") == 2


def test_a_thing_that_is_gone_is_not_found(draft, planner):
    assert planner.get("/kits/2027-05/at/project:box/piece:Z/").status_code == 404
    assert planner.get("/kits/2027-05/at/pane/").status_code == 404


NEW: dict[str, tuple[str, dict[str, str]]] = {
    "paper": (
        "add/paper",
        {"to": "moss", "name": "Moss", "sheets": "3", "size/0": "6", "size/1": "6", "front/name": "Moss"},
    ),
    "pad": ("add/pad", {"to": "six", "name": "six inch", "size/0": "6", "size/1": "6"}),
    "embellishment": (
        "add/embellishment",
        {"to": "e", "name": "stars", "elements/0/id": "star", "elements/0/name": "star", "elements/0/count": "9"},
    ),
    "blank": (
        "add/blank",
        {"to": "tin", "name": "tin", "faces/0/id": "top", "faces/0/size/0": "2", "faces/0/size/1": "2"},
    ),
    "supply": ("add/supply", {"to": "cord", "name": "cord", "kind": "ribbon", "length": "30"}),
    "tool": ("add/tool", {"to": "glue", "name": "glue", "kind": "wet-glue"}),
    "project": ("add/project", {"to": "bag", "title": "Bag", "makes": "2"}),
    "piece": ("projects/box/add/piece", {"to": "Q", "name": "flag", "size/0": "1", "size/1": "1", "paper": "kelp"}),
    "form": (
        "projects/box/add/form",
        {"to": "box2", "as": "tray", "name": "box", "paper": "slate", "inside/0": "2", "inside/1": "2", "depth": "1"},
    ),
    "placement": (
        "projects/box/add/placement",
        {"to": "p", "put": "piece:B", "on": "blank:lid/face:top", "left": "1/2"},
    ),
    "step": ("projects/box/add/step", {"to": "end", "text": "Show {A}.", "use/0/what": "piece:A", "work": "5 min"}),
}
MADE: dict[str, dict[str, object]] = {
    "paper": {"name": "Moss", "sheets": 3, "size": ["6", "6"], "front": {"name": "Moss"}},
    "pad": {"name": "six inch", "size": ["6", "6"]},
    "embellishment": {"name": "stars", "elements": [{"id": "star", "name": "star", "count": 9}]},
    "blank": {"name": "tin", "faces": [{"id": "top", "size": ["2", "2"]}]},
    "supply": {"name": "cord", "kind": "ribbon", "length": "30"},
    "tool": {"name": "glue", "kind": "wet-glue"},
    "project": {"title": "Bag", "makes": 2},
    "piece": {"name": "flag", "size": ["1", "1"], "paper": "kelp"},
    "form": {"as": "tray", "name": "box", "paper": "slate", "inside": ["2", "2"], "depth": "1"},
    "placement": {"put": {"piece": "B"}, "on": {"blank": "lid", "face": "top"}, "left": "1/2"},
    "step": {"text": "Show {A}.", "use": [{"piece": "A"}], "work": "5 min"},
}


@pytest.mark.parametrize("kind", NEW)
def test_everything_that_a_kit_holds_is_added_on_a_page(draft, planner, kind):
    path, typed = NEW[kind]
    page = Page(planner.get(f"/kits/2027-05/{path}/", {"as": typed.get("as", "")}).content.decode())
    answer = planner.post(f"/kits/2027-05/{path}/", {**facts(page), **typed})
    inner = f"project:box/{kind}" if path.startswith("projects") else kind
    place = f"{inner}:{typed['to']}"
    assert answer.headers["Location"] == f"/kits/2027-05/at/{place}/"
    assert plain_at(build(draft), place) == {"id": typed["to"], **MADE[kind]}


def test_a_new_thing_needs_an_id_that_nothing_has(draft, planner):
    typed = {**NEW["tool"][1], "revision": "1"}
    taken = Page(planner.post("/kits/2027-05/add/tool/", typed | {"to": "KNIFE"}).content.decode())
    assert taken.one("p", id="said:to").text == "There is a KNIFE already: give it another id."
    assert taken.one("input", name="name").attributes["value"] == "glue"
    bad = Page(planner.post("/kits/2027-05/add/tool/", typed | {"to": "a b"}).content.decode())
    assert "id" in bad.one("p", id="said:to").text
    draft.refresh_from_db()
    assert draft.revision == 1


def test_a_folded_part_begins_with_how_it_is_made(draft, look):
    page = look("/kits/2027-05/projects/box/add/form/")
    assert [link.attributes["href"] for link in page.all("a") if link.attributes["href"].startswith("?as=")] == [
        f"?as={name}"
        for name in ("tray", "lid", "sleeve", "concertina", "pocket", "frame", "envelope", "tag", "scored")
    ]


def test_a_thing_is_copied_moved_renamed_and_removed(draft, planner):
    at = "/kits/2027-05/at/project:box/step:glue/"
    assert planner.post(at, {"revision": "1", "do": "up"}).status_code == 302
    assert [step.id for step in build(draft).projects[0].steps] == ["glue", "cut"]
    copied = planner.post(at, {"revision": "2", "do": "copy"})
    assert copied.headers["Location"] == "/kits/2027-05/at/project:box/step:glue-2/"
    renamed = planner.post(
        "/kits/2027-05/at/project:box/step:glue-2/", {"revision": "3", "do": "rename", "to": "press"}
    )
    assert renamed.headers["Location"] == "/kits/2027-05/at/project:box/step:press/"
    planner.post("/kits/2027-05/at/project:box/step:press/", {"revision": "4", "do": "remove"})
    assert [step.id for step in build(draft).projects[0].steps] == ["glue", "cut"]


def test_what_is_still_named_is_removed_only_when_asked_again(draft, planner):
    at = "/kits/2027-05/at/tool:wave/"
    page = Page(planner.post(at, {"revision": "1", "do": "remove"}).content.decode())
    asked = page.one("form", class_="asks")
    assert "Box, piece A (front)" in asked.text
    planner.post(at, {**asked.values(), "do": "remove-all"})
    assert [tool.id for tool in build(draft).tools] == ["knife"]


def test_what_cannot_be_without_a_thing_is_named_when_it_is_refused(draft, planner):
    """The lid goes over this blank, and has no other size."""
    page = Page(planner.post("/kits/2027-05/at/blank:lid/", {"revision": "1", "do": "remove-all"}).content.decode())
    assert page.one("div", id="saying").text.startswith("Box, lid (lid): ")


def test_the_kit_itself_has_a_form(draft, planner, look):
    at = "/kits/2027-05/at/kit/"
    typed = facts(look(at)) | {"title": "Low Water", "printed/in": "1/8", "cutting/slack": "1/32"}
    planner.post(at, typed)
    kit = build(draft)
    assert (kit.title, kit.printed.in_.text("in"), kit.cutting.slack.text("in")) == ("Low Water", "1/8", "1/32")
    planner.post(at, facts(look(at)) | {"unit": "mm"})
    assert (build(draft).unit, plain_at(build(draft), f"{A}/size")) == ("mm", ["6 in", "4 in"])


def test_history_says_what_a_form_changed(draft, cast, look):
    now = plain_at(build(draft), A)
    thing_write(draft=draft, place=A, thing={**now, "size": ["5", "4"], "count": 2}, revision=1, by=cast["planner"])
    assert "Box, A, size: 6 × 4 to 5 × 4, and 1 more value" in look("/kits/2027-05/history/").text


def test_history_says_which_of_several_a_form_changed(draft, cast, look):
    glue = "project:box/step:glue"
    now = plain_at(build(draft), glue)
    used = [{**one, "count": 3} if one == {"blank": "lid"} else one for one in now["use"]]
    thing_write(draft=draft, place=glue, thing={**now, "use": used}, revision=1, by=cast["planner"])
    assert "Box, step glue, use 3 count: none to 3" in look("/kits/2027-05/history/").text


def test_who_only_reads_sees_the_values_and_cannot_change_them(draft, signed_in):
    page = Page(signed_in("editor").get(AT).content.decode())
    assert "disabled" in page.one("fieldset", class_="all").attributes
    assert page.one("input", name="name").attributes["value"] == "front"
    assert page.all("button", value="save") == []
