"""A whole proof in one call, its prints side by side."""

from __future__ import annotations

import os
from concurrent.futures import ThreadPoolExecutor
from typing import Any

from layouts.cutting import Solver
from layouts.document import Kit
from layouts.proofing.plans import PrintAnswer
from layouts.proofing.prints import PrintPart, print_parts
from layouts.proofing.runner import prove, prove_print

__all__ = ["prove_at_once"]


def prove_at_once(kit: Kit) -> dict[str, Any]:
    """Return the proof of a kit. Each print has a solver's child of its own, as many at a time as there are cores.

    Raises: what `prove_print` raises.
    """
    with ThreadPoolExecutor(max_workers=len(os.sched_getaffinity(0))) as pool:
        return prove(kit, list(pool.map(_answer, print_parts(kit))))


def _answer(part: PrintPart) -> PrintAnswer:
    with Solver() as solver:
        return prove_print(part, solver)
