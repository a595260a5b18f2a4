"""Rules about tools: what a trimmer can hold and reach, what each step needs, and which templates a page can hold."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from itertools import islice
from typing import Literal

from layouts.assembly import KitSteps, PlannedStep
from layouts.assembly.naming import made_place
from layouts.document import Form, FormBase, Kit, Piece, Project, Tool, paper_place
from layouts.document.forms import Concertina, FlatTag, Frame, Scored
from layouts.lengths import Length
from layouts.proofing.findings import Finding, Rule
from layouts.proofing.plans import Node, PrintAnswer
from layouts.proofing.prints import Want

__all__ = ["MISSING_TOOL", "RULES", "TOO_LONG_TO_CUT", "TOO_NARROW_TO_CUT", "findings"]

_WHOLE = {"type": "integer"}
_TICKS = _WHOLE | {"description": "ticks of 1/320 mm"}
_TEXTS = {"type": "array", "items": {"type": "string"}}

TOO_NARROW_TO_CUT = Rule(
    "too-narrow-to-cut",
    "fix",
    "A piece or a flat part is cut narrower than every trimmer can hold that is listed where it is cut.",
    {"narrow": _TICKS, "narrowest": _TICKS},
)
TOO_LONG_TO_CUT = Rule(
    "too-long-to-cut",
    "fix",
    "A straight cut is longer than every trimmer reaches: a cut of a plan or, where there is no plan, the longer side "
    "of what is cut.",
    {"length": _TICKS, "longest": _TICKS, "cuts": _WHOLE | {"description": "cuts that are too long; 1 without a plan"}},
)
MISSING_TOOL = Rule(
    "missing-tool",
    "fix",
    "A step cuts or scores with no listed tool that can. A kit that lists no tools at all is not judged.",
    {"needs": {"enum": ["cut", "window", "outline", "hole", "edge", "score"]}, "can": _TEXTS, "things": _TEXTS},
)
RULES = (TOO_NARROW_TO_CUT, TOO_LONG_TO_CUT, MISSING_TOOL)

_Need = Literal["cut", "window", "outline", "hole", "edge", "score"]
# A tool of kind other may be a machine that cuts and scores: the benefit of the doubt.
_CAN: Mapping[_Need, tuple[str, ...]] = {
    "cut": ("trimmer", "knife", "scissors", "other"),
    "window": ("knife", "scissors", "punch", "other"),
    "outline": ("knife", "scissors", "punch", "other"),
    "hole": ("knife", "scissors", "punch", "other"),
    "score": ("scorer", "other"),
}
_DOES: Mapping[_Need, str] = {
    "cut": "cuts",
    "window": "opens windows in",
    "outline": "cuts the outline of",
    "hole": "makes the hole of",
    "score": "scores",
}
_KIND_WORDS = {
    "trimmer": "a trimmer",
    "knife": "a knife",
    "scissors": "scissors",
    "punch": "a punch",
    "decorative": "the decorative scissors",
    "scorer": "a scorer",
}
_MOST_TOLD = 200
_MOST_NAMED = 20


def findings(kit: Kit, steps: KitSteps, answers: Sequence[PrintAnswer]) -> Iterator[Finding]:
    """Yield what the tools of a kit cannot do; `answers` are those of its prints."""
    tools = {tool.id: tool for tool in kit.tools}
    lacking = (finding for project in kit.projects if tools for finding in missing(project, steps, tools))
    # Of thousands the first: the others are told when those are mended.
    for found in (too_long(kit, answers), too_narrow(kit, steps, answers), lacking):
        yield from islice(found, _MOST_TOLD)


def too_long(kit: Kit, answers: Sequence[PrintAnswer]) -> Iterator[Finding]:
    """Yield a finding for each print whose plan has too long a cut, and for each piece too long that has no plan."""
    trimmer = _reaching_farthest(kit)
    if trimmer is None or trimmer.longest is None:
        return
    longest = trimmer.longest
    prints, called = {paper.id: paper.name for paper in kit.papers}, _names(kit)
    reach = f"“{trimmer.name or trimmer.id}” cuts {longest} at most"
    mend = "Cut it with a knife along a metal rule and list no shorter limit for the trimmer, or change the sizes."
    for answer in answers:
        at = paper_place(answer.part.paper)
        cuts = [length for sheet in answer.plan for length in _cuts(sheet["tree"]) if length > longest.ticks]
        if cuts:
            farthest = Length(max(cuts), kit.unit)
            many = "One cut" if len(cuts) == 1 else f"{len(cuts)} cuts"
            message = f"{many} of {prints[answer.part.paper]}, of up to {farthest}: {reach}. {mend}"
            yield TOO_LONG_TO_CUT.finding(
                at, message=message, length=farthest.ticks, longest=longest.ticks, cuts=len(cuts)
            )
        if answer.plan:
            continue
        sheet = {answer.part.sheet.width, answer.part.sheet.height}
        for want in answer.part.wants:
            side = max(want.width, want.height)
            # What is as large as its sheet is not cut at all.
            if side > longest.ticks and {want.width, want.height} != sheet:
                length = Length(side, kit.unit)
                message = f"{_called(want, called)} is {length} long, and {reach}. {mend}"
                yield TOO_LONG_TO_CUT.finding(
                    want.place, at, message=message, length=side, longest=longest.ticks, cuts=1
                )


def _reaching_farthest(kit: Kit) -> Tool | None:
    """The trimmer that cuts longest, or None where there is none, or one whose reach is not stated."""
    trimmers = [tool for tool in kit.tools if tool.kind == "trimmer"]
    if not trimmers or any(tool.longest is None for tool in trimmers):
        return None
    return max(trimmers, key=lambda tool: tool.longest or Length.zero())


def _cuts(tree: Node) -> Iterator[int]:
    """The length of every cut of a tree in ticks, those of its cut-outs among them."""
    waiting = [tree]
    while waiting:
        node = waiting.pop()
        if "cut" in node:
            yield node["height"] if node["cut"]["along"] == "x" else node["width"]
            waiting += node["parts"]
        waiting += node.get("cut_outs", {}).values()


def too_narrow(kit: Kit, steps: KitSteps, answers: Sequence[PrintAnswer]) -> Iterator[Finding]:
    """Yield a finding for each piece and each form that is cut too narrow; pieces with decorative edges as they are
    cut, before the edges are made. What is cut without a trimmer is not judged."""
    trimmers = {tool.id: tool for tool in kit.tools if tool.kind == "trimmer"}
    anywhere = _narrowest(trimmers.values())
    if anywhere is None:
        return
    holding, called = _held_where_cut(kit, steps, trimmers), _names(kit)
    told: set[str] = set()
    for answer in answers:
        for want in answer.part.wants:
            place = want.place.partition("/part:")[0]
            narrowest = holding.get(place, anywhere)
            narrow = min(want.width, want.height)
            if narrowest is None or narrow >= narrowest.ticks or place in told:
                continue
            told.add(place)
            message = (
                f"{_called(want, called)} is cut {Length(narrow, kit.unit)} wide, and no trimmer listed there holds "
                f"less than {narrowest}. Make it wider, or cut it with a knife or scissors and list these alone."
            )
            yield TOO_NARROW_TO_CUT.finding(place, message=message, narrow=narrow, narrowest=narrowest.ticks)


def _narrowest(trimmers: Collection[Tool]) -> Length | None:
    """What the best of these can still hold: nothing at all where one does not say, None where there is no trimmer."""
    return min((tool.narrowest or Length.zero() for tool in trimmers), default=None)


def _held_where_cut(kit: Kit, steps: KitSteps, trimmers: Mapping[str, Tool]) -> dict[str, Length | None]:
    """What the best trimmer can hold of those that are listed by the steps that cut a thing, by the thing's place:
    None if they list other tools only. What is cut by steps that list no tools is not among them."""
    found: dict[str, Length | None] = {}
    for project in kit.projects:
        made = {one.id: made_place(project.id, one) for one in (*project.pieces, *project.forms)}
        for planned in steps.by_project[project.id]:
            if not planned.step.tools:
                continue
            here = _narrowest([trimmers[tool] for tool in planned.step.tools if tool in trimmers])
            for name in planned.step.cut:
                before = found.get(made[name])
                found[made[name]] = before if here is None else here if before is None else min(here, before)
    return found


@dataclass(slots=True)
class _Lacking:
    """What one step needs and no listed tool can do: the things it is to be done to."""

    planned: PlannedStep
    can: tuple[str, ...]
    does: str
    things: list[Piece | Form] = field(default_factory=list)


def missing(project: Project, steps: KitSteps, tools: Mapping[str, Tool]) -> Iterator[Finding]:
    """Yield a finding for each step and each kind of work that none of its tools can do.

    Cutting needs a trimmer, a knife or scissors in every step that cuts. A window, an outline that is not straight, the
    hole of a tag, a decorative edge (its own tool) and scores may be made in any step that cuts or uses the thing; if
    none can, the first that cuts it is told.
    """
    made: dict[str, Piece | Form] = {one.id: one for one in (*project.pieces, *project.forms)}
    own = steps.by_project[project.id]
    kinds = {planned.place: {tools[tool].kind for tool in planned.step.tools} for planned in own}
    cutting: dict[str, PlannedStep] = {}
    handling: dict[str, list[PlannedStep]] = {name: [] for name in made}
    lacking: dict[tuple[str, _Need, tuple[str, ...]], _Lacking] = {}

    def tell(planned: PlannedStep, need: _Need, can: tuple[str, ...], does: str, thing: Piece | Form) -> None:
        lacking.setdefault((planned.place, need, can), _Lacking(planned, can, does)).things.append(thing)

    for planned in own:
        cut = dict.fromkeys(planned.step.cut)
        for name in cut:
            cutting.setdefault(name, planned)
            can = _can_cut(made[name])
            if kinds[planned.place].isdisjoint(can):
                tell(planned, "cut", can, _DOES["cut"], made[name])
        for name in cut | dict.fromkeys(_used(planned)):
            handling[name].append(planned)
    listed = {planned.place: frozenset(planned.step.tools) for planned in own}
    for name, planned in cutting.items():
        thing = made[name]
        for need in _needs(thing):
            if all(kinds[one.place].isdisjoint(_CAN[need]) for one in handling[name]):
                tell(planned, need, _CAN[need], _DOES[need], thing)
        for tool in _edge_tools(thing) if isinstance(thing, Piece) else ():
            if all(tool not in listed[one.place] for one in handling[name]):
                called = tools[tool].name or tool
                tell(planned, "edge", (f"tool:{tool}",), f"needs “{called}” for the edges of", thing)
    for (place, need, _), lack in lacking.items():
        things = [made_place(project.id, thing) for thing in lack.things[:_MOST_NAMED]]
        message = _message(lack, need)
        yield MISSING_TOOL.finding(place, *things, message=message, needs=need, can=list(lack.can), things=things)


def _message(lack: _Lacking, need: _Need) -> str:
    named = [f"{thing.id} ({thing.name})" for thing in lack.things[:_MOST_NAMED]]
    more = len(lack.things) - len(named)
    what = ", ".join(named) + (f" and {more} more" if more else "")
    where = f"Step {lack.planned.step.id} of “{lack.planned.project.title}”"
    if need == "edge":
        return f"{where} {lack.does} {what}, and does not list it. List it with the step."
    kinds = [_KIND_WORDS[kind] for kind in lack.can if kind != "other"]
    listed = f"{', '.join(kinds[:-1])} or {kinds[-1]}" if len(kinds) > 1 else kinds[0]
    return f"{where} {lack.does} {what}, and lists no tool that can. List {listed} with the step."


def _can_cut(thing: Piece | Form) -> tuple[str, ...]:
    """What can cut a thing out: a punch also an outline of its own, decorative scissors what has their edges."""
    if isinstance(thing, FlatTag) or (isinstance(thing, Piece) and thing.shape.kind != "rect"):
        return (*_CAN["cut"], "punch")
    if isinstance(thing, Piece) and _edge_tools(thing):
        return (*_CAN["cut"], "decorative")
    return _CAN["cut"]


def _used(planned: PlannedStep) -> Iterator[str]:
    named = (use.piece or use.form for use in planned.step.use)
    return (name for name in named if name is not None)


def _edge_tools(piece: Piece) -> dict[str, None]:
    edges = piece.edges
    return dict.fromkeys(tool for tool in (edges.left, edges.right, edges.top, edges.bottom) if tool is not None)


def _needs(thing: Piece | Form) -> Iterator[_Need]:
    if isinstance(thing, Piece):
        if thing.windows:
            yield "window"
        if thing.shape.kind not in ("rect", "polygon"):  # the sides of a polygon are straight
            yield "outline"
    elif isinstance(thing, FlatTag):
        if thing.hole is not None:
            yield "hole"
    elif _is_scored(thing):
        yield "score"


def _is_scored(form: FormBase) -> bool:
    if isinstance(form, Scored):
        return bool(form.scores)
    if isinstance(form, Concertina):
        return form.panels > 1
    return not isinstance(form, Frame | FlatTag)


def _names(kit: Kit) -> dict[str, str]:
    """What people call the pieces and forms, by place."""
    return {
        made_place(project.id, thing): f"{thing.id} ({thing.name})"
        for project in kit.projects
        for thing in (*project.pieces, *project.forms)
    }


def _called(want: Want, names: Mapping[str, str]) -> str:
    whole, _, part = want.place.partition("/part:")
    return f"Part {part} of {names[whole]}" if part else names[whole]
