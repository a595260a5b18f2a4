"""The rule about figures that nobody can measure: those between the marks of a trimmer, a rule or a scoring board."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Literal

from layouts.assembly.naming import made_place, project_place
from layouts.document import Form, Kit, Paper, Piece, Placement, Tool, lengths_of
from layouts.document.forms import FlatTag, Scored
from layouts.lengths import Length
from layouts.proofing.findings import Finding, Rule
from layouts.shapes import MOST_PARTS, FlatSizes, NotBuilt, cut_size

__all__ = ["RULES", "TOO_FINE_TO_MEASURE", "findings"]

_WHOLE = {"type": "integer"}
_TICKS = _WHOLE | {"description": "ticks of 1/320 mm"}

TOO_FINE_TO_MEASURE = Rule(
    "too-fine-to-measure",
    "fix",
    "A figure is no whole number of steps of the tool that it is measured with. Sizes that something is cut to are "
    "measured on the trimmer, windows and corners with the knife, scores on the scoring board; positions with any of "
    "them; and where a tool of that kind states no step, with any that states one.",
    {"ticks": _TICKS, "step": _TICKS, "more": _WHOLE | {"description": "further figures that are not told singly"}},
)
RULES = (TOO_FINE_TO_MEASURE,)

# A list of twenty thousand pieces may have forty thousand such figures.
_MOST_TOLD = 100

_By = Literal["trimmer", "knife", "scorer", "any"]
_MEASURING = ("trimmer", "knife", "scorer", "other")
# A rule that is listed as another tool lies beside the knife and the thing glued, not in the trimmer.
_KINDS: Mapping[_By, tuple[str, ...]] = {
    "trimmer": ("trimmer",),
    "knife": ("knife", "other"),
    "scorer": ("scorer",),
    "any": _MEASURING,
}
_WINDOW = re.compile(r"window:[^/]+/(?:left|right|top|bottom|width|height)")
_POSITION = re.compile(r"(?:copies/[0-9]+/)?(?:left|right|top|bottom)")
# What of a form is measured where it is scored; whatever depends on the thickness of the paper is computed.
_SCORES = re.compile(
    r"scores/[0-9]+/at|depth|turn_in|flange|panel/width|join|flap|side_flap|bottom_flap|top_flap|overlap"
)


@dataclass(frozen=True, slots=True)
class _Measured:
    """A figure that somebody has to measure: what is measured, in words, and with what."""

    place: str
    length: Length
    words: str
    by: _By


def findings(kit: Kit) -> Iterator[Finding]:
    """Yield a finding for each figure that is off the steps of the tools it is measured with, of many the first."""
    tools = _steps(kit)
    if not tools:
        return
    judges_of = {by: _of_kinds(kinds, tools) or _of_kinds(_MEASURING, tools) for by, kinds in _KINDS.items()}
    told: list[tuple[_Measured, Tool, Length]] = []
    more = 0
    for figure in _measured(kit):
        judges = judges_of[figure.by]
        if any(figure.length.ticks % step.ticks == 0 for _, step in judges):
            continue
        if len(told) == _MOST_TOLD:
            more += 1
        else:
            tool, step = min(judges, key=lambda judge: judge[1].ticks)
            told.append((figure, tool, step))
    for number, (figure, tool, step) in enumerate(told, start=1):
        rest = more if number == _MOST_TOLD else 0
        yield TOO_FINE_TO_MEASURE.finding(
            figure.place,
            message=_message(figure, tool, step, rest),
            ticks=figure.length.ticks,
            step=step.ticks,
            more=rest,
        )


def _message(figure: _Measured, tool: Tool, step: Length, more: int) -> str:
    below = Length(figure.length.ticks // step.ticks * step.ticks, step.system)
    near = f"{below} or {below + step}" if below else f"{step}"
    also = f" {more} further figures of this kit are too fine as well." if more else ""
    return (
        f"{figure.words}, {figure.length}, cannot be measured: “{tool.name or tool.id}” is read in steps of {step}. "
        f"Make it {near}, or list a finer tool.{also}"
    )


_Judges = list[tuple[Tool, Length]]


def _steps(kit: Kit) -> dict[str, _Judges]:
    """The tools that measure and state a step, by kind."""
    found: dict[str, _Judges] = {}
    for tool in kit.tools:
        if tool.step is not None and tool.kind in _MEASURING:
            # Of tools that measure alike the first is enough: a list of tools may be as long as one of pieces.
            judges = found.setdefault(tool.kind, [])
            if all(step.ticks != tool.step.ticks for _, step in judges[:20]):
                judges.append((tool, tool.step))
    return {kind: judges[:20] for kind, judges in found.items()}


def _of_kinds(kinds: tuple[str, ...], tools: Mapping[str, _Judges]) -> _Judges:
    return [judge for kind in kinds for judge in tools.get(kind, ())]


def _measured(kit: Kit) -> Iterator[_Measured]:
    """Every figure that somebody measures, in document order, each with the tool that it is measured with.

    What is bought or printed is not measured, nor is what is traced from a template, punched, or cut off a roll; a
    border is what is left once the thing lies where it belongs.
    """
    tools = {tool.id: tool for tool in kit.tools}
    papers = {paper.id: paper for paper in kit.papers}
    flat = FlatSizes.of(kit)
    parts_left = MOST_PARTS
    for project in kit.projects:
        for piece in project.pieces:
            yield from _of_piece(piece, made_place(project.id, piece), tools)
        for form in project.forms:
            place = made_place(project.id, form)
            yield from _of_form(form, place)
            if parts_left > 0 and not isinstance(form, Scored | FlatTag):
                sizes = list(_flat_sizes(form, place, papers, project.id, flat))
                parts_left -= len(sizes) // 2
                yield from sizes
        for placement in project.placements:
            yield from _of_placement(placement, f"{project_place(project.id)}/placement:{placement.id}")


def _of_piece(piece: Piece, place: str, tools: Mapping[str, Tool]) -> Iterator[_Measured]:
    called = f"{piece.id} ({piece.name})"
    size = cut_size(piece, tools)
    for side in ("width", "height"):
        yield _Measured(f"{place}/size/{side}", getattr(size, side), f"The {side} that {called} is cut to", "trimmer")
    if piece.windows:
        for at, length in lengths_of(piece, place):
            name = at[len(place) + 1 :]
            if _WINDOW.fullmatch(name):
                window, _, side = name.removeprefix("window:").partition("/")
                yield _Measured(at, length, f"The {side} of window {window} of {called}", "knife")


def _of_form(form: Form, place: str) -> Iterator[_Measured]:
    called = f"{form.id} ({form.name})"
    for at, length in lengths_of(form, place):
        name = at[len(place) + 1 :]
        words = f"The measure {name.replace('/', ' ').replace('_', '-')} of {called}"
        if name.startswith("size/"):
            yield _Measured(at, length, words, "trimmer")
        elif name == "corner":
            yield _Measured(at, length, words, "knife")
        elif _SCORES.fullmatch(name):
            yield _Measured(at, length, words, "scorer")


def _flat_sizes(
    form: Form, place: str, papers: Mapping[str, Paper], project: str, flat: FlatSizes
) -> Iterator[_Measured]:
    paper = form.paper if isinstance(form.paper, str) else form.paper.each[0]
    try:
        parts = flat.parts(form, project, papers[paper])
    except NotBuilt:
        return
    for part in parts:
        number = "" if part.number is None else f"/part:{part.number}"
        which = f"{form.id} ({form.name})" if part.number is None else f"part {part.number} of {form.id} ({form.name})"
        for side in ("width", "height"):
            words = f"The {side} that {which} is cut to"
            yield _Measured(f"{place}{number}/flat/{side}", getattr(part, side), words, "trimmer")


def _of_placement(placement: Placement, place: str) -> Iterator[_Measured]:
    for at, length in lengths_of(placement, place):
        name = at[len(place) + 1 :]
        if _POSITION.fullmatch(name):
            yield _Measured(at, length, f"The distance {name.rpartition('/')[2]} of placement {placement.id}", "any")
