"""What leftovers are worth; every number is worked out by hand: area x area x shorter side x (1 + pieces that fit)."""

from __future__ import annotations

import pytest

from layouts.cutting import Cut, Item, Offcut, Problem, Region, Taken
from layouts.cutting.usefulness import Usefulness
from tests.unit.cutting.plans import problem

# 3 x 4, upright only; 9 x 2, either way.
TWO = Problem(12, 12, 1, (Item("A", 3, 4, 5, True, False), Item("B", 9, 2, 1, True, True)))


@pytest.mark.parametrize(
    ("width", "height", "worth"),
    [
        pytest.param(2, 3, 36 * 2, id="nothing fits"),
        pytest.param(3, 4, 144 * 3 * 2, id="A fits to a hair"),
        pytest.param(4, 3, 144 * 3, id="A may not turn"),
        pytest.param(2, 9, 324 * 2 * 2, id="B may"),
        pytest.param(9, 4, 1296 * 4 * 3, id="either of them"),
        pytest.param(7, 8, 3136 * 7 * 2, id="copies of A count once"),
        pytest.param(0, 5, 0, id="no width"),
        pytest.param(5, -1, 0, id="lost to a cut"),
    ],
)
def test_an_offcut(width, height, worth):
    assert Usefulness(TWO).offcut(width, height) == worth


@pytest.mark.parametrize(
    ("better", "worse"),
    [
        pytest.param([(6, 2)], [(3, 2), (3, 2)], id="one strip rather than two of half the length"),
        pytest.param([(5, 5)], [(5, 4), (5, 1)], id="one rectangle rather than most of it and a sliver"),
        pytest.param([(4, 4)], [(16, 1)], id="a square rather than a strip of equal area"),
        pytest.param([(6, 6), (1, 1)], [(6, 4), (6, 2)], id="much and little rather than some and some"),
        pytest.param([(12, 5)], [(12, 4), (3, 4)], id="a large rectangle rather than two that are less together"),
    ],
)
def test_what_serves_more(better, worse):
    useful = Usefulness(problem(20, 20, 1, [(20, 20, 1)]))
    assert sum(useful.offcut(*one) for one in better) > sum(useful.offcut(*one) for one in worse)


def test_a_piece_once_more_is_worth_more_than_a_longer_strip():
    # Five of 13 x 10 (quarter inches and eighths) on 32 x 32: two columns leave 6 x 32 and 13 x 12, which gives a
    # sixth; standing beside two lying stacks they leave 9 x 32 and next to nothing else.
    useful = Usefulness(problem(32, 32, 1, [(13, 10, 5)]))
    assert useful.offcut(6, 32) + useful.offcut(13, 12) > useful.offcut(9, 32)


def test_a_plan_counts_as_all_its_offcuts():
    pieces = (Region(0, 0, 3, 4, Taken("A", False)), Region(3, 0, 9, 4, Offcut()))
    sheet = Region(0, 0, 12, 12, Cut("y", 4, (Region(0, 0, 12, 4, Cut("x", 3, pieces)), Region(0, 4, 12, 8, Offcut()))))
    assert Usefulness(TWO).plan([sheet, sheet]) == 2 * (1296 * 4 * 3 + 9216 * 8 * 3)


@pytest.mark.parametrize("area", [0, 1, 7, 12, 18, 60, 144])
def test_no_offcuts_are_worth_more_than_the_bound_of_their_area(area):
    useful = Usefulness(TWO)
    sizes = [(width, height) for width in range(1, 13) for height in range(1, 13)]
    small = [one for one in sizes if one[0] * one[1] <= area]
    assert all(useful.offcut(*one) <= useful.bound(area) for one in small)
    pairs = ((one, other) for one in small for other in small if one[0] * one[1] + other[0] * other[1] <= area)
    assert all(useful.offcut(*one) + useful.offcut(*other) <= useful.bound(area) for one, other in pairs)
