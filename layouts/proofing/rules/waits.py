"""Rules about waits: glue that is given no time to dry, and what is put into a thing that is closed already."""

from __future__ import annotations

from collections import deque
from collections.abc import Iterator, Mapping
from itertools import chain, islice

from layouts.assembly import KitSteps, PlannedStep
from layouts.assembly.handling import handled_by_steps
from layouts.assembly.naming import blank_place, made_place, place_named
from layouts.document import Form, Kit, Placement, Project
from layouts.document.forms import Concertina, Envelope, Lid, Pocket, Scored, Sleeve, Tray
from layouts.proofing.findings import Finding, Rule
from layouts.shapes import MOST_PARTS, FlatSizes, NotBuilt

__all__ = ["CLOSED_BEFORE_USE", "RULES", "WAIT_MISSING", "findings"]

_PLACES = {"type": "array", "items": {"type": "string"}}

WAIT_MISSING = Rule(
    "wait-missing",
    "fix",
    "A step uses solvent glue, or wet glue on the tabs, walls and joins of a form itself, and says nothing of drying, "
    "although a later step handles what was glued. The step that sticks a form itself together is the first with glue "
    "or tape that handles it and puts nothing on it; where all put something on it, the first.",
    {"glue": {"enum": ["solvent-glue", "wet-glue"]}, "handled_by": _PLACES},
)
CLOSED_BEFORE_USE = Rule(
    "closed-before-use",
    "fix",
    "Something is put into a thing after a step that closes it: on an inner face or skin, behind the face of a blank, "
    "or on what lies there.",
    {"closed_by": _PLACES, "put": _PLACES},
)
RULES = (WAIT_MISSING, CLOSED_BEFORE_USE)

_STICKY = frozenset(("wet-glue", "solvent-glue", "hot-glue", "tape"))
_MOST_TOLD = 200
_MOST_NAMED = 20
# How many steps are looked at to name those that a finding is about.
_MOST_LOOKED_AT = 2_000
# How many things are followed into what they lie in: thousands of blanks could be stuffed with thousands of piles.
_MOST_FOLLOWED = 200_000


def findings(kit: Kit, steps: KitSteps) -> Iterator[Finding]:
    """Yield where a wait is missing, and what is closed too early. Steps in a circle are told by another rule."""
    # Of thousands the first: the others are told when those are mended.
    yield from islice(waits_missing(kit, steps), _MOST_TOLD)
    yield from islice(closed_before_use(kit, steps), _MOST_TOLD)


def waits_missing(kit: Kit, steps: KitSteps) -> Iterator[Finding]:
    """Yield one finding for each step, glue and form or, with solvent glue, for each step."""
    kinds = {tool.id: tool.kind for tool in kit.tools}
    if not {"solvent-glue", "wet-glue"} & set(kinds.values()):
        return
    handled = handled_by_steps(kit, steps)
    followed, joins = _Followed(steps, handled), _Joins(kit)
    for project in kit.projects:
        own = steps.by_project[project.id]
        glues = [{kinds[tool] for tool in planned.step.tools} & _STICKY for planned in own]
        for planned, glue in zip(own, glues, strict=True):
            if "solvent-glue" in glue and planned.step.dry is None:
                things = sorted(thing for thing in handled[planned.place] if followed.later(planned.place, thing))
                if things:
                    yield _wait_missing(planned, "solvent-glue", things, followed)
        wet = {planned.place for planned, glue in zip(own, glues, strict=True) if "wet-glue" in glue}
        sticking = [planned for planned, glue in zip(own, glues, strict=True) if glue]
        for place, (form, planned) in _stuck_together(project, sticking, handled).items():
            hurried = planned.place in wet and planned.step.dry is None and followed.later(planned.place, place)
            if hurried and joins.are_in(form, project):
                yield _wait_missing(planned, "wet-glue", [place], followed)


