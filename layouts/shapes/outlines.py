"""Outlines as exact points, and which outline encloses which. Whole numbers throughout: no root is ever taken."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from itertools import pairwise
from typing import NamedTuple

from layouts.document import Shape

__all__ = ["Spot", "corner_radius", "corners_of", "encloses", "outline"]

# Points on each quarter of a curve. Between two neighbours the curve leaves their chord by at most 1/8192 half axis.
_STEPS = 64


class Spot(NamedTuple):
    """A point with a denominator: (x / over, y / over) in ticks from the lower left; `over` is positive."""

    x: int
    y: int
    over: int

    def moved(self, right: int, up: int) -> Spot:
        return Spot(self.x + right * self.over, self.y + up * self.over, self.over)


def corners_of(shape: Shape) -> tuple[tuple[int, int], ...]:
    """The corners of a polygon in ticks, as they are listed."""
    return tuple((point.width.ticks, point.height.ticks) for point in shape.points or ())


def corner_radius(shape: Shape, width: int, height: int) -> int:
    """Twice the radius of the corners of a rounded rectangle, in ticks (so half a tick is a whole number).

    A radius of more than half the shorter side is drawn as half of it (common practice, no source).
    """
    stated = 2 * shape.radius.ticks if shape.radius else 0
    return min(stated, width, height)


def outline(shape: Shape, width: int, height: int) -> list[Spot]:
    """Return points of an outline of this size (ticks), in order: its corners, and 65 points a quarter of a curve."""
    if shape.kind == "polygon":
        return [Spot(x, y, 1) for x, y in corners_of(shape)]
    if shape.kind == "ellipse":
        return list(_curve(width, height, width, height, (0, 1, 2, 3)))
    if shape.kind == "arch":
        rise = shape.rise.ticks if shape.rise else 0
        top = _curve(width, 2 * (height - rise), width, 2 * rise, (0, 1))
        return [Spot(0, 0, 1), Spot(width, 0, 1), *top]
    if shape.kind == "rounded":
        radius = corner_radius(shape, width, height)
        right, high = 2 * width - radius, 2 * height - radius
        centres = ((right, high), (radius, high), (radius, radius), (right, radius))
        return [spot for quarter, (x, y) in enumerate(centres) for spot in _curve(x, y, radius, radius, (quarter,))]
    return [Spot(0, 0, 1), Spot(width, 0, 1), Spot(width, height, 1), Spot(0, height, 1)]


def encloses(shape: Shape, width: int, height: int, line: Sequence[Spot]) -> bool:
    """Whether a closed line of points and straight chords lies strictly inside an outline of this size (ticks)."""
    if shape.kind == "polygon":
        corners = corners_of(shape)
        return all(_in_polygon(corners, spot) for spot in line) and not _meets(corners, line)
    inside = _CONVEX[shape.kind]
    # A convex outline holds a line when it holds the line's points.
    return all(
        0 < spot.x < width * spot.over and 0 < spot.y < height * spot.over and inside(shape, width, height, spot)
        for spot in line
    )


def _curve(x: int, y: int, across: int, upright: int, quarters: tuple[int, ...]) -> Iterator[Spot]:
    """Points of quarters of an ellipse, anticlockwise from the right; centre and half axes in half ticks.

    Source: the rational points of a circle, ((1 - t²) / (1 + t²), 2t / (1 + t²)) with t = k / 64 (identity).
    """
    for quarter in quarters:
        for k in range(_STEPS + 1) if quarter in (0, 2) else range(_STEPS, -1, -1):
            cosine, sine, over = _STEPS * _STEPS - k * k, 2 * _STEPS * k, _STEPS * _STEPS + k * k
            right = cosine if quarter in (0, 3) else -cosine
            up = sine if quarter in (0, 1) else -sine
            yield Spot(x * over + across * right, y * over + upright * up, 2 * over)


def _in_ellipse(_: Shape, width: int, height: int, spot: Spot) -> bool:
    x, y = 2 * spot.x - width * spot.over, 2 * spot.y - height * spot.over
    return (x * height) ** 2 + (y * width) ** 2 < (width * height * spot.over) ** 2


def _in_arch(shape: Shape, width: int, height: int, spot: Spot) -> bool:
    rise = shape.rise.ticks if shape.rise else 0
    y = spot.y - (height - rise) * spot.over
    x = 2 * spot.x - width * spot.over
    return y <= 0 or (x * rise) ** 2 + (y * width) ** 2 < (width * rise * spot.over) ** 2


def _in_rounded(shape: Shape, width: int, height: int, spot: Spot) -> bool:
    reach = corner_radius(shape, width, height) * spot.over
    x = reach - 2 * min(spot.x, width * spot.over - spot.x)
    y = reach - 2 * min(spot.y, height * spot.over - spot.y)
    return x <= 0 or y <= 0 or x * x + y * y < reach * reach


_CONVEX: dict[str, Callable[[Shape, int, int, Spot], bool]] = {
    "rect": lambda *_: True,
    "ellipse": _in_ellipse,
    "arch": _in_arch,
    "rounded": _in_rounded,
}


def _in_polygon(corners: Sequence[tuple[int, int]], spot: Spot) -> bool:
    """Whether a point lies strictly inside: the edges to its right are crossed an odd number of times."""
    inside = False
    for start, end in _edges(corners):
        side = _side(Spot(*start, 1), Spot(*end, 1), spot)
        low, high = sorted((start[1], end[1]))
        left, right = sorted((start[0], end[0]))
        beside = low * spot.over <= spot.y <= high * spot.over
        if side == 0 and beside and left * spot.over <= spot.x <= right * spot.over:
            return False
        # An edge's upper end counts with the edge above it, so that a corner is not crossed twice.
        if beside and spot.y < high * spot.over and (side > 0) == (end[1] > start[1]):
            inside = not inside
    return inside


def _meets(corners: Sequence[tuple[int, int]], line: Sequence[Spot]) -> bool:
    """Whether an edge of a polygon meets a chord of a line whose points lie strictly inside the polygon."""
    left, right = min(spot.x // spot.over for spot in line), max(spot.x // spot.over + 1 for spot in line)
    low, high = min(spot.y // spot.over for spot in line), max(spot.y // spot.over + 1 for spot in line)
    near = [
        (Spot(*a, 1), Spot(*b, 1))
        for a, b in _edges(corners)
        if max(a[0], b[0]) >= left and min(a[0], b[0]) <= right and max(a[1], b[1]) >= low and min(a[1], b[1]) <= high
    ]
    for p, q in pairwise((*line, line[0])):
        for a, b in near:
            of_line = _side(p, q, a), _side(p, q, b)
            of_edge = _side(a, b, p), _side(a, b, q)
            # An edge along the chord itself says nothing; its neighbours, which leave the chord's line, do.
            if of_line != (0, 0) and of_line[0] * of_line[1] <= 0 and of_edge[0] * of_edge[1] <= 0:
                return True
    return False


def _edges(corners: Sequence[tuple[int, int]]) -> Iterator[tuple[tuple[int, int], tuple[int, int]]]:
    return pairwise((*corners, corners[0]))


def _side(a: Spot, b: Spot, c: Spot) -> int:
    """Positive when c lies left of the line from a to b, zero on it (the determinant of homogeneous points)."""
    return a.x * (b.y * c.over - c.y * b.over) - a.y * (b.x * c.over - c.x * b.over) + a.over * (b.x * c.y - c.x * b.y)
