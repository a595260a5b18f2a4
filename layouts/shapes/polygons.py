"""The largest axis-parallel rectangle inside a polygon.

The heights of the corners part the polygon into bands, and its edges part each band into trapezoids, called bays here.
A rectangle whose bottom lies in one bay and whose top in another passes through the bays between them, and its sides
must keep clear of the walls of each. Walls are straight within a bay, so they come nearest at its ends: for a bottom y
and a height m the widest rectangle is the least of three straight-line functions of y less the greatest of three, which
is concave, and widest(m) is concave too. So m × widest(m) has one peak, found by halving on whole ticks.

Exact: of all rectangles whose height is a whole number of ticks the largest, its width rounded down; no rectangle of
that height is wider by a tick. The pairs of bays are tried from the greatest possible area down until none can be
better, at most `MOST_PAIRS` of them; in an outline so jagged that more remain, the rectangle lies inside as well but
may not be the largest.

Source: derived here; that the rectangle's contacts lie on edges of trapezoids is common in the literature on the
problem (from memory: Daniels, Milenkovic, Roth 1997).
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import combinations, pairwise
from typing import NamedTuple

from layouts.shapes.not_built import NotBuilt

__all__ = ["MOST_CORNERS", "MOST_PAIRS", "Inscribed", "largest_rectangle"]

MOST_CORNERS = 64
MOST_PAIRS = 400


@dataclass(frozen=True, slots=True)
class Inscribed:
    """A rectangle in a polygon: its lower left corner, exact, and its sides in whole ticks."""

    x: Fraction
    y: Fraction
    width: int
    height: int


class _Wall(NamedTuple):
    """A straight line through a band: where it stands at the band's bottom, and how it leans."""

    foot: Fraction
    lean: Fraction
    low: int

    def at(self, y: Fraction | int) -> Fraction:
        return self.foot + self.lean * (y - self.low)


class _Bay(NamedTuple):
    low: int
    high: int
    left: _Wall
    right: _Wall

    def clear(self, low: int, high: int) -> tuple[Fraction, Fraction]:
        """The x between the walls over the whole of these heights."""
        return max(self.left.at(low), self.left.at(high)), min(self.right.at(low), self.right.at(high))

    def reach(self) -> tuple[Fraction, Fraction]:
        """The x touched by the walls anywhere."""
        low, high = self.low, self.high
        return min(self.left.at(low), self.left.at(high)), max(self.right.at(low), self.right.at(high))


class _Pair(NamedTuple):
    """A bottom bay, a top bay, and the x that stays clear between them (None where they are one bay)."""

    bottom: _Bay
    top: _Bay
    between: tuple[Fraction, Fraction] | None

    def most_area(self) -> Fraction:
        """An area that no rectangle of this pair exceeds."""
        sides = [self.bottom.reach(), self.top.reach(), *([self.between] if self.between else [])]
        width = min(right for _, right in sides) - max(left for left, _ in sides)
        return (self.top.high - self.bottom.low) * width


def largest_rectangle(corners: Sequence[tuple[int, int]]) -> Inscribed | None:
    """Return the largest axis-parallel rectangle in a simple polygon (corners in ticks, either way round).

    None where it holds no rectangle of a whole tick each way, and for an outline that crosses itself, which encloses no
    clear area. Raises: NotBuilt for more than `MOST_CORNERS` corners.

    >>> found = largest_rectangle([(0, 0), (400, 0), (200, 300)])
    >>> found.width, found.height  # half of each, a quarter in from the left
    (200, 150)
    """
    if len(corners) > MOST_CORNERS:
        raise NotBuilt(
            f"the outline has {len(corners)} corners: the largest rectangle is worked out for at most {MOST_CORNERS}"
        )
    bands = _bands(corners)
    if bands is None:
        return None
    best: Inscribed | None = None
    area = Fraction(0)
    pairs = sorted(_pairs(bands), key=_Pair.most_area, reverse=True)
    for pair in pairs[:MOST_PAIRS]:
        if pair.most_area() <= area:
            break
        height = _best_height(pair)
        width, y = _widest(pair, height)
        if height * width > area and width >= 1:
            area = height * width
            left, _ = _sides(pair, y, height)
            best = Inscribed(left, y, int(width), height)
    return best


