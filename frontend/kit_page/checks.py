"""How far the check of a kit is: one state, in words, and the proof that can be shown meanwhile."""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import Any

from frontend.words.numbers import counted
from frontend.words.verdicts import Said, said_of_proof
from layouts.models import CheckRun, JobState

__all__ = ["Check", "Shown", "check_state", "check_token", "shown_proof"]

# A check that has not started so long after it was due has nobody to do it.
_NOBODY_COMES = timedelta(seconds=20)


@dataclass(frozen=True, slots=True)
class Check:
    """The newest check of a draft. `state` is none, checking, done, failed or cancelled.

    `token` changes whenever there is more to show: a page that has seen it need not be told again.
    """

    state: str
    said: Said
    run: int | None
    done: int
    parts: int
    token: str
    late: bool

    @property
    def is_open(self) -> bool:
        return self.state == "checking"

    @property
    def can_be_tried_again(self) -> bool:
        return self.state in ("failed", "cancelled")


@dataclass(frozen=True, slots=True)
class Shown:
    """The proof to show: that of the draft as it is, or else the newest there is, of `document`.

    `answers` are those of the draft as it is, by paper: all of a current proof, or what a check has found so far.
    """

    proof: Mapping[str, Any] | None
    document: str
    current: bool
    answers: Mapping[str, Mapping[str, Any]]


def shown_proof(run: CheckRun | None, proved: CheckRun | None, revision: int) -> Shown:
    """Return what there is to show of a draft at a revision: `run` is its newest check, `proved` the newest with a
    proof."""
    now = run is not None and run.revision == revision
    answers = _by_paper(run.progress.get("papers", [])) if now and run is not None and run.is_open else {}
    if proved is None or proved.proof is None:
        return Shown(None, "", False, answers)
    proof = json.loads(proved.proof)
    # Somebody may have changed the draft between the reading of its rows and of its checks.
    if now and proved == run:
        return Shown(proof, proved.document, True, _by_paper(proof["papers"]))
    return Shown(proof, proved.document, False, answers)


def check_state(run: CheckRun | None, shown: Shown, papers: Mapping[str, str], now: datetime) -> Check:
    """Return the state of the newest check in words; `papers` are names by id."""
    if run is None:
        return Check("none", Said("unknown", "", "Not checked yet."), None, 0, 0, check_token(None, now), False)
    done, parts = run.progress.get("done", 0), run.progress.get("parts", 0)
    if run.is_open:
        state = "checking"
        said = Said("checking", "", "Being checked", _far(done, parts))
    elif run.state == JobState.FAILED:
        state, said = "failed", Said("failed", "", "The check failed.", f" {run.reason}")
    elif run.state == JobState.DONE and shown.proof is not None and shown.current:
        state, said = "done", said_of_proof(shown.proof, papers)
    elif run.state == JobState.CANCELLED:
        state, said = "cancelled", Said("cancelled", "", "The check was called off.")
    else:
        # Read in the moment between a change and its check: the next look knows more.
        state, said = "checking", Said("checking", "", "Being checked", ".")
    return Check(state, said, run.pk, done, parts, check_token(run, now), _is_late(run, now))


def check_token(run: CheckRun | None, now: datetime) -> str:
    """Return what changes whenever there is more to show of a check."""
    if run is None:
        return "none"
    return f"{run.pk}-{run.state}-{run.progress.get('done', 0)}{'-late' if _is_late(run, now) else ''}"


def _is_late(run: CheckRun, now: datetime) -> bool:
    return run.state == JobState.WAITING and now > run.due_at + _NOBODY_COMES


def _far(done: int, parts: int) -> str:
    return f": {done} of {counted(parts, 'print')} answered." if parts else "."


def _by_paper(answers: list[dict[str, Any]]) -> dict[str, Mapping[str, Any]]:
    return {answer["paper"]: answer for answer in answers}
