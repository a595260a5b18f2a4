"""Checks done by real workers over a real broker, on both pairs, while processes are killed and stopped.

The prints are answered in moments; a check is held in the middle by stopping the solver's process. What is waited for
is an event in the database or among the processes, with a limit that the promise names.
"""

from __future__ import annotations

import os
import signal
import subprocess
import sys
import time
from collections.abc import Iterator
from datetime import timedelta
from functools import cache, partial
from pathlib import Path

import pytest
from django.utils import timezone

from layouts import checks, jobs
from layouts.document import read_kit
from layouts.models import OPEN, CheckRun, PartAnswer
from layouts.proofing import print_parts
from tests.races.workshop import Workshop, alive, dead, descendants, eventually, kill, parent_of, solvers_of, workshop
from tests.services.check_documents import HARD, document, small

pytestmark = pytest.mark.django_db(transaction=True)

CHECKOUT = Path(__file__).resolve().parents[2]
# A check that lost its worker or its message is done by then.
PROMISED = 60


@pytest.fixture(scope="module")
def shop(database, django_db_blocker, tmp_path_factory) -> Iterator[Workshop]:
    """The broker of the pair, and a clock; each test brings its workers."""
    with django_db_blocker.unblock():
        opened = workshop(tmp_path_factory.mktemp("shop"))
        made = opened.__enter__()
    yield made
    with django_db_blocker.unblock():
        opened.__exit__(None, None, None)


@pytest.fixture
def worker(shop: Workshop) -> subprocess.Popen[bytes]:
    """A worker that stays for the next test, and a clock."""
    shop.clock()
    return shop.worker()


def ask(asked: bytes, *, subject: str = "draft:1", revision: int = 1) -> CheckRun:
    return checks.check_request(subject=subject, revision=revision, document=asked, by=None, now=timezone.now())


def hard(width: int = 50) -> bytes:
    """A kit with a print that the solver is at for a moment, and one beside it of a piece so many mm wide."""
    return document({"hard": (1, HARD), "leaf": (1, [(width, 40)])})


@cache
def printed_by_the_command(asked: bytes) -> str:
    command = [sys.executable, "manage.py", "proof", "-", "--json"]
    return subprocess.run(command, cwd=CHECKOUT, input=asked, capture_output=True, check=False).stdout.decode()


def done(run: CheckRun) -> bool:
    run.refresh_from_db()
    return not run.is_open


def held(worker: subprocess.Popen[bytes]) -> int:
    """Wait for the worker's solver and stop it in the middle; return its process id."""
    found = eventually(lambda: [pid for pid in solvers_of(worker) if listens(pid)])
    assert found, "no check came so far"
    os.kill(found[0], signal.SIGSTOP)
    return found[0]


def listens(solver: int) -> bool:
    """Whether a solver's process has started: it reads in a second thread, after it has bound itself to its parent."""
    return len(list(Path(f"/proc/{solver}/task").glob("*"))) > 1


def attempts_at(asked: bytes) -> dict[str, int]:
    """How often each print of a document was begun."""
    papers = {part.key: part.paper for part in print_parts(read_kit(asked))}
    return {papers[row.key]: row.attempts for row in PartAnswer.objects.filter(key__in=papers)}


def test_a_worker_that_is_killed_in_the_middle_of_a_check_costs_time_only(shop, worker):
    run = ask(hard())
    solver = held(worker)
    assert eventually(lambda: CheckRun.objects.get().progress.get("done") == 1), "the other print is shown"
    kill(worker)
    killed = time.monotonic()
    assert eventually(partial(dead, solver), seconds=2), "no solver outlives its worker"
    shop.worker()
    assert eventually(partial(done, run), seconds=PROMISED)
    assert time.monotonic() - killed < PROMISED
    assert (run.state, run.attempts) == ("done", 2)
    assert run.proof == printed_by_the_command(hard())
    assert attempts_at(hard()) == {"hard": 2, "leaf": 1}, "what was stored before the death is used"


def test_a_worker_that_is_told_to_stop_leaves_its_check_to_the_next(shop, worker):
    run = ask(hard())
    solver = held(worker)
    worker.terminate()
    assert worker.wait(10) == 0
    assert dead(solver)
    run.refresh_from_db()
    assert (run.state, run.attempts, run.started_at) == ("waiting", 0, None)
    shop.worker()
    assert eventually(partial(done, run))
    assert (run.state, run.attempts, run.proof) == ("done", 1, printed_by_the_command(hard()))


def test_a_broker_that_is_killed_in_the_middle_of_a_check_costs_nothing(shop, worker):
    run = ask(hard())
    solver = held(worker)
    shop.broker.kill()
    killed = time.monotonic()
    while_away = ask(small(), subject="draft:2")  # its message goes nowhere
    os.kill(solver, signal.SIGCONT)
    assert eventually(partial(done, run), seconds=PROMISED), "the worker needs no broker to finish"
    shop.broker.start()
    after = ask(small(51), subject="draft:3")
    for one, asked in ((run, hard()), (while_away, small()), (after, small(51))):
        assert eventually(partial(done, one), seconds=PROMISED - (time.monotonic() - killed))
        assert (one.state, one.attempts, one.proof) == ("done", 1, printed_by_the_command(asked))
    assert worker.poll() is None


