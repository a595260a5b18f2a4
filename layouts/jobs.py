"""Long work in the background: claimed once, renewed while somebody is at it, recorded once, revived when they die.

A job is a row; its message carries the row's number and may come twice, late or never. Every change of state is one
guarded update: it names the state, and the claim, that it counts on, and where another was quicker it touches nothing.
That is a normal answer, never an error.
"""

from __future__ import annotations

import logging
import multiprocessing
import threading
import time
import uuid
from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager
from datetime import datetime, timedelta
from typing import Any

from celery import current_app
from django.db import DatabaseError, InterfaceError, OperationalError, connection
from django.db.models import Case, F, QuerySet, Value, When
from django.utils import timezone
from kombu.exceptions import OperationalError as BrokerAway

from layouts.cutting import Cancelled
from layouts.errors import KitproofError
from layouts.models import OPEN, Job, JobState

__all__ = [
    "LEASE",
    "MOST_ATTEMPTS",
    "OVERDUE",
    "Hold",
    "cancel",
    "claim",
    "execute",
    "fail",
    "record",
    "release",
    "renew",
    "replace",
    "report",
    "retry",
    "send",
    "stopping",
    "sweep",
    "tidy",
]

log = logging.getLogger("kitproof.jobs")

# Whoever works has this long to say so again; a job whose worker died waits no longer.
LEASE = timedelta(seconds=20)
RENEW_SECONDS = 5.0
# How soon a worker notices that its job was called off or given to another.
LOOK_SECONDS = 1.0
# A job that waits so long after it was due has lost its message.
OVERDUE = timedelta(seconds=10)
# So long it can be seen that a job was replaced.
KEPT = timedelta(days=1)
# A job that kills whoever works on it must not be given out for ever.
MOST_ATTEMPTS = 3
_LONGEST_REASON = 2000

# Set when a worker is told to stop; its processes share it, since they are forked from the one that is told.
stopping = multiprocessing.Event()


def _lines(model: type[Job], pk: int) -> logging.LoggerAdapter[logging.Logger]:
    """The log of a job: every line names it."""
    return logging.LoggerAdapter(log, {"job": model._meta.model_name, "run": pk})


def _rows[J: Job](model: type[J]) -> QuerySet[J]:
    return model._default_manager.all()


def _held(job: Job) -> QuerySet[Job]:
    """The job's row, for as long as the claim of this very worker holds."""
    return _rows(type(job)).filter(pk=job.pk, state=JobState.RUNNING, claim=job.claim)


def send(model: type[Job], pk: int, *, countdown: float = 0) -> bool:
    """Send a job's message, to be taken up after `countdown` seconds; say whether the broker took it.

    A job whose message nobody took is not lost: it stays due, and the sweep sends it again.
    """
    try:
        current_app.send_task(model.TASK, args=[pk], countdown=countdown)
    except BrokerAway as error:
        _lines(model, pk).warning("the broker is away (%s); the sweep will send the message again", error)
        return False
    return True


def claim[J: Job](model: type[J], pk: int, *, now: datetime) -> J | None:
    """Take a job that waits; None if it does not, whatever the reason: somebody else has it, or it is closed."""
    mine = uuid.uuid4()
    taken = (
        _rows(model)
        .filter(pk=pk, state=JobState.WAITING)
        .update(
            state=JobState.RUNNING,
            claim=mine,
            lease_until=now + LEASE,
            attempts=F("attempts") + 1,
            started_at=now,
            progress={},
        )
    )
    # Read by the claim: between the two statements somebody may have replaced the job.
    return _rows(model).filter(pk=pk, claim=mine).first() if taken else None


def renew(job: Job, *, now: datetime) -> bool:
    """Stay at a job; say whether the claim still holds."""
    return _held(job).update(lease_until=now + LEASE) == 1


def report(job: Job, progress: Mapping[str, Any]) -> bool:
    """Show how far a job has come; say whether the claim still holds."""
    return _held(job).update(progress=progress) == 1


def record(job: Job, result: Mapping[str, Any], *, now: datetime) -> bool:
    """Store what came out of a job, if the claim still holds; say whether it does."""
    return _end(_held(job), JobState.DONE, now, **result)


