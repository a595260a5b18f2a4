"""The smallest boxes that a few parts fill by cuts from edge to edge.

Each set of parts has its boxes from those of its halves, side by side and one above the other; a box that is no smaller
on either axis than another is left out. Sets are counted by kind, so that equal parts do not multiply them. It is
exact, and meant for the parts of a sheet or two: `work` says beforehand how much there is to look at.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import product
from math import prod

from layouts.cutting.blocks import Block, joined
from layouts.cutting.tree import Along

__all__ = ["Boxes", "work"]

# A box: its width and height, and its block, or the axis along which two boxes lie beside each other.
type _Box = tuple[int, int, Block | None, Along, _Box | None, _Box | None]


def work(copies: Sequence[int]) -> int:
    """The pairs of sets that are looked at for the boxes of all sets of parts.

    >>> work([1, 1]), work([2])  # A beside B; A beside A
    (1, 1)
    """
    pairs = prod((number + 1) * (number + 2) // 2 for number in copies)
    return pairs // 2 - prod(number + 1 for number in copies) + 1


class Boxes:
    """The boxes of all sets of parts. `kinds` are the blocks as which a part of each kind may lie; `copies` of each.

    Boxes stay within `width` and `height`, and waste at most `most_waste`.
    `steps` counts the pairs of boxes that have been looked at.
    """

    def __init__(
        self, kinds: Sequence[Sequence[Block]], copies: Sequence[int], width: int, height: int, most_waste: int
    ) -> None:
        self._kinds, self._width, self._height, self._most_waste = kinds, width, height, most_waste
        self._places = [prod(number + 1 for number in copies[:n]) for n in range(len(copies))]
        self._areas = [lies[0].area for lies in kinds]
        self._known: dict[int, list[_Box]] = {}
        self.steps = 0

    def sizes(self, counts: Sequence[int]) -> list[tuple[int, int]]:
        """Return the smallest boxes of a set (so many of each kind), by rising width; none if it fits no sheet."""
        ranges = [[place * n for n in range(number + 1)] for place, number in zip(self._places, counts, strict=True)]
        for some in product(*reversed(ranges)):  # smaller sets come first
            number = sum(some)
            if number and number not in self._known:
                part = [ones // place for ones, place in zip(reversed(some), self._places, strict=True)]
                self._known[number] = self._boxes(number, part)
        return [box[:2] for box in self._known[self._number(counts)]]

    def block(self, counts: Sequence[int], number: int) -> Block:
        """Return the block that fills one of the boxes that `sizes` returned."""
        return _block(self._known[self._number(counts)][number])

    def _number(self, counts: Sequence[int]) -> int:
        return sum(place * number for place, number in zip(self._places, counts, strict=True))

    def _boxes(self, whole: int, counts: Sequence[int]) -> list[_Box]:
        width, height = self._width, self._height
        if sum(counts) == 1:
            lies = self._kinds[counts.index(1)]
            return _smallest(
                [
                    (lie.width, lie.height, lie, "x", None, None)
                    for lie in lies
                    if lie.width <= width and lie.height <= height
                ]
            )
        halves = [0]
        for place, number in zip(self._places, counts, strict=True):
            if number:
                halves = [half + place * n for half in halves for n in range(number + 1)]
        halves.sort()  # the rest of the first is the last, and so on: half of them are all pairs
        room = sum(number * one for number, one in zip(counts, self._areas, strict=True)) + self._most_waste
        found: list[_Box] = []
        for half in halves[1 : (len(halves) + 1) // 2]:
            rest = self._known[whole - half]
            for one in self._known[half]:
                a, b = one[0], one[1]
                for other in rest:
                    c, d = other[0], other[1]
                    if a + c <= width:
                        up = b if b > d else d
                        if (a + c) * up <= room:
                            found.append((a + c, up, None, "x", one, other))
                    if b + d <= height:
                        over = a if a > c else c
                        if over * (b + d) <= room:
                            found.append((over, b + d, None, "y", one, other))
                self.steps += len(rest)
        return _smallest(found)


def _smallest(found: list[_Box]) -> list[_Box]:
    kept: list[_Box] = []
    for box in sorted(found, key=lambda box: box[:2]):
        if not kept or box[1] < kept[-1][1]:
            kept.append(box)
    return kept


def _block(box: _Box) -> Block:
    _, _, block, along, first, second = box
    if block is not None:
        return block
    assert first is not None
    assert second is not None
    return joined(along, (_block(first), _block(second)))
