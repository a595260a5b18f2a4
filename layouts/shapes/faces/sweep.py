"""Which of many rectangles overlap, without comparing each with each."""

from __future__ import annotations

from bisect import bisect_left, insort
from collections import defaultdict
from collections.abc import Hashable, Iterator, Sequence
from math import lcm
from typing import NamedTuple

from layouts.shapes.faces.rectangles import Rectangle

__all__ = ["Upright", "meetings"]


class Upright(NamedTuple):
    """A rectangle, the groups in which it is found, and the groups in which it looks for others."""

    area: Rectangle
    in_groups: tuple[Hashable, ...]
    meets: tuple[Hashable, ...]


def meetings(uprights: Sequence[Upright], most: int) -> list[tuple[int, int]]:
    """Return which rectangles overlap by an area, as pairs of rising indices, rising; no more than `most` of them.

    Of a pair one must look where the other is found, and the other way round. A line moves from left to right; the
    rectangles on it are held by their lower ends, and in a tree over the heights at which rectangles end: what is met
    either begins between the new one's ends or reaches over its lower end. So the work grows with the rectangles and
    the overlaps found, not with all pairs.
    """
    found: list[tuple[int, int]] = []
    boxes = _whole_numbers(uprights)
    line = _Line(boxes)
    # At one place what ends is gone before what begins comes: those that only touch do not overlap.
    events = sorted((box[side], begins, index) for index, box in enumerate(boxes) for side, begins in ((2, 0), (0, 1)))
    for _, begins, index in events:
        upright = uprights[index]
        if not begins:
            line.remove(index, upright.in_groups)
            continue
        met = {other for group in upright.meets for other in line.met(index, group)}
        found.extend((min(index, other), max(index, other)) for other in sorted(met))
        if len(found) >= most:
            break
        line.add(index, upright.in_groups)
    return sorted(found[:most])


def _whole_numbers(uprights: Sequence[Upright]) -> list[tuple[int, int, int, int]]:
    """All rectangles in a unit in which every coordinate is whole: comparing fractions takes several times as long."""
    unit = lcm(*{value.denominator for upright in uprights for value in upright.area}) if uprights else 1

    def whole(area: Rectangle) -> tuple[int, int, int, int]:
        left, bottom, right, top = (value.numerator * (unit // value.denominator) for value in area)
        return left, bottom, right, top

    return [whole(upright.area) for upright in uprights]


class _Line:
    """The rectangles that a vertical line crosses, by group."""

    def __init__(self, boxes: Sequence[tuple[int, int, int, int]]) -> None:
        heights = {height: rank for rank, height in enumerate(sorted({y for box in boxes for y in (box[1], box[3])}))}
        self._ends = [(heights[box[1]], heights[box[3]]) for box in boxes]
        self._leaves = max(len(heights), 1)
        self._over: defaultdict[tuple[Hashable, int], set[int]] = defaultdict(set)
        self._by_low: defaultdict[Hashable, list[tuple[int, int]]] = defaultdict(list)

    def add(self, index: int, groups: Sequence[Hashable]) -> None:
        for group in groups:
            for node in self._nodes(index):
                self._over[group, node].add(index)
            insort(self._by_low[group], (self._ends[index][0], index))

    def remove(self, index: int, groups: Sequence[Hashable]) -> None:
        for group in groups:
            for node in self._nodes(index):
                self._over[group, node].discard(index)
            lows = self._by_low[group]
            at = bisect_left(lows, (self._ends[index][0], index))
            if lows[at : at + 1] == [(self._ends[index][0], index)]:
                del lows[at]

    def met(self, index: int, group: Hashable) -> Iterator[int]:
        """Those of a group on the line that overlap this one upright."""
        low, high = self._ends[index]
        lows = self._by_low.get(group, [])
        for at in range(bisect_left(lows, (low + 1, 0)), bisect_left(lows, (high, 0))):
            yield lows[at][1]
        node = low + self._leaves
        while node:
            yield from self._over.get((group, node), ())
            node //= 2

    def _nodes(self, index: int) -> Iterator[int]:
        """The nodes of a tree over all heights that together cover one rectangle, upwards from its leaves."""
        low, high = (end + self._leaves for end in self._ends[index])
        while low < high:
            if low % 2:
                yield low
                low += 1
            if high % 2:
                high -= 1
                yield high
            low //= 2
            high //= 2
