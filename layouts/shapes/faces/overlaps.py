"""Things of one layer that lie over one another on one copy of their support."""

from __future__ import annotations

from collections.abc import Hashable, Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction

from layouts.shapes.faces.lying import Lying
from layouts.shapes.faces.openings import MOST_WINDOWS
from layouts.shapes.faces.rectangles import Rectangle
from layouts.shapes.faces.sweep import Upright, meetings

__all__ = ["MOST_OVERLAPS", "Overlap", "overlaps_in"]

# Overlaps of one kit that are looked at: so many are one mistake, repeated.
MOST_OVERLAPS = 2_000


@dataclass(frozen=True, slots=True)
class Overlap:
    """Two things that lie over each other, in document order, and the area common to the rectangles around them."""

    first: Lying
    second: Lying
    common: Rectangle


@dataclass(frozen=True, slots=True)
class _Part:
    """What lies on one surface of a thing: all of it where it is put, or what of it turns over a fold.

    `number` is its place in the order of the document.
    """

    number: int
    lying: Lying
    area: Rectangle
    is_turned: bool = False

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
    other. Shapes are judged by the rectangles around them. Of a blank of which the kit holds several, each project has
    its own.
    """
    left, windows_left = MOST_OVERLAPS, MOST_WINDOWS
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
            if _is_certain(first, second, common) and not _is_framed(first, second) and not _is_framed(second, first):
                yield Overlap(first.lying, second.lying, common)
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
