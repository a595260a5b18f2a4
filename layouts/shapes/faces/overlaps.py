"""Things of one layer that lie over one another on one copy of their support."""

from __future__ import annotations

from collections.abc import Hashable, Iterator, Sequence
from dataclasses import dataclass

from layouts.shapes.faces.lying import Lying
from layouts.shapes.faces.rectangles import Rectangle
from layouts.shapes.faces.sweep import Upright, meetings

__all__ = ["MOST_OVERLAPS", "Overlap", "overlaps_in"]

# Overlaps of one kit that are looked at: so many are one mistake, repeated.
MOST_OVERLAPS = 5_000


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
    left = MOST_OVERLAPS
    for group in groups.values():
        found = meetings([_upright(one, one.rectangle) for one in group if one.rectangle is not None], left)
        left -= len(found)
        for at, other in found:
            first, second = group[at], group[other]
            if first.rectangle is None or second.rectangle is None:
                continue
            common = first.rectangle.common(second.rectangle)
            if common is not None and not _is_seen_through(first, second) and not _is_seen_through(second, first):
                yield Overlap(first, second, common)
        if left <= 0:
            return


def _upright(one: Lying, area: Rectangle) -> Upright:
    """What lies on every copy meets everything; what lies on one copy meets that, and what lies on the same copy."""
    if one.on_copy is None:
        return Upright(area, ("every",), ("every", "listed"))
    return Upright(area, ("listed", one.on_copy), ("every", one.on_copy))


def _is_seen_through(frame: Lying, thing: Lying) -> bool:
    """Whether a thing lies within a window of another: it is framed by it, not covered."""
    area = thing.rectangle
    if area is None:
        return False
    left, bottom, right, top = area
    return any(hole.encloses([(left, bottom), (right, bottom), (right, top), (left, top)]) for hole in frame.windows)
