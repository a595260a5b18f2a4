"""Whether any of five thousand tiny lists is answered wrongly, against trying every way to cut them.

A wrong answer ends the run. Undecided ones are counted; on lists so small there should be none.
"""

from __future__ import annotations

import argparse
from collections import Counter
from collections.abc import Sequence

from layouts.cutting import Solver, solve
from tests.benchmarks.measured import seconds_used
from tests.reference.tiny_lists import tiny_list
from tests.unit.cutting.exact import sheets_needed
from tests.unit.cutting.plans import faults

LISTS = 5_000
# The lists of the tests come first.
FIRST_SEED = 1_000


def main(arguments: Sequence[str] = ()) -> None:
    parser = argparse.ArgumentParser(prog="tiny", description=__doc__)
    parser.add_argument("--lists", type=int, default=LISTS)
    options = parser.parse_args(arguments)
    verdicts: Counter[str] = Counter()
    started = seconds_used()
    with Solver(seconds=3_600) as solver:
        for seed in range(FIRST_SEED, FIRST_SEED + options.lists):
            asked = tiny_list(seed)
            found, needed = solve(asked, solver), sheets_needed(asked)
            right = "fits" if needed is not None and needed <= asked.sheets else "short"
            if found.verdict not in (right, "unknown"):
                raise AssertionError(f"tiny list {seed}: {right}, not {found.verdict}")
            if found.verdict != "short" and faults(asked, found.sheets, supply=found.at_most):
                raise AssertionError(f"tiny list {seed}: {faults(asked, found.sheets, supply=found.at_most)}")
            if needed is not None and not found.at_least <= needed <= (found.at_most or needed):
                raise AssertionError(f"tiny list {seed}: {needed} sheets, not {found.at_least} to {found.at_most}")
            verdicts[found.verdict] += 1
    told = ", ".join(f"{number} {verdict}" for verdict, number in sorted(verdicts.items()))
    print(
        f"tiny lists against trying everything: {options.lists} lists, none wrong ({told}); "
        f"{seconds_used() - started:.0f} s with the trying"
    )


if __name__ == "__main__":
    import sys

    main(sys.argv[1:])
