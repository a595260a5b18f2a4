"""A kit whose prints nobody has decided yet: the solver works on each of them for a good while."""

from __future__ import annotations

import json
from typing import Any

__all__ = ["hard_kit"]

# 48 pieces on three sheets of 128 x 128 sixteenths of an inch: the list BIG_3 of tests/reference/bench/kit_lists.json.
HARD = [
    *((58, 7, 1), (57, 16, 1), (56, 11, 2), (42, 39, 2), (35, 23, 2), (32, 26, 8), (18, 99, 8), (17, 25, 8)),
    *((16, 84, 2), (13, 40, 4), (13, 18, 2), (12, 100, 6), (12, 60, 2)),
]


def hard_kit(papers: int) -> bytes:
    """Return a document with this list on each of so many papers, which all read up: no piece may turn."""

    def paper(number: int) -> dict[str, Any]:
        front = {"name": "F", "reads": "up", "repeat": "one-way"}
        return {"id": f"paper-{number}", "name": "P", "size": ["8", "8"], "sheets": 3, "front": front}

    pieces = [
        {"id": f"A{at}-{on}", "name": "A", "paper": f"paper-{on}", "size": [f"{w}/16", f"{h}/16"], "count": count}
        for on in range(papers)
        for at, (w, h, count) in enumerate(HARD)
    ]
    kit = {"format": "kitproof/1", "code": "hard", "title": "Hard", "unit": "in"}
    project = {"id": "p", "title": "P", "pieces": pieces}
    return json.dumps(kit | {"papers": [paper(n) for n in range(papers)], "projects": [project]}).encode()
