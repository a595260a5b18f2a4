"""Rules about steps: everything is cut, then used, with the caution it needs; nothing goes round in a circle."""

from __future__ import annotations

from collections.abc import Iterator

from layouts.assembly import Because, KitSteps, Order, PlannedStep
from layouts.assembly.naming import made_place, place_named, project_place, supply_place
from layouts.document import FormBase, Kit, Piece, Project, Step
from layouts.proofing.findings import Finding, Rule

__all__ = [
    "CAUTION_NEEDED",
    "NEVER_CUT",
    "NEVER_USED",
    "ORDER_CIRCLE",
    "RULES",
    "USED_BEFORE_CUT",
    "findings",
]

_PLACES = {"type": "array", "items": {"type": "string"}}
_COUNT = {"count": {"type": "integer"}}

NEVER_CUT = Rule("never-cut", "fix", "A piece or a form that no step of its project cuts.", _COUNT)
NEVER_USED = Rule("never-used", "fix", "A piece or a form that no step of its project uses.", _COUNT)
USED_BEFORE_CUT = Rule(
    "used-before-cut",
    "fix",
    "A step uses a piece or a form although neither it nor a step that must come before it cuts that.",
    {"cut_by": _PLACES},
)
CAUTION_NEEDED = Rule(
    "caution-needed",
    "stop",
    "A step uses a tool or a supply that can hurt somebody and does not carry the caution for it.",
    {"caution": {"type": "string"}, "because": _PLACES},
)
ORDER_CIRCLE = Rule(
    "order-circle",
    "stop",
    "Projects, or steps of one project, each of which must come before the next go round in a circle.",
    {"circle": _PLACES},
)
RULES = (NEVER_CUT, NEVER_USED, USED_BEFORE_CUT, CAUTION_NEEDED, ORDER_CIRCLE)

_TOOL_CAUTIONS = {"knife": "blade", "heat": "heat", "hot-glue": "heat", "solvent-glue": "solvent"}
_SUPPLY_CAUTIONS = {"light": "flame", "button-cell": "cell"}


def findings(kit: Kit, steps: KitSteps, order: Order) -> Iterator[Finding]:
    """Yield what is wrong with the steps of a kit and their order."""
    yield from circles_of_projects(kit, order)
    for project in kit.projects:
        yield from circles_of_steps(project, steps)
        yield from cut_and_used(project, steps)
    yield from cautions(kit, steps)


def cut_and_used(project: Project, steps: KitSteps) -> Iterator[Finding]:
    """Judge the pieces and forms of a project: what is neither cut nor used by its steps, or too early."""
    own = steps.by_project[project.id]
    cut_by: dict[str, list[str]] = {}
    used: set[str] = set()
    for planned in own:
        for name in dict.fromkeys(planned.step.cut):
            cut_by.setdefault(name, []).append(planned.place)
        used.update(_made_that_it_uses(planned.step))
    made = {one.id: one for one in (*project.pieces, *project.forms)}
    for one in made.values():
        place, words = made_place(project.id, one), f"{_called(one)} of “{project.title}”"
        if one.id not in cut_by:
            message = f"No step cuts {words}. Let a step cut it, or remove it."
            yield NEVER_CUT.finding(place, message=message, count=one.count)
        if one.id not in used:
            message = f"No step uses {words}. Say where it is used, or remove it."
            yield NEVER_USED.finding(place, message=message, count=one.count)
    for planned in own:
        for name in _made_that_it_uses(planned.step):
            yield from _too_early(planned, made[name], cut_by.get(name, []), steps)


