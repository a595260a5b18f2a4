"""Rounding together: within one step, exact ones stay, sums hold, and nothing better exists (all ways are tried)."""

from __future__ import annotations

from itertools import product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from layouts.rounding import Relation, Rounding, nearest_step
from layouts.rounding.effort import Effort
from layouts.rounding.program import solve_program
from layouts.rounding.search import search
from layouts.rounding.system import Choice, Equation, System, cost_of

STEP = 10


@st.composite
def systems(draw: st.DrawFn) -> System:
    """A few choices, and equations that some choice may or may not meet."""
    ways = st.sampled_from([(0, 1), (0, 1), (0, 1), (0,), (1,)])
    choices = tuple(
        Choice((error := draw(st.integers(1, STEP - 1)), STEP - error), draw(st.integers(1, 3)), draw(ways), below % 2)
        for below in draw(st.lists(st.integers(0, 9), min_size=1, max_size=7))
    )
    equations = []
    for _ in range(draw(st.integers(1, 3))):
        which = draw(st.lists(st.integers(0, len(choices) - 1), min_size=1, max_size=5, unique=True))
        terms = tuple((draw(st.sampled_from([1, 1, 2, -1, -1, -3])), choice) for choice in which)
        equations.append(Equation(terms, draw(st.integers(-2, 3))))
    return System(choices, tuple(equations))


def _best_of_all(system: System) -> tuple[int, ...] | None:
    """Every way, tried: the least largest error, then the least sum, then each in order as it prefers."""
    ways = [way for way in product((0, 1), repeat=len(system.choices)) if system.is_met(way)]

    def rank(way: tuple[int, ...]) -> tuple[int, int, list[bool]]:
        errors = [one.errors[option] for one, option in zip(system.choices, way, strict=True)]
        wishes = [option != one.preferred for one, option in zip(system.choices, way, strict=True)]
        return max(errors), cost_of(system.choices, way), wishes

    return min(ways, key=rank, default=None)


@given(systems())
@settings(max_examples=300, deadline=None)
def test_our_own_search_finds_the_best_of_all_ways(system):
    assert search(system, Effort(10**9)) == _best_of_all(system)


@given(systems())
@settings(max_examples=60, deadline=None)
def test_the_solver_finds_the_best_of_all_ways(system):
    assert solve_program(system, Effort(10**9)) == _best_of_all(system)


@st.composite
def figures(draw: st.DrawFn) -> tuple[list[int], list[Relation]]:
    """Parts, and totals of some of them (also twice the same), as a kit has."""
    values = draw(st.lists(st.integers(1, 60), min_size=1, max_size=6))
    relations = []
    for _ in range(draw(st.integers(0, 3))):
        parts = draw(st.lists(st.integers(0, len(values) - 1), min_size=1, max_size=4))
        values.append(sum(values[part] for part in parts))
        relations.append(Relation.sum_of(parts, total=len(values) - 1))
    relations += [
        Relation.equal(values.index(value), at) for at, value in enumerate(values) if values.index(value) < at
    ]
    return values, relations


@given(figures(), st.data())
@settings(max_examples=300, deadline=None)
def test_figures_stay_within_one_step_and_exact_ones_stay(made, data):
    values, relations = made
    lowered = data.draw(st.sets(st.integers(0, len(values) - 1)))
    found = Rounding(values, STEP, relations).rounded(lowered)
    for value, shown in zip(values, found.shown, strict=True):
        assert shown % STEP == 0
        assert abs(shown - value) < STEP
    for number, relation in enumerate(relations):
        assert relation.holds(found.shown) == (number not in found.broken)


@given(figures())
@settings(max_examples=200, deadline=None)
def test_relations_fail_only_where_no_way_keeps_them_all(made):
    """Groups are apart, so all ways of a whole kit need not be tried: only those of what is off the grid."""
    values, relations = made
    found = Rounding(values, STEP, relations).rounded()
    off = [at for at, value in enumerate(values) if value % STEP]
    if not found.broken or len(off) > 10:
        return
    for way in product((0, 1), repeat=len(off)):
        shown = list(values)
        for at, option in zip(off, way, strict=True):
            shown[at] = (values[at] // STEP + option) * STEP
        assert not all(relation.holds(shown) for relation in relations)


@given(figures())
@settings(max_examples=200, deadline=None)
def test_what_is_shown_is_shown_again_as_it_is(made):
    values, relations = made
    found = Rounding(values, STEP, relations).rounded()
    holding = [relation for number, relation in enumerate(relations) if number not in found.broken]
    again = Rounding(found.shown, STEP, holding).rounded()
    assert again.shown == found.shown
    assert again.broken == ()
    assert Rounding(values, STEP, relations).rounded() == found


@given(st.lists(st.integers(1, 60), max_size=6))
def test_without_relations_each_goes_to_the_nearest(values):
    assert list(Rounding(values, STEP, []).rounded().shown) == [nearest_step(value, STEP) for value in values]


def test_a_relation_that_does_not_hold_exactly_is_refused():
    with pytest.raises(ValueError, match="exact values"):
        Rounding([4, 3], STEP, [Relation.equal(0, 1)])
