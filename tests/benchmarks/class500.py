"""How many sheets five hundred instances take, upright and turning, and for how many that is proven to be the fewest.

Two-dimensional bin packing of Berkey and Wang 1987 and of Lodi, Martello and Vigo 1999, cut from edge to edge. Each is
asked with more sheets than it can need, so that a plan is there at once and what counts is how few it takes; the
schedule then asks a few quick questions more and has no clock, so the seconds are told beside. By default every tenth
instance, the seventh of each ten, is asked; `--all` asks them all. The optima proven in the data of H. Becker's thesis
are held against every answer; one that contradicts them ends the run. The goals are sums of 7265 upright and 7005
turning over all five hundred, and a proof for 78 of a hundred; beside a sample stands what packingsolver's best setting
(three stages, 1 s) took for the same instances.
"""

from __future__ import annotations

import argparse
import json
from collections.abc import Sequence
from pathlib import Path
from typing import Any

from tests.benchmarks.measured import in_words, measured
from tests.unit.cutting.plans import faults, problem

DATA = Path(__file__).resolve().parents[1] / "reference" / "bench"
FIRST, EVERY = 6, 10
LETTERS = (("O", "upright", False, 7265), ("R", "turning", True, 7005))
SECONDS = 1.0

type Instance = dict[str, Any]


def main(arguments: Sequence[str] = ()) -> None:
    parser = argparse.ArgumentParser(prog="class500", description=__doc__)
    parser.add_argument("--all", action="store_true", help="all five hundred, not every tenth")
    parser.add_argument("--first", type=int, default=FIRST, help=f"where to begin to take every {EVERY}th")
    options = parser.parse_args(arguments)
    instances: list[Instance] = _read("class500.json")["instances"]
    optima, others = (_read(name)["values"] for name in ("class500_becker_guillotine.json", "class500_reference.json"))
    chosen = instances if options.all else instances[options.first :: EVERY]
    print(f"class instances: {len(chosen)} of {len(instances)}")
    for letter, name, turns, goal in LETTERS:
        sheets, proven, bare, taken = 0, 0, 0, list[float]()
        for instance in chosen:
            low, high, seconds = _asked(instance, optima[instance["name"]][letter], turns=turns)
            sheets, proven = sheets + high, proven + (low == high)
            bare += others[instance["name"]][letter]["packingsolver_3stage_1s"]
            taken.append(seconds)
        quick = sum(seconds <= SECONDS for seconds in taken)
        beside = f"goal {goal}" if options.all else f"packingsolver {bare}"
        print(
            f"  {name}: {sheets} sheets ({beside}), proven the fewest for {proven} of {len(chosen)} "
            f"({proven / len(chosen):.2f}, goal 0.78); {quick} within {SECONDS:g} s, {in_words(taken)}"
        )


def _read(name: str) -> dict[str, Any]:
    data: dict[str, Any] = json.loads((DATA / name).read_text())
    return data


def _asked(instance: Instance, optimum: dict[str, Any], *, turns: bool) -> tuple[int, int, float]:
    """The fewest sheets that are possible as far as is known, those of the plan, and the seconds it took."""
    asked = problem(
        instance["W"], instance["H"], sum(item[2] for item in instance["items"]), instance["items"], turn=turns
    )
    found = measured(asked)
    low, high = found.answer.at_least, found.answer.at_most
    if high is None or faults(asked, found.answer.sheets, supply=high):
        raise AssertionError(f"{instance['name']}: no plan, or one that is none")
    if not low <= optimum.get("opt", low) or not optimum.get("opt", high) <= high:
        raise AssertionError(f"{instance['name']}: {optimum['opt']} is proven, not {low} to {high}")
    return low, high, found.seconds


if __name__ == "__main__":
    import sys

    main(sys.argv[1:])