def _wait_missing(planned: PlannedStep, glue: str, things: list[str], followed: _Followed) -> Finding:
    handlers = followed.handlers(planned.place, things)
    names = ", ".join(handler.rpartition(":")[2] for handler in handlers[:3])
    later = f"{'steps' if len(handlers) > 1 else 'step'} {names}" if handlers else "a later step"
    what = ", ".join(thing.rpartition(":")[2] for thing in things[:3])
    words = "solvent glue" if glue == "solvent-glue" else "wet glue on the form itself"
    message = (
        f"Step {planned.step.id} of “{planned.project.title}” uses {words} and gives it no time to dry, although "
        f"{later} will handle {what}. "
        "Say how long it dries; half an hour is usual for heavy glue, ten minutes for paper glue."
    )
    return WAIT_MISSING.finding(planned.place, *things[:_MOST_NAMED], message=message, glue=glue, handled_by=handlers)


class _Followed:
    """Which steps come before one that handles a thing: asked for thousands of steps without looking at all others."""

    def __init__(self, steps: KitSteps, handled: Mapping[str, frozenset[str]]) -> None:
        self._precedence = steps.precedence
        self._handling: dict[str, list[str]] = {}
        self._before: dict[str, int] = {}
        # What goes round in a circle comes before itself; nothing later is known of it.
        self._in_circles = {
            planned.place for planned in steps if steps.precedence.precedes(planned.place, planned.place)
        }
        for planned in steps:
            before = steps.precedence.before(planned.place)
            for thing in handled[planned.place]:
                self._handling.setdefault(thing, []).append(planned.place)
                self._before[thing] = self._before.get(thing, 0) | before

    def later(self, place: str, thing: str) -> bool:
        """Whether a step that handles the thing must come after this one."""
        return place not in self._in_circles and bool(self._before.get(thing, 0) & self._precedence.bit(place))

    def handlers(self, place: str, things: list[str]) -> list[str]:
        """Return steps that come after this one and handle one of the things, from the next in the document on."""
        found: dict[str, None] = {}
        for thing in things[:3]:
            handling = self._handling[thing]
            here = handling.index(place) if place in handling else 0
            for handler in islice(chain(handling[here:], handling[:here]), _MOST_LOOKED_AT):
                if len(found) == _MOST_NAMED:
                    break
                if self._precedence.precedes(place, handler):
                    found[handler] = None
        return list(found)


def _stuck_together(
    project: Project, sticking: list[PlannedStep], handled: Mapping[str, frozenset[str]]
) -> dict[str, tuple[Form, PlannedStep]]:
    """Each form by its place with the step that would stick its own tabs, walls and joins, if it has any."""
    forms = {made_place(project.id, form): form for form in project.forms}
    put_on: dict[str, set[str]] = {}
    for placement in project.placements:
        on = place_named(placement.on, project.id)
        if on in forms:
            put_on.setdefault(place_named(placement.put, project.id), set()).add(on)
    bare: dict[str, PlannedStep] = {}
    first: dict[str, PlannedStep] = {}
    for planned in sticking:
        used = {place_named(use, project.id) for use in planned.step.use}
        supports = {on for thing in used for on in put_on.get(thing, ())}
        for place in sorted(place for place in handled[planned.place] if place in forms):
            first.setdefault(place, planned)
            if place not in supports:
                bare.setdefault(place, planned)
    return {place: (forms[place], bare.get(place, first[place])) for place in first}


class _Joins:
    """Which forms are glued to themselves, or by flaps of their own."""

    def __init__(self, kit: Kit) -> None:
        self._sizes = FlatSizes.of(kit)
        self._papers = {paper.id: paper for paper in kit.papers}
        self._parts_left = MOST_PARTS

    def are_in(self, form: Form, project: Project) -> bool:
        if isinstance(form, Tray | Lid):
            return form.corner == "tab" or form.walls == "double"
        if isinstance(form, Scored):
            return form.corners == "tab"
        if isinstance(form, Concertina):
            return form.panels > 1 and self._is_in_strips(form, project)
        return isinstance(form, Sleeve | Pocket | Envelope)

    def _is_in_strips(self, form: Concertina, project: Project) -> bool:
        if self._parts_left <= 0:
            return False
        paper = self._papers[form.paper if isinstance(form.paper, str) else form.paper.each[0]]
        try:
            parts = len(self._sizes.parts(form, project.id, paper))
        except NotBuilt:
            return False
        self._parts_left -= parts
        return parts > 1


