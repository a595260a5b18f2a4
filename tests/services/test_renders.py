"""Sheets made in the background, done in this process: what is asked for, what is kept, and what comes out."""

from __future__ import annotations

import json
import logging
import time
from collections.abc import Callable
from datetime import timedelta
from functools import cache

import pytest
from django.db import IntegrityError, OperationalError, transaction
from django.utils import timezone

from kits.members.models import Person
from kits.sheets import renders
from kits.sheets.files import is_kept, kept
from kits.sheets.models import RenderRun
from kits.sheets.options import SheetOptions
from kits.sheets.rendering import RenderCancelled, RenderDied
from layouts import jobs
from layouts.document import read_kit
from layouts.models import JobState
from layouts.proofing import proof_text, prove_at_once
from tests.services.check_documents import small

# A thread beside each run renews its lease by a connection of its own: what it is to see must be committed.
pytestmark = pytest.mark.django_db(transaction=True)

A4 = SheetOptions("a4", "mm")
LETTER = SheetOptions("letter", "in")


class Pages:
    """A renderer without a child: its PDF and its pictures are the names of what was asked."""

    def __init__(self) -> None:
        self.set: list[str] = []
        self.before = lambda title: None

    def __call__(self, cancelled):
        return self

    def __enter__(self):
        return self

    def __exit__(self, *error):
        pass

    def pdf(self, html, assets, *, title, true_size):
        self.before(title)
        self.set.append(title)
        return f"pdf of {title}".encode()

    def pictures(self, pdf, width):
        return [b"1 of " + pdf, b"2 of " + pdf]


@pytest.fixture(autouse=True)
def _media(tmp_path, settings):
    settings.MEDIA_ROOT = tmp_path / "media"


@pytest.fixture
def sent(monkeypatch):
    messages: list[int] = []

    def send(model, pk, countdown=0):
        messages.append(pk)
        return True

    monkeypatch.setattr(jobs, "send", send)
    return messages


@pytest.fixture
def pages(monkeypatch):
    made = Pages()
    monkeypatch.setattr(renders, "Renderer", made)
    return made


@cache
def proof_of(document: bytes) -> str:
    return proof_text(prove_at_once(read_kit(document)))


def ask(options=A4, *, document=None, proof=None, by=None) -> RenderRun:
    asked = document or small()
    return renders.render_request(
        document=asked.decode(), proof=proof or proof_of(asked), options=options, by=by, now=timezone.now()
    )


def made(options=A4) -> RenderRun:
    return after(ask(options))


def after(run: RenderRun) -> RenderRun:
    renders.render_execute(run.pk)
    run.refresh_from_db()
    return run


def test_the_sheets_of_a_kit_are_made_by_the_renderer_and_kept(sent):
    """One project: its sheet, the cut guide, the templates."""
    run = made()
    assert (run.state, run.reason, run.progress) == ("done", "", {"done": 3, "files": 3})
    assert [file["name"] for file in run.files][1:] == ["cut-guide", "templates"]
    for file in run.files:
        pdf = kept(file["pdf"]).read_bytes()
        assert (pdf[:5], len(pdf)) == (b"%PDF-", file["bytes"])
        assert file["pictures"], file["name"]
        assert all(kept(name).read_bytes().startswith(b"\x89PNG") for name in file["pictures"])


def test_the_same_key_gives_the_same_files(sent, pages):
    ines = Person.objects.create_user(email="ines@example.org")
    first = ask()
    assert ask(by=ines) == first, "while it is open"
    after(first)
    assert ask() == first, "when it is done"
    assert sent == [first.pk]
    assert len(pages.set) == 3


@pytest.mark.parametrize(
    "other",
    [
        SheetOptions("letter", "mm"),
        SheetOptions("a4", "in"),
        SheetOptions("a4", "mm", "large"),
        SheetOptions("a4", "mm", "normal", "scissors"),
    ],
    ids=["page", "unit", "print", "cut"],
)
def test_another_setting_is_another_run(sent, other):
    assert ask(other).pk != ask().pk


def test_another_document_engine_or_template_is_another_run(sent, monkeypatch):
    first = ask()
    runs = [first.pk, ask(document=small(51)).pk]
    monkeypatch.setattr(renders, "TEMPLATE_NUMBER", 1_000)
    runs.append(ask().pk)
    runs.append(ask(proof=json.dumps({**json.loads(proof_of(small())), "engine": 99})).pk)
    assert len(set(runs)) == 4


def test_a_proof_of_another_document_is_refused(sent):
    with pytest.raises(renders.OtherProof):
        ask(proof=proof_of(small(51)))


