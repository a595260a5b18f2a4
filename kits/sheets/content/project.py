"""The project sheet: what a member needs on the table to make one thing."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from kits.sheets.content.cautions import Caution, cautions_of
from kits.sheets.content.cutting_list import PrintRows, cutting_list
from kits.sheets.content.measures import Measures
from kits.sheets.content.running import Run, StepText, duration_words
from kits.sheets.content.times import time_words
from kits.sheets.options import SheetOptions
from layouts.assembly import KitSteps, Names, PlannedStep, steps_of
from layouts.document import Kit, Piece, Project
from layouts.drawing import piece_drawing

__all__ = ["Kept", "PrintedStep", "ProjectSheet", "WindowDrawing", "project_sheet"]


@dataclass(frozen=True, slots=True)
class PrintedStep:
    """One step: its number, its text, what is said before it and after it."""

    number: int
    runs: tuple[Run, ...]
    cautions: tuple[Caution, ...]
    hold: str
    wait: str


@dataclass(frozen=True, slots=True)
class WindowDrawing:
    """A piece with its windows, dimensioned; `words` say the same for who cannot see it."""

    letter: str
    name: str
    svg: str
    words: str
    kept: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Kept:
    """What to keep: out of which window, and what it becomes."""

    out_of: str
    becomes: str


@dataclass(frozen=True, slots=True)
class ProjectSheet:
    """All that stands on the sheet of one project."""

    id: str
    title: str
    kit_title: str
    makes: int
    first: tuple[str, ...]
    time: str
    cautions: tuple[Caution, ...]
    supplies: tuple[str, ...]
    tools: tuple[str, ...]
    prints: tuple[PrintRows, ...]
    windows: tuple[WindowDrawing, ...]
    steps: tuple[PrintedStep, ...]
    keep: tuple[Kept, ...]


def project_sheet(kit: Kit, proof: Mapping[str, Any], project: Project, options: SheetOptions) -> ProjectSheet:
    """Return the sheet of one project; every figure on it comes from the document or from its proof."""
    measures = Measures(kit, options)
    planned = steps_of(kit)
    return ProjectSheet(
        id=project.id,
        title=project.title,
        kit_title=kit.title,
        makes=project.makes,
        first=tuple(_order_words(kit, proof, project)),
        time=time_words(planned.by_project[project.id]),
        cautions=cautions_of(list(project.steps)),
        supplies=tuple(_supplies(kit, project, measures)),
        tools=tuple(_tools(kit, project)),
        prints=cutting_list(kit, proof, project, measures),
        windows=tuple(_windows(kit, project, measures)),
        steps=tuple(_steps(kit, project, planned, StepText(kit, project, measures, Names(kit)))),
        keep=tuple(_kept(kit, project)),
    )


def _order_words(kit: Kit, proof: Mapping[str, Any], project: Project) -> Iterator[str]:
    """Why another project comes first, or why this one does."""
    titles = {one.id: one.title for one in kit.projects}
    reasons = {
        "cut-out": "{thing} of the {then} comes out of a window of it",
        "after": "a step of the {then} comes after a step of it",
        "drying": "while it dries, the {then} can be made",
    }
    told = set()
    for one in proof["order"]["because"]:
        if project.id not in (one["first"], one["then"]):
            continue
        thing, then = one["at"].rpartition(":")[2], titles[one["then"]]
        sentence = f"Make the {titles[one['first']]} first: {reasons[one['reason']].format(thing=thing, then=then)}."
        if sentence not in told:
            told.add(sentence)
            yield sentence
    if proof["order"]["projects"] is None:
        yield "The projects of this kit wait for each other in a circle: ask before you begin."


def _supplies(kit: Kit, project: Project, measures: Measures) -> Iterator[str]:
    """Everything but cut paper that the steps use, in the order of the box."""
    used: dict[tuple[str, str], int] = {}
    lengths: dict[str, list[str]] = {}
    for step in project.steps:
        for use in step.use:
            for kind in ("blank", "element", "supply"):
                name = getattr(use, kind)
                if name is None:
                    continue
                used[kind, name] = used.get((kind, name), 0) + use.count * project.makes
                if use.length is not None:
                    one, many = measures.own(use.length.ticks).with_unit, use.count * project.makes
                    lengths.setdefault(name, []).append(one if many == 1 else f"{many} lengths of {one}")
    for blank in kit.blanks:
        if ("blank", blank.id) in used:
            yield _counted(used["blank", blank.id], blank.name)
    for sheet in kit.embellishments:
        for element in sheet.elements:
            if ("element", f"{sheet.id}/{element.id}") in used:
                yield f"{_counted(used['element', f'{sheet.id}/{element.id}'], element.name)} ({sheet.name})"
    for supply in kit.supplies:
        if ("supply", supply.id) in used:
            length = f", {' and '.join(lengths[supply.id])}" if supply.id in lengths else ""
            whose = " (your own)" if supply.from_ == "member" else ""
            name = supply.name if length else _counted(used["supply", supply.id], supply.name)
            yield f"{name}{length}{whose}"


def _tools(kit: Kit, project: Project) -> Iterator[str]:
    used = {tool for step in project.steps for tool in step.tools}
    for tool in kit.tools:
        if tool.id in used:
            yield tool.name or tool.kind.replace("-", " ")


def _windows(kit: Kit, project: Project, measures: Measures) -> Iterator[WindowDrawing]:
    for piece in project.pieces:
        if piece.windows:
            svg, words = piece_drawing(
                piece, lambda ticks: measures.own(ticks).text, name=f"{project.id}-{piece.id}", unit=measures.unit
            )
            yield WindowDrawing(piece.id, piece.name, svg, words, tuple(_becomes(kit, project, piece)))


def _becomes(kit: Kit, project: Project, piece: Piece) -> Iterator[str]:
    for window in piece.windows:
        for other in kit.projects:
            for guest in other.pieces:
                if guest.from_ == f"{project.id}/{piece.id}/{window.id}":
                    yield f"{guest.id} of the {other.title}" if other.id != project.id else guest.id


def _kept(kit: Kit, project: Project) -> Iterator[Kept]:
    for piece in project.pieces:
        for becomes in _becomes(kit, project, piece):
            yield Kept(piece.id, becomes)


def _steps(kit: Kit, project: Project, planned: KitSteps, text: StepText) -> Iterator[PrintedStep]:
    own = planned.by_project[project.id]
    for number, one in enumerate(own, start=1):
        step = one.step
        hold = ""
        if step.hold is not None:
            way = "Leave clamped for" if step.held == "clamped" else "Hold for"
            hold = f"{way} {duration_words(step.hold)}."
        wait = ""
        if step.dry is not None:
            wait = f"Leave to dry for {duration_words(step.dry)}.{_meanwhile(one, own, planned)}"
        yield PrintedStep(number, text.runs(step.text), cautions_of([step]), hold, wait)


def _meanwhile(drying: PlannedStep, own: tuple[PlannedStep, ...], planned: KitSteps) -> str:
    """The next step that does not come after the drying one, if there is any."""
    at = own.index(drying)
    for number, other in enumerate(own[at + 1 :], start=at + 2):
        if not planned.precedence.precedes(drying.place, other.place):
            return f" Go on with step {number} meanwhile."
    return ""


def _counted(count: int, name: str) -> str:
    return name if count == 1 else f"{count} × {name}"
