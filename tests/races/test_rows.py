"""Races between workers, requests and sweeps for one row, each on both databases.

Every race is first lost by the plain way to write it: read, decide, write. That shows that it is there to be won.
"""

from __future__ import annotations

import threading
import time
import uuid
from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from datetime import timedelta
from functools import partial
from typing import Any

import pytest
from django.db import IntegrityError, connection
from django.utils import timezone

from layouts import checks, jobs, parts
from layouts.cutting import Solver
from layouts.document import read_kit
from layouts.models import OPEN, CheckRun, JobState, PartAnswer
from layouts.proofing import ENGINE, print_parts, prove_print
from tests.services.check_documents import document, small

pytestmark = pytest.mark.django_db(transaction=True)


@pytest.fixture(autouse=True)
def sent(monkeypatch):
    """The numbers of the jobs whose messages went out."""
    numbers: list[int] = []

    def send(model, pk, countdown=0):
        numbers.append(pk)
        return True

    monkeypatch.setattr(jobs, "send", send)
    return numbers


def asked(asked: bytes | None = None, subject: str = "draft:1") -> CheckRun:
    return checks.check_request(
        subject=subject, revision=1, document=small() if asked is None else asked, by=None, now=timezone.now()
    )


def running(subject: str = "draft:1") -> CheckRun:
    run = jobs.claim(CheckRun, asked(subject=subject).pk, now=timezone.now())
    assert run is not None
    return run


def at_once[Answer](*doers: Callable[[], Answer]) -> list[Answer | Exception]:
    """What each says, or raises, when all of them do it at the same moment in threads of their own."""
    start = threading.Barrier(len(doers), timeout=20)

    def do(doer: Callable[[], Answer]) -> Answer | Exception:
        try:
            start.wait()
            return doer()
        except IntegrityError as error:
            return error
        finally:
            connection.close()

    with ThreadPoolExecutor(len(doers)) as threads:
        return list(threads.map(do, doers))


class _Meeting:
    """Where the plain ways stop between reading and writing, until everybody has read."""

    def __init__(self, people: int) -> None:
        self.wait = threading.Barrier(people, timeout=20).wait


# One job, several workers.


def test_the_plain_way_gives_one_job_to_two_workers():
    run, meeting = asked(), _Meeting(2)

    def claim() -> uuid.UUID | None:
        job = CheckRun.objects.get(pk=run.pk)
        if job.state != JobState.WAITING:
            return None
        meeting.wait()
        job.state, job.claim, job.lease_until = JobState.RUNNING, uuid.uuid4(), timezone.now()
        job.attempts, job.started_at = job.attempts + 1, timezone.now()
        job.save()
        return job.claim

    assert None not in at_once(claim, claim)


def test_a_job_is_given_to_one_of_eight_workers():
    for number in range(5):
        run = asked(subject=f"draft:{number}")
        claimed = at_once(*[partial(jobs.claim, CheckRun, run.pk, now=timezone.now())] * 8)
        assert len([job for job in claimed if job is not None]) == 1
        assert CheckRun.objects.get(pk=run.pk).attempts == 1


# A worker that was away too long, and the one that took over.


def test_the_plain_way_lets_a_lost_claim_store():
    stale = running()
    CheckRun.objects.update(claim=uuid.uuid4())
    job = CheckRun.objects.get(pk=stale.pk)  # what it read before it was away
    job.state, job.proof, job.verdict, job.finished_at = JobState.DONE, "stale", "ready", timezone.now()
    job.claim, job.lease_until = None, None
    job.save()
    assert CheckRun.objects.get().proof == "stale"


def test_a_lost_claim_stores_nothing():
    stale = running()
    jobs.sweep(CheckRun, now=timezone.now() + timedelta(seconds=30))
    fresh = jobs.claim(CheckRun, stale.pk, now=timezone.now())
    assert fresh is not None
    stored = at_once(
        lambda: jobs.record(stale, {"proof": "stale", "verdict": "ready"}, now=timezone.now()),
        lambda: jobs.record(fresh, {"proof": "fresh", "verdict": "ready"}, now=timezone.now()),
    )
    assert stored == [False, True]
    assert CheckRun.objects.get().proof == "fresh"


# The sweep finds an old lease; its worker renews it before the sweep writes.


def test_the_plain_way_takes_a_job_from_a_worker_that_has_just_renewed():
    run = running()
    late = timezone.now() + timedelta(seconds=21)
    (found,) = CheckRun.objects.filter(state=JobState.RUNNING, lease_until__lt=late)
    assert jobs.renew(run, now=late)
    found.state, found.claim, found.lease_until = JobState.WAITING, None, None
    found.save()
    assert not jobs.record(run, {"proof": "{}", "verdict": "ready"}, now=late)


def test_the_sweep_leaves_a_job_to_a_worker_that_has_just_renewed(monkeypatch, sent):
    run = running()
    late = timezone.now() + timedelta(seconds=21)
    held = jobs._held

    def renewed_meanwhile(job):
        held(run).update(lease_until=late + jobs.LEASE)
        return held(job)

    monkeypatch.setattr(jobs, "_held", renewed_meanwhile)
    sent.clear()
    assert jobs.sweep(CheckRun, now=late) == 0
    assert jobs.record(run, {"proof": "{}", "verdict": "ready"}, now=late)


# Two clocks, two sweeps.