def test_one_run_of_a_key_is_open_or_done(sent, pages):
    """The database holds it, whoever writes."""
    run = made()
    run.pk, run.state, run.files, run.finished_at = None, JobState.WAITING, [], None
    run.attempts, run.started_at = 0, None
    with pytest.raises(IntegrityError, match=r"(?i)unique"), transaction.atomic():
        run.save(force_insert=True)


@pytest.mark.parametrize("wrong", [{"files": []}, {"page": "a5"}, {"state": "failed", "reason": "?"}])
def test_the_database_refuses_a_row_that_means_nothing(sent, pages, wrong):
    run = made()
    with pytest.raises(IntegrityError), transaction.atomic():
        RenderRun.objects.filter(pk=run.pk).update(**wrong)


def test_files_that_were_lost_are_made_anew(sent, pages):
    run = made()
    kept(run.files[1]["pdf"]).unlink()
    again = made()
    assert again.pk != run.pk
    assert is_kept(again.files[1]["pdf"])
    run.refresh_from_db()
    assert run.state == "replaced"


def test_progress_says_what_is_being_set(sent, pages):
    run = ask()
    seen = []

    def look(title):
        seen.append(RenderRun.objects.get().progress)

    pages.before = look
    after(run)
    assert [(one["done"], one["files"]) for one in seen] == [(0, 3), (1, 3), (2, 3)]
    assert seen[1]["title"].startswith("Cut guide")


def test_a_worker_that_dies_in_the_middle_costs_time_only(sent, pages):
    """Nothing is recorded where the process is gone; the sweep gives the run to another worker."""

    def die(title):
        if title.startswith("Cut guide"):
            raise OperationalError("gone")

    pages.before = die
    run = ask()
    with pytest.raises(OperationalError):
        renders.render_execute(run.pk)
    run.refresh_from_db()
    assert (run.state, run.files) == ("running", [])
    assert jobs.sweep(RenderRun, now=timezone.now() + timedelta(seconds=21)) == 1
    pages.before = lambda title: None
    assert (after(run).state, run.attempts) == ("done", 2)


def test_a_message_that_comes_twice_makes_nothing_twice(sent, pages):
    run = made()
    assert after(run).attempts == 1
    assert len(pages.set) == 3


def test_sheets_that_cannot_be_set_fail_with_the_reason_and_are_tried_again(sent, pages, caplog):
    def die(title):
        raise RenderDied("the renderer died (SIGKILL)")

    pages.before = die
    run = made()
    assert (run.state, run.reason) == ("failed", "the renderer died (SIGKILL)")
    pages.before = lambda title: None
    renders.render_retry(run=run.pk, by=None, now=timezone.now())
    assert sent == [run.pk, run.pk]
    assert (after(run).state, run.reason) == ("done", "")
    with pytest.raises(renders.RenderNotClosed):
        renders.render_retry(run=run.pk, by=None, now=timezone.now())


def test_sheets_are_not_tried_again_beside_the_same_ones(sent, pages):
    old = ask()
    renders.render_cancel(run=old.pk, by=None, now=timezone.now())
    ask()
    with pytest.raises(renders.RenderOutdated):
        renders.render_retry(run=old.pk, by=None, now=timezone.now())


def test_sheets_that_wait_are_called_off_at_once(sent):
    run = ask()
    assert renders.render_cancel(run=run.pk, by=None, now=timezone.now())
    assert after(run).state == "cancelled"
    assert not renders.render_cancel(run=run.pk, by=None, now=timezone.now())


def test_sheets_that_are_being_made_stop_when_they_are_called_off(sent, pages, caplog):
    """The child is killed; that is no failure."""
    caplog.set_level(logging.CRITICAL, "kitproof.jobs")
    run = ask()
    held: list[Callable[[], bool]] = []

    def called_off(title):
        renders.render_cancel(run=run.pk, by=None, now=timezone.now())
        given_up = time.monotonic() + 10
        while not held[0]() and time.monotonic() < given_up:
            time.sleep(0.05)
        raise RenderCancelled("nobody wants it")

    def renderer(cancelled):
        held.append(cancelled)
        return pages

    pages.before = called_off
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(renders, "Renderer", renderer)
        assert after(run).state == "cancelled"
    assert run.files == []


def test_the_newest_run_of_each_setting_is_found(sent, pages, django_assert_num_queries):
    first = ask()
    renders.render_cancel(run=first.pk, by=None, now=timezone.now())
    again, letter = ask(), ask(LETTER)
    ask(document=small(51))
    with django_assert_num_queries(1):
        assert renders.renders_of([again.document_hash]) == [letter, again]
    assert renders.renders_of([]) == []
