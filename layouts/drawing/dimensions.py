"""Dimension lines around a drawing: oblique ticks, the figure in the line where there is room, else beside it."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field, replace
from typing import Literal

from layouts.drawing.lettering import figure_width
from layouts.drawing.svg import INK, Box, Drawing, Margins
from layouts.lengths import TICKS_PER_MM

__all__ = ["Chain", "Dimensions", "Segment"]

type Figure = Callable[[int], str]

# In lines: the height of a figure, the gap between rows of dimensions, and how far a helping line goes on.
_TYPE, _GAP, _ON = 7, 5, 2
_NOTHING = Margins()


@dataclass(frozen=True, slots=True)
class Segment:
    """One dimension from `start` to `end` (ticks on the drawing), and the stated measure that it shows.

    `times`: so many of that measure lie there side by side. `depth` is its own, where it differs from its chain's.
    """

    start: int
    end: int
    measure: int
    times: int = 1
    depth: int | None = None


@dataclass(frozen=True, slots=True)
class Chain:
    """Dimensions in one line, in rising order; `depth` is how far in from the side lies what they measure."""

    segments: tuple[Segment, ...]
    depth: int = field(default=0, compare=False)


@dataclass(frozen=True, slots=True)
class _Written:
    """A figure around a place along its segment: in the line (`level` 0) or so many rows beside it.

    `moved`: it makes room for its neighbour, and stands off the middle of its segment.
    """

    segment: Segment
    text: str
    width: int
    level: int
    at: int
    moved: bool = False


@dataclass(frozen=True, slots=True)
class _Row:
    side: Literal["above", "below", "left", "right"]
    at: int
    figures: tuple[_Written, ...]
    depth: int


class Dimensions:
    """Rows of dimensions around a box, each further out than those before it on its side.

    `beyond` is how far what is drawn reaches over the box.
    """

    def __init__(self, box: Box, u: int, figure: Figure, beyond: Margins = _NOTHING) -> None:
        self._box = box
        self._u = u
        self._figure = figure
        self._rows: list[_Row] = []
        # How far out the last row on each side reaches.
        self._reach = {
            "above": u + beyond.top,
            "below": u + beyond.bottom,
            "left": u + beyond.left,
            "right": u + beyond.right,
        }
        # How far figures in rows reach beyond the ends of what they measure.
        self._aside = {"left": 0, "right": 0, "above": 0, "below": 0}
        self.thick = _tenths(u)

    def above(self, chain: Chain) -> None:
        self._across(chain, "above")

    def below(self, chain: Chain) -> None:
        self._across(chain, "below")

    def left(self, chain: Chain) -> None:
        self._upright(chain, "left")

    def right(self, chain: Chain) -> None:
        self._upright(chain, "right")

    def margins(self) -> Margins:
        left, right, above, below = (
            max(self._reach[side], self._aside[side]) for side in ("left", "right", "above", "below")
        )
        return Margins(left, right, above, below)

    def draw(self, drawing: Drawing, keep_clear: Sequence[Box] = ()) -> None:
        """Draw all rows. Helping lines stop before figures and before the boxes to `keep_clear`, and go on behind."""
        figures = [(row.side, self._room_of(row, one)) for row in self._rows for one in row.figures]
        for row in self._rows:
            in_the_way = [box for side, box in figures if side == row.side]
            self._draw(drawing, row, [*in_the_way, *keep_clear])

    def _across(self, chain: Chain, side: Literal["above", "below"]) -> None:
        figures = tuple(
            self._written(chain, lambda written: written.width + 3 * self._u, lambda written: written.width)
        )
        if not figures:
            return
        half = _TYPE * self._u // 2
        at = self._reach[side] + _GAP * self._u
        deepest = max(one.level for one in figures)
        self._reach[side] = at + half + deepest * _TYPE * self._u
        for one in figures:
            self._aside["left"] = max(self._aside["left"], one.width // 2 - one.at)
            self._aside["right"] = max(self._aside["right"], one.at + one.width // 2 - self._box.width)
        self._rows.append(_Row(side, at, figures, chain.depth))

    def _upright(self, chain: Chain, side: Literal["left", "right"]) -> None:
        height = (_TYPE + 1) * self._u
        figures = tuple(self._written(chain, lambda written: height + 2 * self._u, lambda written: height))
        if not figures:
            return
        widest = max(one.width for one in figures)
        inner = max((one.width for one in figures if one.level == 0), default=0)
        at = self._reach[side] + max(_GAP * self._u, inner // 2 + 2 * self._u)
        deepest = max(one.level for one in figures)
        beside = self._first_beside(inner) - 2 * self._u + deepest * (widest + 2 * self._u) if deepest else 0
        self._reach[side] = at + max(2 * self._u, inner // 2, beside)
        for one in figures:
            self._aside["below"] = max(self._aside["below"], height // 2 - one.at)
            self._aside["above"] = max(self._aside["above"], one.at + height // 2 - self._box.height)
        self._rows.append(_Row(side, at, figures, chain.depth))

    def _written(
        self, chain: Chain, room: Callable[[_Written], int], extent: Callable[[_Written], int]
    ) -> list[_Written]:
        """Give every figure its level: that of the line where it has room, else the first beside it that is free.

        Of two narrow neighbours each makes half the room for the other, so that they stand side by side in their order;
        one a row further out could be taken for the other's.
        """
        found: list[_Written] = []
        ends: dict[int, int] = {}
        # The last figure in the first row beside the line, by its index, and where the one before it ends.
        last, before = -1, None
        for segment in chain.segments:
            text = self._figure(segment.measure)
            text = f"{segment.times} × {text}" if segment.times > 1 else text
            width = figure_width(text, _TYPE * self._u)
            middle = (segment.start + segment.end) // 2
            one = _Written(segment, text, width + width % 2, 0, middle)  # its halves are whole
            if segment.end - segment.start < room(one):
                start, level = middle - extent(one) // 2, 1
                over = ends.get(1, start) - start
                if over > 0 and not found[last].moved:
                    other = found[last]
                    back, on = over // 2, over - over // 2
                    free = before is None or other.at - extent(other) // 2 - back >= before
                    if free and back <= extent(other) // 2 and on <= extent(one) // 2:
                        found[last] = replace(other, at=other.at - back, moved=True)
                        one = replace(one, at=middle + on, moved=True)
                        start += on
                        ends[1] -= back
                while ends.get(level, start) > start:
                    level += 1
                one = replace(one, level=level)
                if level == 1:
                    last, before = len(found), ends.get(1)
                ends[level] = start + extent(one) + self._u
            found.append(one)
        return found

    def _draw(self, drawing: Drawing, row: _Row, in_the_way: Sequence[Box]) -> None:
        u = self._u
        line = {"stroke": INK, "stroke_width": _tenths(u // 2)}
        for one in row.figures:
            start, end = one.segment.start, one.segment.end
            for spot in (start, end):
                within = 0 < spot < (self._box.width if row.side in ("above", "below") else self._box.height)
                depth = row.depth if one.segment.depth is None else one.segment.depth
                inner = self._spot(row, spot, -depth if within else 0)
                outer = self._spot(row, spot, row.at + _ON * u)
                for start_at, end_at in _around(inner, outer, in_the_way, u // 2):
                    drawing.line(*start_at, *end_at, stroke=INK, stroke_width=_tenths(u // 4))
                x, y = self._spot(row, spot, row.at)
                drawing.line(x - u, y - u, x + u, y + u, **line)
            middle = (start + end) // 2
            if one.level == 0:
                half = (one.width if row.side in ("above", "below") else _TYPE * u) // 2 + u // 2
                self._line(drawing, row, (start, row.at), (middle - half, row.at), line["stroke_width"])
                self._line(drawing, row, (middle + half, row.at), (end, row.at), line["stroke_width"])
            else:
                self._line(drawing, row, (start, row.at), (end, row.at), line["stroke_width"])
            x, y = self._spot(row, one.at, row.at + self._offset(row, one))
            drawing.figure(x, y, one.text, size=_TYPE * u)

    def _offset(self, row: _Row, one: _Written) -> int:
        if one.level == 0:
            return 0
        if row.side in ("above", "below"):
            return one.level * _TYPE * self._u
        widest = max(other.width for other in row.figures)
        inner = max((other.width for other in row.figures if other.level == 0), default=0)
        return (one.level - 1) * (widest + 2 * self._u) + self._first_beside(inner) + one.width // 2

    def _first_beside(self, inner: int) -> int:
        """How far out from an upright row the first figure beside it begins: beyond those in the line, `inner` wide."""
        return max(2 * self._u, inner // 2 + self._u)

    def _room_of(self, row: _Row, one: _Written) -> Box:
        """The room that a figure takes."""
        x, y = self._spot(row, one.at, row.at + self._offset(row, one))
        size = _TYPE * self._u
        return Box(x - one.width // 2, y - size // 2, one.width, size)

    def _line(self, drawing: Drawing, row: _Row, first: tuple[int, int], last: tuple[int, int], width: str) -> None:
        (x1, y1), (x2, y2) = self._spot(row, *first), self._spot(row, *last)
        drawing.line(x1, y1, x2, y2, stroke=INK, stroke_width=width)

    def _spot(self, row: _Row, along: int, out: int) -> tuple[int, int]:
        """A point so far along the side of the box and so far out from it."""
        if row.side == "above":
            return along, self._box.height + out
        if row.side == "below":
            return along, -out
        return (-out, along) if row.side == "left" else (self._box.width + out, along)


type _At = tuple[int, int]


def _around(start: _At, end: _At, in_the_way: Sequence[Box], gap: int) -> Iterator[tuple[_At, _At]]:
    """Yield what is left of a level or upright line that must keep a gap to every box, each part as the line runs."""
    axis = 0 if start[1] == end[1] else 1
    low, high = sorted((start[axis], end[axis]))
    across = start[1 - axis]
    blocked = []
    for box in in_the_way:
        lying = (box.x, box.x + box.width), (box.y, box.y + box.height)
        if lying[1 - axis][0] - gap < across < lying[1 - axis][1] + gap:
            blocked.append((lying[axis][0] - gap, lying[axis][1] + gap))
    free = []
    for first, last in sorted(blocked):
        free.append((low, min(first, high)))
        low = max(low, last)
    free.append((low, high))
    forwards = start[axis] <= end[axis]
    for ends in free:
        if ends[0] < ends[1]:
            first, last = ends if forwards else (ends[1], ends[0])
            yield ((first, across), (last, across)) if axis == 0 else ((across, first), (across, last))


def _tenths(ticks: int) -> str:
    """A thickness in tenths of a millimetre, one at least."""
    return str(max(1, ticks * 10 // TICKS_PER_MM))
