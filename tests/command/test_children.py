"""The solver's child never outlives the command, whatever becomes of either of them."""

from __future__ import annotations

import os
import signal
from pathlib import Path

import pytest

from tests.command.hard_kit import hard_kit
from tests.command.running import children_of, is_alive, started, until


@pytest.fixture
def hard(tmp_path) -> Path:
    path: Path = tmp_path / "hard.json"
    path.write_bytes(hard_kit(papers=8))
    return path


def _at_work(command: int) -> list[tuple[int, str]]:
    """The children of a command that have loaded the solver, so that their first question is before them."""
    children = children_of(command)
    return [child for child in children if "packingsolver" in Path(f"/proc/{child[0]}/maps").read_text()]


@pytest.mark.parametrize("end", [signal.SIGKILL, signal.SIGTERM, signal.SIGHUP], ids=lambda end: end.name)
def test_no_child_outlives_a_command_that_is_killed(hard, end):
    with started(hard) as command:
        children = until(lambda: _at_work(command.pid))
        for child, _ in children:
            # Frozen, it cannot end by coming to the end of its work, or by seeing that nobody asks any more.
            os.kill(child, signal.SIGSTOP)
        command.send_signal(end)
        command.wait()
    try:
        assert command.returncode == -end
        until(lambda: not any(map(is_alive, children)), seconds=20)
    finally:
        for left_over in filter(is_alive, children):
            os.kill(left_over[0], signal.SIGKILL)


def test_no_child_outlives_ctrl_c_and_the_command_says_130(hard):
    with started(hard, "--json") as command:
        children = until(lambda: children_of(command.pid))
        command.send_signal(signal.SIGINT)
        out, errors = command.communicate()

    assert (command.returncode, out) == (130, b"")
    assert b"Traceback" not in errors
    # They were ended by the command, before it went.
    assert not any(map(is_alive, children))


def test_a_child_that_dies_is_a_defect_and_no_answer(hard):
    with started(hard, "--json") as command:
        (child, _), *_ = until(lambda: children_of(command.pid))
        os.kill(child, signal.SIGKILL)
        children = children_of(command.pid)
        out, errors = command.communicate()

    assert (command.returncode, out) == (70, b"")
    assert b"SolverDied" in errors
    assert not any(map(is_alive, children))
