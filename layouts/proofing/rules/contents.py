"""Rules about the contents of a kit: no step may use, and no placement may need, more than the kit holds."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from dataclasses import dataclass, field

from layouts.assembly import KitSteps
from layouts.assembly.naming import blank_place, element_place, made_place, place_named, project_place, supply_place
from layouts.document import Kit, Placement, Project, Supply
from layouts.lengths import Length
from layouts.proofing.findings import Finding, Rule

__all__ = ["BLANK_OVERDRAWN", "EMBELLISHMENT_SHORT", "RULES", "SUPPLY_SHORT", "findings"]

_WHOLE = {"type": "integer"}
_COUNTS = {"held": _WHOLE, "used": _WHOLE, "placed": _WHOLE}

EMBELLISHMENT_SHORT = Rule(
    "embellishment-short",
    "stop",
    "The steps use, or the placements put, more of an element than the embellishment sheets hold.",
    _COUNTS,
)
BLANK_OVERDRAWN = Rule(
    "blank-overdrawn", "stop", "The steps use, or the placements put, more of a blank than the kit holds.", _COUNTS
)
SUPPLY_SHORT = Rule(
    "supply-short",
    "stop",
    "The steps use, or the placements put, more of a supply than the kit holds: by count, or by length in ticks.",
    {"by": {"enum": ["count", "length"]}, **_COUNTS},
)
RULES = (EMBELLISHMENT_SHORT, BLANK_OVERDRAWN, SUPPLY_SHORT)


@dataclass(slots=True)
class _Demand:
    """What a kit asks for of one thing, all copies of its projects counted. `cut` is in ticks, cut from a length."""

    used: int = 0
    cut: int = 0
    placed: int = 0
    using_steps: list[str] = field(default_factory=list)
    cutting_steps: list[str] = field(default_factory=list)
    placements: list[str] = field(default_factory=list)

    @property
    def needed(self) -> int:
        return max(self.used, self.placed)

    @property
    def words(self) -> str:
        return f"the steps use {self.used}" if self.used >= self.placed else f"the placements put {self.placed}"

    @property
    def places(self) -> list[str]:
        """The steps or placements that make the demand: those of the greater number."""
        return self.using_steps if self.used >= self.placed else self.placements


def findings(kit: Kit, steps: KitSteps) -> Iterator[Finding]:
    """Yield what the kit does not hold enough of.

    What is needed is the sum of all uses times what each project makes or, if that is more, the copies placed. What
    only supports something is not used.
    """
    demands = _demands(kit, steps)
    for sheet in kit.embellishments:
        for element in sheet.elements:
            place, held = element_place(f"{sheet.id}/{element.id}"), element.count * sheet.sheets
            demand = demands[place]
            if demand.needed > held:
                message = (
                    f"The kit holds {held} of “{element.name}” on “{sheet.name}”, {demand.words}. "
                    f"Put {demand.needed - held} more into the kit, or use fewer."
                )
                yield _short(EMBELLISHMENT_SHORT, place, held, demand, message)
    for blank in kit.blanks:
        place = blank_place(blank.id)
        demand = demands[place]
        if demand.needed > blank.count:
            message = (
                f"The kit holds {blank.count} of “{blank.name}”, {demand.words}. "
                f"Put {demand.needed - blank.count} more into the kit, or use fewer."
            )
            yield _short(BLANK_OVERDRAWN, place, blank.count, demand, message)
    for supply in kit.supplies:
        yield from _supply(supply, demands[supply_place(supply.id)])


def _short(rule: Rule, place: str, held: int, demand: _Demand, message: str) -> Finding:
    return rule.finding(place, *demand.places, message=message, held=held, used=demand.used, placed=demand.placed)


def _supply(supply: Supply, demand: _Demand) -> Iterator[Finding]:
    """Judge a supply by its count where it states one, and by its length where it states one.

    Of a supply of known length, uses that state a length are cut from it, and only the others count; a supply that
    states neither is not judged.
    """
    place = supply_place(supply.id)
    owner = "The kit holds" if supply.from_ == "kit" else "The member is asked for"
    if supply.count is not None and demand.needed > supply.count:
        message = (
            f"{owner} {supply.count} of “{supply.name}”, {demand.words}. "
            f"Ask for {demand.needed - supply.count} more, or use fewer."
        )
        yield SUPPLY_SHORT.finding(
            place,
            *demand.places,
            message=message,
            by="count",
            held=supply.count,
            used=demand.used,
            placed=demand.placed,
        )
    if supply.length is not None:
        held = supply.length * (supply.count or 1)
        used = Length(demand.cut, supply.length.system)
        if used > held:
            message = (
                f"{owner} {held} of “{supply.name}”, the steps use {used}: {used - held} more than there is. "
                "Ask for more, or cut it shorter."
            )
            yield SUPPLY_SHORT.finding(
                place, *demand.cutting_steps, message=message, by="length", held=held.ticks, used=used.ticks, placed=0
            )


def _demands(kit: Kit, steps: KitSteps) -> defaultdict[str, _Demand]:
    """Return the demand for each element, blank and supply by its place."""
    lengths = {supply_place(supply.id) for supply in kit.supplies if supply.length is not None}
    faces = {
        f"{blank_place(blank.id)}/face:{face.id}": face.count * blank.count
        for blank in kit.blanks
        for face in blank.faces
    }
    demands: defaultdict[str, _Demand] = defaultdict(_Demand)
    for project in kit.projects:
        for planned in steps.by_project[project.id]:
            for use in planned.step.use:
                place = place_named(use, project.id)
                demand, copies = demands[place], use.count * project.makes
                if use.length is not None and place in lengths:
                    demand.cut += use.length.ticks * copies
                    _note(demand.cutting_steps, planned.place)
                else:
                    demand.used += copies
                    _note(demand.using_steps, planned.place)
        made = {made_place(project.id, one): one.count * project.makes for one in (*project.pieces, *project.forms)}
        for placement in project.placements:
            demand = demands[place_named(placement.put, project.id)]
            demand.placed += _copies_placed(placement, project, made, faces)
            demand.placements.append(f"{project_place(project.id)}/placement:{placement.id}")
    for place in lengths:
        if demands[place].cut:
            # What is placed of it was cut from the length: the lengths are judged, not the number of its parts.
            demands[place].placed = 0
    return demands


def _note(places: list[str], place: str) -> None:
    if place not in places[-1:]:
        places.append(place)


def _copies_placed(placement: Placement, project: Project, made: dict[str, int], faces: dict[str, int]) -> int:
    """Copies over the whole kit. A list is of one copy of the project; a blank's faces are counted for all projects."""
    if placement.copies != "each":
        return len(placement.copies) * project.makes
    support = place_named(placement.on, project.id)
    return made[support] if placement.on.face is None else faces[f"{support}/face:{placement.on.face}"]
