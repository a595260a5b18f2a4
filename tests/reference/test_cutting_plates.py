"""The worth of plates against published optima of unconstrained guillotine cutting (every price is an area).

Sources: gcut instances of Beasley 1985; optima published on the results page of Cintra (IME-USP) and computed again
by dynamic programming over all cuts; with turning pieces computed only. H is Herz 1972, its optima from memory and
computed again.
"""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from layouts.cutting.builds.asked import Asked, Stock
from layouts.cutting.builds.grid import Grid
from layouts.cutting.builds.worth import best_pattern, plate_worths
from layouts.cutting.reduced import reduced
from tests.unit.cutting.plans import problem

DATA = json.loads((Path(__file__).parent / "bench" / "gcut_unconstrained.json").read_text())
GCUT = {instance["name"]: instance for instance in DATA["instances"]}
HERZ = (127, 98, [(21, 13), (36, 17), (54, 20), (24, 27), (18, 65)])

OPTIMA = [
    pytest.param("gcut1", False, 56460, id="gcut1"),
    pytest.param("gcut1", True, 58136, id="gcut1 turning"),
    pytest.param("gcut2", False, 60536, id="gcut2"),
    pytest.param("gcut2", True, 60611, id="gcut2 turning"),
    pytest.param("gcut5", False, 246000, id="gcut5"),
    pytest.param("gcut5", True, 246000, id="gcut5 turning"),
    pytest.param("H", False, 12348, id="H"),
    pytest.param("H", True, 12387, id="H turning"),
]


@pytest.mark.parametrize(("name", "turn", "optimum"), OPTIMA)
def test_the_worth_of_a_sheet_by_area(name, turn, optimum):
    if name == "H":
        width, height, pieces = HERZ
    else:
        width, height = GCUT[name]["W"], GCUT[name]["H"]
        pieces = [(w, h) for w, h, _ in GCUT[name]["items"]]
    # More copies of each than a sheet can hold: none of them is a limit.
    many = [(w, h, (width // min(w, h) + 1) * (height // min(w, h) + 1)) for w, h in pieces]
    small = reduced(problem(width, height, 1, many, turn=turn))
    assert small is not None
    asked = Asked((Stock(small.width, small.height, 1),), small.kinds)
    grid = Grid.of(asked)
    areas = [kind.width * kind.height for kind in small.kinds]
    worth = plate_worths(grid, asked, areas)
    (end,) = grid.ends
    assert worth[end] * small.unit_x * small.unit_y == optimum
    pattern = best_pattern(grid, asked, areas, worth, end)
    assert sum(area * number for area, number in zip(areas, pattern, strict=True)) == worth[end]
