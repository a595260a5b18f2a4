"""The steps of a project as rows of one list: how each will print, what it cuts, how long it takes, what is wrong."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from frontend.kit_page.findings import FindingLine
from frontend.kit_page.things.wording import printed_project
from kits.sheets.content.project import PrintedStep
from layouts.document import Duration, Kit, Project, Step, step_place

__all__ = ["StepRow", "step_rows"]


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