def closed_before_use(kit: Kit, steps: KitSteps) -> Iterator[Finding]:
    """Yield one finding for each step and each thing that it puts something into too late."""
    closing: dict[str, list[str]] = {}
    for project in kit.projects:
        forms = {form.id: made_place(project.id, form) for form in project.forms}
        for planned in steps.by_project[project.id]:
            for name in dict.fromkeys(planned.step.closes):
                closing.setdefault(forms.get(name, blank_place(name)), []).append(planned.place)
    if not closing:
        return
    closed = {place: _all_of(by, steps) for place, by in closing.items()}
    inside = _lying_inside(kit, set(closing))
    # One set for all that a thing may lie in: most steps are cleared by one question.
    closed_around = {thing: _union(closed[place] for place in places) for thing, places in inside.items()}
    for planned in steps:
        before = steps.precedence.before(planned.place)
        if before & steps.precedence.bit(planned.place):
            continue
        late: dict[str, list[str]] = {}
        for thing in dict.fromkeys(place_named(use, planned.project.id) for use in planned.step.use):
            if before & closed_around.get(thing, 0):
                for place in inside[thing]:
                    if before & closed[place] and len(late) < _MOST_NAMED:
                        late.setdefault(place, []).append(thing)
        for place, things in late.items():
            yield _closed(planned, place, things, closing[place], steps)


def _closed(planned: PlannedStep, place: str, things: list[str], closing: list[str], steps: KitSteps) -> Finding:
    by = [one for one in closing[:1000] if steps.precedence.precedes(one, planned.place)][:_MOST_NAMED]
    put = ", ".join(thing.rpartition(":")[2] for thing in things[:3])
    closer = f"step {by[0].rpartition(':')[2]}" if by else "an earlier step"
    message = (
        f"Step {planned.step.id} of “{planned.project.title}” puts {put} into {place.rpartition(':')[2]}, which "
        f"{closer} has closed. Put it in before, or close the thing later."
    )
    return CLOSED_BEFORE_USE.finding(planned.place, place, message=message, closed_by=by, put=things[:_MOST_NAMED])


def _all_of(places: list[str], steps: KitSteps) -> int:
    return _union(steps.precedence.bit(place) for place in places)


def _union(sets: Iterator[int]) -> int:
    together = 0
    for one in sets:
        together |= one
    return together


def _lying_inside(kit: Kit, closed: set[str]) -> dict[str, dict[str, None]]:
    """For the place of each thing the places of what it is put into: only things that some step closes."""
    inner = {f"{blank_place(blank.id)}/face:{face.id}" for blank in kit.blanks for face in blank.faces if face.inside}
    piled: dict[str, list[str]] = {}
    waiting: deque[tuple[str, str]] = deque()
    for project in kit.projects:
        for placement in project.placements:
            thing, support = place_named(placement.put, project.id), place_named(placement.on, project.id)
            piled.setdefault(support, []).append(thing)
            if support in closed and _is_inside(placement, support, inner):
                waiting.append((thing, support))
    found: dict[str, dict[str, None]] = {}
    followed = 0
    while waiting and followed < _MOST_FOLLOWED:
        followed += 1
        thing, container = waiting.popleft()
        if container not in found.setdefault(thing, {}):
            found[thing][container] = None
            # What lies on a thing that itself is open to both sides may lie outside: only flat things are followed.
            if "/piece:" in thing:
                waiting += ((above, container) for above in piled.get(thing, ()))
    return found


def _is_inside(placement: Placement, support: str, inner: set[str]) -> bool:
    on = placement.on
    if on.form is not None:
        return (on.skin == "inside") == (placement.layer == "over")
    return on.face is not None and (f"{support}/face:{on.face}" in inner) == (placement.layer == "over")
