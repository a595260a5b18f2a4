"""Other sources for pieces that do not come out of the cut-outs that they are to come from."""

from __future__ import annotations

from typing import Any

import pytest

from layouts.cutting import Solver
from layouts.proofing.report import mends_report, numbered_mends
from tests.unit.proofing.mended import check_each, proved
from tests.unit.proofing.small_prints import ONE_WAY, kit_of, paper, piece, project, window

OAK = paper("oak", front=ONE_WAY)
_B = "project:p/piece:B"


@pytest.fixture(scope="module")
def solver():
    with Solver(seconds=600) as running:
        yield running


def _mends(proof, rule, place=_B) -> list[dict[str, Any]]:
    (finding,) = [one for one in proof["findings"] if one["rule"] == rule and one["at"][0] == place]
    mends: list[dict[str, Any]] = finding["mend"]
    return mends


def _told(mends):
    return [[(change["at"], change["to"]) for change in mend["change"]] for mend in mends]


def _guest(id_="B", width="30", height="20", of="small", **more):
    return piece(id_, width, height, **{"from": f"p/A/{of}"}, **more)


def frame(*windows, width="60"):
    return piece("A", width, "80", windows=list(windows))


SMALL = window("small", "10", "10")
LARGE = {**window("large", "40", "40"), "left": "15"}


def test_a_piece_comes_out_of_another_window_or_from_a_sheet_where_its_own_is_too_small(solver):
    kit = kit_of(project(frame(SMALL, LARGE), _guest()), papers=[OAK])
    proof = proved(kit, solver)
    mends = _mends(proof, "cut-out-too-small")
    # Nothing else comes from the small one: it is kept for nobody then.
    thrown = ("project:p/piece:A/window:small/cut_out", "waste")
    assert _told(mends) == [
        [(f"{_B}/from", "p/A/large"), thrown],
        [(f"{_B}/from", None), (f"{_B}/paper", "oak"), thrown],
    ]
    assert [mend["cost"] for mend in mends] == [{"sheets": 0, "cut_outs": 1}, {"sheets": 0, "moved": 1}]
    assert mends[0]["message"] == "Cut B, piece B, out of the window large of A, piece A instead."
    check_each(kit, proof, solver)


def test_a_cut_out_that_was_thrown_away_is_kept(solver):
    kit = kit_of(project(frame({**LARGE, "cut_out": "waste"}, width="90"), _guest(of="large")), papers=[OAK])
    proof = proved(kit, solver)
    mends = _mends(proof, "cut-out-too-small")
    assert _told(mends) == [[("project:p/piece:A/window:large/cut_out", "kept")]]
    check_each(kit, proof, solver)


@pytest.mark.parametrize(
    ("other", "width"),
    [
        pytest.param({**LARGE, "width": "25", "height": "40"}, "90", id="another that is too small as well"),
        pytest.param({**LARGE, "width": "20", "height": "30"}, "90", id="another in no right direction"),
    ],
)
def test_neither_a_window_nor_a_sheet_is_offered_that_does_not_yield_the_piece(solver, other, width):
    kit = kit_of(project(frame(SMALL, other, width=width), _guest()), papers=[OAK])
    assert _mends(proved(kit, solver), "cut-out-too-small") == []


def test_a_cut_out_that_is_too_small_is_kept_for_nobody(solver):
    kit = kit_of(project(frame({**SMALL, "cut_out": "waste"}, width="90"), _guest()), papers=[OAK])
    assert _mends(proved(kit, solver), "cut-out-too-small") == []


def test_of_two_that_one_cut_out_does_not_yield_together_either_goes_elsewhere(solver):
    guests = _guest("B", "30", "30", "large"), _guest("C", "30", "30", "large")
    kit = kit_of(project(frame({**window("other", "12", "32"), "bottom": "45"}, LARGE), *guests), papers=[OAK])
    proof = proved(kit, solver)
    for guest in ("B", "C"):
        place = f"project:p/piece:{guest}"
        assert _told(_mends(proof, "cut-out-overdrawn", place)) == [
            [(f"{place}/from", None), (f"{place}/paper", "oak")]
        ]
    check_each(kit, proof, solver)


def test_they_are_numbered_with_the_others(solver):
    kit = kit_of(project(frame(SMALL, LARGE), _guest()), papers=[OAK])
    proof = proved(kit, solver)
    assert [(one["number"], one["at"], one["kind"]) for one in numbered_mends(proof)] == [
        (1, _B, "mend"),
        (2, _B, "mend"),
    ]
    assert mends_report(kit, proof).splitlines()[0] == (
        "B (piece B) does not come out of its cut-out. Any one of these would do:"
    )
