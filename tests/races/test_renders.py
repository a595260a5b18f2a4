"""Sheets made by real workers over a real broker, on both pairs, while what makes them is killed."""

from __future__ import annotations

import os
import signal
from collections.abc import Iterator
from functools import partial
from pathlib import Path

import pytest
from django.utils import timezone

from kits.sheets import renders
from kits.sheets.files import is_kept, kept
from kits.sheets.models import RenderRun
from kits.sheets.options import SheetOptions
from layouts.document import read_kit
from layouts.proofing import proof_text, prove_at_once
from tests.races.workshop import Workshop, dead, descendants, eventually, kill, workshop
from tests.services.check_documents import small

pytestmark = pytest.mark.django_db(transaction=True)

# Sheets that lost their worker or their message are made by then.
PROMISED = 60


@pytest.fixture(scope="module")
def home(tmp_path_factory) -> Path:
    made: Path = tmp_path_factory.mktemp("shop")
    return made


@pytest.fixture(scope="module")
def shop(database, django_db_blocker, home) -> Iterator[Workshop]:
    """The broker of the pair, and a clock; each test brings its workers."""
    with django_db_blocker.unblock():
        opened = workshop(home)
        made = opened.__enter__()
    yield made
    with django_db_blocker.unblock():
        opened.__exit__(None, None, None)


def ask() -> RenderRun:
    document = small()
    proof = proof_text(prove_at_once(read_kit(document)))
    options = SheetOptions("a4", "mm")
    return renders.render_request(document=document.decode(), proof=proof, options=options, by=None, now=timezone.now())


def done(run: RenderRun) -> bool:
    run.refresh_from_db()
    return not run.is_open


def renderer_of(worker) -> int:
    """The child in which a worker sets its pages, once it has begun to."""
    found = eventually(lambda: [pid for pid in descendants(worker.pid) if is_setting(pid)])
    assert found, "no sheets came so far"
    return found[0]


def is_setting(pid: int) -> bool:
    """Whether a process is a renderer that reads: in a second thread, begun after it has bound itself to its parent."""
    try:
        called = Path(f"/proc/{pid}/cmdline").read_bytes()
        return b"kits.sheets.render" in called and len(list(Path(f"/proc/{pid}/task").iterdir())) > 1
    except OSError:  # it ended while it was looked at
        return False


def test_a_worker_that_is_killed_while_it_sets_pages_costs_time_only(shop, home, settings):
    settings.MEDIA_ROOT = home / "media"
    shop.clock()
    worker = shop.worker()
    run = ask()
    renderer = renderer_of(worker)
    os.kill(renderer, signal.SIGSTOP)
    kill(worker)
    assert eventually(partial(dead, renderer), seconds=2), "no renderer outlives its worker"
    run.refresh_from_db()
    assert (run.state, run.files) == ("running", [])
    shop.worker()
    assert eventually(partial(done, run), seconds=PROMISED)
    assert (run.state, run.reason, run.attempts) == ("done", "", 2)
    assert [kept(file["pdf"]).read_bytes()[:5] for file in run.files] == [b"%PDF-"] * 3
    assert all(is_kept(name) for file in run.files for name in file["pictures"])
    assert ask() == run, "and are not made again"
    assert not list((home / "media").rglob("part-*"))
