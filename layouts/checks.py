"""Checks in the background: asked for at every edit, answered for the last one.

A check belongs to a subject, an opaque text that says whose document it is (`draft:12`).
"""

from __future__ import annotations

import hashlib
import logging
from collections.abc import Iterable, Sequence
from dataclasses import replace
from datetime import datetime, timedelta
from functools import lru_cache, partial
from typing import Any

from django.contrib.auth.base_user import AbstractBaseUser
from django.db import IntegrityError, transaction
from django.db.models import Max, QuerySet
from django.utils import timezone

from layouts import jobs
from layouts.document import read_kit
from layouts.errors import KitproofError
from layouts.jobs import Hold
from layouts.models import OPEN, CheckRun, JobState
from layouts.parts import Answers, answer_all
from layouts.proofing import ENGINE, PrintPart, Questions, paper_data, print_parts, proof_text

__all__ = [
    "CheckNotClosed",
    "CheckOutdated",
    "check_cancel",
    "check_execute",
    "check_of",
    "check_request",
    "check_retry",
    "check_sweep",
    "check_tidy",
    "checks_of",
    "proof_of",
    "proofs_of",
    "proved_hashes",
]

log = logging.getLogger("kitproof.checks")

# A check starts so long after the last edit, and no longer than that after the first that is still unanswered.
AFTER_LAST_EDIT = timedelta(seconds=2)
AFTER_FIRST_EDIT = timedelta(seconds=30)
# Requests for one subject at the same moment: each time round, one of them gets through.
_TRIES = 20


class CheckNotClosed(KitproofError):
    """A check that did not fail and was not called off needs no second try."""

    code = "check-not-closed"


class CheckOutdated(KitproofError):
    """A check is not tried again once there is a newer one of its subject."""

    code = "check-outdated"


def check_request(
    *, subject: str, revision: int, document: bytes, by: AbstractBaseUser | None, now: datetime
) -> CheckRun:
    """Ask for a check of a document in canonical form; it takes the place of the subject's open one, if there is one.

    It waits for further edits, and its message is sent once the caller's transaction is through.
    """
    with transaction.atomic():
        for _ in range(_TRIES):
            replaced = jobs.replace(CheckRun.objects.filter(subject=subject), now=now)
            # Never later than now: who asked later may have come in first.
            first = min(now, replaced or now)
            run = CheckRun(
                subject=subject,
                revision=revision,
                document=document.decode(),
                document_hash=hashlib.sha256(document).hexdigest(),
                engine=ENGINE,
                requested_by_id=None if by is None else by.pk,
                requested_at=now,
                first_requested_at=first,
                due_at=max(now, min(now + AFTER_LAST_EDIT, first + AFTER_FIRST_EDIT)),
            )
            run.full_clean(validate_constraints=False)
            try:
                with transaction.atomic():
                    run.save(force_insert=True)
            except IntegrityError as error:
                lost = error  # somebody else's request for this subject came in between
                continue
            transaction.on_commit(partial(_send, run))
            return run
    raise lost


def check_cancel(*, run: int, by: AbstractBaseUser | None, now: datetime) -> bool:
    """Call a check off; say whether it was still open. One that runs stops within seconds."""
    called_off = jobs.cancel(CheckRun, run, now=now)
    if called_off:
        log.info("check run %s is called off", run, extra={"run": run, "person": None if by is None else by.pk})
    return called_off


def check_retry(*, run: int, by: AbstractBaseUser | None, now: datetime) -> None:
    """Try a check again that failed or was called off. Raises: CheckNotClosed, CheckOutdated."""
    subject = CheckRun.objects.values_list("subject", flat=True).get(pk=run)
    with transaction.atomic():
        if CheckRun.objects.filter(subject=subject, pk__gt=run).exists():
            raise CheckOutdated("There is a newer check of this draft.")
        try:
            with transaction.atomic():
                again = jobs.retry(CheckRun, run, now=now)
        except IntegrityError as error:  # a request that came in between
            raise CheckOutdated("There is a newer check of this draft.") from error
        if not again:
            raise CheckNotClosed("This check neither failed nor was called off.")
        transaction.on_commit(partial(jobs.send, CheckRun, run))
    log.info("check run %s is tried again", run, extra={"run": run, "person": None if by is None else by.pk})


