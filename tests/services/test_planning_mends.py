"""Mends that a proof offers, made in a draft: all their values or none."""

from __future__ import annotations

import pytest

from kits.members.models import Role
from kits.planning.documents import build_bytes
from kits.planning.errors import DraftRefused, MendOutdated, NotAllowed, RevisionMoved
from kits.planning.models import Change, Piece, Placement
from kits.planning.services import draft_undo, kit_create, mend_apply, piece_change
from layouts.cutting import Solver
from layouts.document import Change as Value
from layouts.document import UnknownPlace, canonical_bytes, read_kit, value_at
from layouts.models import CheckRun
from tests.properties.test_mends import small_kit
from tests.services.planning_cast import A, drafted, ines, person
from tests.unit.proofing.mended import ideas, mends, proved, taken

pytestmark = pytest.mark.django_db

MORE = Value("paper:slate/sheets", 2, 3)
SMALLER = Value(f"{A}/size/height", "4", "3 7/8")


@pytest.fixture
def by():
    return ines()


def test_a_mend_changes_all_its_values_in_one_revision_and_has_the_kit_checked(by):
    draft = mend_apply(draft=drafted(by), changes=[MORE, SMALLER], revision=1, by=by)
    kit = read_kit(build_bytes(draft))
    assert value_at(kit, "paper:slate/sheets") == 3
    assert value_at(kit, f"{A}/size/height").text("in") == "3 7/8"
    assert draft.revision == 2
    change = Change.objects.get(revision=2)
    assert (change.what, change.place, change.by) == ("mended", "paper:slate/sheets", by)
    assert change.before == [{"at": "paper:slate/sheets", "value": 2}, {"at": f"{A}/size/height", "value": "4"}]
    assert change.after == [{"at": "paper:slate/sheets", "value": 3}, {"at": f"{A}/size/height", "value": "3 7/8"}]
    assert CheckRun.objects.get(revision=2).document.encode() == build_bytes(draft)


@pytest.mark.parametrize(
    ("changes", "error"),
    [
        pytest.param([MORE, Value(f"{A}/size/height", "5", "4")], MendOutdated, id="worked out for another size"),
        pytest.param([MORE, Value("project:box/piece:Z/count", 1, 2)], UnknownPlace, id="a piece that is gone"),
        pytest.param([MORE, Value(f"{A}/paper", "kelp", "moss")], DraftRefused, id="no valid document"),
        pytest.param([MORE, Value(A, None, {"id": "A"})], MendOutdated, id="a new piece that is there already"),
        pytest.param([MORE, Value(f"{A}-2", None, {"id": "A-2"})], DraftRefused, id="half a piece"),
    ],
)
def test_a_mend_that_cannot_be_made_whole_changes_nothing(by, changes, error):
    draft = drafted(by)
    before = build_bytes(draft)
    with pytest.raises(error):
        mend_apply(draft=draft, changes=changes, revision=1, by=by)
    draft.refresh_from_db()
    assert (build_bytes(draft), draft.revision) == (before, 1)


def test_a_mend_is_made_on_the_revision_that_was_seen(by):
    draft = drafted(by)
    piece_change(draft=draft, place=A, field="count", value=2, revision=1, by=by)
    with pytest.raises(RevisionMoved) as moved:
        mend_apply(draft=draft, changes=[MORE], revision=1, by=by)
    assert (moved.value.place, moved.value.yours, moved.value.theirs) == ("paper:slate/sheets", 3, 2)


PART = {"id": "A-2", "name": "front, rest", "paper": "slate", "size": ["2", "4"]}
# The front is parted: the rest of it is a new piece with a window and a placement of its own, between those there are.
PARTED = [
    Value(f"{A}/size/width", "6", "4"),
    Value(f"{A}-2", None, {**PART, "windows": [{"id": "eye", "left": "1/4", "width": "1", "top": "1", "height": "1"}]}),
    Value(
        "project:box/placement:A-2",
        None,
        {"id": "A-2", "put": {"piece": "A-2"}, "on": {"blank": "lid", "face": "top"}, "border": {"top": "1/8"}},
        "A",
    ),
    Value("project:box/placement:A/left", None, "0"),
    Value(f"{A}/window:peep", None, {"id": "peep", "left": "1/4", "right": "3 1/4", "top": "1/8", "height": "1/4"}),
    Value("project:box/step:cut/cut", ["A", "B", "lid"], ["A", "A-2", "B", "lid"]),
]


def test_a_mend_adds_things_where_they_belong_and_is_taken_back_to_the_same_bytes(by):
    draft = drafted(by)
    before, rows = build_bytes(draft), _numbers(draft)
    draft = mend_apply(draft=draft, changes=PARTED, revision=1, by=by)
    kit = read_kit(build_bytes(draft))
    project = kit.projects[0]
    assert [piece.id for piece in project.pieces] == ["A", "B", "A-2"]
    assert [placement.id for placement in project.placements] == ["A", "A-2", "shell", "rear"]
    assert [window.id for window in project.pieces[0].windows] == ["pane", "peep"]
    assert [window.id for window in project.pieces[2].windows] == ["eye"]
    assert project.steps[0].cut == ("A", "A-2", "B", "lid")
    assert rows.items() <= _numbers(draft).items()
    back = draft_undo(draft=draft, revision=2, by=by)
    assert build_bytes(back) == before
    assert _numbers(back) == rows


def _numbers(draft) -> dict[str, int]:
    """The row of each piece and placement: what else refers to it must find it again."""
    pieces = {f"piece {row.ident} {row.project_id}": row.pk for row in Piece.objects.filter(project__draft=draft)}
    placements = {f"placement {row.ident}": row.pk for row in Placement.objects.filter(project__draft=draft)}
    return pieces | placements


def test_a_piece_goes_from_its_paper_to_a_cut_out_and_back(by):
    draft = drafted(by)
    before = build_bytes(draft)
    place = "project:box/piece:B"
    changes = [Value(f"{place}/from", None, "box/A/pane"), Value(f"{place}/paper", "slate", None)]
    draft = mend_apply(draft=draft, changes=changes, revision=1, by=by)
    assert read_kit(build_bytes(draft)).projects[0].pieces[1].from_ == "box/A/pane"
    assert build_bytes(draft_undo(draft=draft, revision=2, by=by)) == before


@pytest.mark.parametrize("seed", [19, 53, 110, 136])
def test_whatever_a_proof_offers_is_made_in_a_draft_and_taken_back(by, seed):
    kit = small_kit(seed)
    draft = kit_create(document=canonical_bytes(kit), by=by)
    before = build_bytes(draft)
    assert before == canonical_bytes(kit)
    with Solver(seconds=600) as solver:
        proof = proved(kit, solver)
    offered = [*mends(proof), *ideas(proof)]
    assert len(offered) > 1
    for one in offered:
        changes = [Value.of(change) for change in one["change"]]
        draft = mend_apply(draft=draft, changes=changes, revision=draft.revision, by=by)
        assert build_bytes(draft) == canonical_bytes(taken(kit, one))
        draft = draft_undo(draft=draft, revision=draft.revision, by=by)
        assert build_bytes(draft) == before


@pytest.mark.parametrize("role", [Role.EDITOR, Role.CARE, Role.STOCK, Role.MEMBER])
def test_only_a_planner_mends(by, role):
    draft = drafted(by)
    with pytest.raises(NotAllowed):
        mend_apply(draft=draft, changes=[MORE], revision=1, by=person("Noor Haddad", role))
