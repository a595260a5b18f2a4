"""What is already drawn, and whether words still have room beside it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from itertools import pairwise

from layouts.drawing.svg import Box

__all__ = ["Crowd", "Point", "Stroke", "crosses", "encloses", "strokes_along"]

type Point = tuple[int, int]
type Stroke = tuple[Point, Point]


class Crowd:
    """The boxes and lines of a drawing. Looking at all of them is cheap: drawings are bounded."""

    def __init__(self, strokes: Iterable[Stroke] = (), boxes: Iterable[Box] = ()) -> None:
        self._strokes = list(strokes)
        self._boxes = list(boxes)

    @property
    def size(self) -> int:
        """How many boxes and lines are looked at to find out whether a place is free."""
        return len(self._strokes) + len(self._boxes)

    def is_free(self, box: Box, gap: int = 0, except_for: Stroke | None = None) -> bool:
        """Whether a box, with a gap around it, meets nothing that is drawn but the line that is its own."""
        wide = Box(box.x - gap, box.y - gap, box.width + 2 * gap, box.height + 2 * gap)
        return not any(wide.overlaps(other) for other in self._boxes) and not any(
            crosses(wide, *stroke) for stroke in self._strokes if stroke != except_for
        )

    def add(self, box: Box) -> None:
        self._boxes.append(box)

    def draw(self, start: Point, end: Point) -> None:
        self._strokes.append((start, end))


def crosses(box: Box, start: Point, end: Point) -> bool:
    """Whether a line from one point to another runs through a box; one along its edge does not.

    >>> box = Box(0, 0, 10, 10)
    >>> crosses(box, (-5, 5), (15, 5)), crosses(box, (-5, 10), (15, 10)), crosses(box, (-3, 8), (3, 14))
    (True, False, False)
    """
    (x1, y1), (x2, y2) = start, end
    left, bottom, right, top = box.x, box.y, box.x + box.width, box.y + box.height
    if max(x1, x2) <= left or min(x1, x2) >= right or max(y1, y2) <= bottom or min(y1, y2) >= top:
        return False
    corners = ((left, bottom), (right, bottom), (right, top), (left, top))
    sides = [(x2 - x1) * (y - y1) - (y2 - y1) * (x - x1) for x, y in corners]
    return min(sides) < 0 < max(sides)


def strokes_along(corners: Sequence[Point]) -> Iterator[Stroke]:
    """Yield the sides of a closed line."""
    return pairwise([*corners, *corners[:1]])


def encloses(corners: Sequence[Point], box: Box) -> bool:
    """Whether the middle of a box lies inside a closed line: all of the box does, if no side crosses it.

    >>> encloses([(0, 0), (10, 0), (0, 10)], Box(1, 1, 2, 2)), encloses([(0, 0), (10, 0), (0, 10)], Box(7, 7, 2, 2))
    (True, False)
    """
    x, y = 2 * box.x + box.width, 2 * box.y + box.height
    inside = False
    for (x1, y1), (x2, y2) in strokes_along(corners):
        if (2 * y1 > y) != (2 * y2 > y):
            # Whether the side passes to the right of the middle, at its height.
            side = (x2 - x1) * (y - 2 * y1) - (y2 - y1) * (x - 2 * x1)
            inside ^= (side > 0) == (y2 > y1)
    return inside
