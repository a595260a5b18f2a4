"""Documents for checks in the background, in canonical form."""

from __future__ import annotations

import json
from functools import cache
from typing import Any

from layouts.document import canonical_bytes, read_kit

__all__ = ["HARD", "document", "small"]

# Fourteen pieces in mm that no quick rule places on one sheet of 305 x 305 mm, or keeps off it: together they are 0.970
# of it. The solver is asked, and is at it for half a second.
HARD = [
    (128, 69), (117, 73), (25, 53), (85, 82), (71, 120), (126, 58), (81, 65),
    (94, 47), (84, 37), (56, 37), (116, 32), (99, 122), (52, 88), (110, 123),
]  # fmt: skip


def small(width: int = 50) -> bytes:
    """A kit of one piece, so many mm wide."""
    return document({"leaf": (1, [(width, 40)])})


def document(papers: dict[str, tuple[int, list[tuple[int, int]]]]) -> bytes:
    """A kit with one project: of each paper so many sheets of 305 x 305 mm, and the pieces (mm) cut from it."""
    value: dict[str, Any] = {
        "format": "kitproof/1",
        "code": "2027-04",
        "title": "The Tide Table",
        "unit": "mm",
        "papers": [
            {"id": name, "name": name, "size": ["305", "305"], "sheets": sheets, "front": {"name": "front"}}
            for name, (sheets, _) in papers.items()
        ],
        "projects": [
            {
                "id": "box",
                "title": "Box",
                "pieces": [
                    {"id": f"{name}-{at}", "name": f"{name} {at}", "paper": name, "size": [str(width), str(height)]}
                    for name, (_, pieces) in papers.items()
                    for at, (width, height) in enumerate(pieces)
                ],
            }
        ],
    }
    return _canonical(json.dumps(value))


@cache
def _canonical(text: str) -> bytes:
    return canonical_bytes(read_kit(text.encode()))
