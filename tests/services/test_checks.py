"""Checks in the background, done in this process: what is asked for, what is kept, and what comes out."""

from __future__ import annotations

import json
import logging
import subprocess
import sys
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest
from django.db import OperationalError, transaction
from django.utils import timezone

from kits.members.models import Person
from layouts import checks, jobs, parts
from layouts.cutting import SolverDied
from layouts.models import CheckRun, PartAnswer
from layouts.proofing import prove_print
from tests.services.check_documents import document, small

# A thread beside each check renews its lease by a connection of its own: what it is to see must be committed.
pytestmark = pytest.mark.django_db(transaction=True)

CHECKOUT = Path(__file__).resolve().parents[2]
NOON = datetime(2027, 4, 1, 12, tzinfo=UTC)
TWO_PAPERS = {"leaf": (1, [(50, 40)]), "bark": (2, [(60, 40), (70, 40)])}


@pytest.fixture
def sent(monkeypatch):
    """The jobs whose messages went out, each with the seconds it is to be held back."""
    messages: list[tuple[int, float]] = []

    def send(model, pk, countdown=0):
        messages.append((pk, countdown))
        return True

    monkeypatch.setattr(jobs, "send", send)
    return messages


@pytest.fixture
def counted(monkeypatch):
    """The papers whose prints were worked out, in order."""
    papers: list[str] = []

    def counting(part, solver):
        papers.append(part.paper)
        return prove_print(part, solver)

    monkeypatch.setattr(parts, "prove_print", counting)
    return papers


def ask(asked: bytes, *, subject="draft:1", revision=1, now=None, by=None) -> CheckRun:
    return checks.check_request(
        subject=subject, revision=revision, document=asked, by=by, now=timezone.now() if now is None else now
    )


def checked(asked: bytes, **request) -> CheckRun:
    run = ask(asked, **request)
    checks.check_execute(run.pk)
    run.refresh_from_db()
    return run


def printed_by_the_command(asked: bytes) -> str:
    command = [sys.executable, "manage.py", "proof", "-", "--json"]
    return subprocess.run(command, cwd=CHECKOUT, input=asked, capture_output=True, check=False).stdout.decode()


def test_a_check_gives_the_bytes_of_the_command(sent):
    run = checked(document(TWO_PAPERS))
    assert (run.state, run.verdict, run.attempts) == ("done", "not-ready", 1), "nothing is ever cut"
    assert run.proof == printed_by_the_command(document(TWO_PAPERS))
    papers = json.loads(run.proof or "")["papers"]
    assert run.progress == {"done": 2, "parts": 2, "papers": papers}


def test_a_print_that_an_edit_leaves_alone_is_not_worked_out_again(sent, counted):
    checked(document(TWO_PAPERS))
    assert sorted(counted) == ["bark", "leaf"]
    edited = checked(document({**TWO_PAPERS, "leaf": (1, [(51, 40)])}), subject="draft:2")
    assert sorted(counted) == ["bark", "leaf", "leaf"]
    assert edited.proof == printed_by_the_command(document({**TWO_PAPERS, "leaf": (1, [(51, 40)])}))
    checked(document(TWO_PAPERS))
    assert len(counted) == 3, "an edit taken back"


def test_equal_prints_are_one_question_and_keep_their_names(sent, counted):
    """Nothing is cut from either: their parts are equal but for the paper, which is no part of the key."""
    run = checked(document({"leaf": (1, []), "bark": (1, [])}))
    assert len(counted) == 1
    assert [paper["paper"] for paper in json.loads(run.proof or "")["papers"]] == ["leaf", "bark"]


def test_answers_of_another_engine_are_not_used(sent, counted, monkeypatch):
    checked(small())
    for module in (checks, parts):
        monkeypatch.setattr(module, "ENGINE", 1_000)
    assert checked(small()).engine == 1_000
    assert counted == ["leaf", "leaf"]


def test_a_request_takes_the_place_of_the_one_that_waits(sent):
    ines = Person.objects.create_user(email="ines@example.org")
    first = ask(small(50), revision=1, now=NOON)
    other = ask(small(50), subject="draft:2", now=NOON)
    second = ask(small(51), revision=2, now=NOON + timedelta(seconds=1), by=ines)
    states = dict(CheckRun.objects.values_list("pk", "state"))
    assert states == {first.pk: "replaced", other.pk: "waiting", second.pk: "waiting"}
    assert (second.first_requested_at, second.requested_by) == (NOON, ines)
    checks.check_execute(first.pk)  # its message comes all the same
    first.refresh_from_db()
    assert (first.state, first.proof) == ("replaced", None)


