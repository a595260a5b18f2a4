"""`make bench`: speed as ratios within one run. Names of benches may follow; without any, all are run."""

from __future__ import annotations

import importlib
import sys

BENCHES = ("proof", "reproof", "kit_lists", "outside", "class500", "tiny", "recheck", "sheets")


def main() -> None:
    for name in sys.argv[1:] or BENCHES:
        importlib.import_module(f"tests.benchmarks.{name}").main()


if __name__ == "__main__":
    main()