def test_two_hundred_edits_leave_one_check_and_no_print_is_worked_out_twice(shop, worker):
    started = time.monotonic()
    for edit in range(200):
        run = ask(document({"leaf": (1, [(50 + edit % 7, 40)]), "bark": (1, [(60, 40)])}), revision=edit)
        assert CheckRun.objects.filter(state__in=OPEN).count() <= 1
    burst = time.monotonic() - started
    assert eventually(partial(done, run))
    assert (run.state, run.revision) == ("done", 199)
    assert run.proof == printed_by_the_command(run.document.encode())
    states = list(CheckRun.objects.exclude(pk=run.pk).values_list("state", flat=True))
    # A check starts half a minute after the first edit at the latest, edits or no edits.
    assert states.count("replaced") >= 199 - burst // 30
    assert len(states) == 199
    assert set(PartAnswer.objects.values_list("attempts", flat=True)) == {1}


def test_a_message_that_comes_often_is_worked_on_once(shop, worker):
    shop.worker("another")
    run = ask(hard())
    for _ in range(10):
        jobs.send(CheckRun, run.pk)
    assert eventually(partial(done, run))
    before = CheckRun.objects.values().get()
    jobs.send(CheckRun, run.pk)
    last = ask(small(), subject="draft:2")
    assert eventually(partial(done, last)), "every message was taken"
    shop.dismiss("another")
    assert before["attempts"] == 1
    assert CheckRun.objects.filter(pk=run.pk).values().get() == before
    assert attempts_at(hard()) == {"hard": 1, "leaf": 1}


def test_a_check_that_is_called_off_ends_its_solver_within_seconds(shop, worker):
    run = ask(hard())
    solver = held(worker)
    assert checks.check_cancel(run=run.pk, by=None, now=timezone.now())
    assert eventually(partial(dead, solver), seconds=3)
    assert eventually(partial(done, run), seconds=3)
    assert (run.state, run.proof) == ("cancelled", None)
    checks.check_retry(run=run.pk, by=None, now=timezone.now())
    assert eventually(partial(done, run))
    assert (run.state, run.proof) == ("done", printed_by_the_command(hard()))


def test_a_check_that_kills_its_process_three_times_fails_and_can_be_tried_again(shop, worker):
    run = ask(hard())
    for death in range(1, 4):
        solver = held(worker)
        run.refresh_from_db()
        assert (run.state, run.attempts) == ("running", death)
        os.kill(parent_of(solver), signal.SIGKILL)
        assert eventually(partial(dead, solver), seconds=2)
        twenty_seconds_pass()
    run.refresh_from_db()
    assert (run.state, run.reason) == ("failed", "Whatever worked on it died 3 times. It can be tried again.")
    checks.check_retry(run=run.pk, by=None, now=timezone.now())
    assert eventually(partial(done, run))
    assert (run.state, run.attempts, run.proof) == ("done", 1, printed_by_the_command(hard()))


def twenty_seconds_pass() -> None:
    """Let all leases run out."""
    over = timezone.now() - timedelta(milliseconds=1)
    CheckRun.objects.filter(claim__isnull=False).update(lease_until=over)
    PartAnswer.objects.filter(claim__isnull=False).update(lease_until=over)
    checks.check_sweep()


def test_a_worker_that_was_away_too_long_stores_nothing(shop, worker):
    run = ask(hard())
    solver = held(worker)
    asleep = [worker.pid, *descendants(worker.pid)]
    for pid in asleep:
        os.kill(pid, signal.SIGSTOP)
    shop.worker("another")
    twenty_seconds_pass()
    jobs.send(CheckRun, run.pk)  # the broker gives one more message to the worker that sleeps
    assert eventually(partial(done, run))
    before = CheckRun.objects.values().get()
    assert (before["state"], before["attempts"]) == ("done", 2)
    CheckRun.objects.update(proof="what the other has stored")
    for pid in [solver, *asleep]:
        os.kill(pid, signal.SIGCONT)
    assert eventually(lambda: "nothing is stored" in shop.said())
    assert CheckRun.objects.get().proof == "what the other has stored"
    assert not solvers_of(worker)
    shop.dismiss("another")


def test_an_edit_elsewhere_does_not_throw_away_a_print_in_work(shop, worker):
    first = ask(hard(50))
    solver = held(worker)
    second = ask(hard(51), revision=2)
    time.sleep(2 * jobs.LOOK_SECONDS)  # the worker has seen by now that its check was replaced
    assert alive(solver)
    os.kill(solver, signal.SIGCONT)
    assert eventually(partial(done, second))
    assert (second.state, second.proof) == ("done", printed_by_the_command(hard(51)))
    assert attempts_at(hard(51)) == {"hard": 1, "leaf": 1}
    first.refresh_from_db()
    assert (first.state, first.proof) == ("replaced", None)


def test_an_edit_of_a_print_in_work_ends_its_solver(shop, worker):
    ask(hard(50))
    solver = held(worker)
    second = ask(small(50), revision=2)
    assert eventually(partial(dead, solver), seconds=4)
    assert eventually(partial(done, second))
    assert second.state == "done"
