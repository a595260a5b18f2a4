from __future__ import annotations

import pytest

from layouts.cutting.bounds import Bound, area, better, clique, dual
from layouts.cutting.reduced import Reduced, reduced
from tests.unit.cutting.plans import problem


def _small(asked) -> Reduced:
    small = reduced(asked)
    assert small is not None
    return small


@pytest.mark.parametrize(
    ("asked", "sheets"),
    [
        pytest.param(problem(10, 10, 1, [(5, 5, 4)]), 1, id="exactly one sheet"),
        pytest.param(problem(10, 10, 1, [(5, 5, 5)]), 2, id="a little more"),
        pytest.param(problem(10, 10, 1, [(1, 1, 101)]), 2, id="many small ones"),
        # With a slack of 1 a piece takes 6 x 6 of 11 x 11: 121 / 36 = 3.4 a sheet.
        pytest.param(problem(10, 10, 1, [(5, 5, 4)], slack=1), 2, id="slack counts"),
    ],
)
def test_area(asked, sheets):
    assert area(asked) == Bound(sheets, "area")


@pytest.mark.parametrize(
    ("asked", "sheets"),
    [
        pytest.param(problem(10, 10, 1, [(6, 6, 3)]), 3, id="beyond the half both ways"),
        pytest.param(problem(10, 10, 1, [(6, 5, 3)]), 1, id="two go one above the other"),
        # 7 x 4 and 4 x 7 go in no lies beside or above each other in 10 x 10 if neither turns: 7 + 4 > 10.
        pytest.param(problem(10, 10, 1, [(7, 4, 1), (4, 7, 1)]), 2, id="a pair that crosses"),
        pytest.param(problem(10, 10, 1, [(7, 4, 1), (4, 7, 1)], turn=True), 1, id="the pair turned"),
        pytest.param(problem(10, 10, 1, [(9, 9, 2), (2, 2, 1)]), 3, id="a small piece beside no large one"),
    ],
)
def test_pieces_of_which_no_two_share_a_sheet(asked, sheets):
    assert clique(_small(asked)) == Bound(sheets, "bound")


@pytest.mark.parametrize(
    ("asked", "sheets"),
    [
        # 10 x 10 holds two by two 4 x 4s (a row of three needs 12): four a sheet, ten need three. By area 160 of 100.
        pytest.param(problem(10, 10, 1, [(4, 4, 10)]), 3, id="thirds both ways"),
        # Strips of 6 x 3 lie three high and one wide: ten need four sheets; by area 180 of 100.
        pytest.param(problem(10, 10, 1, [(6, 3, 10)]), 4, id="halves and thirds"),
        # Turned, rows of 6s and 3s still reach no further than 9 of 10: 180 of 81 a sheet.
        pytest.param(problem(10, 10, 1, [(6, 3, 10)], turn=True), 3, id="turning pieces count with the cheaper lie"),
    ],
)
def test_dual_feasible_functions_see_what_area_does_not(asked, sheets):
    assert area(asked).at_least < sheets
    assert dual(_small(asked), enough=99) == Bound(sheets, "bound")


def test_dual_bounds_stop_where_no_more_is_needed():
    assert dual(_small(problem(10, 10, 1, [(4, 4, 100)])), enough=3).at_least >= 3


@pytest.mark.parametrize(
    ("first", "second", "kept"),
    [
        pytest.param(Bound(2, "area"), Bound(3, "bound"), "bound", id="stronger"),
        pytest.param(Bound(2, "area"), Bound(2, "bound"), "area", id="the simpler proof of two equal ones"),
        pytest.param(Bound(2, "area"), Bound(1, "bound"), "area", id="weaker"),
    ],
)
def test_the_stronger_bound_is_kept(first, second, kept):
    assert better(first, second).by == kept
