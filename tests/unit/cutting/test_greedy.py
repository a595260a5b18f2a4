from __future__ import annotations

from collections import Counter

import pytest

from layouts.cutting import greedy
from layouts.cutting.greedy import greedy_plan
from layouts.cutting.reduced import Reduced, reduced
from layouts.cutting.regions import regions
from layouts.cutting.rough import laid
from layouts.cutting.shelves import shelf_plans
from tests.unit.cutting.plans import cuts_through_waste, faults, problem

IN = 8128


def _small(asked) -> Reduced:
    small = reduced(asked)
    assert small is not None
    return small


@pytest.mark.parametrize(
    ("asked", "sheets"),
    [
        pytest.param(problem(10, 10, 1, [(5, 5, 4)]), 1, id="a grid"),
        pytest.param(problem(10, 10, 1, [(10, 10, 3)]), 3, id="whole sheets"),
        pytest.param(problem(8, 8, 1, [(5, 3, 4), (2, 2, 1)], turn=True), 2, id="the pinwheel cannot be cut"),
        pytest.param(problem(64, 64, 2, [(23, 36, 2), (41, 64, 2), (23, 28, 2)]), 2, id="two sheets filled"),
        pytest.param(problem(8 * IN, 8 * IN, 1, [(IN, 2 * IN, 320)], turn=True), 10, id="320 strips, 32 a sheet"),
    ],
)
def test_easy_lists_are_planned_at_once(asked, sheets):
    assert len(greedy_plan(_small(asked), enough=1, alone=False)) == sheets


TEN_THOUSAND = [
    pytest.param(problem(8 * IN, 8 * IN, 1, [(IN, 2 * IN, 10_000)], turn=True), 313, id="equal"),
    pytest.param(problem(8 * IN, 8 * IN, 1, [(5 * IN, 5 * IN, 10_000)]), 10_000, id="one a sheet"),
    pytest.param(problem(10_000, 64, 1, [(1, 64, 10_000)]), 1, id="strips of one sheet"),
    pytest.param(problem(640, 640, 1, [(5 + n % 61, 3 + n % 47, 1) for n in range(10_000)]), None, id="all different"),
]


@pytest.mark.parametrize(("asked", "sheets"), TEN_THOUSAND)
def test_ten_thousand_pieces_are_planned_in_bounded_steps(asked, sheets):
    small = _small(asked)
    plan = greedy_plan(small, enough=1, alone=True)
    assert sheets is None or len(plan) == sheets
    pieces = Counter(piece.kind for sheet in plan for piece in laid(sheet))
    assert pieces == {number: kind.copies for number, kind in enumerate(small.kinds)}


def test_a_recipe_that_runs_out_of_steps_leaves_the_plans_before_it(monkeypatch):
    asked = problem(64, 64, 2, [(23, 36, 2), (41, 64, 2), (23, 28, 2)])
    monkeypatch.setattr(greedy, "STEPS", 0)
    plan = greedy_plan(_small(asked), enough=1, alone=False)
    assert faults(asked, regions(asked, _small(asked), plan), supply=len(plan)) == ()


LISTS = [
    pytest.param(problem(100, 80, 1, [(30, 20, 5), (45, 17, 3), (8, 60, 4)]), id="upright"),
    pytest.param(problem(100, 80, 1, [(30, 20, 5), (45, 17, 3), (8, 60, 4)], turn=True), id="turning"),
    pytest.param(problem(100, 80, 1, [(30, 20, 5), (45, 17, 3), (8, 60, 4)], turn=True, slack=3), id="with slack"),
]


@pytest.mark.parametrize("asked", LISTS)
def test_every_recipe_makes_a_plan_that_can_be_cut(asked):
    small = _small(asked)
    steps = greedy._Steps(10**6)
    for plan in [*shelf_plans(small), *(greedy._filled(small, recipe, steps, 99) for recipe in greedy.RECIPES)]:
        assert plan is not None
        sheets = regions(asked, small, plan)
        assert faults(asked, sheets, supply=len(plan)) == ()
        assert [cuts_through_waste(sheet) for sheet in sheets] == [0] * len(sheets)


@pytest.mark.parametrize("asked", LISTS)
def test_a_recipe_gives_up_only_where_it_would_take_more_sheets(asked):
    small = _small(asked)
    for recipe in greedy.RECIPES:
        plan = greedy._filled(small, recipe, greedy._Steps(10**6), 99)
        assert plan is not None
        assert greedy._filled(small, recipe, greedy._Steps(10**6), len(plan)) == plan
        assert greedy._filled(small, recipe, greedy._Steps(10**6), len(plan) - 1) is None


def test_shelves_lie_along_either_axis():
    # Four pieces of 5 x 9 in 20 x 10: one shelf along x; along y each shelf of 9 takes one more row of paper.
    plans = list(shelf_plans(_small(problem(20, 10, 1, [(5, 9, 4)]))))
    assert [len(plan) for plan in plans] == [1, 1, 1, 1]