def _too_early(planned: PlannedStep, made: Piece | FormBase, cut_by: list[str], steps: KitSteps) -> Iterator[Finding]:
    here = planned.place
    if any(cutting == here or steps.precedence.precedes(cutting, here) for cutting in cut_by):
        return
    if cut_by:
        cutting = ", ".join(place.rpartition(":")[2] for place in cut_by)
        rest = f"it is cut in step {cutting}, which need not come first. Let this step come after that"
    else:
        rest = "no step cuts it. Cut it before"
    message = f"Step {planned.step.id} of “{planned.project.title}” uses {_called(made)}, but {rest}."
    yield USED_BEFORE_CUT.finding(here, made_place(planned.project.id, made), message=message, cut_by=cut_by)


def _made_that_it_uses(step: Step) -> Iterator[str]:
    named = (use.piece or use.form for use in step.use)
    yield from dict.fromkeys(name for name in named if name is not None)


def cautions(kit: Kit, steps: KitSteps) -> Iterator[Finding]:
    """Yield one finding for each step and each caution that it needs and does not carry."""
    tools = {tool.id: _TOOL_CAUTIONS[tool.kind] for tool in kit.tools if tool.kind in _TOOL_CAUTIONS}
    supplies = {one.id: _SUPPLY_CAUTIONS[one.kind] for one in kit.supplies if one.kind in _SUPPLY_CAUTIONS}
    names = {f"tool:{tool.id}": tool.name or tool.id for tool in kit.tools}
    names |= {supply_place(supply.id): supply.name for supply in kit.supplies}
    for planned in steps:
        needed: dict[str, list[str]] = {}
        for tool in dict.fromkeys(planned.step.tools):
            if tool in tools:
                needed.setdefault(tools[tool], []).append(f"tool:{tool}")
        for place in dict.fromkeys(place_named(use, planned.project.id) for use in planned.step.use if use.supply):
            supply = place.partition(":")[2]
            if supply in supplies:
                needed.setdefault(supplies[supply], []).append(place)
        for caution, because in needed.items():
            if caution not in planned.step.cautions:
                dangers = ", ".join(f"“{names[place]}”" for place in because)
                message = (
                    f"Step {planned.step.id} of “{planned.project.title}” uses {dangers} without the caution "
                    f"“{caution}”. Add it to the step."
                )
                yield CAUTION_NEEDED.finding(planned.place, message=message, caution=caution, because=because)


def circles_of_projects(kit: Kit, order: Order) -> Iterator[Finding]:
    """Yield a finding for each knot of projects; its places are the projects of one circle in document order."""
    titles = {project.id: project.title for project in kit.projects}
    for circle in order.circles:
        places = [project_place(project) for project in titles if project in set(circle)]
        links = [_link(first, then, order) for first, then in zip(circle, (*circle[1:], circle[0]), strict=True)]
        musts = "; ".join(f"“{titles[must.first]}” before “{titles[must.then]}”, for {_reason(must)}" for must in links)
        message = f"These projects go round in a circle: {musts}. Change one of these, or nobody can begin."
        yield ORDER_CIRCLE.finding(*places, message=message, circle=places)


def _link(first: str, then: str, order: Order) -> Because:
    return next(must for must in order.because if (must.first, must.then) == (first, then))


def _reason(must: Because) -> str:
    name = must.at.rpartition(":")[2]
    return f"piece {name} comes from its cut-out" if must.reason == "cut-out" else f"step {name} waits for it"


def circles_of_steps(project: Project, steps: KitSteps) -> Iterator[Finding]:
    """Yield a finding for each knot of steps within a project; its places are the steps of one circle."""
    position = {planned.place: at for at, planned in enumerate(steps.by_project[project.id])}
    for circle in steps.circles_within(project.id):
        places = sorted(circle, key=position.__getitem__)
        names = [place.rpartition(":")[2] for place in (*circle, circle[0])]
        message = (
            f"These steps of “{project.title}” go round in a circle, each before the next: {', '.join(names)}. "
            "Change what one of them comes after."
        )
        yield ORDER_CIRCLE.finding(*places, message=message, circle=places)


def _called(made: Piece | FormBase) -> str:
    return f"{made.id} ({made.name})"
