"""Things of one layer that lie over one another on one copy of their support."""

from __future__ import annotations

from collections.abc import Hashable, Iterator, Sequence
from dataclasses import dataclass

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


def overlaps_in(lying: Sequence[Lying]) -> Iterator[Overlap]:
    """Yield the overlaps within each layer of each support, at most `MOST_OVERLAPS` for all of them.

    A placement that intends to overlap is left out, and so is a thing that lies within a window of the other. Shapes
    are judged by the rectangles around them. Of a blank of which the kit holds several, each project has its own.
    """
    groups: dict[tuple[Hashable, ...], list[Lying]] = {}
    for one in lying:
        if one.rectangle is not None and "overlap" not in one.placement.intends:
            surface = one.surface
            groups.setdefault((surface.place, surface.project, one.placement.layer), []).append(one)
    left, windows_left = MOST_OVERLAPS, MOST_WINDOWS
    for group in groups.values():
        shared = any(one.on_copy is None for one in group)
        found = meetings([_upright(one, one.rectangle, shared) for one in group if one.rectangle is not None], left)
        left -= len(found)
        for at, other in found:
            first, second = group[at], group[other]
            if first.rectangle is None or second.rectangle is None:
                continue
            windows_left -= len(first.thing.windows) + len(second.thing.windows)
            common = first.rectangle.common(second.rectangle)
            if windows_left < 0 or common is None:
                return
            if not _is_seen_through(first, second.rectangle) and not _is_seen_through(second, first.rectangle):
                yield Overlap(first, second, common)
        if left <= 0:
            return


def _upright(one: Lying, area: Rectangle, shared: bool) -> Upright:
    """What lies on every copy meets everything; what lies on one copy meets that, and what lies on the same copy."""
    if one.on_copy is None:
        return Upright(area, ("every",), ("every", "listed"))
    if not shared:
        return Upright(area, (one.on_copy,), (one.on_copy,))
    return Upright(area, ("listed", one.on_copy), ("every", one.on_copy))


def _is_seen_through(frame: Lying, area: Rectangle) -> bool:
    """Whether an area lies within a window of a thing: it is framed by it, not covered."""
    left, bottom, right, top = area
    corners = [(left, bottom), (right, bottom), (right, top), (left, top)]
    return any(hole.around.holds(area) and hole.encloses(corners) for hole in frame.windows_near(area))
