"""Gives drafts the checks that a worker would do, without one."""

from __future__ import annotations

from typing import Any

from django.utils import timezone

from kits.planning.models import Draft
from layouts.checks import check_of
from layouts.document import read_kit
from layouts.models import CheckRun, JobState
from layouts.proofing import prove_at_once
from layouts.proofing.stored import proof_text

__all__ = ["ended", "newest", "proved", "under_way"]


def newest(draft: Draft) -> CheckRun:
    run = check_of(draft.subject)
    assert run is not None
    return run


def proved(draft: Draft) -> CheckRun:
    """End the newest check with its proof, as a worker would."""
    run = newest(draft)
    proof = prove_at_once(read_kit(run.document.encode()))
    return ended(draft, JobState.DONE, proof=proof_text(proof), verdict=proof["verdict"])


def ended(draft: Draft, state: JobState, **values: Any) -> CheckRun:
    run = newest(draft)
    CheckRun.objects.filter(pk=run.pk).update(
        state=state, claim=None, lease_until=None, finished_at=timezone.now(), **values
    )
    return newest(draft)


def under_way(draft: Draft, papers: list[dict[str, Any]], parts: int) -> CheckRun:
    """Let the newest check have got so far: it has answered these papers."""
    run = newest(draft)
    CheckRun.objects.filter(pk=run.pk).update(progress={"done": len(papers), "parts": parts, "papers": papers})
    return newest(draft)
