"""A check under way outlives the death of any part: seen through the pages, as a planner sees it."""

from __future__ import annotations

import json
import os
import signal
import subprocess
import sys
import time
from collections.abc import Iterator
from functools import partial
from pathlib import Path

import pytest

from tests.services.check_documents import HARD, document
from tests.up.started import CHECKOUT, Up, alive, command_of, descendants, eventually, started
from tests.up.visitor import Visitor, demo_visitor

# Seconds within which a check has finished by itself, whatever died.
PROMISED = 60
# Each kit has a piece of its own, so that no answer is there already.
KITS = {"worker": ("tide-table", 22), "broker": ("ebb-table", 21), "web": ("flood-table", 20)}


@pytest.fixture(scope="module")
def demo(tmp_path_factory: pytest.TempPathFactory) -> Iterator[tuple[Up, Visitor]]:
    """A Kitproof with the demo, its examples checked, and one who plans."""
    with started(tmp_path_factory.mktemp("demo") / "home", KITPROOF_DEMO="") as up:
        planner = demo_visitor(up.address, up.said, "planner")
        for example in ("2027-04", "2027-07", "2027-11"):
            eventually(partial(_answered, planner, f"/kits/{example}/proof.json"))
        yield up, planner


def _answered(visitor: Visitor, path: str) -> bool:
    return visitor.get(path)[0] == 200


def _hard(part: str) -> bytes:
    """A kit with two prints that the solver is at for some seconds each, so that even a slow test finds one open."""
    code, height = KITS[part]
    papers = {f"hard{more}": (2, [*HARD[:-1], (149 + more, 46 + height)]) for more in range(2)}
    kit = json.loads(document(papers))
    return json.dumps({**kit, "code": code}).encode()


def _solvers(up: Up) -> set[int]:
    """The solver's processes that have started: each reads in a second thread, after it bound itself to its parent."""
    solvers = {pid for pid in descendants(up.process.pid) if "layouts.cutting" in command_of(pid)}
    return {pid for pid in solvers if len(list(Path(f"/proc/{pid}/task").glob("*"))) > 1}


def _proof_by_the_command(asked: bytes) -> bytes:
    command = [sys.executable, "manage.py", "proof", "-", "--json"]
    return subprocess.run(command, cwd=CHECKOUT, input=asked, capture_output=True, check=False).stdout


@pytest.mark.parametrize("part", ["worker", "broker", "web"])
def test_a_check_finishes_by_itself_after_a_death(demo, part):
    up, planner = demo
    page, asked = f"/kits/{KITS[part][0]}/", _hard(part)
    # The check is held in the middle by stopping the solver's process.
    assert planner.post("/new-kit/", text=asked.decode())[0] == 200
    eventually(lambda: bool(_solvers(up)))
    solvers = _solvers(up)
    for solver in solvers:
        os.kill(solver, signal.SIGSTOP)
    assert b"Being checked" in planner.get(page)[1]

    os.kill(up.parts()[part], signal.SIGKILL)
    killed = time.monotonic()
    if part == "worker":
        eventually(lambda: not alive(solvers), seconds=5)
    for solver in alive(solvers):
        os.kill(solver, signal.SIGCONT)

    eventually(lambda: _answered(planner, f"{page}proof.json"), seconds=PROMISED)
    assert time.monotonic() - killed < PROMISED
    assert planner.get(f"{page}proof.json") == (200, _proof_by_the_command(asked))
    status, shown = planner.get(page)
    assert (status, b"Being checked" in shown) == (200, False)
    assert not alive(solvers)
    assert not _solvers(up)