@pytest.mark.parametrize(
    ("edits", "due"),
    [
        pytest.param([0], 2, id="one edit"),
        pytest.param([0, 1, 2], 4, id="two seconds after the last"),
        pytest.param(list(range(29)), 30, id="half a minute after the first at the latest"),
        pytest.param([*range(30), 31], 31, id="never in the past"),
    ],
)
def test_a_check_waits_for_further_edits_but_not_for_ever(sent, edits, due):
    for second in edits:
        run = ask(small(), now=NOON + timedelta(seconds=second))
    assert run.due_at == NOON + timedelta(seconds=due)


def test_a_request_that_was_overtaken_is_taken_as_well(sent):
    ask(small(50), now=NOON + timedelta(seconds=1))
    overtaken = ask(small(51), now=NOON)
    assert (overtaken.state, overtaken.first_requested_at) == ("waiting", NOON)


def test_the_message_goes_out_with_the_transaction(sent):
    with transaction.atomic():
        run = ask(small())
        assert sent == []
    assert sent == [(run.pk, pytest.approx(2, abs=1))]
    with transaction.atomic():
        ask(small())
        transaction.set_rollback(True)
    assert len(sent) == 1


def test_a_request_is_not_lost_where_the_broker_is_away():
    """Nobody listens at the broker's address here."""
    run = ask(small())
    run.refresh_from_db()
    assert run.state == "waiting"


@pytest.mark.parametrize(
    ("error", "reason"),
    [
        pytest.param(
            SolverDied("the solver's process died (SIGSEGV)"), "the solver's process died (SIGSEGV)", id="known"
        ),
        pytest.param(
            ZeroDivisionError("a pad of no sheets"),
            "A defect stopped it (ZeroDivisionError: a pad of no sheets). The log holds more.",
            id="a defect",
        ),
    ],
)
def test_a_check_that_goes_wrong_fails_with_its_reason_and_leaves_the_print_to_others(
    sent, monkeypatch, caplog, error, reason
):
    def fails(part, solver):
        raise error

    caplog.set_level(logging.CRITICAL, "kitproof.jobs")
    monkeypatch.setattr(parts, "prove_print", fails)
    run = checked(small())
    assert (run.state, run.reason, run.proof) == ("failed", reason, None)
    monkeypatch.undo()
    checks.check_retry(run=run.pk, by=None, now=timezone.now())
    checks.check_execute(run.pk)
    run.refresh_from_db()
    assert (run.state, run.reason, run.attempts) == ("done", "", 1)


def test_a_document_that_is_refused_fails_with_the_refusal(sent):
    run = checked(b"{}")
    assert (run.state, run.reason) == ("failed", "the document is refused for 4 errors")


def test_a_check_whose_database_goes_away_is_left_to_the_sweep(sent, monkeypatch):
    def gone(part, solver):
        raise OperationalError("the server closed the connection")

    monkeypatch.setattr(parts, "prove_print", gone)
    run = ask(small())
    with pytest.raises(OperationalError):
        checks.check_execute(run.pk)
    run.refresh_from_db()
    assert run.state == "running"
    jobs.sweep(CheckRun, now=timezone.now() + timedelta(seconds=21))
    monkeypatch.undo()
    checks.check_execute(run.pk)
    run.refresh_from_db()
    assert (run.state, run.attempts) == ("done", 2)


def test_only_the_newest_check_of_a_subject_is_tried_again(sent):
    old = ask(small())
    checks.check_cancel(run=old.pk, by=None, now=timezone.now())
    new = ask(small())
    with pytest.raises(checks.CheckOutdated):
        checks.check_retry(run=old.pk, by=None, now=timezone.now())
    with pytest.raises(checks.CheckNotClosed):
        checks.check_retry(run=new.pk, by=None, now=timezone.now())


def test_the_newest_check_and_the_newest_proof_are_found(sent, django_assert_num_queries):
    done = checked(small(50))
    open_ = ask(small(51))
    other = ask(small(50), subject="draft:2")
    with django_assert_num_queries(1):
        assert checks.check_of("draft:1") == open_
    with django_assert_num_queries(1):
        assert checks.proof_of("draft:1") == done
    assert (checks.check_of("draft:3"), checks.proof_of("draft:2")) == (None, None)
    with django_assert_num_queries(1):
        assert checks.checks_of(["draft:1", "draft:2", "draft:3"]) == {"draft:1": open_, "draft:2": other}
    with django_assert_num_queries(1):
        assert checks.proofs_of(["draft:1", "draft:2", "draft:3"]) == {"draft:1": done}


def test_a_check_whose_answers_are_known_asks_the_database_no_more_for_more_prints(sent, django_assert_max_num_queries):
    many = document({f"p{number}": (1, [(40 + number, 40)]) for number in range(12)})
    checked(many)
    run = ask(many)
    with django_assert_max_num_queries(9):
        checks.check_execute(run.pk)
    assert not PartAnswer.objects.exclude(attempts=1).exists()
