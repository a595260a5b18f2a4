"""Tiny lists against trying everything: no answer is wrong. `make bench NAMES=tiny` tries five thousand of them."""

from __future__ import annotations

from collections import Counter

import pytest

from layouts.cutting import Solver, solve
from tests.reference.tiny_lists import tiny_list
from tests.unit.cutting.exact import sheets_needed
from tests.unit.cutting.plans import faults

HUNDREDS = [pytest.param(range(n, n + 100), id=f"{n} to {n + 99}") for n in range(0, 400, 100)]


@pytest.mark.parametrize("seeds", HUNDREDS)
def test_no_tiny_list_is_answered_wrongly(seeds):
    verdicts: Counter[str] = Counter()
    with Solver(seconds=600) as solver:
        for seed in seeds:
            asked = tiny_list(seed)
            found, needed = solve(asked, solver), sheets_needed(asked)
            fits = needed is not None and needed <= asked.sheets
            assert found.verdict == ("fits" if fits else "short"), seed
            assert needed is None or found.at_least <= needed <= (found.at_most or needed), seed
            assert found.verdict == "short" or faults(asked, found.sheets) == (), seed
            verdicts[found.verdict] += 1
    assert min(verdicts["fits"], verdicts["short"]) >= 20
