"""The number of sheets by trying everything: for tiny lists, and without one line of the code it judges.

Every set of pieces is given all the smallest boxes that it fills by cuts from edge to edge, from those of its halves
side by side and one above the other; then the pieces are shared out among sheets.
"""

from __future__ import annotations

from collections.abc import Iterator

from layouts.cutting import Problem

type Boxes = list[tuple[int, int]]


def sheets_needed(problem: Problem) -> int | None:
    """The fewest sheets that give all pieces; None if one of them fits no sheet."""
    slack = problem.slack
    width, height = problem.width + slack, problem.height + slack
    lies = [
        [
            (w + slack, h + slack)
            for w, h, may in ((i.width, i.height, i.upright), (i.height, i.width, i.sideways))
            if may
        ]
        for i in problem.items
        for _ in range(i.copies)
    ]
    boxes: list[Boxes] = [[]]
    for some in range(1, 1 << len(lies)):
        found = set(lies[some.bit_length() - 1]) if some & (some - 1) == 0 else set()
        for half in _with_lowest(some):
            for w, h in boxes[half] if half != some else []:
                for a, b in boxes[some ^ half]:
                    found |= {(w + a, max(h, b)), (max(w, a), h + b)}
        boxes.append(_smallest((w, h) for w, h in found if w <= width and h <= height))
    needed = [0] + [len(lies) + 1] * (len(boxes) - 1)
    for some in range(1, len(boxes)):
        needed[some] = min([needed[some], *(1 + needed[some ^ one] for one in _with_lowest(some) if boxes[one])])
    return needed[-1] if needed[-1] <= len(lies) else None


def _with_lowest(some: int) -> Iterator[int]:
    """The subsets of a set of bits that hold its lowest bit."""
    lowest = some & -some
    rest = some ^ lowest
    part = rest
    while True:
        yield part | lowest
        if not part:
            return
        part = (part - 1) & rest


def _smallest(boxes: Iterator[tuple[int, int]]) -> Boxes:
    kept: Boxes = []
    for w, h in sorted(boxes):
        if not kept or h < kept[-1][1]:
            kept.append((w, h))
    return kept
