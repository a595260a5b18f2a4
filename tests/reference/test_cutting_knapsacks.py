"""Published optima of constrained guillotine knapsacks, asked as cutting problems: the best choice of pieces fits one
sheet, and whatever is worth more does not.

Sources: cgcut1 to cgcut3 are Christofides and Whitlock 1977, W is Wang 1983 (value = area); data from OR-Library, with
the optima of Thomopulos 2016 (the value of W is from memory there), all solved again with an exact best-first solver
(Viswanathan and Bagchi). The choices were found with a knapsack solver: that each adds up to the published optimum and
that a plan for it passes the judge is all that is taken from there. Pieces do not turn.
"""

from __future__ import annotations

import json
from collections.abc import Iterator
from pathlib import Path

import pytest

from layouts.cutting import Problem, Solver, solve
from tests.unit.cutting.plans import faults, problem

DATA = json.loads((Path(__file__).parent / "bench" / "g2kp59.json").read_text())
INSTANCES = {instance["name"]: instance for instance in DATA["instances"]}

# How many copies of each piece, in the order of the instance, make the best choice.
BEST = {
    "cgcut1": (244, [2, 1, 1, 2, 1, 1, 0]),
    "cgcut2": (2892, [1, 1, 1, 2, 2, 2, 1, 2, 1, 0]),
    "cgcut3": (1860, [0] * 13 + [2, 0, 1, 0, 2, 4, 1]),
    "W": (2721, [0, 0, 1, 1, 0, 1, 0, 0, 2, 0, 0, 0, 0, 1, 0, 0, 0, 0, 0, 0]),
}


@pytest.fixture(scope="module")
def solver() -> Iterator[Solver]:
    with Solver(seconds=600) as running:
        yield running


def _asked(name: str, copies: list[int], *, turned_sheet: bool = False) -> Problem:
    instance = INSTANCES[name]
    sides = (instance["W"], instance["H"])
    pieces = [(w, h, number) for (w, h, _, _), number in zip(instance["items"], copies, strict=True) if number]
    return problem(*(sides[::-1] if turned_sheet else sides), 1, pieces)


def _worth(name: str, copies: list[int]) -> int:
    return sum(value * number for (*_, value), number in zip(INSTANCES[name]["items"], copies, strict=True))


@pytest.mark.parametrize("name", BEST)
def test_the_best_choice_is_worth_the_published_optimum(name):
    optimum, copies = BEST[name]
    assert _worth(name, copies) == optimum == INSTANCES[name]["opt_guillotine_oriented"]


@pytest.mark.parametrize("name", BEST)
def test_the_best_choice_is_never_called_short(name, solver):
    asked = _asked(name, BEST[name][1])
    found = solve(asked, solver)
    assert found.verdict != "short"
    assert faults(asked, found.sheets, supply=found.at_most) == ()


@pytest.mark.parametrize("name", ["cgcut1", "cgcut3", "W"])
def test_the_best_choice_fits(name, solver):
    assert solve(_asked(name, BEST[name][1]), solver).verdict == "fits"


def _better() -> Iterator[tuple[str, list[int]]]:
    for name, (_, copies) in BEST.items():
        for kind, (_, _, most, _) in enumerate(INSTANCES[name]["items"]):
            if copies[kind] < most:
                yield name, [number + (n == kind) for n, number in enumerate(copies)]


@pytest.mark.parametrize(
    ("name", "copies"), [pytest.param(*better, id=f"{better[0]}-{better[1]}") for better in _better()]
)
def test_no_piece_goes_with_the_best_choice(name, copies, solver):
    assert _worth(name, copies) > BEST[name][0]
    found = solve(_asked(name, copies), solver)
    assert found.verdict != "fits"
    assert (found.at_most or 2) >= 2


@pytest.mark.parametrize(
    ("name", "optimum"), [pytest.param("cgcut1", 225, id="cgcut1"), pytest.param("cgcut2", 2794, id="cgcut2")]
)
def test_the_best_choice_does_not_fit_the_sheet_turned(name, optimum, solver):
    """Source of the optima of the turned sheets: solved with an exact best-first solver."""
    assert optimum < BEST[name][0]
    assert solve(_asked(name, BEST[name][1], turned_sheet=True), solver).verdict != "fits"
