"""All placements of a kit as they lie."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from itertools import islice

from layouts.document import Copy, Kit, Placement, Project
from layouts.shapes.faces.borders import wrong_borders
from layouts.shapes.faces.form_sizes import FormSizes
from layouts.shapes.faces.lying import Along, Lying, rectangle_of
from layouts.shapes.faces.overhangs import overhang
from layouts.shapes.faces.surfaces import Surface, Surfaces
from layouts.shapes.faces.things import Thing, Things

__all__ = ["MOST_LYING", "lying_in"]

# Copies of placements of one kit that anybody looks at: lists of copies may be very long.
MOST_LYING = 20_000


def lying_in(kit: Kit) -> tuple[Lying, ...]:
    """Return every copy of every placement of a kit, in document order, the first `MOST_LYING` of them.

    Those that are one on each copy of their support lie alike there and are returned once. On the left or the right
    wall of a box a thing is taken as that panel lies flat or, where only that agrees with its size and its claimed
    borders, as the wall is seen standing: the document may mean either.
    """
    forms = FormSizes(kit)
    return tuple(islice(_all(kit, Surfaces(kit, forms), Things(kit, forms)), MOST_LYING))


def _all(kit: Kit, surfaces: Surfaces, things: Things) -> Iterator[Lying]:
    for project in kit.projects:
        for placement in project.placements:
            surface = surfaces.of(project, placement.on)
            place = f"project:{project.id}/placement:{placement.id}"
            at: tuple[tuple[str, Placement | Copy, int | None], ...] = ((place, placement, None),)
            if placement.copies != "each":
                at = tuple(
                    (f"{place}/copies/{number}", copy, copy.on_copy)
                    for number, copy in enumerate(placement.copies, start=1)
                )
            for where, position, on_copy in at:
                thing = things.of(project, placement.put, position.turn)
                one = _lying(where, project, placement, position, thing, surface, on_copy)
                if placement.wraps:
                    one = replace(one, beyond=surfaces.beyond(project, placement.on))
                if surface.is_side_wall and _disagrees(one):
                    standing = replace(surface, width=surface.height, height=surface.width)
                    other = _lying(where, project, placement, position, thing, standing, on_copy)
                    one = one if _disagrees(other) else other
                yield one


def _lying(
    place: str,
    project: Project,
    placement: Placement,
    at: Placement | Copy,
    thing: Thing,
    surface: Surface,
    on_copy: int | None,
) -> Lying:
    across = Along.of(surface.width, thing.width, at.left, at.right, bool(at.centred))
    up = Along.of(surface.height, thing.height, at.bottom, at.top, bool(at.middle))
    return Lying(place, project, placement, thing, surface, on_copy, across, up, rectangle_of(across, up), at.turn)


def _disagrees(one: Lying) -> bool:
    return bool(overhang(one) or wrong_borders(one))
