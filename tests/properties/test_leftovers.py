"""What holds for every plan that is made to leave more use: it is as good a plan, and leaves no less."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from dataclasses import replace

import pytest
from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st

from layouts.cutting import Answer, Item, Problem, Solver, gather_leftovers, solve, taken
from layouts.cutting.usefulness import Usefulness
from tests.unit.cutting.best_leftovers import most_left
from tests.unit.cutting.plans import cuts_through_waste, faults

MANY = settings(max_examples=200, suppress_health_check=[HealthCheck.too_slow, HealthCheck.filter_too_much])

LIES = st.sampled_from([(True, False), (False, True), (True, True)])


@pytest.fixture(scope="module")
def solver() -> Iterator[Solver]:
    with Solver(seconds=3600) as running:
        yield running


@st.composite
def lists(draw: st.DrawFn, pieces: int = 7, side: int = 30, sheets: int = 3) -> Problem:
    """Pieces of any size, some of them several times; paper enough for most."""
    width, height = draw(st.integers(4, side)), draw(st.integers(4, side))
    sizes = draw(
        st.lists(
            st.tuples(st.integers(1, width), st.integers(1, height), LIES, st.integers(1, 3 if pieces > 4 else 1)),
            min_size=1,
            max_size=pieces,
        )
    )
    items = tuple(Item(f"P{n}", w, h, copies, *lie) for n, (w, h, lie, copies) in enumerate(sizes))
    return Problem(width, height, draw(st.integers(1, sheets)), items, draw(st.integers(0, 2)))


def both(asked: Problem, solver: Solver) -> tuple[Answer, Answer]:
    before = solve(asked, solver)
    assume(before.verdict == "fits")
    return before, gather_leftovers(asked, before)


@MANY
@given(lists())
def test_a_plan_stays_one_and_leaves_no_less(solver: Solver, asked: Problem):
    before, after = both(asked, solver)
    assert replace(after, sheets=before.sheets) == before
    assert len(after.sheets) == len(before.sheets)
    assert faults(asked, after.sheets) == ()
    wanted = Counter({item.key: item.copies for item in asked.items})
    assert Counter(what.key for sheet in after.sheets for _, what in taken(sheet)) == wanted
    useful = Usefulness(asked)
    assert useful.plan(after.sheets) >= useful.plan(before.sheets)
    assert sum(map(cuts_through_waste, after.sheets)) == 0


@MANY
@given(lists())
def test_equal_plans_are_made_better_in_one_way(solver: Solver, asked: Problem):
    _, after = both(asked, solver)
    useful = Usefulness(asked)
    again = gather_leftovers(asked, after)
    assert useful.plan(again.sheets) >= useful.plan(after.sheets)
    assert gather_leftovers(asked, both(asked, solver)[0]) == after


@MANY
@given(lists(pieces=4, side=7, sheets=1))
def test_no_full_strip_is_worth_more_than_what_is_left(solver: Solver, asked: Problem):
    _, after = both(asked, solver)
    useful = Usefulness(asked)
    left = useful.plan(after.sheets)
    assert left >= max(useful.offcut(*strip) for strip in _strips(asked))
    most = most_left(asked, useful.offcut)
    assert most is not None
    assert left <= most


def _strips(asked: Problem) -> Iterator[tuple[int, int]]:
    """The full strips that can be cut off while the rest of the sheet still gives everything, by trying every cut."""
    yield 0, 0
    for width in range(1, asked.width - asked.slack):
        if most_left(replace(asked, width=asked.width - asked.slack - width), lambda w, h: 0) is not None:
            yield width, asked.height
    for height in range(1, asked.height - asked.slack):
        if most_left(replace(asked, height=asked.height - asked.slack - height), lambda w, h: 0) is not None:
            yield asked.width, height