def check_execute(run: int) -> None:
    """Do a check: what the task of its message calls, as often as the message comes."""
    jobs.execute(CheckRun, run, _prove)


def check_sweep() -> int:
    """Revive the checks whose worker or message was lost; return how many messages were sent."""
    return jobs.sweep(CheckRun, now=timezone.now())


def check_tidy() -> int:
    """Delete the checks that were replaced long ago; return how many."""
    return jobs.tidy(CheckRun, now=timezone.now())


def check_of(subject: str) -> CheckRun | None:
    """Return the newest check of a subject."""
    return CheckRun.objects.filter(subject=subject).order_by("-pk").first()


def proof_of(subject: str) -> CheckRun | None:
    """Return the newest check of a subject that came to a proof."""
    return CheckRun.objects.filter(subject=subject, state=JobState.DONE).order_by("-pk").first()


def proved_hashes(subject: str) -> QuerySet[CheckRun, str]:
    """Return the hash of every document of a subject that came to a proof, to be asked for or asked with."""
    return CheckRun.objects.filter(subject=subject, state=JobState.DONE).values_list("document_hash", flat=True)


def checks_of(subjects: Iterable[str]) -> dict[str, CheckRun]:
    """Return the newest check of each subject that has one, without documents and proofs, in one query."""
    return _newest(CheckRun.objects.filter(subject__in=list(subjects)))


def proofs_of(subjects: Iterable[str]) -> dict[str, CheckRun]:
    """Return the newest check of each subject that came to a proof, without documents and proofs, in one query."""
    return _newest(CheckRun.objects.filter(subject__in=list(subjects), state=JobState.DONE))


def _newest(runs: QuerySet[CheckRun]) -> dict[str, CheckRun]:
    newest = runs.order_by().values("subject").annotate(newest=Max("pk")).values("newest")
    light = CheckRun.objects.filter(pk__in=newest).defer("document", "proof", "progress")
    return {run.subject: run for run in light}


def _send(run: CheckRun) -> None:
    jobs.send(CheckRun, run.pk, countdown=max(0.0, (run.due_at - timezone.now()).total_seconds()))


def _prove(run: CheckRun, hold: Hold) -> dict[str, Any]:
    assert run.claim is not None
    kit = read_kit(run.document.encode())
    questions = Questions(kit)
    tell = partial(_tell, run, questions.parts)
    tell({})
    answers = answer_all(questions, claim=run.claim, hold=hold, wanted=partial(_wanted, run), tell=tell)
    proof = questions.proof(answers)
    return {"proof": proof_text(proof), "verdict": proof["verdict"], "engine": ENGINE}


def _tell(run: CheckRun, parts: Sequence[PrintPart], answers: Answers) -> None:
    """Show how many prints are answered, and their answers as they will stand in the proof."""
    done = [replace(answers[part.key], part=part) for part in parts if part.key in answers]
    progress = {"done": len(done), "parts": len(parts), "papers": [paper_data(answer) for answer in done]}
    jobs.report(run, progress)


def _wanted(run: CheckRun) -> frozenset[str]:
    """The prints that the subject's open check asks for, unless that is the run itself, called off."""
    others = CheckRun.objects.filter(subject=run.subject, state__in=OPEN).exclude(pk=run.pk, claim=run.claim)
    following = others.values_list("document", flat=True).first()
    return frozenset() if following is None else _keys(following)


@lru_cache(maxsize=2)  # asked every second for as long as it takes
def _keys(document: str) -> frozenset[str]:
    return frozenset(part.key for part in print_parts(read_kit(document.encode())))
