"""How many proofs that a list is short are found to be proofs when they are checked again, by other code.

All lists of `kit_lists.json` that are proven short are asked of the builds; prices are added up again in whole numbers
on the same lines, and exhausted searches are run again on every whole length, with one price a kind and without leaving
a build out for a smaller one. A proof that is none ends the run; some searches are too long for plain Python.
"""

from __future__ import annotations

import argparse
import json
from collections import Counter
from collections.abc import Sequence
from pathlib import Path
from typing import Any

from layouts.cutting.builds.deciding import decide
from layouts.cutting.built import STEPS
from layouts.cutting.recheck import is_proof
from tests.benchmarks.measured import seconds_used

LISTS = Path(__file__).resolve().parents[1] / "reference" / "bench" / "kit_lists.json"
MOST_PAIRS = 40_000_000


def main(arguments: Sequence[str] = ()) -> None:
    parser = argparse.ArgumentParser(prog="recheck", description=__doc__)
    parser.add_argument("--most", type=int, default=MOST_PAIRS, help="pairs of builds that one search may look at")
    options = parser.parse_args(arguments)
    cases: list[dict[str, Any]] = json.loads(LISTS.read_text())["cases"]
    short = [case for case in cases if case["verdict"] == "short"]
    told: Counter[tuple[str | None, bool | None]] = Counter()
    started = seconds_used()
    for case in short:
        question = {"sheets": case["sheets"], "kinds": case["pieces"], "steps": STEPS}
        answer = next(
            (found for stage in ("first", "whole", "other") if (found := decide(question | {"stage": stage}))["by"]),
            {"by": None},
        )
        if answer["by"] is None:
            told[None, None] += 1
            continue
        is_one = is_proof(question, answer, options.most)
        if is_one is False:
            raise AssertionError(f"{case['name']}: what was given as a proof by {answer['by']} is none")
        told[answer["by"], is_one] += 1
    seconds = seconds_used() - started
    print(f"proofs that a list is short, checked again: {len(short)} lists, {seconds:.0f} s")
    for by in ("prices", "exhausted", "too-big"):
        again, too_long = told[by, True], told[by, None]
        note = f", {too_long} too long to be run again" if too_long else ""
        print(f"  {by}: {again} of {again + too_long} are proofs{note}")
    if told[None, None]:
        print(f"  not decided by builds: {told[None, None]}")


if __name__ == "__main__":
    import sys

    main(sys.argv[1:])
