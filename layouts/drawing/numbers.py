"""Where the numbers of cuts stand, so that each can be read and belongs to its line."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from layouts.cutting.sequence import CutStep
from layouts.drawing.svg import Box

__all__ = ["Bubble", "number_spots"]

type Spot = tuple[int, int]

# How many numbers may stand outside of a sheet one beyond the other.
_BEYOND = 4


@dataclass(frozen=True, slots=True)
class Bubble:
    """The number of a cut in its circle (ticks), and the line from one end of the cut to the other or to the circle.

    `leader` leads from the cut to a number far off.
    """

    number: int
    x: int
    y: int
    line: tuple[Spot, Spot]
    leader: tuple[Spot, Spot] | None = None


def number_spots(cuts: Sequence[CutStep], sheet: Box, written: Iterable[Box], *, radius: int) -> list[Bubble]:
    """Return the numbers of cuts, each at the first of its spots that is free.

    A number stands outside of the sheet where its cut ends at an edge, else on its line, else just beyond its end. A
    line that went on to a number far off would look like a longer cut: where none of these is free, the number stands
    outside all the same, and a leader of another kind of line goes there.
    `written` is what it must leave readable; where it cannot, it still hides no other number, if that can be.
    """
    crowd = _Crowd(written, radius)
    return [_bubble(cut, sheet, crowd, radius) for cut in cuts]


def _bubble(cut: CutStep, sheet: Box, crowd: _Crowd, radius: int) -> Bubble:
    line = first, last = _ends(cut)
    spots = list(_spots(cut, sheet, radius))
    free = crowd.free(spots)
    if free is None and (far := crowd.free(list(_far_off(cut, sheet, radius)))) is not None:
        crowd.stand(*far)
        return Bubble(cut.number, *far, line, (min(line, key=lambda end: _apart(end, far)), far))
    x, y = free or crowd.best(spots)
    crowd.stand(x, y)
    if _is_outside((x, y), sheet):
        near = min(line, key=lambda end: _apart(end, (x, y)))
        line = ((x, y), last if near == first else first)
    return Bubble(cut.number, x, y, line)


def _ends(cut: CutStep) -> tuple[Spot, Spot]:
    """The ends of a cut, the lower or the right one first: there its number is looked for."""
    part = cut.part
    if cut.along == "x":
        return (cut.at, part.y), (cut.at, part.y + part.height)
    return (part.x + part.width, cut.at), (part.x, cut.at)


def _spots(cut: CutStep, sheet: Box, radius: int) -> Iterator[Spot]:
    (x1, y1), (x2, y2) = _ends(cut)
    step_x, step_y = (x2 > x1) - (x2 < x1), (y2 > y1) - (y2 < y1)
    beyond = [(x1 - step_x * radius, y1 - step_y * radius), (x2 + step_x * radius, y2 + step_y * radius)]
    ways = [(-step_x, -step_y), (step_x, step_y)]
    at_edge = [_is_at_edge(end, sheet) for end in ((x1, y1), (x2, y2))]
    outside = [(spot, way) for spot, way, edge in zip(beyond, ways, at_edge, strict=True) if edge]
    for further in range(_BEYOND):
        for (x, y), (way_x, way_y) in outside:
            yield x + 2 * further * radius * way_x, y + 2 * further * radius * way_y
    for way in range(radius, cut.length, radius // 2 or 1):
        yield x1 + step_x * way, y1 + step_y * way
    yield from (spot for spot, edge in zip(beyond, at_edge, strict=True) if not edge)
    yield (x1 + x2) // 2, (y1 + y2) // 2


def _far_off(cut: CutStep, sheet: Box, radius: int) -> Iterator[Spot]:
    """Outside of the sheet, straight on from the ends of a cut within, the nearer edge first."""
    if cut.along == "x":
        below, above = cut.part.y - sheet.y, sheet.y + sheet.height - cut.part.y - cut.part.height
        edges = [(below, sheet.y, -1), (above, sheet.y + sheet.height, 1)]
    else:
        left, right = cut.part.x - sheet.x, sheet.x + sheet.width - cut.part.x - cut.part.width
        edges = [(right, sheet.x + sheet.width, 1), (left, sheet.x, -1)]
    for further in range(_BEYOND):
        for _, edge, way in sorted(edges, key=lambda one: one[0]):
            at = edge + way * (2 * further + 1) * radius
            yield (cut.at, at) if cut.along == "x" else (at, cut.at)


def _is_at_edge(spot: Spot, sheet: Box) -> bool:
    x, y = spot
    return x in (sheet.x, sheet.x + sheet.width) or y in (sheet.y, sheet.y + sheet.height)


def _is_outside(spot: Spot, sheet: Box) -> bool:
    x, y = spot
    return not (sheet.x <= x <= sheet.x + sheet.width and sheet.y <= y <= sheet.y + sheet.height)


class _Crowd:
    """What stands where, in squares as wide as a number: only what is near is looked at."""

    def __init__(self, written: Iterable[Box], radius: int) -> None:
        self._radius = radius
        self._square = max(1, 2 * radius)
        self._numbers: dict[Spot, list[Spot]] = {}
        self._written: dict[Spot, list[Box]] = {}
        for box in written:
            for column in range(box.x // self._square, (box.x + box.width) // self._square + 1):
                for row in range(box.y // self._square, (box.y + box.height) // self._square + 1):
                    self._written.setdefault((column, row), []).append(box)

    def stand(self, x: int, y: int) -> None:
        self._numbers.setdefault((x // self._square, y // self._square), []).append((x, y))

    def free(self, spots: Sequence[Spot]) -> Spot | None:
        """The first spot that hides nothing, if there is one."""
        return next((spot for spot in spots if self._is_clear(spot) and not self._hides_words(spot)), None)

    def best(self, spots: Sequence[Spot]) -> Spot:
        """The first spot that hides no number; else the one that hides least."""
        return next((spot for spot in spots if self._is_clear(spot)), None) or max(spots, key=self._distance)

    def _is_clear(self, spot: Spot) -> bool:
        return self._distance(spot) >= (2 * self._radius) ** 2

    def _distance(self, spot: Spot) -> int:
        """The square of the distance to the nearest number, as far as it matters."""
        near = (other for square in self._around(spot) for other in self._numbers.get(square, ()))
        return min((_apart(spot, other) for other in near), default=(2 * self._radius) ** 2)

    def _hides_words(self, spot: Spot) -> bool:
        x, y = spot
        for square in self._around(spot):
            for box in self._written.get(square, ()):
                away_x = max(box.x - x, 0, x - box.x - box.width)
                away_y = max(box.y - y, 0, y - box.y - box.height)
                if away_x**2 + away_y**2 < self._radius**2:
                    return True
        return False

    def _around(self, spot: Spot) -> Iterator[Spot]:
        column, row = spot[0] // self._square, spot[1] // self._square
        for across in (-1, 0, 1):
            for up in (-1, 0, 1):
                yield column + across, row + up


def _apart(one: Spot, other: Spot) -> int:
    return (one[0] - other[0]) ** 2 + (one[1] - other[1]) ** 2
