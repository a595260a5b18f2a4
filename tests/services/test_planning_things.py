"""Things of a draft that are added, copied, moved and removed, and values changed together, on each database."""

from __future__ import annotations

from typing import Any

import pytest

from inventory.models import ItemKind
from inventory.services import item_add
from kits.members.models import Person, Role
from kits.planning.documents import build, build_bytes
from kits.planning.errors import DraftRefused, IdTaken, NotAllowed, RevisionMoved, StillNamed
from kits.planning.models import Change, Draft, Paper, Piece
from kits.planning.services import (
    draft_undo,
    paper_take_over,
    thing_add,
    thing_copy,
    thing_move,
    thing_remove,
    values_change,
)
from layouts.document import Kit, UnknownPlace, plain_at
from layouts.models import CheckRun
from tests.services.planning_cast import A, drafted, ines, mila, person

pytestmark = pytest.mark.django_db

C: dict[str, Any] = {"name": "base", "paper": "kelp", "size": ["2", "3 1/2"]}
SAND: dict[str, Any] = {"name": "Sand", "size": ["6", "6"], "sheets": 1, "front": {"name": "Sand"}}
CARD: dict[str, Any] = {"name": "card", "as": "tag", "paper": "kelp", "size": ["2", "2"]}


@pytest.fixture
def by():
    return ines()


def pieces(draft: Draft, project: int = 0) -> list[str]:
    return [piece.id for piece in build(draft).projects[project].pieces]


def change(draft: Draft) -> Change:
    return draft.changes.get(revision=draft.revision)


@pytest.mark.parametrize(
    ("position", "order"),
    [
        pytest.param(None, ["A", "B", "C"], id="at the end"),
        pytest.param(1, ["C", "A", "B"], id="first"),
        pytest.param(2, ["A", "C", "B"], id="between"),
        pytest.param(99, ["A", "B", "C"], id="beyond the end"),
    ],
)
def test_a_piece_is_added_at_its_position_and_the_kit_is_checked(by, position, order):
    draft = thing_add(draft=drafted(by), place="project:box/piece:C", thing=C, position=position, revision=1, by=by)
    assert pieces(draft) == order
    assert (draft.revision, change(draft).what, change(draft).place) == (2, "added", "project:box/piece:C")
    assert change(draft).after == {"id": "C", **C}
    assert CheckRun.objects.get(revision=2).document.encode() == build_bytes(draft)


@pytest.mark.parametrize(
    ("place", "thing"),
    [
        pytest.param("paper:sand", SAND, id="paper"),
        pytest.param(f"{A}/window:eye", {"left": "1/4", "width": "1/2", "top": "1/4", "height": "1/2"}, id="window"),
        pytest.param("blank:lid/face:rim", {"size": ["4", "1"]}, id="face"),
        pytest.param("embellishment:box/element:star", {"name": "star", "count": 2}, id="element"),
        pytest.param("project:bag", {"title": "Bag"}, id="project"),
        pytest.param("project:tag/form:card", CARD, id="form"),
        pytest.param("project:tag/step:two", {"text": "Tie it."}, id="step"),
    ],
)
def test_everything_with_an_id_can_be_added_and_removed(by, place, thing):
    draft = drafted(by)
    before = build_bytes(draft)
    thing_add(draft=draft, place=place, thing=thing, revision=1, by=by)
    assert plain_at(build(draft), place)["id"] == place.rpartition(":")[2]
    thing_remove(draft=draft, place=place, revision=2, by=by)
    assert build_bytes(draft) == before


@pytest.mark.parametrize(
    ("place", "thing", "error"),
    [
        pytest.param(A, C, IdTaken, id="an id that is taken"),
        pytest.param("project:box/piece:a", C, IdTaken, id="an id that is taken in other capitals"),
        pytest.param("project:box/piece:C", {"name": "half a piece"}, DraftRefused, id="half a piece"),
        pytest.param("project:box/piece:no id", C, DraftRefused, id="an id that is none"),
        pytest.param("project:box/piece:lid", C, DraftRefused, id="the id of a form"),
        pytest.param("project:bag/piece:C", C, UnknownPlace, id="in a project that is not there"),
        pytest.param("paper:kelp/piece:C", C, UnknownPlace, id="in a thing that has no such list"),
        pytest.param("gadget:C", C, UnknownPlace, id="of a kind that there is not"),
    ],
)
def test_what_cannot_be_added_changes_nothing(by, place, thing, error):
    draft = drafted(by)
    before = build_bytes(draft)
    with pytest.raises(error):
        thing_add(draft=draft, place=place, thing=thing, revision=1, by=by)
    draft.refresh_from_db()
    assert (build_bytes(draft), draft.revision) == (before, 1)


