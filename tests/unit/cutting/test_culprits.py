from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from layouts.cutting import Problem, Solver
from layouts.cutting.culprits import Culprits, find_culprits
from tests.unit.cutting.exact import sheets_needed
from tests.unit.cutting.plans import problem


@pytest.fixture(scope="module")
def solver() -> Iterator[Solver]:
    with Solver(seconds=600) as running:
        yield running


@pytest.mark.parametrize(
    ("asked", "found"),
    [
        pytest.param(
            problem(10, 10, 2, [(11, 2, 3), (1, 1, 5)]), Culprits((("P00", 1),), "too-big", True), id="one too big"
        ),
        pytest.param(
            problem(10, 10, 2, [(6, 6, 4), (3, 3, 4), (1, 9, 1)]),
            Culprits((("P00", 3),), "apart", True),
            id="three of which no two share a sheet, and nothing else",
        ),
        pytest.param(
            problem(10, 10, 1, [(5, 5, 3), (5, 4, 1), (2, 3, 1)]),
            Culprits((("P00", 3), ("P01", 1), ("P02", 1)), "area", True),
            id="all of them are needed to be too much: 75 + 20 + 6",
        ),
        pytest.param(
            problem(3, 3, 1, [(2, 1, 2), (1, 2, 2)]),
            Culprits((("P00", 2), ("P01", 2)), "cuts", True),
            id="the pinwheel's bars, without its middle",
        ),
        pytest.param(problem(10, 10, 1, [(5, 5, 4)]), None, id="a list that fits"),
        pytest.param(problem(10, 10, 0, [(5, 5, 4)]), Culprits((("P00", 1),), "area", True), id="no sheets at all"),
    ],
)
def test_a_smallest_set_that_does_not_fit(asked, found, solver):
    assert find_culprits(asked, solver) == found


LISTS = st.lists(
    st.tuples(st.integers(1, 8), st.integers(1, 8), st.integers(1, 2), st.booleans()), max_size=4, min_size=1
)


@settings(max_examples=60, suppress_health_check=[HealthCheck.too_slow], deadline=None)
@given(LISTS, st.integers(4, 9), st.integers(1, 2))
def test_culprits_are_short_and_without_any_one_of_them_are_not(solver, pieces, side, sheets):
    asked = problem(side, side, sheets, pieces)
    found = find_culprits(asked, solver)
    assert (found is None) == _fits(asked)
    if found is not None:
        rest = _only(asked, dict(found.copies))
        assert not _fits(rest)
        for key, _ in found.copies:
            assert _fits(_only(asked, {**dict(found.copies), key: dict(found.copies)[key] - 1}))


def test_no_more_lists_are_judged_than_is_allowed(solver, monkeypatch):
    monkeypatch.setattr("layouts.cutting.culprits.MOST_TRIES", 3)
    found = find_culprits(problem(10, 10, 2, [(6, 6, 4), (3, 3, 4), (1, 9, 1)]), solver)
    assert found is not None
    assert not found.is_smallest
    assert dict(found.copies)["P00"] >= 3


def _only(asked: Problem, copies: dict[str, int]) -> Problem:
    items = (replace(item, copies=copies[item.key]) for item in asked.items if copies.get(item.key))
    return replace(asked, items=tuple(items))


def _fits(asked: Problem) -> bool:
    needed = sheets_needed(asked)
    return needed is not None and needed <= asked.sheets
