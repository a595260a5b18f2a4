"""What each step handles: the things that must not be moved while its glue dries."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

from layouts.assembly.naming import blank_place, element_place, made_place, place_named, supply_place
from layouts.assembly.steps import KitSteps
from layouts.document import Kit, Placement, Project, Step

__all__ = ["handled_by_steps"]

# A thing that is put on more supports than this, or supports beyond this number over all steps, are left out: a list
# of thousands of placements, used by each of thousands of steps, would be their product.
_MOST_SUPPORTS = 100
_MOST_SUPPORTS_IN_ALL = 300_000


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
    supports_left = _MOST_SUPPORTS_IN_ALL
    for project in kit.projects:
        made = {one.id: made_place(project.id, one) for one in (*project.pieces, *project.forms)}
        supports: dict[str, dict[str, None]] = {}
        for placement in project.placements:
            _place(placement, project, supports)
        for planned in steps.by_project[project.id]:
            used = dict.fromkeys(place_named(use, project.id) for use in planned.step.use)
            supports_left -= sum(len(supports.get(thing, ())) for thing in used)
            things = _handled(planned.step, project, made, used, supports if supports_left >= 0 else {})
            handled[planned.place] = frozenset(things) - plenty
    return handled


def _place(placement: Placement, project: Project, supports: dict[str, dict[str, None]]) -> None:
    own = supports.setdefault(place_named(placement.put, project.id), {})
    if len(own) < _MOST_SUPPORTS:
        own[place_named(placement.on, project.id)] = None


def _handled(
    step: Step,
    project: Project,
    made: Mapping[str, str],
    used: Iterable[str],
    supports: Mapping[str, Iterable[str]],
) -> Iterator[str]:
    for name in step.cut:
        yield made[name]
    for thing in used:
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