def test_a_copy_stands_behind_what_it_is_a_copy_of_with_its_windows_and_nothing_that_names_it(by):
    draft = thing_copy(draft=drafted(by), place=A, to="A2", revision=1, by=by)
    kit = build(draft)
    assert pieces(draft) == ["A", "A2", "B"]
    assert plain_at(kit, "project:box/piece:A2") == {**plain_at(kit, A), "id": "A2"}
    assert [placement.put.piece for placement in kit.projects[0].placements] == ["A", None, "B"]


@pytest.mark.parametrize(
    ("place", "position", "order"),
    [
        pytest.param("step:glue", 1, ["glue", "cut"], id="to the front"),
        pytest.param("step:cut", 2, ["glue", "cut"], id="to the end"),
        pytest.param("step:cut", 99, ["glue", "cut"], id="beyond the end"),
        pytest.param("step:glue", -3, ["glue", "cut"], id="before the front"),
        pytest.param("step:cut", 1, ["cut", "glue"], id="to where it is"),
    ],
)
def test_a_thing_is_moved_within_its_list(by, place, position, order):
    draft = thing_move(draft=drafted(by), place=f"project:box/{place}", position=position, revision=1, by=by)
    assert [step.id for step in build(draft).projects[0].steps] == order
    assert draft.revision == (1 if order == ["cut", "glue"] else 2)


def test_moving_keeps_the_rows(by):
    draft = drafted(by)
    rows = dict(Piece.objects.values_list("ident", "pk").filter(project__ident="box"))
    thing_move(draft=draft, place="project:box/piece:B", position=1, revision=1, by=by)
    assert dict(Piece.objects.values_list("ident", "pk").filter(project__ident="box")) == rows
    assert pieces(draft) == ["B", "A"]


def test_what_is_named_is_not_removed_unasked(by):
    draft = drafted(by)
    with pytest.raises(StillNamed) as refused:
        thing_remove(draft=draft, place=A, revision=1, by=by)
    assert refused.value.by == (
        "project:box/piece:B",
        "project:box/placement:A",
        "project:box/placement:shell",
        "project:box/step:cut",
        "project:box/step:glue",
        "project:tag/piece:H",
        "project:tag/step:one",
    )
    draft.refresh_from_db()
    assert (pieces(draft), draft.revision) == (["A", "B"], 1)


def test_what_named_it_goes_or_lets_go_and_sentences_stay(by):
    draft = drafted(by)
    texts = [step.text for project in build(draft).projects for step in project.steps]
    draft = thing_remove(draft=draft, place=A, with_mentions=True, revision=1, by=by)
    kit = build(draft)
    box, tag = kit.projects
    assert [piece.id for piece in box.pieces] == ["B"]
    assert box.pieces[0].mirror_of is None
    assert [placement.id for placement in box.placements] == ["rear"]
    assert box.steps[0].cut == ("B", "lid")
    assert [use.piece for use in box.steps[1].use] == [None, None, None]
    assert (tag.pieces[0].from_, tag.pieces[0].paper) == (None, None)
    assert [step.text for project in kit.projects for step in project.steps] == texts


def test_a_step_that_waited_for_what_is_gone_comes_after_the_one_before(by):
    draft = thing_remove(draft=drafted(by), place="project:box/step:cut", with_mentions=True, revision=1, by=by)
    assert [step.after for step in build(draft).projects[0].steps] == [None]


def test_a_leaf_of_a_pad_that_goes_keeps_its_size(by):
    draft = thing_remove(draft=drafted(by), place="pad:shore", with_mentions=True, revision=1, by=by)
    assert plain_at(build(draft), "paper:kelp/size") == ["8", "8"]


def test_what_would_leave_no_document_is_refused_with_its_reason(by):
    """A form is cut from some paper: a lid without one is none."""
    draft = drafted(by)
    with pytest.raises(DraftRefused) as refused:
        thing_remove(draft=draft, place="paper:slate", with_mentions=True, revision=1, by=by)
    assert "/projects/0/forms/0" in {error.pointer for error in refused.value.errors}
    draft.refresh_from_db()
    assert draft.revision == 1


