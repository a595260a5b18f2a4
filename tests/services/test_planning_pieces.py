"""Values of a piece changed in place, on each database."""

from __future__ import annotations

import json
from typing import Any

import pytest

from kits.members.models import Role
from kits.planning.documents import build, build_bytes
from kits.planning.errors import DraftRefused, NotAllowed, RevisionMoved
from kits.planning.models import Change, Draft
from kits.planning.services import piece_change
from layouts.document import UnknownPlace, canonical_bytes, read_kit_tree, value_at
from layouts.models import CheckRun
from tests.services.planning_cast import A, box, drafted, ines, mila, person

pytestmark = pytest.mark.django_db


@pytest.fixture
def by():
    return ines()


@pytest.fixture
def draft(by) -> Draft:
    return drafted(by)


def piece(draft: Draft) -> dict[str, Any]:
    tree: dict[str, Any] = json.loads(build_bytes(draft))["projects"][0]["pieces"][0]
    return tree


@pytest.mark.parametrize(
    ("field", "typed", "written"),
    [
        pytest.param("size", ("6 3/4", "4"), ["6 3/4", "4"], id="a size"),
        pytest.param("size", ["6¾", "4.25"], ["6 3/4", "4 1/4"], id="a size in another spelling"),
        pytest.param("size", ["152.4 mm", "4"], ["152.4 mm", "4"], id="as long, in the other system"),
        pytest.param("count", "3", 3, id="a count as a form has it"),
        pytest.param("count", 10_000, 10_000, id="the greatest count"),
        pytest.param("paper", "slate", "slate", id="another paper"),
        pytest.param("paper", "", None, id="no paper"),
        pytest.param("paper", {"each": ["slate"]}, {"each": ["slate"]}, id="a paper for each copy"),
        pytest.param("side", "back", "back", id="the other side"),
        pytest.param("print_reads", "any", "any", id="no direction"),
    ],
)
def test_a_value_is_changed(draft, by, field, typed, written):
    changed = piece_change(draft=draft, place=A, field=field, value=typed, revision=1, by=by)
    assert changed.revision == 2
    assert piece(draft).get(field) == written
    # And nothing else.
    expected = box()
    expected["projects"][0]["pieces"][0][field] = written
    assert build_bytes(draft) == canonical_bytes(read_kit_tree(expected))


@pytest.mark.parametrize(
    ("field", "typed"),
    [
        pytest.param("size", ["6.0", "4 in"], id="a size in another spelling"),
        pytest.param("count", "1", id="a default"),
        pytest.param("side", "front", id="a word"),
    ],
)
def test_the_same_value_is_no_change(draft, by, field, typed):
    assert piece_change(draft=draft, place=A, field=field, value=typed, revision=1, by=by).revision == 1
    assert [change.what for change in Change.objects.all()] == ["created"]
    assert CheckRun.objects.count() == 1


@pytest.mark.parametrize(
    ("field", "typed", "errors"),
    [
        pytest.param("size", ["6 1/3", "4"], [("size/width", "not-a-length")], id="a third"),
        pytest.param("size", ["6", "0.01"], [("size/height", "off-grid")], id="between two ticks"),
        pytest.param("size", ["0", "-1"], [("size/width", "out-of-range"), ("size/height", "not-a-length")], id="both"),
        pytest.param("size", ["6"], [("size", "wrong-type")], id="half a size"),
        pytest.param("count", "0", [("count", "out-of-range")], id="none"),
        pytest.param("count", "two", [("count", "wrong-type")], id="a word for a number"),
        pytest.param("count", "9" * 5000, [("count", "wrong-type")], id="a very long number"),
        pytest.param("count", "", [("count", "wrong-type")], id="no number"),
        pytest.param("paper", "bark", [("paper", "unknown-id")], id="an unknown paper"),
        pytest.param("paper", {"each": ["kelp", "slate"]}, [("paper/each", "out-of-range")], id="a copy too many"),
        pytest.param("size", ["", ""], [("size/width", "not-a-length"), ("size/height", "not-a-length")], id="no size"),
        pytest.param("side", "", [("side", "out-of-range")], id="no side"),
        pytest.param("side", "rear", [("side", "out-of-range")], id="an unknown side"),
        pytest.param("side", "\x07", [("side", "bad-text")], id="a bell"),
    ],
)
def test_a_wrong_value_is_refused_where_it_was_typed_and_nothing_is_kept(draft, by, field, typed, errors):
    before = build_bytes(draft)
    with pytest.raises(DraftRefused) as refused:
        piece_change(draft=draft, place=A, field=field, value=typed, revision=1, by=by)
    assert sorted((error.field, error.code) for error in refused.value.errors) == sorted(errors)
    draft.refresh_from_db()
    assert (draft.revision, build_bytes(draft)) == (1, before)
    assert Change.objects.count() == CheckRun.objects.count() == 1


def test_a_piece_of_a_cut_out_gets_no_paper_beside_it(draft, by):
    with pytest.raises(DraftRefused) as refused:
        piece_change(draft=draft, place="project:tag/piece:H", field="paper", value="kelp", revision=1, by=by)
    [error] = refused.value.errors
    assert (error.field, error.code, error.pointer) == ("paper", "not-together", "/projects/1/pieces/0")


@pytest.mark.parametrize(
    "place", ["project:box/piece:Z", "project:box/form:tray", "project:box", "paper:kelp", "", "A/B"]
)
def test_only_pieces_are_changed_so(draft, by, place):
    with pytest.raises(UnknownPlace):
        piece_change(draft=draft, place=place, field="count", value=2, revision=1, by=by)


def test_other_fields_have_services_of_their_own(draft, by):
    with pytest.raises(ValueError, match="name"):
        piece_change(draft=draft, place=A, field="name", value="x", revision=1, by=by)  # type: ignore[arg-type]


def test_a_change_is_on_record_and_checked(draft, by):
    piece_change(draft=draft, place=A, field="size", value=["6 3/4", "100 mm"], revision=1, by=by)
    change = Change.objects.get(revision=2)
    assert (change.what, change.by, change.place) == ("changed", by, f"{A}/size")
    assert (change.before, change.after) == (["6 in", "4 in"], ["6 3/4 in", "100 mm"])
    run = CheckRun.objects.get(subject=draft.subject, revision=2)
    assert run.document.encode() == build_bytes(draft)
    assert run.requested_by == by
    assert CheckRun.objects.get(revision=1).state == "replaced"


def test_a_change_on_an_older_revision_tells_both_values(draft, by):
    other = mila()
    piece_change(draft=draft, place=A, field="count", value=2, revision=1, by=other)
    with pytest.raises(RevisionMoved) as moved:
        piece_change(draft=draft, place=A, field="count", value="3", revision=1, by=by)
    told = moved.value
    assert (told.place, told.yours, told.theirs) == (f"{A}/count", 3, 2)
    assert (told.sent, told.revision, told.by) == (1, 2, "Mila Okoro")
    assert value_at(build(draft), f"{A}/count") == 2


@pytest.mark.parametrize("roles", [(), (Role.EDITOR, Role.CARE, Role.STOCK), (Role.MEMBER,)], ids=str)
def test_only_planners_change_drafts(draft, roles):
    with pytest.raises(NotAllowed):
        piece_change(draft=draft, place=A, field="count", value=2, revision=1, by=person("Jo Lindahl", *roles))
    assert Change.objects.count() == 1