def fail(job: Job, reason: str, *, now: datetime) -> bool:
    """Store why a job failed, if the claim still holds; say whether it does."""
    return _end(_held(job), JobState.FAILED, now, reason=reason[:_LONGEST_REASON] or "It failed without a reason.")


def release(job: Job, *, now: datetime) -> bool:
    """Let a job wait again because its worker stops, if the claim still holds; that was no attempt."""
    untried = job.attempts == 1
    released = _held(job).update(
        state=JobState.WAITING,
        claim=None,
        lease_until=None,
        due_at=now,
        attempts=job.attempts - 1,
        started_at=None if untried else job.started_at,
        progress={},
    )
    if released:
        send(type(job), job.pk)
    return released == 1


def cancel(model: type[Job], pk: int, *, now: datetime) -> bool:
    """Call a job off; say whether it was still open.

    One that waits is cancelled at once. One that runs is asked to stop: its worker does within seconds, and if the
    worker is dead the sweep does it in its place.
    """
    # One statement: between two, a job could go from waiting to running, or back.
    waits = When(state=JobState.WAITING, then=Value(JobState.CANCELLED))
    ends = When(state=JobState.WAITING, then=Value(now))
    called_off = (
        _rows(model)
        .filter(pk=pk, state__in=OPEN)
        .update(state=Case(waits, default=F("state")), finished_at=Case(ends, default=None), cancel_asked=True)
    )
    return called_off == 1


def replace(rows: QuerySet[Any], *, now: datetime) -> datetime | None:
    """Close the open one of these jobs because another takes its place; one transaction with what follows.

    Returns the time of the first request that is still unanswered: None where no job of them waited.
    """
    job = rows.select_for_update().filter(state__in=OPEN).only("state", "first_requested_at").first()
    if job is None:
        return None
    _end(rows.filter(pk=job.pk), JobState.REPLACED, now)
    first: datetime = job.first_requested_at
    return first if job.state == JobState.WAITING else None


def retry(model: type[Job], pk: int, *, now: datetime) -> bool:
    """Let a job that failed or was called off wait again, with all its attempts; say whether it was one.

    Raises: IntegrityError where the model's constraints allow no further open job.
    """
    rows = _rows(model).filter(pk=pk, state__in=[JobState.FAILED, JobState.CANCELLED])
    return (
        rows.update(
            state=JobState.WAITING,
            due_at=now,
            attempts=0,
            started_at=None,
            finished_at=None,
            progress={},
            reason="",
            cancel_asked=False,
        )
        == 1
    )


def sweep(model: type[Job], *, now: datetime) -> int:
    """Revive the jobs whose worker died, and send the messages of those that wait too long; say how many were sent.

    A job that has had all its attempts fails instead, and one that somebody called off is cancelled.
    """
    sent = 0
    for job in _rows(model).filter(state=JobState.RUNNING, lease_until__lt=now).defer(*_heavy(model)):
        # Asked again in the update: its worker may have renewed the lease since it was read here.
        held = _held(job).filter(lease_until__lt=now)
        if job.cancel_asked:
            _end(held, JobState.CANCELLED, now)
        elif job.attempts >= MOST_ATTEMPTS:
            if _end(held, JobState.FAILED, now, reason=_worn_out(job.attempts)):
                _lines(model, job.pk).error("failed: %s", _worn_out(job.attempts))
        elif held.filter(cancel_asked=False).update(
            state=JobState.WAITING, claim=None, lease_until=None, due_at=now, progress={}
        ):
            _lines(model, job.pk).warning("its worker died; it waits for another")
            sent += send(model, job.pk)
    overdue = _rows(model).filter(state=JobState.WAITING, due_at__lte=now - OVERDUE)
    for pk, due_at in overdue.order_by("due_at").values_list("pk", "due_at"):
        # Moving the time leaves each job to one of several sweeps, and gives its message time before the next one.
        if overdue.filter(pk=pk, due_at=due_at).update(due_at=now):
            _lines(model, pk).warning("its message was lost and is sent again")
            sent += send(model, pk)
    return sent


def tidy(model: type[Job], *, now: datetime) -> int:
    """Delete the jobs that were replaced long ago: at every edit one is left, document and all. Say how many."""
    deleted, _ = _rows(model).filter(state=JobState.REPLACED, finished_at__lt=now - KEPT).delete()
    return deleted