def _bands(corners: Sequence[tuple[int, int]]) -> list[list[_Bay]] | None:
    """The bays of each band from the lowest up, each band's from the left; None if edges cross."""
    edges = [(a, b) if a[1] < b[1] else (b, a) for a, b in pairwise((*corners, corners[0])) if a[1] != b[1]]
    bands = []
    for low, high in pairwise(sorted({y for _, y in corners})):
        walls = []
        for (ax, ay), (bx, by) in edges:
            if ay <= low and high <= by:
                lean = Fraction(bx - ax, by - ay)
                walls.append(_Wall(ax + lean * (low - ay), lean, low))
        walls.sort(key=lambda wall: wall.at(low) + wall.at(high))
        if any(a.at(low) > b.at(low) or a.at(high) > b.at(high) for a, b in pairwise(walls)):
            return None
        bands.append([_Bay(low, high, left, right) for left, right in zip(walls[::2], walls[1::2], strict=True)])
    return bands


def _pairs(bands: list[list[_Bay]]) -> Iterator[_Pair]:
    for number, band in enumerate(bands):
        for bottom in band:
            yield _Pair(bottom, bottom, None)
            yield from _pairs_above(bottom, bands[number + 1 :])


def _pairs_above(bottom: _Bay, above: list[list[_Bay]]) -> Iterator[_Pair]:
    """The bays that a rectangle from the bottom bay can reach upwards."""
    passed = [(bottom.left.at(bottom.high), bottom.right.at(bottom.high))]
    for band in above:
        further = []
        for left, right in passed:
            for top in band:
                between = max(left, top.left.at(top.low)), min(right, top.right.at(top.low))
                if between[0] >= between[1]:
                    continue
                yield _Pair(bottom, top, between)
                clear = top.clear(top.low, top.high)
                further.append((max(left, clear[0]), min(right, clear[1])))
        passed = [(left, right) for left, right in further if left < right]


def _best_height(pair: _Pair) -> int:
    """The whole height at which the rectangle is largest: where the area starts to fall.

    The least height leaves some width, or none leaves any: once the width is negative, the area only falls.
    """

    def area(height: int) -> Fraction:
        return height * _widest(pair, height)[0]

    low, high = max(1, pair.top.low - pair.bottom.high), pair.top.high - pair.bottom.low
    while low < high:
        middle = (low + high) // 2
        low, high = (middle + 1, high) if area(middle + 1) > area(middle) else (low, middle)
    return low


def _widest(pair: _Pair, height: int) -> tuple[Fraction, Fraction]:
    """The widest rectangle of this height, and the lowest y at which it lies (the width may be negative)."""
    low = Fraction(max(pair.bottom.low, pair.top.low - height))
    high = Fraction(min(pair.bottom.high, pair.top.high - height))
    places = {low, high}
    for walls, fixed in (
        ((pair.bottom.left, pair.top.left), pair.between and pair.between[0]),
        ((pair.bottom.right, pair.top.right), pair.between and pair.between[1]),
    ):
        # As functions of the rectangle's bottom: a wall at its bottom, a wall at its top, and what is clear between.
        lines = [(walls[0].lean, walls[0].at(0)), (walls[1].lean, walls[1].at(height))]
        if fixed is not None:
            lines.append((Fraction(0), fixed))
        for (lean_a, foot_a), (lean_b, foot_b) in combinations(lines, 2):
            if lean_a != lean_b:
                places.add((foot_b - foot_a) / (lean_a - lean_b))
    found = []
    for y in places:
        if low <= y <= high:
            left, right = _sides(pair, y, height)
            found.append((right - left, -y))
    width, y = max(found)
    return width, -y


def _sides(pair: _Pair, y: Fraction, height: int) -> tuple[Fraction, Fraction]:
    """The x that is clear for a rectangle of this height that stands at y."""
    lefts = [pair.bottom.left.at(y), pair.top.left.at(y + height)]
    rights = [pair.bottom.right.at(y), pair.top.right.at(y + height)]
    if pair.between is not None:
        lefts.append(pair.between[0])
        rights.append(pair.between[1])
    return max(lefts), min(rights)
