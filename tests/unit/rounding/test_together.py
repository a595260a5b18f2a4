"""Figures rounded together: which relations give way, what is held down, and what a hostile list costs."""

from __future__ import annotations

import subprocess
import sys
from random import Random

import pytest

from layouts.rounding import Relation, Rounding
from layouts.rounding.effort import Effort, Exhausted
from layouts.rounding.together import MOST_STEPS

STEP = 10


def test_figures_on_the_grid_stay_and_carry_nothing_over():
    # 14 + 20 = 34 and 20 + 16 = 36: what is common to both sums lies on the grid.
    values = [14, 20, 34, 16, 36]
    found = Rounding(values, STEP, [Relation.sum_of([0, 1], total=2), Relation.sum_of([1, 3], total=4)]).rounded()
    assert found.shown == (10, 20, 30, 20, 40)


def test_of_relations_that_contradict_each_other_the_first_listed_is_kept():
    # 25 + 25 = 50 needs one of them below and one above; being equal forbids it.
    values = [25, 25, 50]
    sum_, alike = Relation.sum_of([0, 1], total=2), Relation.equal(0, 1)
    found = Rounding(values, STEP, [sum_, alike]).rounded()
    # The first one is just between and goes to the even multiple.
    assert (found.shown, found.broken) == ((20, 30, 50), (1,))


def test_a_sum_that_cannot_come_out_leaves_others_as_they_are():
    # 3 x 15 = 45 would be 30 or 60 for 40 or 50; 15 + 12 = 27 can hold: 20 + 10 = 30.
    values = [15, 45, 12, 27]
    sums = [Relation.sum_of([0, 0, 0], total=1), Relation.sum_of([0, 2], total=3)]
    found = Rounding(values, STEP, sums).rounded()
    assert found.broken == (0,)
    assert found.shown[0] + found.shown[2] == found.shown[3]


def test_what_is_held_down_is_shown_below_and_its_sum_still_holds():
    values = [18, 19, 37]
    rounding = Rounding(values, STEP, [Relation.sum_of([0, 1], total=2)])
    assert rounding.rounded().shown == (20, 20, 40)
    held = rounding.rounded([0])
    assert (held.shown, held.broken) == ((10, 20, 30), ())
    # Nothing of it stays for who asks next.
    assert rounding.rounded().shown == (20, 20, 40)


def test_a_figure_that_must_not_be_nothing_is_shown_as_one_step():
    assert Rounding([3], STEP, []).rounded().shown == (0,)
    rounding = Rounding([3, 13, 16], STEP, [Relation.sum_of([0, 1], total=2)], positive=[0])
    assert rounding.rounded().shown == (10, 10, 20)
    assert [rounding.may_be_lowered(figure) for figure in range(3)] == [False, True, True]


def test_what_is_not_printed_takes_the_error():
    # 16 + 16 = 32: with the total, 20 + 10 = 30 is off by 6 at most and 20 + 20 = 40 by 8; without it by 4.
    values = [16, 16, 32]
    sum_ = Relation.sum_of([0, 1], total=2)
    assert Rounding(values, STEP, [sum_]).rounded().shown == (20, 10, 30)
    assert Rounding(values, STEP, [sum_], unprinted=[2]).rounded().shown == (20, 20, 40)


def test_figures_that_hang_together_in_too_many_ways_are_rounded_one_by_one_at_a_bounded_cost():
    """Three thousand sums over few values: whatever cannot be decided is left out, and nothing takes for ever."""
    chance = Random(1)
    values = [chance.randint(1, 999) for _ in range(300)]
    relations = []
    for _ in range(3000):
        first, second = chance.sample(range(300), 2)
        values.append(values[first] + 2 * values[second])
        relations.append(Relation.sum_of([first, second, second], total=len(values) - 1))
    found = Rounding(values, STEP, relations).rounded()
    assert all(abs(shown - value) < STEP for shown, value in zip(found.shown, values, strict=True))
    assert {number for number, one in enumerate(relations) if not one.holds(found.shown)} == set(found.broken)


def test_an_effort_is_spent_on_account_of_the_larger_one():
    whole = Effort(10)
    part = Effort(8, whole)
    part.spend(6)
    assert (whole.left, part.left) == (4, 2)
    Effort(9, whole).spend(3)
    assert part.left == 1
    with pytest.raises(Exhausted):
        part.spend(2)
    assert MOST_STEPS > 0


_LARGE = """
import random
from layouts.rounding import Relation, Rounding
chance = random.Random(4)
values, relations = [chance.randint(1, 9999) for _ in range(100)], []
for _ in range(60):
    parts = chance.sample(range(100), 5)
    values.append(sum(values[part] for part in parts))
    relations.append(Relation.sum_of(parts, total=len(values) - 1))
Rounding(values, 100, relations).rounded()
import sys
print("highspy" in sys.modules)
"""


def test_the_solver_says_nothing_and_is_imported_only_where_it_is_asked():
    """Its banner on standard output would be no JSON."""
    asked = subprocess.run([sys.executable, "-c", _LARGE], capture_output=True, text=True, check=True)
    assert (asked.stdout, asked.stderr) == ("True\n", "")
    light = "import sys, layouts.proofing, layouts.printed; print('highspy' in sys.modules, 'numpy' in sys.modules)"
    plain = subprocess.run([sys.executable, "-c", light], capture_output=True, text=True, check=True)
    assert plain.stdout == "False False\n"
