"""How many one-sheet cases from outside are decided: fits or not, cut from edge to edge, upright and turning.

Sources: Clautiaux, Carlier and Moukrim 2007 (42 cases), Hopper and Turton 2001 (categories 1 to 7, of which the first
three by default). Guillotine verdicts are those proven in the data of H. Becker's thesis; an answer against one of them
ends the run.
"""

from __future__ import annotations

import argparse
import json
import statistics
import time
from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import Any

from layouts.cutting import Item, Problem, Solver, solve

CASES = Path(__file__).resolve().parents[1] / "reference" / "bench" / "g2opp_feasibility.json"
SECONDS = {"clautiaux42": 5.0, "hopper_turton_2001_C": 10.0}
SMALL = ("c1", "c2", "c3")

type Case = dict[str, Any]


def main(arguments: Sequence[str] = ()) -> None:
    parser = argparse.ArgumentParser(prog="one_sheet", description=__doc__)
    parser.add_argument("--all", action="store_true", help="the large cases of Hopper and Turton as well")
    options = parser.parse_args(arguments)
    data = json.loads(CASES.read_text())
    for name, seconds in SECONDS.items():
        cases = [
            case for case in data[name] if options.all or name != "hopper_turton_2001_C" or case["name"][:2] in SMALL
        ]
        times = [taken for case in cases for taken in _times(case)]
        decided = [taken for taken in times if taken is not None and taken <= seconds]
        print(
            f"{name}: {len(decided)} of {len(times)} decided within {seconds:g} s; median "
            f"{statistics.median(decided):.2f} s"
        )


def _times(case: Case) -> Iterator[float | None]:
    """What each of the two questions takes; None where it stays open."""
    for letter, turns in (("O", False), ("R", True)):
        items = tuple(
            Item(f"{number}", width, height, copies, True, turns)
            for number, (width, height, copies) in enumerate(case["items"])
        )
        started = time.perf_counter()
        with Solver() as solver:  # the child's start counts
            verdict = solve(Problem(case["W"], case["H"], 1, items), solver).verdict
        elapsed = time.perf_counter() - started
        proven = {"feasible": "fits", "infeasible": "short"}.get(case["guillotine"].get(letter), verdict)
        if verdict not in ("unknown", proven):
            raise AssertionError(f"{case['name']} {letter} is proven to be {proven}, not {verdict}")
        yield None if verdict == "unknown" else elapsed


if __name__ == "__main__":
    import sys

    main(sys.argv[1:])
