"""Whether two closed lines of corners meet, or one lies within the other."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from itertools import pairwise

from layouts.shapes.not_built import NotBuilt

__all__ = ["MOST_EDGE_PAIRS", "Point", "outlines_meet"]

Point = tuple[Fraction, Fraction]
_Edge = tuple[Point, Point]

# Pairs of edges that are compared for two outlines; two curves have at most 65 edges a quarter near each other.
MOST_EDGE_PAIRS = 20_000


def outlines_meet(one: Sequence[Point], other: Sequence[Point]) -> bool:
    """Whether two areas have a point in common, their outlines included; corners in order, either way round.

    Raises: NotBuilt where more than `MOST_EDGE_PAIRS` pairs of edges would have to be compared.

    >>> square = [(Fraction(x), Fraction(y)) for x, y in ((0, 0), (2, 0), (2, 2), (0, 2))]
    >>> outlines_meet(square, [(x + 2, y) for x, y in square]), outlines_meet(square, [(x + 3, y) for x, y in square])
    (True, False)
    """
    first, second = _edges(one), _edges(other)
    if any(_within(spot, edges) for spots, edges in ((one, second), (other, first)) for spot in _some(spots)):
        return True
    near_first, near_second = _near(first, other), _near(second, one)
    if len(near_first) * len(near_second) > MOST_EDGE_PAIRS:
        raise NotBuilt("these outlines have too many corners near each other to be compared")
    return any(_cross(a, b) for a in near_first for b in near_second)


def _some(corners: Sequence[Point]) -> Sequence[Point]:
    """A few corners all around, the first among them: areas that share much, or one within the other, show by these."""
    return corners[:: len(corners) // 16 + 1]


def _edges(corners: Sequence[Point]) -> list[_Edge]:
    return list(pairwise((*corners, corners[0])))


def _near(edges: Sequence[_Edge], corners: Sequence[Point]) -> list[_Edge]:
    """The edges that meet the rectangle around these corners."""
    xs, ys = [x for x, _ in corners], [y for _, y in corners]
    left, right, bottom, top = min(xs), max(xs), min(ys), max(ys)
    return [
        (a, b)
        for a, b in edges
        if max(a[0], b[0]) >= left and min(a[0], b[0]) <= right and max(a[1], b[1]) >= bottom and min(a[1], b[1]) <= top
    ]


def _cross(one: _Edge, other: _Edge) -> bool:
    """Whether two edges have a point in common."""
    (a, b), (c, d) = one, other
    if max(a[0], b[0]) < min(c[0], d[0]) or max(c[0], d[0]) < min(a[0], b[0]):
        return False
    if max(a[1], b[1]) < min(c[1], d[1]) or max(c[1], d[1]) < min(a[1], b[1]):
        return False
    return _side(a, b, c) * _side(a, b, d) <= 0 and _side(c, d, a) * _side(c, d, b) <= 0


def _within(spot: Point, edges: Sequence[_Edge]) -> bool:
    """Whether a point lies inside: the edges to its right are crossed an odd number of times."""
    x, y = spot
    inside = False
    for start, end in edges:
        if (start[1] > y) != (end[1] > y):
            inside ^= x < start[0] + (y - start[1]) * (end[0] - start[0]) / (end[1] - start[1])
    return inside


def _side(a: Point, b: Point, c: Point) -> Fraction:
    """Positive when c lies left of the line from a to b, zero on it."""
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])
