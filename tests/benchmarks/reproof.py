"""A proof after one edit over the whole proof, in one run. The goal is at most 0.1.

The kit has six prints with tight lists, taken from the kit-like lists of the reference data: enough that cutting is
most of the work, as in a month that is nearly full. Answers for prints are kept by the key of their part, as the checks
in the background keep them; one edit makes one print's answer new.
"""

from __future__ import annotations

import json
import statistics
import time
from collections.abc import Callable
from pathlib import Path
from typing import Any

from layouts.cutting import Solver
from layouts.document import Kit, read_kit_tree
from layouts.proofing import PrintAnswer, print_parts, prove, prove_print

__all__ = ["main", "tight_kit"]

LISTS = Path(__file__).resolve().parents[1] / "reference" / "bench" / "kit_lists.json"
PRINTS = 6
PAIRS = 5
GOAL = "0.10"


def main() -> None:
    tree = tight_kit()
    before, after = read_kit_tree(tree), read_kit_tree(_edited(tree))
    pairs = []
    for _ in range(PAIRS):
        kept: dict[str, PrintAnswer] = {}
        whole = _seconds(lambda: _proved(before, kept))  # noqa: B023  (called at once)
        again = _seconds(lambda: _proved(after, kept))  # noqa: B023
        pairs.append((again, whole))
    ratios = sorted(again / whole for again, whole in pairs)
    again, whole = (statistics.median(pair[side] for pair in pairs) for side in (0, 1))
    print(f"proof after one edit over the whole proof ({PRINTS} tight prints, {PAIRS} pairs, goal {GOAL})")
    print(
        f"  ratio {statistics.median(ratios):.2f} (from {ratios[0]:.2f} to {ratios[-1]:.2f}); "
        f"whole {whole:.3f} s, after one edit {again:.3f} s"
    )


def _proved(kit: Kit, kept: dict[str, PrintAnswer]) -> dict[str, Any]:
    answers = []
    for part in print_parts(kit):
        if part.key not in kept:
            with Solver() as solver:
                kept[part.key] = prove_print(part, solver)
        answers.append(kept[part.key])
    return prove(kit, answers)


def tight_kit() -> dict[str, Any]:
    """Six lists on one size of sheet that are not decided at a glance, a project each; units are 1/16 in."""
    lists = [case for case in json.loads(LISTS.read_text())["cases"] if case["family"] in ("L95", "S96", "B97")]
    chosen = [case for case in lists if len(case["sheets"]) == 1][:PRINTS]
    papers, projects = [], []
    for number, case in enumerate(chosen):
        width, height, sheets = case["sheets"][0]
        front = {"name": f"Print {number}", "repeat": "one-way"}
        size = [f"{width}/16", f"{height}/16"]
        papers.append({"id": f"p{number}", "name": f"Print {number}", "size": size, "sheets": sheets, "front": front})
        pieces = [
            {
                "id": f"A{at}",
                "name": "piece",
                "paper": f"p{number}",
                "size": [f"{wide}/16", f"{high}/16"],
                "count": copies,
                "print_reads": "any" if turns else "up",
            }
            for at, (wide, high, copies, turns) in enumerate(case["pieces"])
        ]
        projects.append({"id": f"project-{number}", "title": f"Project {number}", "pieces": pieces})
    head = {"format": "kitproof/1", "code": "tight", "title": "A month nearly full", "unit": "in"}
    return {**head, "papers": papers, "projects": projects}


def _edited(tree: dict[str, Any]) -> dict[str, Any]:
    """The same kit with the first piece 1/16 in narrower."""
    edited: dict[str, Any] = json.loads(json.dumps(tree))
    piece = edited["projects"][0]["pieces"][0]
    width = int(piece["size"][0].removesuffix("/16"))
    piece["size"][0] = f"{width - 1}/16"
    return edited


def _seconds(what: Callable[[], object]) -> float:
    started = time.perf_counter()
    what()
    return time.perf_counter() - started
