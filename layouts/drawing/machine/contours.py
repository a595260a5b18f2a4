"""Lines to cut, exact: straight lines and quarters of ellipses, in ticks from the lower left."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import NamedTuple

from layouts.document import Shape
from layouts.shapes.outlines import corner_radius, corners_of

__all__ = ["Arc", "Contour", "Spot", "circle", "contour_of", "polyline"]


class Spot(NamedTuple):
    x: Fraction
    y: Fraction


@dataclass(frozen=True, slots=True)
class Arc:
    """A quarter of an ellipse, anticlockwise, from where the line has come to, up to `end`."""

    end: Spot
    middle: Spot
    across: Fraction
    up: Fraction


@dataclass(frozen=True, slots=True)
class Contour:
    """A line from `start` along straight lines (to a spot) and arcs; a closed one ends where it starts."""

    start: Spot
    steps: tuple[Spot | Arc, ...]
    closed: bool = True

    @property
    def spots(self) -> tuple[Spot, ...]:
        """Its corners, its start first."""
        return (self.start, *(step.end if isinstance(step, Arc) else step for step in self.steps))

    def moved(self, right: Fraction | int, up: Fraction | int) -> Contour:
        def there(spot: Spot) -> Spot:
            return Spot(spot.x + right, spot.y + up)

        steps = tuple(
            Arc(there(step.end), there(step.middle), step.across, step.up) if isinstance(step, Arc) else there(step)
            for step in self.steps
        )
        return Contour(there(self.start), steps, self.closed)


def polyline(spots: Sequence[tuple[Fraction | int, Fraction | int]]) -> Contour:
    """Return straight lines from spot to spot; closed where the last spot is the first."""
    line = [Spot(Fraction(x), Fraction(y)) for x, y in spots]
    closed = len(line) > 2 and line[0] == line[-1]
    return Contour(line[0], tuple(line[1:]), closed)


def circle(middle: tuple[Fraction, Fraction], diameter: Fraction) -> Contour:
    half = diameter / 2
    return _ellipse(Spot(*middle), half, half)


def contour_of(shape: Shape, width: int, height: int) -> Contour:
    """Return the outline of a shape of this size (ticks), anticlockwise, its rectangle's lower left at the origin.

    Source: as `layouts.shapes.outlines`; here curves stay curves.
    """
    wide, high, zero = Fraction(width), Fraction(height), Fraction(0)
    if shape.kind == "ellipse":
        return _ellipse(Spot(wide / 2, high / 2), wide / 2, high / 2)
    if shape.kind == "polygon":
        corners = corners_of(shape)
        return polyline([*corners, corners[0]])
    if shape.kind == "arch":
        rise = Fraction(min(shape.rise.ticks, height) if shape.rise else 0)
        spring = high - rise
        if rise:
            middle = Spot(wide / 2, spring)
            top = Arc(Spot(wide / 2, high), middle, wide / 2, rise), Arc(Spot(zero, spring), middle, wide / 2, rise)
            # It starts where its top ends: all that is straight is one line.
            return _closed([Spot(zero, spring), Spot(zero, zero), Spot(wide, zero), Spot(wide, spring), *top])
    if shape.kind == "rounded":
        r = Fraction(corner_radius(shape, width, height), 2)
        if r:
            return _closed(
                [
                    Spot(r, zero),
                    Spot(wide - r, zero),
                    Arc(Spot(wide, r), Spot(wide - r, r), r, r),
                    Spot(wide, high - r),
                    Arc(Spot(wide - r, high), Spot(wide - r, high - r), r, r),
                    Spot(r, high),
                    Arc(Spot(zero, high - r), Spot(r, high - r), r, r),
                    Spot(zero, r),
                    Arc(Spot(r, zero), Spot(r, r), r, r),
                ]
            )
    return polyline([(zero, zero), (wide, zero), (wide, high), (zero, high), (zero, zero)])


def _ellipse(middle: Spot, across: Fraction, up: Fraction) -> Contour:
    x, y = middle
    ends = Spot(x, y + up), Spot(x - across, y), Spot(x, y - up), Spot(x + across, y)
    return Contour(ends[3], tuple(Arc(end, middle, across, up) for end in ends))


def _closed(line: Sequence[Spot | Arc]) -> Contour:
    """Close a line, without steps that go nowhere: an arch may spring from its foot, rounded corners may meet."""
    first = line[0]
    if isinstance(first, Arc):
        raise ValueError("a line starts at a spot")
    steps: list[Spot | Arc] = []
    here = first
    for step in line[1:]:
        end = step.end if isinstance(step, Arc) else step
        if end != here:
            steps.append(step)
        here = end
    if here != first:
        steps.append(first)
    return Contour(first, tuple(steps))
