"""Holes in what lies or is laid upon: openings of faces and windows of pieces, as they lie when the thing is turned."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise

from layouts.document import Opening, Shape, Size
from layouts.shapes.faces.rectangles import Rectangle
from layouts.shapes.outlines import outline
from layouts.shapes.windows import resolve

__all__ = ["Corner", "Hole", "area_of", "clipped", "hole_of"]

Corner = tuple[Fraction, Fraction]


@dataclass(frozen=True, slots=True)
class Hole:
    """An opening or a window: its place, the rectangle around it, its outline's kind, and how far it is turned."""

    place: str
    name: str
    around: Rectangle
    shape: Shape
    turn: int = 0

    @property
    def is_rectangle(self) -> bool:
        return self.shape.kind == "rect"

    def moved(self, right: Fraction, up: Fraction) -> Hole:
        return Hole(self.place, self.name, self.around.moved(right, up), self.shape, self.turn)

    def turned(self, turn: int, width: Fraction, height: Fraction) -> Hole:
        """Return the hole of a thing of this size once that is turned anticlockwise by quarter turns."""
        left, bottom, right, top = self.around
        around = {
            0: self.around,
            90: Rectangle(height - top, left, height - bottom, right),
            180: Rectangle(width - right, height - top, width - left, height - bottom),
            270: Rectangle(bottom, width - right, top, width - left),
        }[turn]
        return Hole(self.place, self.name, around, self.shape, (self.turn + turn) % 360)

    def corners(self) -> list[Corner]:
        """Return the corners of the outline, anticlockwise; of a curve 65 exact points a quarter."""
        left, bottom, right, top = self.around
        sideways = self.turn in (90, 270)
        # Sides of holes are lengths of the document, or differences of them: whole ticks.
        width, height = int(right - left), int(top - bottom)
        own = (height, width) if sideways else (width, height)
        spots = [(Fraction(spot.x, spot.over), Fraction(spot.y, spot.over)) for spot in outline(self.shape, *own)]
        if self.turn == 90:
            spots = [(width - y, x) for x, y in spots]
        elif self.turn == 180:
            spots = [(width - x, height - y) for x, y in spots]
        elif self.turn == 270:
            spots = [(y, height - x) for x, y in spots]
        return [(left + x, bottom + y) for x, y in spots]

    def encloses(self, spots: Sequence[Corner]) -> bool:
        """Whether all these points, the corners of a convex area, lie in the hole or on its outline.

        A hole with a curved outline is judged by the chords between its points, so a little too strictly (by less than
        1/8000 of a half axis); a polygon by its own corners, and only where it bulges nowhere inwards: else False.
        """
        around = self.around
        if not all(around.left <= x <= around.right and around.bottom <= y <= around.top for x, y in spots):
            return False
        if self.is_rectangle:
            return True
        corners = self.corners()
        edges = list(pairwise((*corners, corners[0])))
        turns = {
            _side(a, b, c) > 0 for (a, b), (_, c) in zip(edges, (*edges[1:], edges[0]), strict=True) if _side(a, b, c)
        }
        if len(turns) != 1:
            return False
        sign = 1 if turns.pop() else -1
        return all(sign * _side(a, b, spot) >= 0 for a, b in edges for spot in spots)


def hole_of(opening: Opening, place: str, name: str, whole: Size, left: int = 0, bottom: int = 0) -> Hole | None:
    """Return an opening as a hole, None where nothing is left of it.

    `left` and `bottom`, in ticks, are what the edges of the whole have lost before anything is laid on it.
    """
    aperture = resolve(opening, whole)
    if aperture.width.ticks <= 0 or aperture.height.ticks <= 0:
        return None
    x, y = Fraction(aperture.left.ticks - left), Fraction(aperture.bottom.ticks - bottom)
    around = Rectangle(x, y, x + aperture.width.ticks, y + aperture.height.ticks)
    return Hole(place, name, around, opening.shape)


def clipped(corners: Sequence[Corner], within: Rectangle) -> list[Corner]:
    """Return what of an area lies within a rectangle, as corners; nothing may be left.

    Source: clipping by one half plane after the other (Sutherland and Hodgman, Communications of the ACM 17, 1974;
    from memory). An area that bulges inwards may come out with edges that run there and back; its area stays true.
    """
    found = list(corners)
    for axis, bound, keeps_above in (
        (0, within.left, True),
        (0, within.right, False),
        (1, within.bottom, True),
        (1, within.top, False),
    ):
        before, found = found, []
        for start, end in pairwise((*before, before[0])) if before else ():
            inside_start = start[axis] >= bound if keeps_above else start[axis] <= bound
            inside_end = end[axis] >= bound if keeps_above else end[axis] <= bound
            if inside_start:
                found.append(start)
            if inside_start != inside_end:
                share = (bound - start[axis]) / (end[axis] - start[axis])
                found.append((start[0] + share * (end[0] - start[0]), start[1] + share * (end[1] - start[1])))
    return found


def area_of(corners: Sequence[Corner]) -> Fraction:
    """Return the area inside a closed line, in square ticks. Source: the trapezoid formula (identity)."""
    if len(corners) < 3:
        return Fraction(0)
    return abs(sum((a[0] * b[1] - b[0] * a[1] for a, b in pairwise((*corners, corners[0]))), Fraction(0))) / 2


def _side(a: Corner, b: Corner, c: Corner) -> Fraction:
    """Positive when c lies left of the line from a to b, zero on it."""
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])
