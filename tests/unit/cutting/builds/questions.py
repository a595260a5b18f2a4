"""What the tests of builds share: questions in a line, and plans read back."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from typing import Any

from layouts.cutting.builds.asked import Asked
from layouts.cutting.builds.deciding import decide

__all__ = ["asked", "decided", "faults", "question"]

type Pieces = Sequence[tuple[int, int, int, bool]]
type Sheets = Sequence[tuple[int, int, int]]


def question(sheets: Sheets, pieces: Pieces, stage: str = "first", steps: int = 10**9) -> dict[str, Any]:
    return {"sheets": sheets, "kinds": pieces, "stage": stage, "steps": steps}


def asked(sheets: Sheets, pieces: Pieces) -> Asked:
    return Asked.from_data(question(sheets, pieces))


def decided(sheets: Sheets, pieces: Pieces, stage: str = "first", steps: int = 10**9) -> dict[str, Any]:
    return decide(question(sheets, pieces, stage, steps))


def faults(sheets: Sheets, pieces: Pieces, plan: Sequence[Any]) -> list[str]:
    """What is wrong with a plan: boxes larger than their sheets, sheets too many, other pieces or other lies."""
    found: list[str] = []
    used: Counter[int] = Counter()
    cut: Counter[int] = Counter()
    for size, tree in plan:
        used[size] += 1
        width, height = _box(tree, pieces, cut, found)
        if width > sheets[size][0] or height > sheets[size][1]:
            found.append(f"{width} by {height} on a sheet of {sheets[size][:2]}")
    found += [f"{number} sheets of size {size}" for size, number in used.items() if number > sheets[size][2]]
    if cut != {kind: piece[2] for kind, piece in enumerate(pieces)}:
        found.append(f"pieces {dict(cut)}")
    return found


def _box(tree: Any, pieces: Pieces, cut: Counter[int], found: list[str]) -> tuple[int, int]:
    if isinstance(tree[0], int):
        kind, width, height = tree
        cut[kind] += 1
        own_width, own_height, _, turns = pieces[kind]
        if (width, height) != (own_width, own_height) and not (turns and (height, width) == (own_width, own_height)):
            found.append(f"kind {kind} cut {width} by {height}")
        return width, height
    along, first, second = tree
    (a, b), (c, d) = _box(first, pieces, cut, found), _box(second, pieces, cut, found)
    return (a + c, max(b, d)) if along == "x" else (max(a, c), b + d)
