"""Whether two outlines have an area in common: those that only touch have none.

The heights of all corners part the plane into bands; within a band the edges of each outline are walls that do not
cross, two by two the sides of a trapezoid, called a bay here. What two bays have in common is as wide as the lesser of
their right walls less the greater of their left ones: a concave function of the height, straight but where two left or
two right walls cross. So it is enough to look at the ends of the band and at those crossings.

Exact for rectangles and polygons. A curve is the chords between 65 points a quarter, each moved inwards to a whole 1/64
tick at most, so that two curves are called apart that share less than 1/4096 of a half axis.

Source: derived here.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction
from itertools import pairwise, product
from math import lcm
from typing import NamedTuple

from layouts.shapes.faces.holes import Hole

__all__ = ["outlines_share_area"]

# Parts of a tick in which a point of a curve is told.
_PARTS = 64
# Walls and pairs of bays that are looked at for each corner; a curve needs two or three.
_STEPS = 16

_Spot = tuple[int, int]
# A number as a numerator and a positive denominator: as fractions these would be reduced time and again.
_Ratio = tuple[int, int]


class _Wall(NamedTuple):
    """An edge that is not level, from its lower to its upper end."""

    low: _Spot
    high: _Spot

    def at(self, y: _Ratio) -> _Ratio:
        """Where it stands at a height."""
        (ax, ay), (bx, by) = self
        rise = by - ay
        return (ax * rise - (bx - ax) * ay) * y[1] + (bx - ax) * y[0], rise * y[1]


_Bay = tuple[_Wall, _Wall]


def outlines_share_area(one: Hole, other: Hole) -> bool | None:
    """Return whether two outlines have an area in common, None where that is not worked out.

    It is not for an outline that crosses itself, nor for those so jagged that the work would grow with all pairs of
    their edges.

    >>> from layouts.document import Shape
    >>> from layouts.shapes.faces.rectangles import Rectangle
    >>> oval, corner = Shape(kind="ellipse"), Rectangle(*map(Fraction, (90, 90, 190, 190)))
    >>> first = Hole("", "", Rectangle(*map(Fraction, (0, 0, 100, 100))), oval)
    >>> outlines_share_area(first, Hole("", "", corner, oval))
    False
    >>> outlines_share_area(first, Hole("", "", corner.moved(Fraction(-25), Fraction(-25)), oval))
    True
    """
    unit = 2 * _PARTS * lcm(*(value.denominator for hole in (one, other) for value in hole.around))
    lines = [_whole(hole, unit) for hole in (one, other)]
    ends = [sorted(y for _, y in line) for line in lines]
    low, high = max(end[0] for end in ends), min(end[-1] for end in ends)
    heights = sorted({y for line in lines for _, y in line if low <= y <= high})
    walls = [sorted(_walls(line), key=lambda wall: wall.low[1]) for line in lines]
    steps = _STEPS * sum(map(len, lines))
    active: list[list[_Wall]] = [[], []]
    begun = [0, 0]
    for bottom, top in pairwise(heights):
        bays: list[list[_Bay]] = []
        for number, some in enumerate(walls):
            while begun[number] < len(some) and some[begun[number]].low[1] <= bottom:
                active[number].append(some[begun[number]])
                begun[number] += 1
            active[number] = [wall for wall in active[number] if wall.high[1] >= top]
            steps -= len(active[number])
            found = _bays(active[number], bottom, top) if steps > 0 else None
            if found is None:
                return None
            bays.append(found)
        steps -= len(bays[0]) * len(bays[1])
        if steps < 0:
            return None
        if any(_share(first, second, bottom, top) for first, second in product(*bays)):
            return True
    return False


def _whole(hole: Hole, unit: int) -> list[_Spot]:
    """The corners in whole numbers, `unit` of them a tick; what is between is moved towards the middle."""
    left, bottom, right, top = (int(value * unit) for value in hole.around)
    middle, level = (left + right) // 2, (bottom + top) // 2
    return [(middle + int(x * unit - middle), level + int(y * unit - level)) for x, y in hole.corners()]


def _walls(corners: Sequence[_Spot]) -> Iterator[_Wall]:
    for a, b in pairwise((*corners, corners[0])):
        if a[1] != b[1]:
            yield _Wall(a, b) if a[1] < b[1] else _Wall(b, a)


def _bays(walls: Sequence[_Wall], low: int, high: int) -> list[_Bay] | None:
    """The bays of a band from the left; None where walls cross in it."""
    middle = low + high, 2
    ordered = sorted(walls, key=lambda wall: Fraction(*wall.at(middle))) if len(walls) > 2 else list(walls)
    if len(ordered) == 2 and _less(ordered[1].at(middle), ordered[0].at(middle)):
        ordered.reverse()
    ends: tuple[_Ratio, _Ratio] = ((low, 1), (high, 1))
    if len(ordered) % 2 or any(_less(b.at(y), a.at(y)) for a, b in pairwise(ordered) for y in ends):
        return None
    return list(zip(ordered[::2], ordered[1::2], strict=True))


def _share(one: _Bay, other: _Bay, low: int, high: int) -> bool:
    heights: list[_Ratio] = [(low, 1), (high, 1)]
    for first, second in zip(one, other, strict=True):
        starts, ends = ((first.at(y), second.at(y)) for y in heights[:2])
        if (_less(*starts) and _less(*ends[::-1])) or (_less(*starts[::-1]) and _less(*ends)):
            before, after = (Fraction(*a) - Fraction(*b) for a, b in (starts, ends))
            at = low + (high - low) * before / (before - after)
            heights.append((at.numerator, at.denominator))
    lefts, rights = zip(one, other, strict=True)
    return any(all(_less(left.at(y), right.at(y)) for left, right in product(lefts, rights)) for y in heights)


def _less(one: _Ratio, other: _Ratio) -> bool:
    return one[0] * other[1] < other[0] * one[1]