def test_the_plain_way_sends_a_message_twice(sent):
    run, meeting = asked(), _Meeting(2)
    late = timezone.now() + timedelta(seconds=13)
    sent.clear()

    def sweep() -> None:
        for job in CheckRun.objects.filter(state=JobState.WAITING, due_at__lte=late - jobs.OVERDUE):
            meeting.wait()
            job.due_at = late
            job.save()
            sent.append(job.pk)

    at_once(sweep, sweep)
    assert sent == [run.pk, run.pk]


def test_two_sweeps_send_each_message_once(sent):
    waiting = asked(subject="draft:1")
    dead = running(subject="draft:2")
    late = timezone.now() + timedelta(seconds=21)
    sent.clear()
    at_once(*[lambda: jobs.sweep(CheckRun, now=late)] * 4)
    assert sorted(sent) == [waiting.pk, dead.pk]


# A job goes back to waiting between the two statements of a person who calls it off.


def test_the_plain_way_loses_the_wish_to_stop():
    run = running()
    rows = CheckRun.objects.filter(pk=run.pk)
    asked_ = rows.filter(state=JobState.WAITING).update(state=JobState.CANCELLED, finished_at=timezone.now())
    jobs.sweep(CheckRun, now=timezone.now() + timedelta(seconds=21))
    asked_ += rows.filter(state=JobState.RUNNING).update(cancel_asked=True)
    assert (asked_, rows.get().state) == (0, "waiting")


def test_a_job_that_is_called_off_while_it_changes_hands_does_not_go_on():
    for number in range(10):
        run = running(subject=f"draft:{number}")
        late = timezone.now() + timedelta(seconds=21)
        called_off = at_once(
            partial(jobs.cancel, CheckRun, run.pk, now=timezone.now()), partial(jobs.sweep, CheckRun, now=late)
        )
        assert called_off[0] is True
        jobs.sweep(CheckRun, now=late)
        checks.check_execute(run.pk)
        run.refresh_from_db()
        assert (run.state, run.proof) == ("cancelled", None)


# Two people edit one draft.


def _plain_request(meeting: _Meeting) -> None:
    """Close the open check, then write the new one."""
    CheckRun.objects.filter(subject="draft:1", state__in=OPEN).update(state="replaced", finished_at=timezone.now())
    meeting.wait()
    now = timezone.now()
    CheckRun.objects.create(
        subject="draft:1", revision=1, document="{}", engine=1, requested_at=now, first_requested_at=now, due_at=now
    )


def test_the_plain_way_refuses_one_of_two_requests():
    """Without the constraint there would be two open checks instead."""
    meeting = _Meeting(2)
    outcomes = at_once(*[lambda: _plain_request(meeting)] * 2)
    assert [type(one) for one in outcomes if one] == [IntegrityError]


def test_of_forty_requests_at_once_all_are_taken_and_one_stays_open():
    def ask() -> list[int]:
        return [asked().pk for _ in range(5)]

    outcomes = at_once(*[ask] * 8)
    assert sum(len(one) for one in outcomes if isinstance(one, list)) == 40
    states = list(CheckRun.objects.order_by("state").values_list("state", flat=True))
    assert states == ["replaced"] * 39 + ["waiting"]


# Two checks ask the same of a print.


class _Counted:
    """Works prints out, slowly enough for everybody to come in between, and counts."""

    def __init__(self) -> None:
        self.papers: list[str] = []

    def __call__(self, part: Any, solver: Any) -> Any:
        self.papers.append(part.paper)
        time.sleep(0.3)
        return prove_print(part, solver)


def test_the_plain_way_works_a_print_out_twice():
    counted, meeting = _Counted(), _Meeting(2)
    (part,) = print_parts(read_kit(small()))

    def answer() -> None:
        if not PartAnswer.objects.filter(key=part.key).exists():
            meeting.wait()
            with Solver() as solver:
                counted(part, solver)
            PartAnswer.objects.get_or_create(key=part.key, engine=ENGINE, defaults={"answer": "{}"})

    at_once(answer, answer)
    assert counted.papers == ["leaf", "leaf"]


def test_prints_that_several_checks_ask_for_are_worked_out_once(monkeypatch):
    counted = _Counted()
    monkeypatch.setattr(parts, "prove_print", counted)
    shared = {f"p{at}": (1, [(40 + at, 30)]) for at in range(4)}
    runs = [
        asked(document({**shared, f"own{number}": (1, [(80 + number, 50)])}), subject=f"draft:{number}")
        for number in range(3)
    ]
    at_once(*[partial(checks.check_execute, run.pk) for run in runs])
    assert set(CheckRun.objects.values_list("state", flat=True)) == {"done"}
    assert sorted(counted.papers) == ["own0", "own1", "own2", "p0", "p1", "p2", "p3"]
    assert set(PartAnswer.objects.values_list("attempts", flat=True)) == {1}


def test_a_print_whose_worker_died_is_taken_over_when_its_lease_is_over(monkeypatch):
    counted = _Counted()
    monkeypatch.setattr(parts, "prove_print", counted)
    (part,) = print_parts(read_kit(small()))
    soon = timezone.now() + timedelta(seconds=1)
    PartAnswer.objects.create(key=part.key, engine=ENGINE, claim=uuid.uuid4(), lease_until=soon, attempts=1)
    run = asked()
    checks.check_execute(run.pk)
    run.refresh_from_db()
    assert run.state == "done"
    assert timezone.now() > soon
    assert (counted.papers, PartAnswer.objects.get().attempts) == (["leaf"], 2)
