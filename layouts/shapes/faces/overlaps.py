"""Things of one layer that lie over one another on one copy of their support."""

from __future__ import annotations

from collections.abc import Hashable, Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction

from layouts.document import Piece, Shape
from layouts.shapes.faces.holes import Hole
from layouts.shapes.faces.lying import Lying
from layouts.shapes.faces.openings import MOST_WINDOWS
from layouts.shapes.faces.rectangles import Rectangle
from layouts.shapes.faces.sharing import outlines_share_area
from layouts.shapes.faces.sweep import Upright, meetings

__all__ = ["MOST_OVERLAPS", "Overlap", "overlaps_in"]

# Overlaps of one kit that are looked at: so many are one mistake, repeated.
MOST_OVERLAPS = 2_000

# Corners of outlines that are looked at for one kit, 260 of them on an oval, and on one outline.
_MOST_CORNERS = 60_000
_MOST_ON_ONE = 500

_RECT = Shape.by_default()


@dataclass(frozen=True, slots=True)
class Overlap:
    """Two things that lie over each other, in document order, and the area common to the rectangles around them.

    `is_within` says that this area is more than what they cover both, since one of them is no rectangle.
    """

    first: Lying
    second: Lying
    common: Rectangle
    is_within: bool = False


@dataclass(frozen=True, slots=True)
class _Part:
    """What lies on one surface of a thing: all of it where it is put, or what of it turns over a fold.

    `number` is its place in the order of the document.
    """

    number: int
    lying: Lying
    area: Rectangle
    is_turned: bool = False

    @property
    def outline(self) -> Hole:
        """The outline as a hole of that shape would have it; the rectangle where the outline is not known.

        That is so for what turns over a fold, and for a polygon of which decorative edges take something.
        """
        made, shape = self.lying.thing.made, _RECT
        if isinstance(made, Piece) and not self.is_turned:
            size = Fraction(made.size.width.ticks), Fraction(made.size.height.ticks)
            lies = size[::-1] if self.lying.turn in (90, 270) else size
            as_planned = (self.area.width, self.area.height) == lies
            if made.shape.kind != "polygon" or (as_planned and len(made.shape.points or ()) <= _MOST_ON_ONE):
                shape = made.shape
        return Hole("", "", self.area, shape, self.lying.turn)

    def upright(self, shared: bool) -> Upright:
        """What lies on every copy meets everything; what lies on one copy meets that, and what lies on the same."""
        if self.lying.on_copy is None:
            return Upright(self.area, ("every",), ("every", "listed"))
        if not shared:
            return Upright(self.area, (self.lying.on_copy,), (self.lying.on_copy,))
        return Upright(self.area, ("listed", self.lying.on_copy), ("every", self.lying.on_copy))


def overlaps_in(lying: Sequence[Lying]) -> Iterator[Overlap]:
    """Yield the overlaps within each layer of each support, at most `MOST_OVERLAPS` for all of them.

    What turns over a fold is held against what lies on the panel there, beyond what the thickness of its paper makes
    uncertain. A placement that intends to overlap is left out, and so is a thing that lies within a window of the
    other. Things whose outlines touch at most are apart; where an outline is not known, or too many are looked at, the
    rectangles around them are judged. Of a blank of which the kit holds several, each project has its own.
    """
    left, windows_left, corners_left = MOST_OVERLAPS, MOST_WINDOWS, _MOST_CORNERS
    for group in _groups(lying).values():
        shared = any(one.lying.on_copy is None for one in group)
        found = meetings([one.upright(shared) for one in group], left)
        left -= len(found)
        for at, other in found:
            first, second = sorted((group[at], group[other]), key=lambda one: one.number)
            windows_left -= len(first.lying.thing.windows) + len(second.lying.thing.windows)
            common = first.area.common(second.area)
            if windows_left < 0 or common is None:
                return
            if not _is_certain(first, second, common) or _is_framed(first, second) or _is_framed(second, first):
                continue
            one, two = first.outline, second.outline
            is_within = not (one.is_rectangle and two.is_rectangle)
            if is_within:
                corners_left -= _corners(one) + _corners(two)
                if corners_left >= 0 and outlines_share_area(one, two) is False:
                    continue
            yield Overlap(first.lying, second.lying, common, is_within)
        if left <= 0:
            return


def _groups(lying: Sequence[Lying]) -> dict[tuple[Hashable, ...], list[_Part]]:
    """What lies on each support, layer by layer, what turns over onto it behind what is put there."""
    groups: dict[tuple[Hashable, ...], list[_Part]] = {}
    seen_as: dict[tuple[Hashable, ...], tuple[Fraction | None, Fraction | None]] = {}
    judged = [(number, one) for number, one in enumerate(lying) if "overlap" not in one.placement.intends]
    for number, one in judged:
        if one.rectangle is not None:
            key = one.surface.place, one.surface.project, one.placement.layer
            groups.setdefault(key, []).append(_Part(number, one, one.rectangle))
            seen_as[key] = one.surface.width, one.surface.height
    for number, one in judged:
        for over, area in one.turned_over.items():
            key = over.place, one.surface.project, one.placement.layer
            # A wall that is spoken of as it stands lies another way than what turns over onto it.
            if seen_as.get(key, (over.width, over.height)) == (over.width, over.height):
                groups.setdefault(key, []).append(_Part(number, one, area, is_turned=True))
    return groups


def _corners(outline: Hole) -> int:
    """How many corners an outline has: a curve as many as four quarters."""
    return {"rect": 4, "polygon": len(outline.shape.points or ())}.get(outline.shape.kind, 260)


def _is_certain(first: _Part, second: _Part, common: Rectangle) -> bool:
    give = first.lying.surface.give
    return not (first.is_turned or second.is_turned) or min(common.width, common.height) > give


def _is_framed(frame: _Part, other: _Part) -> bool:
    return not frame.is_turned and _is_seen_through(frame.lying, other.area)


def _is_seen_through(frame: Lying, area: Rectangle) -> bool:
    """Whether an area lies within a window of a thing: it is framed by it, not covered."""
    left, bottom, right, top = area
    corners = [(left, bottom), (right, bottom), (right, top), (left, top)]
    return any(hole.around.holds(area) and hole.encloses(corners) for hole in frame.windows_near(area))
