"""The list of kits."""

from __future__ import annotations

from dataclasses import dataclass

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_safe

from frontend.access import for_team, person_of
from kits.planning.queries import kits_for
from layouts.models import CheckRun, JobState

__all__ = ["kits"]

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
    rows = [Row(line.kit.code, line.title, *_standing(line.run)) for line in kits_for(person_of(request))]
    return render(request, "frontend/kits.html", {"room": "kits", "rows": rows})


def _standing(run: CheckRun | None) -> tuple[str, str]:
    """The shape of a kit's bar, and its verdict in two words."""
    if run is None:
        return "unknown", "Not checked yet"
    if run.is_open:
        return "checking", "Being checked"
    if run.state == JobState.DONE:
        return run.verdict, _VERDICTS[run.verdict]
    return run.state, _STATES.get(JobState(run.state), "Not checked yet")
