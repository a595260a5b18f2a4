"""The list of kits."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_safe

from frontend.access import for_team, person_of
from frontend.kit_page.first_steps import FirstStep, first_steps
from kits.planning.queries import KitLine, document_of, kits_for
from kits.sheets.renders import renders_of
from layouts.checks import proved_hashes
from layouts.models import CheckRun, JobState

__all__ = ["kits", "standing_of", "steps_of_team"]

_VERDICTS = {"ready": "Ready", "not-ready": "Not ready", "unknown": "Undecided"}
_STATES = {JobState.FAILED: "Check failed", JobState.CANCELLED: "Check called off"}


@dataclass(frozen=True, slots=True)
class Row:
    code: str
    title: str
    shape: str
    words: str


@require_safe
@for_team
def kits(request: HttpRequest) -> HttpResponse:
    lines = kits_for(person_of(request))
    rows = [Row(line.kit.code, line.title, *standing_of(line.run)) for line in lines]
    return render(request, "frontend/kits.html", {"room": "kits", "rows": rows, "first_steps": steps_of_team(lines)})


def steps_of_team(lines: Sequence[KitLine]) -> tuple[FirstStep, ...]:
    """What is to be done until the first kit of a team has its sheets; nothing once there is a second one."""
    if not lines:
        return first_steps(None, "", has_sheets=False)
    if len(lines) > 1:
        return ()
    (line,) = lines
    verdict = line.run.verdict if line.run is not None and line.run.state == JobState.DONE else ""
    renders = renders_of(proved_hashes(line.draft.subject))
    steps = first_steps(
        document_of(line.draft)[1], verdict, has_sheets=any(one.state == JobState.DONE for one in renders)
    )
    return () if all(step.is_done for step in steps) else steps


def standing_of(run: CheckRun | None) -> tuple[str, str]:
    """The shape of a kit's bar, and its verdict in two words."""
    if run is None:
        return "unknown", "Not checked yet"
    if run.is_open:
        return "checking", "Being checked"
    if run.state == JobState.DONE:
        return run.verdict, _VERDICTS[run.verdict]
    return run.state, _STATES.get(JobState(run.state), "Not checked yet")