def together(kit: Kit, draft: Draft, by: Person) -> Draft:
    values = [
        (f"{A}/size/width", "152.4 mm"),
        (f"{A}/window:pane/left", "1 1/2"),
        ("project:box/piece:B/count", 3),
        ("project:box/placement:A/border", {"left": "1/4"}),
        ("paper:kelp/front/reads", "left"),
        ("project:box/step:cut/text", "Cut {A}."),
    ]
    return values_change(draft=draft, values=values, revision=draft.revision, by=by)


def test_several_values_are_changed_together_in_one_revision(by):
    draft = drafted(by)
    draft = together(build(draft), draft, by)
    kit = build(draft)
    assert [plain_at(kit, place) for place in (f"{A}/size", f"{A}/window:pane/left", "paper:kelp/front/reads")] == [
        ["152.4 mm", "4"],
        "1 1/2",
        "left",
    ]
    assert (draft.revision, change(draft).what) == (2, "edited")
    before, after = (list(values or ()) for values in (change(draft).before, change(draft).after))
    assert before[2] == {"at": "project:box/piece:B/count", "value": 1}
    assert after[0] == {"at": f"{A}/size/width", "value": "152.4 mm"}


@pytest.mark.parametrize(
    ("values", "error"),
    [
        pytest.param([(f"{A}/count", 2), (f"{A}/size/width", "1/3")], DraftRefused, id="one of them is no length"),
        pytest.param([(f"{A}/count", 2), ("project:box/piece:Z/count", 2)], UnknownPlace, id="one of them is nowhere"),
        pytest.param([(f"{A}/id", "Z")], UnknownPlace, id="an id"),
        pytest.param([(A, {"id": "A"})], UnknownPlace, id="a whole thing"),
        pytest.param([(f"{A}/colour", "red")], UnknownPlace, id="a member that there is not"),
    ],
)
def test_values_are_changed_all_or_none(by, values, error):
    draft = drafted(by)
    before = build_bytes(draft)
    with pytest.raises(error):
        values_change(draft=draft, values=values, revision=1, by=by)
    draft.refresh_from_db()
    assert (build_bytes(draft), draft.revision) == (before, 1)


def test_values_that_are_the_same_change_nothing(by):
    draft = values_change(draft=drafted(by), values=[(f"{A}/count", 1), (f"{A}/size/width", "6")], revision=1, by=by)
    assert (draft.revision, Change.objects.count()) == (1, 1)


DOINGS = {
    "added": lambda at: thing_add(place="project:box/piece:C", thing=C, **at),
    "copied": lambda at: thing_copy(place="project:box", to="box-2", **at),
    "moved": lambda at: thing_move(place="project:tag", position=1, **at),
    "removed": lambda at: thing_remove(place=A, with_mentions=True, **at),
    "edited": lambda at: values_change(values=[("paper:slate/sheets", 5), (f"{A}/count", 2)], **at),
}


@pytest.mark.parametrize("what", DOINGS)
def test_each_is_taken_back_to_the_byte(by, what):
    draft = drafted(by)
    before = build_bytes(draft)
    draft = DOINGS[what]({"draft": draft, "revision": 1, "by": by})
    assert build_bytes(draft) != before
    draft = draft_undo(draft=draft, revision=2, by=by)
    assert build_bytes(draft) == before


@pytest.mark.parametrize("what", DOINGS)
def test_each_is_made_on_the_revision_that_was_read_and_only_by_planners(by, what):
    draft = drafted(by)
    values_change(draft=draft, values=[("paper:slate/sheets", 4)], revision=1, by=mila())
    with pytest.raises(RevisionMoved):
        DOINGS[what]({"draft": draft, "revision": 1, "by": by})
    for role in (Role.EDITOR, Role.CARE, Role.STOCK, Role.MEMBER):
        with pytest.raises(NotAllowed):
            DOINGS[what]({"draft": draft, "revision": 2, "by": person(f"{role.value} x", role)})
    draft.refresh_from_db()
    assert draft.revision == 2


def test_a_paper_that_comes_back_is_linked_to_the_item_that_it_came_from(by):
    facts = {"size": ["12", "12"], "front": {"name": "Sand"}}
    item = item_add(kind=ItemKind.PAPER, name="Sand", facts=facts, unit="in", by=None)
    draft = drafted(by, projects=[])
    draft = paper_take_over(draft=draft, place="paper:slate", item=item, revision=1, by=by)
    draft = thing_remove(draft=draft, place="paper:slate", revision=2, by=by)
    draft_undo(draft=draft, revision=3, by=by)
    assert Paper.objects.get(draft=draft, ident="slate").item_id == item.pk
