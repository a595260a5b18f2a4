"""Ids changed wherever they stand, on each database."""

from __future__ import annotations

import json
from typing import Any

import pytest

from kits.members.models import Role
from kits.planning.documents import build_bytes
from kits.planning.errors import DraftRefused, NotAllowed, RenameUnclear, RevisionMoved
from kits.planning.models import Change
from kits.planning.services import id_rename, piece_change
from layouts.document import UnknownPlace, canonical_tree, read_kit_tree
from tests.services.planning_cast import A, box, drafted, ines, mila, person

pytestmark = pytest.mark.django_db


@pytest.fixture
def by():
    return ines()


def renamed_by_hand(**texts: Any) -> dict[str, Any]:
    """The kit with other values, each at its path: strokes are written as two underscores."""
    tree = box()
    for path, value in texts.items():
        *outer, last = [int(part) if part.isdigit() else part for part in path.split("__")]
        here: Any = tree
        for part in outer:
            here = here[part]
        here[last] = value
    return tree


STEPS = "projects__0__steps__"
CUT = "Cut {A} to {A.width}, {A.pane.left} from the edge, {{A}} {A.border} {A.nothing} {A"
GLUE = "Glue {box/limpet} on {blank:lid.top}, {paper:kelp.width} wide, with {supply:twine}."

CASES = {
    "a piece": (
        A,
        "Front",
        {
            "projects__0__pieces__0__id": "Front",
            "projects__0__pieces__1__mirror_of": "Front",
            "projects__0__placements__0__put__piece": "Front",
            "projects__0__placements__1__on__piece": "Front",
            f"{STEPS}0__cut__0": "Front",
            f"{STEPS}1__use__0__piece": "Front",
            # Not the placement of the same id, whose border it is; nor what is no reference.
            f"{STEPS}0__text": "Cut {Front} to {Front.width}, {Front.pane.left} from the edge, {{A}} {A.border} "
            "{Front.nothing} {A",
            "projects__1__pieces__0__from": "box/Front/pane",
            "projects__1__steps__0__text": "Take {box/Front.pane} and {A}.",
            "accepted__0__at__1": "project:box/piece:Front",
        },
    ),
    "a placement of the same id": (
        "project:box/placement:A",
        "front",
        {
            "projects__0__placements__0__id": "front",
            f"{STEPS}0__text": CUT.replace("{A.border}", "{front.border}"),
        },
    ),
    "a window": (
        f"{A}/window:pane",
        "light",
        {
            "projects__0__pieces__0__windows__0__id": "light",
            f"{STEPS}0__text": CUT.replace("A.pane", "A.light"),
            "projects__1__pieces__0__from": "box/A/light",
            "projects__1__steps__0__text": "Take {box/A.light} and {A}.",
        },
    ),
    "a form, not the blank of the same id": (
        "project:box/form:lid",
        "cover",
        {
            "projects__0__forms__0__id": "cover",
            "projects__0__forms__1__fits__form": "cover",
            "projects__0__placements__2__on__form": "cover",
            f"{STEPS}0__cut__2": "cover",
            f"{STEPS}1__closes__0": "cover",
        },
    ),
    "a blank, not the form of the same id": (
        "blank:lid",
        "board",
        {
            "blanks__0__id": "board",
            "projects__0__forms__0__fits__blank": "board",
            "projects__0__placements__0__on__blank": "board",
            f"{STEPS}1__use__2__blank": "board",
            f"{STEPS}1__text": GLUE.replace("blank:lid", "blank:board"),
        },
    ),
    "a face": (
        "blank:lid/face:top",
        "upper",
        {
            "blanks__0__faces__0__id": "upper",
            "projects__0__placements__0__on__face": "upper",
            f"{STEPS}1__text": GLUE.replace("lid.top", "lid.upper"),
        },
    ),
    "a project, not the embellishment of the same id": (
        "project:box",
        "chest",
        {
            "projects__0__id": "chest",
            "projects__1__pieces__0__from": "chest/A/pane",
            "projects__1__steps__0__after__0": "chest/glue",
            "projects__1__steps__0__text": "Take {chest/A.pane} and {A}.",
            "accepted__0__at__1": "project:chest/piece:A",
        },
    ),
    "an embellishment": (
        "embellishment:box",
        "shells",
        {
            "embellishments__0__id": "shells",
            "projects__0__placements__1__put__element": "shells/limpet",
            f"{STEPS}1__use__1__element": "shells/limpet",
            f"{STEPS}1__text": GLUE.replace("box/limpet", "shells/limpet"),
        },
    ),
    "an element": (
        "embellishment:box/element:limpet",
        "whelk",
        {
            "embellishments__0__elements__0__id": "whelk",
            "projects__0__placements__1__put__element": "box/whelk",
            f"{STEPS}1__use__1__element": "box/whelk",
            f"{STEPS}1__text": GLUE.replace("box/limpet", "box/whelk"),
        },
    ),
    "a paper": (
        "paper:kelp",
        "weed",
        {
            "papers__0__id": "weed",
            "projects__0__pieces__0__paper": "weed",
            "projects__0__forms__1__paper": "weed",
            "projects__1__pieces__1__paper__each__0": "weed",
            f"{STEPS}1__text": GLUE.replace("paper:kelp", "paper:weed"),
            "accepted__0__at__0": "paper:weed",
        },
    ),
    "a pad, though {paper:kelp.width} is its": (
        "pad:shore",
        "coast",
        {"pads__0__id": "coast", "papers__0__pad": "coast"},
    ),
    "a supply": (
        "supply:twine",
        "cord",
        {
            "supplies__0__id": "cord",
            f"{STEPS}1__use__3__supply": "cord",
            f"{STEPS}1__text": GLUE.replace("supply:twine", "supply:cord"),
        },
    ),
    "a tool that cuts": ("tool:knife", "blade", {"tools__0__id": "blade", f"{STEPS}0__tools__0": "blade"}),
    "a tool of an edge": (
        "tool:wave",
        "ripple",
        {"tools__1__id": "ripple", "projects__0__pieces__0__edges__top": "ripple"},
    ),
    "a step": (
        "project:box/step:glue",
        "stick",
        {f"{STEPS}1__id": "stick", "projects__1__steps__0__after__0": "box/stick"},
    ),
    "a step that another of its project waits for": (
        "project:box/step:cut",
        "trim",
        {f"{STEPS}0__id": "trim", f"{STEPS}1__after__0": "trim"},
    ),
    "in other letters only": ("paper:slate", "SLATE", {
        "papers__1__id": "SLATE",
        "projects__0__pieces__1__paper": "SLATE",
        "projects__0__forms__0__paper": "SLATE",
        "projects__1__pieces__1__paper__each__1": "SLATE",
    }),
}  # fmt: skip


