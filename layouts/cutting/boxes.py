"""The boxes that a few parts fill by cuts from edge to edge: small ones, and what is left in them.

Each set of parts has its boxes from those of its halves, side by side and one above the other. A box is left out if
another is no larger on either axis and wastes no better paper. Sets are counted by kind, so that equal parts do not
multiply them. It is meant for the parts of a sheet or two: `work` says beforehand how much there is to look at.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from itertools import product
from math import prod

from layouts.cutting.blocks import Block, joined
from layouts.cutting.tree import Along

__all__ = ["Boxes", "Room", "work"]

# Of each set the boxes that waste least are kept, so many.
MOST_BOXES = 6


# A box: its width and height, what the offcuts inside it are worth, and its block, or the axis along which two boxes
# lie beside each other. Plain tuples: of nothing else are there so many.
type _Box = tuple[int, int, int, Block | None, Along, _Box | None, _Box | None]
type _Found = dict[tuple[int, int], _Box]


@dataclass(frozen=True, slots=True)
class Room:
    """Boxes stay within a width and a height, and waste at most so much; `offcut` says what one is worth."""

    width: int
    height: int
    most_waste: int
    offcut: Callable[[int, int], int]


def work(copies: Sequence[int]) -> int:
    """The pairs of sets that are looked at for the boxes of all sets of parts.

    >>> work([1, 1]), work([2])  # A beside B; A beside A
    (1, 1)
    """
    pairs = prod((number + 1) * (number + 2) // 2 for number in copies)
    return pairs // 2 - prod(number + 1 for number in copies) + 1


class Boxes:
    """The boxes of all sets of parts. `kinds` are the blocks as which a part of each kind may lie; `copies` of each.

    `steps` counts the pairs of boxes that have been looked at.
    """

    def __init__(self, kinds: Sequence[Sequence[Block]], copies: Sequence[int], room: Room) -> None:
        self._kinds, self._room = kinds, room
        self._places = [prod(number + 1 for number in copies[:n]) for n in range(len(copies))]
        self._areas = [lies[0].area for lies in kinds]
        self._known: dict[int, list[_Box]] = {}
        self.steps = 0

    def sizes(self, counts: Sequence[int]) -> list[tuple[int, int, int]]:
        """Return width, height and what is left inside of some boxes of a set; none if it fits no sheet.

        `counts` says how many there are of each kind, one at least in all.
        """
        ranges = [[place * n for n in range(number + 1)] for place, number in zip(self._places, counts, strict=True)]
        for some in product(*reversed(ranges)):  # smaller sets come first
            number = sum(some)
            if number and number not in self._known:
                part = [ones // place for ones, place in zip(reversed(some), self._places, strict=True)]
                self._known[number] = self._boxes(number, part)
        return [box[:3] for box in self._known[self._number(counts)]]

    def block(self, counts: Sequence[int], number: int) -> Block:
        """Return the block that fills one of the boxes that `sizes` returned."""
        return _block(self._known[self._number(counts)][number])

    def _number(self, counts: Sequence[int]) -> int:
        return sum(place * number for place, number in zip(self._places, counts, strict=True))

    def _boxes(self, whole: int, counts: Sequence[int]) -> list[_Box]:
        room = self._room
        if sum(counts) == 1:
            lies = self._kinds[counts.index(1)]
            fitting = [lie for lie in lies if lie.width <= room.width and lie.height <= room.height]
            return _kept({(lie.width, lie.height): (lie.width, lie.height, 0, lie, "x", None, None) for lie in fitting})
        halves = [0]
        for place, number in zip(self._places, counts, strict=True):
            if number:
                halves = [half + place * n for half in halves for n in range(number + 1)]
        halves.sort()  # the rest of the first is the last, and so on: half of them are all pairs
        most = sum(number * one for number, one in zip(counts, self._areas, strict=True)) + room.most_waste
        found: _Found = {}
        for half in halves[1 : (len(halves) + 1) // 2]:
            rest = self._known[whole - half]
            for one in self._known[half]:
                self._join(one, rest, most, found)
        return _kept(found)

    def _join(self, one: _Box, others: Sequence[_Box], most: int, found: _Found) -> None:
        """Put a box beside others, both ways; the smaller of two has an offcut behind it."""
        wide, high, offcut = self._room.width, self._room.height, self._room.offcut
        a, b = one[0], one[1]
        for other in others:
            c, d = other[0], other[1]
            width, height = a + c, b if b > d else d
            if width <= wide and width * height <= most:
                inner = one[2] + other[2]
                if b != d:
                    inner += offcut(c, b - d) if b > d else offcut(a, d - b)
                if (width, height) not in found or found[width, height][2] < inner:
                    found[width, height] = width, height, inner, None, "x", one, other
            width, height = a if a > c else c, b + d
            if height <= high and width * height <= most:
                inner = one[2] + other[2]
                if a != c:
                    inner += offcut(a - c, d) if a > c else offcut(c - a, b)
                if (width, height) not in found or found[width, height][2] < inner:
                    found[width, height] = width, height, inner, None, "y", one, other
        self.steps += len(others)


def _kept(found: _Found) -> list[_Box]:
    """The boxes that waste least, without those that others make needless."""
    kept: list[_Box] = []
    # A box that makes another needless has no larger area, so it is met before.
    for box in sorted(found.values(), key=lambda box: (box[0] * box[1], box[0])):
        if all(box[0] < other[0] or box[1] < other[1] or box[2] > other[2] for other in kept):
            kept.append(box)
            if len(kept) == MOST_BOXES:
                break
    return kept


def _block(box: _Box) -> Block:
    _, _, _, block, along, first, second = box
    if block is not None:
        return block
    assert first is not None
    assert second is not None
    return joined(along, (_block(first), _block(second)))
