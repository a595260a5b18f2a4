"""What each step handles: the things that must not be moved while its glue dries."""

from __future__ import annotations

from collections.abc import Iterator

from layouts.assembly.naming import blank_place, element_place, made_place, place_named, supply_place
from layouts.assembly.steps import KitSteps
from layouts.document import Kit, Placement, Project, Step

__all__ = ["handled_by_steps"]


def handled_by_steps(kit: Kit, steps: KitSteps) -> dict[str, frozenset[str]]:
    """Return for the place of each step the places of what it handles.

    These are the things it cuts, uses and closes, and what it puts them on: the supports of the placements of what it
    uses. A later step that handles one of them has to wait for the glue of an earlier one; all others go on.
    Things of which there are many are left out, since the next is another one: elements and supplies of which the kit
    holds several, whatever is cut from a roll, and tape. Of pieces, forms and blanks all copies count as one.
    Source: common practice, no source.
    """
    plenty = frozenset(_plenty(kit))
    handled: dict[str, frozenset[str]] = {}
    for project in kit.projects:
        made = {one.id: made_place(project.id, one) for one in (*project.pieces, *project.forms)}
        supports: dict[str, list[str]] = {}
        for placement in project.placements:
            _place(placement, project, supports)
        for planned in steps.by_project[project.id]:
            things = frozenset(_handled(planned.step, project, made, supports))
            handled[planned.place] = things - plenty
    return handled


def _place(placement: Placement, project: Project, supports: dict[str, list[str]]) -> None:
    supports.setdefault(place_named(placement.put, project.id), []).append(place_named(placement.on, project.id))


def _handled(step: Step, project: Project, made: dict[str, str], supports: dict[str, list[str]]) -> Iterator[str]:
    for name in step.cut:
        yield made[name]
    for use in step.use:
        thing = place_named(use, project.id)
        yield thing
        yield from supports.get(thing, ())
    for name in step.closes:
        yield made.get(name, blank_place(name))


def _plenty(kit: Kit) -> Iterator[str]:
    for sheet in kit.embellishments:
        for element in sheet.elements:
            if element.count * sheet.sheets > 1:
                yield element_place(f"{sheet.id}/{element.id}")
    for supply in kit.supplies:
        if supply.kind == "adhesive-tape" or supply.length is not None or (supply.count or 1) > 1:
            yield supply_place(supply.id)
