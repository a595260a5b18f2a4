"""Mends that a proof offers, made in a draft: all their values or none."""

from __future__ import annotations

import pytest

from kits.members.models import Role
from kits.planning.documents import build_bytes
from kits.planning.errors import DraftRefused, MendOutdated, NotAllowed, RevisionMoved
from kits.planning.models import Change
from kits.planning.services import mend_apply, piece_change
from layouts.document import Change as Value
from layouts.document import UnknownPlace, read_kit, value_at
from layouts.models import CheckRun
from tests.services.planning_cast import A, drafted, ines, person

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


@pytest.mark.parametrize("role", [Role.EDITOR, Role.CARE, Role.STOCK, Role.MEMBER])
def test_only_a_planner_mends(by, role):
    draft = drafted(by)
    with pytest.raises(NotAllowed):
        mend_apply(draft=draft, changes=[MORE], revision=1, by=person("Noor Haddad", role))
