"""The errors of planning travel between processes, and say with their numbers what happened."""

from __future__ import annotations

import pickle
from datetime import UTC, datetime

import pytest

from kits.planning.errors import (
    CodeKnown,
    DraftRefused,
    FieldError,
    NameTaken,
    NotAllowed,
    NothingToUndo,
    OtherKit,
    OthersChange,
    RenameUnclear,
    RevisionMoved,
)

NOON = datetime(2027, 4, 1, 12, tzinfo=UTC)
COUNT = "project:box/piece:A/count"


@pytest.mark.parametrize(
    ("error", "said"),
    [
        pytest.param(RevisionMoved(COUNT, 3, 2, 5, 6, "Mila", NOON), ["Mila", "5", "6"], id="moved"),
        pytest.param(RevisionMoved(COUNT, 3, 2, 5, 6), ["Somebody"], id="moved by nobody known"),
        pytest.param(
            DraftRefused((FieldError("count", "out-of-range", "too many", "/x"),)), ["too many"], id="refused"
        ),
        pytest.param(RenameUnclear("project:box/step:cut", "{Z}", "Z"), ["{Z}", "project:box/step:cut"], id="unclear"),
        pytest.param(CodeKnown("2027-05", "The Tide Table", 4), ["2027-05", "The Tide Table"], id="known"),
        pytest.param(OtherKit("2027-05", "2027-06"), ["2027-05", "2027-06"], id="other kit"),
        pytest.param(OthersChange(COUNT, 1, 2, "Mila", NOON), ["Mila"], id="another's change"),
        pytest.param(NameTaken("the lid of May"), ["the lid of May"], id="name taken"),
        pytest.param(NothingToUndo("no change is left"), ["no change is left"], id="nothing to undo"),
        pytest.param(NotAllowed("only planners"), ["only planners"], id="not allowed"),
    ],
)
def test_an_error_comes_out_of_a_parcel_as_it_went_in(error, said):
    again = pickle.loads(pickle.dumps(error))
    assert type(again) is type(error)
    assert vars(again) == vars(error)
    assert again.message == error.message
    assert all(word in error.message for word in said)
