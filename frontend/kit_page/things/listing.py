"""The steps of a project as rows of one list, and its placements by what they lie on, with what is wrong with each."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from frontend.kit_page.findings import FindingLine
from frontend.kit_page.making import Figure
from frontend.kit_page.things.laid import drawn_on
from frontend.kit_page.things.wording import printed_project
from kits.sheets.content.layers import LyingPair, SupportNames, how_words, lying_pairs
from kits.sheets.content.measures import Measures
from kits.sheets.content.project import PrintedStep
from kits.sheets.options import SheetOptions
from layouts.document import Duration, Kit, Project, Step, Support, step_place

__all__ = ["FaceGroup", "PlacementRow", "StepRow", "face_groups", "step_rows", "support_text"]

# Faces that are drawn on one page: a short document may ask for very many.
_MOST_DRAWN = 24


@dataclass(frozen=True, slots=True)
class StepRow:
    """One step: its id and place, as it will print, the letters of what it cuts, its times in words, its findings."""

    id: str
    place: str
    printed: PrintedStep
    cuts: tuple[str, ...]
    times: tuple[str, ...]
    said: tuple[FindingLine, ...]


def step_rows(
    kit: Kit,
    project: Project,
    said: Mapping[str, tuple[FindingLine, ...]],
    proof: Mapping[str, Any] | None = None,
) -> tuple[StepRow, ...]:
    """Return the steps of a project in its order; `proof` is one of this kit, whose figures its sheets print."""
    printed = printed_project(kit, project.id, proof)
    return tuple(_row(project, *pair, said) for pair in zip(project.steps, printed, strict=True))


def _row(project: Project, step: Step, printed: PrintedStep, said: Mapping[str, tuple[FindingLine, ...]]) -> StepRow:
    place = step_place(project.id, step.id)
    return StepRow(step.id, place, printed, tuple(step.cut), _times(step), said.get(place, ()))


def _times(step: Step) -> tuple[str, ...]:
    held = "clamped" if step.held == "clamped" else "hold"
    times: tuple[tuple[str, Duration | None], ...] = (("work", step.work), (held, step.hold), ("dries", step.dry))
    return tuple(f"{words} {time}" for words, time in times if time is not None)


@dataclass(frozen=True, slots=True)
class PlacementRow:
    """One placement: its id and place, what it puts, how each copy of it lies, its findings."""

    id: str
    place: str
    put: str
    how: tuple[str, ...]
    said: tuple[FindingLine, ...]


@dataclass(frozen=True, slots=True)
class FaceGroup:
    """A face, piece or panel: its name, what the form of a placement calls it and its skin, its drawing, what lies on
    it in the order of the document: the lowest first."""

    name: str
    on: str
    skin: str
    figures: tuple[Figure, ...]
    rows: tuple[PlacementRow, ...]


def face_groups(
    kit: Kit,
    project: Project,
    said: Mapping[str, tuple[FindingLine, ...]],
    proof: Mapping[str, Any] | None = None,
) -> tuple[FaceGroup, ...]:
    """Return the placements of a project by what they lie on; `proof` is one of this kit."""
    measures = Measures(kit, SheetOptions.of(kit), proof)
    pairs = lying_pairs(measures)
    by_placement: dict[str, list[LyingPair]] = {}
    for one in pairs:
        if one.exact.project.id == project.id:
            by_placement.setdefault(one.exact.placement.id, []).append(one)
    groups: dict[str, list[list[LyingPair]]] = {}
    for own in by_placement.values():
        groups.setdefault(own[0].exact.surface.place, []).append(own)
    lying = [one.exact for one in pairs]
    names = SupportNames(kit, project)
    found = []
    for number, (surface, placements) in enumerate(groups.items()):
        first = placements[0][0].exact
        figures = drawn_on(measures, lying, surface, f"face-{number}") if number < _MOST_DRAWN else ()
        letter, name = names.told(first.placement.on)
        rows = tuple(_placement(measures, names, own, said) for own in placements)
        called = f"{letter}, {name}" if letter else f"{name[:1].upper()}{name[1:]}"
        found.append(FaceGroup(called, support_text(first.placement.on), first.placement.on.skin, figures, rows))
    return tuple(found)


def support_text(on: Support) -> str:
    """Return what the form of a placement calls what it lies on: `piece:C`, `form:lid/panel:base`."""
    parts = (("blank", on.blank), ("face", on.face), ("piece", on.piece), ("form", on.form), ("panel", on.panel))
    return "/".join(f"{kind}:{id_}" for kind, id_ in parts if id_ is not None)


def _placement(
    measures: Measures, names: SupportNames, own: list[LyingPair], said: Mapping[str, tuple[FindingLine, ...]]
) -> PlacementRow:
    one = own[0].exact
    place = f"project:{one.project.id}/placement:{one.placement.id}"
    letter, name = names.thing(one)
    how = tuple(filter(None, dict.fromkeys(how_words(measures, pair) for pair in own)))
    findings = {line: None for at, lines in said.items() if at == place or at.startswith(f"{place}/") for line in lines}
    return PlacementRow(one.placement.id, place, f"{letter}, {name}" if letter else name, how, tuple(findings))
