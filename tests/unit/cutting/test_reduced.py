from __future__ import annotations

import pytest

from layouts.cutting import Item, Problem
from layouts.cutting.reduced import Kind, reduced
from tests.unit.cutting.plans import problem

IN = 8128


def test_ticks_become_the_largest_unit_that_all_pieces_share():
    # 2 7/8 and 4 1/2 in are 23/8 and 36/8: the unit is an eighth, and 8 in are 64 of them; the longest row of the two
    # sides is 36 + 23 = 59.
    small = reduced(problem(8 * IN, 8 * IN, 1, [(23 * IN // 8, 36 * IN // 8, 2)], turn=True))
    assert small is not None
    assert (small.unit_x, small.unit_y) == (IN // 8, IN // 8)
    assert (small.width, small.height) == (59, 59)
    assert small.kinds == (Kind(23, 36, 2, True),)


def test_each_axis_has_its_own_unit_where_nothing_turns():
    small = reduced(problem(100, 100, 1, [(6, 35, 1), (9, 70, 1)]))
    assert small is not None
    assert (small.unit_x, small.unit_y) == (3, 35)
    assert (small.width, small.height) == (5, 2)


def test_one_turning_piece_ties_the_units_of_both_axes():
    # Along x stand 6s and a 12, along y a 4 as well: what turns must be whole on both.
    small = reduced(problem(100, 100, 1, [(6, 12, 1, True), (6, 4, 1)]))
    assert small is not None
    assert (small.unit_x, small.unit_y) == (2, 2)


def test_slack_grows_pieces_and_sheet():
    # Three strips of 9 with 1 lost between them need 9 + 1 + 9 + 1 + 9 = 29.
    small = reduced(problem(29, 5, 1, [(9, 5, 3)], slack=1))
    assert small is not None
    assert (small.width, small.height) == (3, 1)
    short = reduced(problem(28, 5, 1, [(9, 5, 3)], slack=1))
    assert short is not None
    assert short.width == 2


def test_the_sheet_shrinks_to_what_the_pieces_can_fill():
    # Rows of 30s and one 26 within 64: 60, not 64 or 56.
    small = reduced(problem(64, 64, 1, [(30, 30, 3), (26, 26, 1)]))
    assert small is not None
    assert (small.width * small.unit_x, small.height * small.unit_y) == (60, 60)


def test_a_row_holds_no_more_copies_than_there_are():
    small = reduced(problem(100, 100, 1, [(20, 10, 2)]))
    assert small is not None
    assert (small.width * small.unit_x, small.height * small.unit_y) == (40, 20)


def test_a_turn_that_the_sheet_forbids_is_no_turn():
    small = reduced(problem(100, 50, 1, [(80, 40, 1)], turn=True))
    assert small is not None
    assert [kind.turns for kind in small.kinds] == [False]


def test_a_square_does_not_turn():
    small = reduced(problem(100, 50, 1, [(40, 40, 1)], turn=True))
    assert small is not None
    assert [kind.turns for kind in small.kinds] == [False]


def test_pieces_that_nobody_can_tell_apart_are_one_kind():
    items = (Item("B", 20, 30, 2, True, True), Item("A", 30, 20, 1, True, True), Item("C", 30, 20, 4, True, False))
    small = reduced(Problem(200, 200, 1, items))
    assert small is not None
    assert sorted((kind.copies, kind.turns) for kind in small.kinds) == [(3, True), (4, False)]
    together = next(items for kind, items in zip(small.kinds, small.items, strict=True) if kind.turns)
    assert [item.key for item in together] == ["A", "B"]


@pytest.mark.parametrize(
    "asked",
    [
        pytest.param(problem(10, 10, 1, [(11, 1, 1)]), id="too wide"),
        pytest.param(problem(10, 10, 1, [(1, 11, 1)], turn=True), id="too long in both lies"),
        pytest.param(Problem(20, 10, 1, (Item("A", 20, 10, 1, False, True),)), id="right size, wrong lie"),
        pytest.param(problem(0, 10, 1, [(1, 1, 1)]), id="no usable paper"),
    ],
)
def test_a_piece_that_no_sheet_can_give_is_no_problem_to_search(asked):
    assert reduced(asked) is None


def test_an_exact_fit_needs_no_slack_around_it():
    assert reduced(problem(10, 10, 1, [(10, 10, 1)], slack=3)) is not None