def _worn_out(attempts: int) -> str:
    return f"Whatever worked on it died {attempts} times. It can be tried again."


def _heavy(model: type[Job]) -> list[str]:
    return [field.name for field in model._meta.concrete_fields if field.get_internal_type() == "TextField"]


def _end(rows: QuerySet[Any], state: JobState, now: datetime, **values: Any) -> bool:
    ended = rows.filter(state__in=OPEN)
    return ended.update(state=state, claim=None, lease_until=None, finished_at=now, **values) == 1


class Hold:
    """The claim of a worker on the job it is at, as the thread beside the work last saw it."""

    def __init__(self, job: Job) -> None:
        self._job = job
        self._lost = threading.Event()
        self._called_off = threading.Event()
        self._left = threading.Event()

    @property
    def is_called_off(self) -> bool:
        """Whether a person no longer wants it."""
        return self._called_off.is_set()

    @property
    def is_over(self) -> bool:
        """Whether the work should end: nobody waits for it any more, or its worker stops."""
        return self._lost.is_set() or self._called_off.is_set() or stopping.is_set()

    def check(self) -> None:
        """Raises: Cancelled, where the work should end."""
        if self.is_over:
            raise Cancelled("the work was called off or left to another")

    def leave(self) -> None:
        self._left.set()

    def keep(self) -> None:
        """Renew the lease and look for a wish to stop until the hold is left. A thread of its own does this."""
        renewed = time.monotonic()
        try:
            while not self._left.wait(LOOK_SECONDS) and not self._lost.is_set():
                try:
                    renewed = self._look(renewed)
                except DatabaseError as error:
                    # The lease outlives a short absence of the database; if it runs out, the row will say so.
                    _lines(type(self._job), self._job.pk).warning("its lease could not be renewed: %s", error)
                    connection.close()
        finally:
            connection.close()

    def _look(self, renewed: float) -> float:
        if time.monotonic() - renewed >= RENEW_SECONDS:
            if not renew(self._job, now=timezone.now()):
                self._lost.set()
            renewed = time.monotonic()
        asked = _held(self._job).values_list("cancel_asked", flat=True).first()
        if asked is None:
            self._lost.set()
        elif asked:
            self._called_off.set()
        return renewed


@contextmanager
def holding(job: Job) -> Iterator[Hold]:
    """Hold a claimed job for as long as the block lasts."""
    hold = Hold(job)
    keeper = threading.Thread(target=hold.keep, name=f"hold of {type(job).__name__} {job.pk}", daemon=True)
    keeper.start()
    try:
        yield hold
    finally:
        hold.leave()
        keeper.join()


def execute[J: Job](model: type[J], pk: int, work: Callable[[J, Hold], Mapping[str, Any]]) -> None:
    """Claim a job, do its work, and record the fields that `work` returns, or why it failed.

    This is one of the two last doors: whatever goes wrong in the work becomes the job's reason. Only where the database
    is away nothing is recorded: then the lease runs out, and the sweep gives the job to another worker.
    Raises: OperationalError, InterfaceError.
    """
    lines = _lines(model, pk)
    job = claim(model, pk, now=timezone.now())
    if job is None:
        lines.info("does not wait; its message is dropped")
        return
    lines.info("starts, attempt %s", job.attempts)
    try:
        with holding(job) as hold:
            result = work(job, hold)
        ended, holds = "done", record(job, result, now=timezone.now())
    except Cancelled:
        if hold.is_called_off:
            ended, holds = "cancelled", _end(_held(job), JobState.CANCELLED, timezone.now())
        else:
            ended, holds = "left to another worker", release(job, now=timezone.now())
    except KitproofError as error:
        ended, holds = f"failed: {error.message}", fail(job, error.message, now=timezone.now())
    except (OperationalError, InterfaceError):
        raise
    except Exception as defect:  # noqa: BLE001  the last door: else the job would be tried three times
        lines.exception("a defect stopped it")
        reason = f"A defect stopped it ({type(defect).__name__}: {defect}). The log holds more."
        ended, holds = "failed of a defect", fail(job, reason, now=timezone.now())
    lines.info(ended if holds else "was replaced or given to another; nothing is stored")