@pytest.mark.parametrize(("place", "to", "values"), CASES.values(), ids=CASES)
def test_an_id_changes_wherever_it_stands_and_nothing_else_does(by, place, to, values):
    draft = id_rename(draft=drafted(by), place=place, to=to, revision=1, by=by)
    assert json.loads(build_bytes(draft)) == canonical_tree(read_kit_tree(renamed_by_hand(**values)))
    change = Change.objects.get(revision=2)
    assert (change.what, change.place, change.before, change.after) == (
        "renamed",
        f"{place}/id",
        place.rpartition(":")[2],
        to,
    )


def test_the_same_id_is_no_change(by):
    assert id_rename(draft=drafted(by), place=A, to="A", revision=1, by=by).revision == 1


@pytest.mark.parametrize(
    ("place", "to", "code"),
    [
        pytest.param(A, "b", "duplicate-id", id="taken by a piece, in other letters"),
        pytest.param(A, "lid", "duplicate-id", id="taken by a form"),
        pytest.param(A, "A B", "bad-id", id="no id"),
        pytest.param(A, "", "bad-id", id="nothing"),
        pytest.param("project:tag", "cut-guide", "bad-id", id="the name of a sheet of every kit"),
    ],
)
def test_an_id_that_cannot_be_is_refused(by, place, to, code):
    draft = drafted(by)
    before = build_bytes(draft)
    with pytest.raises(DraftRefused) as refused:
        id_rename(draft=draft, place=place, to=to, revision=1, by=by)
    assert {error.code for error in refused.value.errors} == {code}
    assert build_bytes(draft) == before


@pytest.mark.parametrize(
    ("place", "to", "text", "reference"),
    [
        pytest.param("project:tag/piece:H", "Z", "Take {Z}.", "{Z}", id="what led nowhere would find it"),
        pytest.param(
            f"{A}/window:pane", "size", "Look at {A.pane.width}.", "{A.pane.width}", id="a figure of that name"
        ),
        pytest.param(
            "embellishment:box", "tag", "Take {box/limpet} and {tag/limpet}.", "{tag/limpet}", id="two of a kind"
        ),
    ],
)
def test_a_text_that_would_say_something_else_stops_a_renaming(by, place, to, text, reference):
    tree = box()
    at = tree["projects"][1 if "tag/" in place else 0]
    at["steps"][0]["text"] = text
    draft = drafted(by, projects=tree["projects"])
    before = build_bytes(draft)
    with pytest.raises(RenameUnclear) as unclear:
        id_rename(draft=draft, place=place, to=to, revision=1, by=by)
    assert unclear.value.reference == reference
    assert unclear.value.place == f"project:{at['id']}/step:{at['steps'][0]['id']}"
    assert build_bytes(draft) == before


def test_a_blank_that_a_form_would_hide_stops_a_renaming(by):
    tree = box()
    tree["blanks"].append({"id": "crate", "name": "crate"})
    tree["projects"][0]["steps"][1]["closes"] = ["crate"]
    draft = drafted(by, projects=tree["projects"], blanks=tree["blanks"])
    with pytest.raises(RenameUnclear) as unclear:
        id_rename(draft=draft, place="blank:crate", to="tray", revision=1, by=by)
    assert unclear.value.place == "project:box/step:glue"


@pytest.mark.parametrize("place", ["paper:bark", "project:box/piece:A/size", "", "title", "accepted:0", ":"])
def test_only_what_has_an_id_gets_another(by, place):
    with pytest.raises(UnknownPlace):
        id_rename(draft=drafted(by), place=place, to="x", revision=1, by=by)


def test_a_renaming_on_an_older_revision_tells_both_ids(by):
    draft = drafted(by)
    id_rename(draft=draft, place=A, to="Front", revision=1, by=mila())
    with pytest.raises(RevisionMoved) as moved:
        id_rename(draft=draft, place="project:box/piece:B", to="Rear", revision=1, by=by)
    assert (moved.value.yours, moved.value.theirs) == ("Rear", "B")
    with pytest.raises(RevisionMoved) as moved:
        piece_change(draft=draft, place=A, field="count", value=2, revision=1, by=by)
    assert moved.value.theirs is None


def test_only_planners_rename(by):
    draft = drafted(by)
    with pytest.raises(NotAllowed):
        id_rename(draft=draft, place=A, to="Front", revision=1, by=person("Jo Lindahl", Role.EDITOR))
