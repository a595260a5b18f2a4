"""Lists with proven verdicts: an answer may be unknown, but it never contradicts one.

Sources: the kit lists are of this project, each verdict proven by two methods or by a checked plan. The one-sheet cases
are Clautiaux, Carlier and Moukrim 2007, with guillotine verdicts proven by a model without a limit on stages (data of
H. Becker's thesis). The pinwheel and the grid of units follow from the definition. The rolls are Chvátal's Linear
Programming, chapter 13, and an open model library, solved over all maximal patterns.
"""

from __future__ import annotations

import json
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from layouts.cutting import Solver, solve
from tests.unit.cutting.plans import cuts_through_waste, faults, problem

BENCH = Path(__file__).parent / "bench"

# Every twelfth list on one size of sheet, every fifth case: the benchmarks take them all.
_LISTS = [case for case in json.loads((BENCH / "kit_lists.json").read_text())["cases"] if len(case["sheets"]) == 1][
    ::12
]
_CASES = json.loads((BENCH / "g2opp_feasibility.json").read_text())["clautiaux42"][::5]


@pytest.fixture(scope="module")
def solver() -> Iterator[Solver]:
    with Solver(seconds=600) as running:
        yield running


@pytest.mark.parametrize("case", [pytest.param(case, id=case["name"]) for case in _LISTS])
def test_kit_lists(case: dict[str, Any], solver: Solver):
    ((width, height, sheets),) = case["sheets"]
    asked = problem(width, height, sheets, case["pieces"])
    found = solve(asked, solver)
    if case["verdict"] is not None:
        assert found.verdict in (case["verdict"], "unknown")
        assert found.at_least <= asked.sheets or case["verdict"] == "short"
    assert found.verdict == "short" or faults(asked, found.sheets, supply=found.at_most) == ()
    assert [cuts_through_waste(sheet) for sheet in found.sheets] == [0] * len(found.sheets)


@pytest.mark.parametrize("turn", [False, True], ids=["upright", "turning"])
@pytest.mark.parametrize("case", [pytest.param(case, id=case["name"]) for case in _CASES])
def test_one_sheet_cases(case: dict[str, Any], turn: bool, solver: Solver):
    asked = problem(case["W"], case["H"], 1, case["items"], turn=turn)
    found = solve(asked, solver)
    proven = "fits" if case["guillotine"]["R" if turn else "O"] == "feasible" else "short"
    assert found.verdict in (proven, "unknown")
    assert found.verdict == "short" or faults(asked, found.sheets, supply=found.at_most) == ()


PINWHEEL = [(2, 1, 2), (1, 2, 2), (1, 1, 1)]


@pytest.mark.parametrize("turn", [False, True], ids=["upright", "turning"])
def test_the_pinwheel_packs_a_sheet_that_it_cannot_be_cut_from(turn, solver):
    found = solve(problem(3, 3, 1, PINWHEEL), solver)
    assert found.verdict != "fits"
    assert found.at_most == 2


def test_the_grid_of_units_is_cut_from_one_sheet(solver):
    found = solve(problem(3, 3, 1, [(1, 1, 9)]), solver)
    assert (found.verdict, found.at_least, found.at_most) == ("fits", 1, 1)


@pytest.mark.parametrize(
    ("width", "rolls", "optimum"),
    [
        pytest.param(100, {45: 97, 36: 610, 31: 395, 14: 211}, 453, id="Chvatal"),
        pytest.param(
            5600,
            {
                1380: 22, 1520: 25, 1560: 12, 1710: 14, 1820: 18, 1880: 18, 1930: 20,
                2000: 10, 2050: 12, 2100: 14, 2140: 16, 2150: 18, 2200: 20,
            },
            73,
            id="thirteen widths",
        ),
    ],
)  # fmt: skip
def test_strips_across_a_sheet_are_rolls(width, rolls, optimum, solver):
    asked = problem(width, 7, optimum, [(w, 7, number) for w, number in rolls.items()])
    found = solve(asked, solver)
    assert found.at_least <= optimum <= (found.at_most or 0)
    assert faults(asked, found.sheets, supply=found.at_most) == ()
