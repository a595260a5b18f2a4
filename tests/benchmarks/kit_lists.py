"""How many kit-like lists are decided within 3 s of one core, by size; and how many the bare library decides.

The 390 lists of `kit_lists.json` with their proven verdicts, and as many as wanted that are in no file (`made_lists`):
those fit by the way they were made, or nobody knows, and then the bare library is asked. An answer against a proven
verdict, a plan, or the library's own ends the run. An answer that took longer than 3 s does not count.

The bare side is packingsolver alone, asked as its documentation shows: free cuts, anytime mode, all cores, 3 s by the
clock, on a sample spread over the families. Lists on several sizes of sheet are asked of the builds alone, since a
print has one size.
"""

from __future__ import annotations

import argparse
import json
from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from layouts.cutting import Item, Problem, Solver
from layouts.cutting.built import STEPS
from tests.benchmarks.measured import in_words, largest_child, measured, seconds_used
from tests.reference.made_lists import made_list
from tests.unit.cutting.plans import faults

LISTS = Path(__file__).resolve().parents[1] / "reference" / "bench" / "kit_lists.json"
SECONDS = 3.0
LONG = 36
BARE_SAMPLE, MADE = 24, 100
PROOFS = {"plan": "fits", "too-big": "short", "prices": "short", "exhausted": "short", None: "unknown"}

type Case = dict[str, Any]


@dataclass(frozen=True, slots=True)
class _Told:
    """A list by name, its pieces, what it was decided to be, and the processor seconds that it took."""

    name: str
    pieces: int
    verdict: str
    seconds: float

    @property
    def is_decided(self) -> bool:
        return self.verdict != "unknown" and self.seconds <= SECONDS


def main(arguments: Sequence[str] = ()) -> None:
    parser = argparse.ArgumentParser(prog="kit_lists", description=__doc__)
    parser.add_argument("--ours", action="store_true", help="leave the bare library out")
    parser.add_argument("--bare", type=int, default=BARE_SAMPLE, help="how many lists it is asked")
    parser.add_argument("--made", type=int, default=MADE, help="how many lists that are in no file")
    options = parser.parse_args(arguments)
    cases: list[Case] = json.loads(LISTS.read_text())["cases"]
    print(f"kit lists decided within {SECONDS:g} s of one core")
    ours = [_ours(case) for case in cases]
    _report(f"up to {LONG - 1} pieces", [told for told in ours if told.pieces < LONG])
    _report(f"{LONG} pieces and more", [told for told in ours if told.pieces >= LONG])
    made = list(_made(options.made, ask_library=not options.ours))
    if made:
        _report("made by chance, in no file", made)
    print(f"  the largest child held {largest_child()} MiB")
    if not options.ours:
        sample = _spread([case for case in cases if len(case["sheets"]) == 1], options.bare)
        names = {case["name"] for case in sample}
        bare = sum(_bare(case) != "unknown" for case in sample)
        mine = sum(told.is_decided for told in ours if told.name in names)
        print(f"  of {len(sample)} spread over the families: ours {mine}, bare library {bare}, ratio {mine / bare:.2f}")


def _ours(case: Case) -> _Told:
    pieces = sum(copies for _, _, copies, _ in case["pieces"])
    if len(case["sheets"]) > 1:
        verdict, seconds = _by_builds(case)
    else:
        asked = _problem(case)
        found = measured(asked)
        verdict, seconds = found.answer.verdict, found.seconds
        if verdict != "short" and faults(asked, found.answer.sheets, supply=found.answer.at_most):
            raise AssertionError(f"{case['name']}: the plan is none")
    if verdict not in ("unknown", case["verdict"] or verdict):
        raise AssertionError(f"{case['name']} is proven to be {case['verdict']}, not {verdict}")
    return _Told(case["name"], pieces, verdict, seconds)


def _problem(case: Case) -> Problem:
    ((width, height, sheets),) = case["sheets"]
    items = tuple(
        Item(f"P{number:02}", w, h, copies, True, bool(turns))
        for number, (w, h, copies, turns) in enumerate(case["pieces"])
    )
    return Problem(width, height, sheets, items)


def _by_builds(case: Case) -> tuple[str, float]:
    started, by = seconds_used(), None
    with Solver(seconds=3_600) as solver:
        for stage in ("first", "wide", "other"):
            question = {"task": "builds", "sheets": case["sheets"], "kinds": case["pieces"]}
            by = solver.ask(question | {"stage": stage, "steps": STEPS})["by"]
            if by is not None:
                break
    return PROOFS[by], seconds_used() - started


def _made(number: int, *, ask_library: bool) -> Iterator[_Told]:
    """Lists that are in no file, held against how they were made, or against what the library says."""
    for seed in range(number):
        asked, fits = made_list(seed)
        found = measured(asked)
        verdict = found.answer.verdict
        if verdict == "short" and fits:
            raise AssertionError(f"made list {seed} fits, and is called short")
        if verdict != "short" and faults(asked, found.answer.sheets, supply=found.answer.at_most):
            raise AssertionError(f"made list {seed}: the plan is none")
        if verdict == "short" and ask_library and _asked_of_library(asked) == "fits":
            raise AssertionError(f"made list {seed} is called short, and the library has a plan")
        yield _Told(f"made {seed}", asked.copies, verdict, found.seconds)


def _spread(cases: Sequence[Case], number: int) -> list[Case]:
    """So many lists, taken in turn from the families, the first of each first."""
    seen: Counter[str] = Counter()
    turns = []
    for place, case in enumerate(cases):
        seen[case["family"]] += 1
        turns.append((seen[case["family"]], place))
    return [cases[place] for _, place in sorted(turns)[:number]]


def _bare(case: Case) -> str:
    verdict = _asked_of_library(_problem(case))
    if verdict not in ("unknown", case["verdict"] or verdict):
        raise AssertionError(f"{case['name']} is proven to be {case['verdict']}, the library says {verdict}")
    return verdict


def _asked_of_library(asked: Problem) -> str:
    """Its time limit is overrun by up to 1.7 s, which is not held against it."""
    import packingsolver
    from packingsolver import rectangleguillotine as library

    builder = library.InstanceBuilder()
    builder.set_objective(packingsolver.Objective.BinPacking)
    builder.set_number_of_stages_unlimited()
    builder.add_bin_type(asked.width, asked.height, copies=asked.sheets)
    for item in asked.items:
        builder.add_item_type(item.width, item.height, copies=item.copies, oriented=not item.sideways)
    instance = builder.build()
    parameters = library.OptimizeParameters()
    parameters.time_limit = SECONDS
    parameters.verbosity_level = 0
    parameters.messages_to_stdout = False
    try:
        output = library.optimize(instance, parameters)
    except RuntimeError:  # seen for some perfect fills
        return "unknown"
    return "fits" if output.solution.full() else "short" if output.is_proven_infeasible else "unknown"


def _report(name: str, told: Sequence[_Told]) -> None:
    decided = Counter(one.verdict for one in told if one.is_decided)
    open_ = [one.name for one in told if not one.is_decided]
    print(
        f"  {name}: {sum(decided.values())} of {len(told)} (fits {decided['fits']}, short {decided['short']}); "
        f"{in_words([one.seconds for one in told])}{'; not decided: ' if open_ else ''}{', '.join(open_)}"
    )


if __name__ == "__main__":
    import sys

    main(sys.argv[1:])
