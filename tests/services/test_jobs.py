"""Jobs: from waiting to one end, by guarded updates. Time is an argument here; nothing waits."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta
from uuid import uuid4

import pytest
from django.db import IntegrityError, transaction

from layouts import jobs
from layouts.models import CheckRun, JobState, PartAnswer
from tests.services.check_documents import small

pytestmark = pytest.mark.django_db

NOON = datetime(2027, 4, 1, 12, tzinfo=UTC)
PROVED = {"proof": "{}\n", "verdict": "ready"}


def seconds(count: float) -> datetime:
    return NOON + timedelta(seconds=count)


@pytest.fixture
def sent(monkeypatch):
    """The numbers of the jobs whose messages went out."""
    numbers: list[int] = []

    def send(model, pk, countdown=0):
        numbers.append(pk)
        return True

    monkeypatch.setattr(jobs, "send", send)
    return numbers


def waiting(subject: str = "draft:1", **fields: object) -> CheckRun:
    values = {
        "subject": subject,
        "revision": 1,
        "document": small().decode(),
        "document_hash": "0" * 64,
        "engine": 1,
        "requested_at": NOON,
        "first_requested_at": NOON,
        "due_at": seconds(2),
    }
    return CheckRun.objects.create(**(values | fields))


def running(now: datetime = NOON) -> CheckRun:
    run = jobs.claim(CheckRun, waiting().pk, now=now)
    assert run is not None
    return run


def state_of(run: CheckRun) -> str:
    return CheckRun.objects.get(pk=run.pk).state


def test_a_job_that_waits_is_claimed_once():
    run = waiting()
    first = jobs.claim(CheckRun, run.pk, now=NOON)
    assert first is not None
    assert (first.state, first.attempts, first.lease_until) == ("running", 1, seconds(20))
    assert jobs.claim(CheckRun, run.pk, now=NOON) is None
    assert jobs.claim(CheckRun, run.pk, now=seconds(60)) is None, "an old lease is the sweep's business"


def test_a_job_that_is_not_there_is_not_claimed():
    assert jobs.claim(CheckRun, 1, now=NOON) is None


def test_a_claim_is_renewed_and_recorded():
    run = running()
    assert jobs.renew(run, now=seconds(15))
    assert CheckRun.objects.get().lease_until == seconds(35)
    assert jobs.report(run, {"done": 1, "parts": 2})
    assert jobs.record(run, PROVED, now=seconds(16))
    done = CheckRun.objects.get()
    assert (done.state, done.verdict, done.finished_at, done.claim) == ("done", "ready", seconds(16), None)
    assert done.progress == {"done": 1, "parts": 2}


LOSSES = {
    "given to another": lambda run: CheckRun.objects.filter(pk=run.pk).update(claim=uuid4()),
    "replaced": lambda run: jobs.replace(CheckRun.objects.all(), now=seconds(1)),
    "swept": lambda run: jobs.sweep(CheckRun, now=seconds(21)),
    "done already": lambda run: jobs.record(run, PROVED, now=seconds(1)),
}


@pytest.mark.parametrize("loss", LOSSES)
def test_a_claim_that_was_lost_changes_nothing(loss, sent):
    run = running()
    LOSSES[loss](run)
    before = CheckRun.objects.values().get()
    assert not jobs.renew(run, now=seconds(22))
    assert not jobs.report(run, {"done": 1})
    assert not jobs.record(run, {"proof": "stale", "verdict": "ready"}, now=seconds(22))
    assert not jobs.fail(run, "stale", now=seconds(22))
    assert CheckRun.objects.values().get() == before


def test_a_job_whose_worker_stops_waits_again_as_if_untried(sent):
    run = running()
    assert jobs.release(run, now=seconds(5))
    waits = CheckRun.objects.get()
    assert (waits.state, waits.attempts, waits.started_at, waits.due_at) == ("waiting", 0, None, seconds(5))
    assert sent == [run.pk]
    assert not jobs.release(run, now=seconds(6))
    again = jobs.claim(CheckRun, run.pk, now=seconds(7))
    assert again is not None
    CheckRun.objects.update(attempts=2)
    again.refresh_from_db()
    assert jobs.release(again, now=seconds(8))
    assert CheckRun.objects.values_list("attempts", "started_at").get() == (1, seconds(7))


def test_a_job_whose_worker_died_waits_again_and_is_sent(sent):
    run = running()
    assert jobs.sweep(CheckRun, now=seconds(20)) == 0, "the lease holds to its last moment"
    assert jobs.sweep(CheckRun, now=seconds(20.001)) == 1
    assert (state_of(run), sent) == ("waiting", [run.pk])
    again = jobs.claim(CheckRun, run.pk, now=seconds(21))
    assert again is not None
    assert (again.attempts, again.claim != run.claim) == (2, True)


def test_after_three_deaths_a_job_fails_with_its_reason_and_can_be_tried_again(sent):
    run = running()
    for death in range(1, 4):
        jobs.sweep(CheckRun, now=seconds(100 * death))
        jobs.claim(CheckRun, run.pk, now=seconds(100 * death))
    failed = CheckRun.objects.get()
    assert (failed.state, failed.reason) == ("failed", "Whatever worked on it died 3 times. It can be tried again.")
    assert sent == [run.pk, run.pk]
    assert jobs.retry(CheckRun, run.pk, now=seconds(400))
    again = CheckRun.objects.get()
    assert (again.state, again.reason, again.attempts, again.due_at) == ("waiting", "", 0, seconds(400))


def test_a_job_whose_message_was_lost_is_sent_again_ten_seconds_after_it_was_due(sent):
    run = waiting(due_at=seconds(2))
    jobs.sweep(CheckRun, now=seconds(11.9))
    assert sent == []
    jobs.sweep(CheckRun, now=seconds(12))
    jobs.sweep(CheckRun, now=seconds(12))
    jobs.sweep(CheckRun, now=seconds(21.9))
    assert sent == [run.pk], "its message gets the same time again"
    jobs.sweep(CheckRun, now=seconds(22))
    assert sent == [run.pk, run.pk]


def test_a_job_that_waits_is_cancelled_at_once():
    run = waiting()
    assert jobs.cancel(CheckRun, run.pk, now=seconds(1))
    assert state_of(run) == "cancelled"
    assert jobs.claim(CheckRun, run.pk, now=seconds(2)) is None
    assert not jobs.cancel(CheckRun, run.pk, now=seconds(3))


def test_a_job_that_runs_is_asked_to_stop_and_the_sweep_stops_it_for_a_dead_worker(sent):
    run = running()
    assert jobs.cancel(CheckRun, run.pk, now=seconds(1))
    assert state_of(run) == "running"
    jobs.sweep(CheckRun, now=seconds(21))
    assert (state_of(run), sent) == ("cancelled", [])


@pytest.mark.parametrize(
    ("end", "again"),
    [
        ("fail", True),
        ("cancel", True),
        ("record", False),
        ("replace", False),
        ("none", False),
    ],
)
def test_only_what_failed_or_was_called_off_is_tried_again(end, again):
    run = running()
    match end:
        case "fail":
            jobs.fail(run, "The solver died.", now=NOON)
        case "cancel":
            CheckRun.objects.update(state=JobState.CANCELLED, claim=None, lease_until=None, finished_at=NOON)
        case "record":
            jobs.record(run, PROVED, now=NOON)
        case "replace":
            jobs.replace(CheckRun.objects.all(), now=NOON)
    assert jobs.retry(CheckRun, run.pk, now=seconds(5)) is again


def test_the_time_of_the_first_request_is_that_of_a_job_that_waited():
    waiting(first_requested_at=seconds(-20))
    assert jobs.replace(CheckRun.objects.all(), now=NOON) == seconds(-20)
    assert jobs.replace(CheckRun.objects.all(), now=NOON) is None
    running()
    assert jobs.replace(CheckRun.objects.all(), now=NOON) is None, "its request was answered by its start"
    assert set(CheckRun.objects.values_list("state", flat=True)) == {"replaced"}


def test_what_was_replaced_is_kept_for_a_day():
    waiting()
    jobs.replace(CheckRun.objects.all(), now=NOON)
    open_ = waiting()
    ended = waiting("draft:2", state="cancelled", finished_at=NOON)
    assert jobs.tidy(CheckRun, now=NOON + timedelta(days=1)) == 0
    assert jobs.tidy(CheckRun, now=NOON + timedelta(days=1, seconds=1)) == 1
    assert set(CheckRun.objects.all()) == {open_, ended}


CLAIMED = {"claim": uuid4(), "lease_until": NOON, "attempts": 1, "started_at": NOON}
ENDED = {"finished_at": NOON}


@pytest.mark.parametrize(
    "fields",
    [
        pytest.param({"state": "lost", **ENDED}, id="a state that nobody knows"),
        pytest.param({"state": "running"}, id="runs without a claim"),
        pytest.param({"state": "waiting", **CLAIMED}, id="waits with a claim"),
        pytest.param({"state": "running", **CLAIMED, "attempts": 0, "started_at": None}, id="runs untried"),
        pytest.param({"state": "waiting", **ENDED}, id="waits and has finished"),
        pytest.param({"state": "cancelled"}, id="closed and has not finished"),
        pytest.param({"state": "failed", **ENDED}, id="failed without a reason"),
        pytest.param({"state": "cancelled", **ENDED, "reason": "so"}, id="a reason without failure"),
        pytest.param({"started_at": NOON}, id="started untried"),
        pytest.param({"first_requested_at": seconds(1)}, id="asked before the first"),
        pytest.param({"due_at": seconds(-1)}, id="due before asked"),
        pytest.param({"state": "done", **ENDED}, id="done without a proof"),
        pytest.param({"state": "done", **ENDED, "proof": "{}", "verdict": "perhaps"}, id="no verdict"),
        pytest.param({"proof": "{}"}, id="a proof while it waits"),
        pytest.param({"subject": ""}, id="nobody's"),
    ],
)
def test_the_database_refuses_what_cannot_be(fields):
    with pytest.raises(IntegrityError), transaction.atomic():
        waiting(**fields)


def test_the_database_keeps_one_open_job_of_a_subject():
    waiting("draft:1")
    waiting("draft:2")
    waiting("draft:1", state="replaced", **ENDED)
    with pytest.raises(IntegrityError), transaction.atomic():
        waiting("draft:1", state="running", **CLAIMED)


@pytest.mark.parametrize(
    "fields",
    [
        pytest.param({"claim": uuid4()}, id="a claim for ever"),
        pytest.param({"lease_until": NOON}, id="a lease of nobody"),
        pytest.param({"claim": uuid4(), "lease_until": NOON, "answer": "{}"}, id="known and claimed"),
        pytest.param({"key": "known"}, id="a second answer"),
    ],
)
def test_the_database_refuses_answers_that_cannot_be(fields):
    PartAnswer.objects.create(key="known", engine=1, answer="{}")
    PartAnswer.objects.create(key="known", engine=2, answer="{}")
    with pytest.raises(IntegrityError), transaction.atomic():
        PartAnswer.objects.create(**({"key": "new", "engine": 1} | fields))
