"""How many kit-like lists are decided within 3 s, by our schedule and by the bare library, side by side in one run.

The bare side is packingsolver alone, asked as its documentation shows: free cuts, anytime mode, all cores, 3 s. Ours
has no clock: an answer that took longer does not count. Only lists on one size of sheet are asked, since a print has
one; `kit_lists.json` says which verdicts are proven, and an answer against one of them ends the run.
"""

from __future__ import annotations

import argparse
import json
import statistics
import time
from collections import Counter
from collections.abc import Sequence
from pathlib import Path
from typing import Any

from layouts.cutting import Item, Problem, Solver, solve

LISTS = Path(__file__).resolve().parents[1] / "reference" / "bench" / "kit_lists.json"
SECONDS = 3.0
SAMPLE = 40

type Case = dict[str, Any]


def main(arguments: Sequence[str] = ()) -> None:
    parser = argparse.ArgumentParser(prog="kit_lists", description=__doc__)
    parser.add_argument("--all", action="store_true", help=f"all lists, not only {SAMPLE} spread over the families")
    parser.add_argument("--ours", action="store_true", help="leave the bare library out")
    options = parser.parse_args(arguments)
    cases = [case for case in json.loads(LISTS.read_text())["cases"] if len(case["sheets"]) == 1]
    if not options.all:
        cases = _spread(cases, SAMPLE)
    ours = [_ours(case) for case in cases]
    bare = [] if options.ours else [_bare(case) for case in cases]
    print(f"kit lists decided within {SECONDS:g} s ({len(cases)} lists)")
    _report("ours", cases, ours)
    if bare:
        _report("bare library", cases, bare)
        decided = [sum(verdict != "unknown" for verdict, _ in answers) for answers in (ours, bare)]
        print(f"  ratio ours / bare: {decided[0] / max(1, decided[1]):.2f}")


def _spread(cases: Sequence[Case], number: int) -> list[Case]:
    """So many lists, taken in turn from the families, the first of each first."""
    seen: Counter[str] = Counter()
    turns = []
    for place, case in enumerate(cases):
        seen[case["family"]] += 1
        turns.append((seen[case["family"]], place))
    return [cases[place] for _, place in sorted(turns)[:number]]


def _ours(case: Case) -> tuple[str, float]:
    ((width, height, sheets),) = case["sheets"]
    items = tuple(
        Item(f"{number}", w, h, copies, True, bool(turns))
        for number, (w, h, copies, turns) in enumerate(case["pieces"])
    )
    started = time.perf_counter()
    with Solver() as solver:  # the child's start counts
        verdict: str = solve(Problem(width, height, sheets, items), solver).verdict
    return _within(case, verdict, time.perf_counter() - started)


def _bare(case: Case) -> tuple[str, float]:
    import packingsolver
    from packingsolver import rectangleguillotine as library

    ((width, height, sheets),) = case["sheets"]
    builder = library.InstanceBuilder()
    builder.set_objective(packingsolver.Objective.BinPacking)
    builder.set_number_of_stages_unlimited()
    builder.add_bin_type(width, height, copies=sheets)
    for w, h, copies, turns in case["pieces"]:
        builder.add_item_type(w, h, copies=copies, oriented=not turns)
    instance = builder.build()
    parameters = library.OptimizeParameters()
    parameters.time_limit = SECONDS
    parameters.verbosity_level = 0
    parameters.messages_to_stdout = False
    started = time.perf_counter()
    try:
        output = library.optimize(instance, parameters)
    except RuntimeError:  # seen for some perfect fills
        return "unknown", time.perf_counter() - started
    elapsed = time.perf_counter() - started
    verdict = "fits" if output.solution.full() else "short" if output.is_proven_infeasible else "unknown"
    # Its time limit is overrun by up to 1.7 s, which is not held against it.
    return _within(case, verdict, min(elapsed, SECONDS))


def _within(case: Case, verdict: str, elapsed: float) -> tuple[str, float]:
    if verdict not in ("unknown", case["verdict"] or verdict):
        raise AssertionError(f"{case['name']} is proven to be {case['verdict']}, not {verdict}")
    return (verdict if elapsed <= SECONDS else "unknown"), elapsed


def _report(name: str, cases: Sequence[Case], answers: Sequence[tuple[str, float]]) -> None:
    decided = Counter(verdict for verdict, _ in answers)
    proven = Counter(case["verdict"] for case in cases)
    times = sorted(elapsed for _, elapsed in answers)
    share = (decided["fits"] + decided["short"]) / len(cases)
    print(
        f"  {name}: {share:.3f} decided; fits {decided['fits']} of {proven['fits']}, short {decided['short']} of "
        f"{proven['short']}; median {statistics.median(times):.3f} s, longest {times[-1]:.2f} s"
    )


if __name__ == "__main__":
    import sys

    main(sys.argv[1:])
