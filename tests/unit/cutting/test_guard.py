"""The guard, with real children: what native code can do, done for real."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
import time
from pathlib import Path
from typing import Any

import pytest

from layouts.children import watch
from layouts.cutting import Cancelled, Solver, SolverDied, SolverTooBig, SolverTooSlow, solve
from layouts.errors import KitproofError
from tests.processes import PATIENCE_SECONDS, children_running, is_alive, wait_until
from tests.unit.cutting.plans import problem

ROOT = Path(__file__).resolve().parents[3]
MIB = 1 << 20


def _question(width: int, height: int, sheets: int, kinds: list[list[int]], queue: int = 256) -> dict[str, Any]:
    return {
        "task": "packingsolver",
        "width": width,
        "height": height,
        "sheets": sheets,
        "kinds": kinds,
        "way": "tree",
        "queue": queue,
    }


EASY = _question(10, 10, 2, [[5, 5, 4, 1]])
ENDLESS = _question(2000, 2000, 40, [[100 + n, 77 + 3 * n, 1, 1] for n in range(300)], queue=4096)
# Seen: sides near 2**62 end the process with SIGFPE, and 1e9 copies want gigabytes.
DEADLY = _question(2**62, 2**62, 2, [[2**61, 2**60, 3, 1], [2**61 + 7, 2**60 + 5, 3, 1]])
HUGE = _question(2000, 2000, 10**9, [[100, 77, 10**9, 1]])


# Sixty kinds on four sheets: as many builds as there are steps for.
BUILDS = {
    "task": "builds",
    "sheets": [[97, 97, 4]],
    "kinds": [[8 + 7 * n % 31, 12 + 11 * n % 27, 1, True] for n in range(60)],
    "stage": "wide",
    "steps": 10**9,
}
# E20F15 of Clautiaux, Carlier and Moukrim 2007.
HARD = problem(
    20,
    20,
    1,
    [
        (1, 12, 1),
        (13, 5, 1),
        (2, 11, 1),
        (5, 10, 1),
        (13, 4, 1),
        (6, 2, 1),
        (3, 9, 1),
        (17, 2, 1),
        (8, 2, 1),
        (3, 2, 1),
        (1, 3, 2),
        (1, 5, 1),
        (1, 4, 1),
        (3, 3, 1),
    ],
)


def _children() -> set[int]:
    return children_running("layouts.cutting")


def test_one_child_answers_one_question_after_another():
    with Solver() as solver:
        first = solver.ask(EASY)
        (child,) = _children()
        assert solver.ask(EASY) == first
        assert _children() == {child}
    assert first["at_least"] == 1
    assert first["plan"][0][0] == 1
    assert not is_alive(child)


def test_no_child_is_started_before_the_first_question():
    with Solver():
        assert _children() == set()


@pytest.mark.parametrize(
    ("question", "limits", "error", "code"),
    [
        pytest.param(DEADLY, {}, SolverDied, "solver-died", id="crash"),
        pytest.param(ENDLESS, {"seconds": 0.5}, SolverTooSlow, "solver-too-slow", id="hang"),
        pytest.param(HUGE, {}, SolverTooBig, "solver-too-big", id="memory"),
        pytest.param(EASY, {"memory": 20 * MIB}, SolverTooBig, "solver-too-big", id="memory at the start"),
        pytest.param({"task": "packingsolver"}, {}, SolverDied, "solver-died", id="defect of our own"),
    ],
)
def test_what_befalls_the_child_has_a_name_and_leaves_none(question, limits, error, code):
    with Solver(**limits) as solver:
        with pytest.raises(error) as raised:
            solver.ask(question)
        assert isinstance(raised.value, KitproofError)
        assert raised.value.code == code
        assert _children() == set()


def test_the_cause_of_a_death_is_told():
    with Solver() as solver, pytest.raises(SolverDied, match="SIGFPE"):
        solver.ask(DEADLY)


def test_after_a_death_the_next_question_starts_anew():
    with Solver() as solver:
        with pytest.raises(SolverDied):
            solver.ask(DEADLY)
        assert solver.ask(EASY)["at_least"] == 1


@pytest.mark.parametrize("question", [pytest.param(ENDLESS, id="library"), pytest.param(BUILDS, id="builds")])
def test_a_long_question_that_is_called_off_is_ended_at_the_first_look(question):
    """A look is due at least as often as `POLL_SECONDS` says; were it missed, the wall clock would end the question."""
    looks = 0
    child: set[int] = set()

    def called_off() -> bool:
        nonlocal looks, child
        looks += 1
        child = child or _children()
        return looks > 20

    with Solver(seconds=PATIENCE_SECONDS, cancelled=called_off) as solver:
        with pytest.raises(Cancelled):
            solver.ask(question)
        assert looks == 21
        assert len(child) == 1
        assert not any(map(is_alive, child))
        assert _children() == set()


def test_a_look_whether_one_was_called_off_is_due_long_before_a_second_is_over():
    assert watch.POLL_SECONDS <= 0.1


def test_a_schedule_that_is_called_off_while_a_child_works_ends_with_it():
    """A list that no entry of the schedule decides soon, called off once the child is asked for builds."""
    asked: list[str] = []
    looks = 0

    class Watched(Solver):
        def ask(self, question: dict[str, Any]) -> dict[str, Any]:
            asked.append(question["task"])
            return super().ask(question)

    def called_off() -> bool:
        nonlocal looks
        looks += "builds" in asked
        return looks > 3

    with Watched(cancelled=called_off) as solver:
        with pytest.raises(Cancelled):
            solve(HARD, solver)
        assert asked.count("builds") == 1
        assert _children() == set()


def test_the_wall_clock_is_shared_by_the_questions_of_a_part():
    with Solver(seconds=0.5) as solver:
        for question in (ENDLESS, EASY):  # the first leaves nothing to the second
            with pytest.raises(SolverTooSlow):
                solver.ask(question)
        solver.new_part()
        assert solver.ask(EASY)["at_least"] == 1


_PARENT = """
import sys
from layouts.cutting import Solver
with Solver() as solver:
    solver.ask({easy})
    print(solver._child.pid, flush=True)
    solver.ask({endless})
"""


@pytest.fixture
def parent():
    """A process of its own whose solver is at work; gives it and its child's process id."""
    script = _PARENT.format(easy=EASY, endless=ENDLESS)
    process = subprocess.Popen([sys.executable, "-c", script], cwd=ROOT, stdout=subprocess.PIPE, text=True)
    assert process.stdout is not None
    child = int(process.stdout.readline())
    assert is_alive(child)
    yield process, child
    process.kill()
    process.wait()
    process.stdout.close()


@pytest.mark.parametrize("how", [signal.SIGKILL, signal.SIGTERM], ids=["kill -9", "kill"])
def test_a_killed_parent_leaves_no_child(parent, how):
    process, child = parent
    process.send_signal(how)
    assert process.wait() == -how
    assert wait_until(lambda: not is_alive(child))


def test_a_stopped_parent_is_no_dead_one(parent):
    process, child = parent
    process.send_signal(signal.SIGSTOP)
    time.sleep(0.1)
    assert is_alive(child)


def _child(parent: int, **pipes: Any) -> subprocess.Popen[bytes]:
    command = [sys.executable, "-P", "-m", "layouts.cutting", str(parent), str(1 << 30)]
    return subprocess.Popen(command, env={"PYTHONPATH": str(ROOT)}, cwd="/", **pipes)


def test_a_child_ends_when_its_standard_input_closes_even_while_it_works():
    with _child(os.getpid(), stdin=subprocess.PIPE, stdout=subprocess.PIPE) as child:
        assert child.stdin is not None
        question = str(ENDLESS).replace("'", '"').encode()
        child.stdin.write(question + b"\n")
        child.stdin.close()
        assert child.wait(PATIENCE_SECONDS) == 0


def test_a_child_whose_parent_died_before_it_looked_ends_at_once():
    with _child(1, stdin=subprocess.PIPE, stdout=subprocess.PIPE) as child:
        assert child.wait(PATIENCE_SECONDS) == 0


def test_the_child_starts_in_any_directory_and_any_environment(monkeypatch, tmp_path):
    (tmp_path / "json.py").write_text("raise SystemExit('the wrong json')")
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("PYTHONPATH", str(tmp_path))
    monkeypatch.setenv("LC_ALL", "tr_TR.UTF-8")
    monkeypatch.setenv("PYTHONHASHSEED", "12")
    with Solver() as solver:
        assert solver.ask(EASY)["at_least"] == 1


_NOISY = """
import os, sys
from layouts.cutting import child
def noisy(question):
    os.write(1, b"a banner of native code\\n")
    print("and one of Python", flush=True)
    return {"at_least": 7, "plan": None}
child.TASKS["noisy"] = noisy
sys.argv = ["child", str(os.getppid()), str(1 << 30)]
child.main()
"""


def test_what_native_code_prints_is_not_taken_for_an_answer():
    pipes: dict[str, Any] = {"stdin": subprocess.PIPE, "stdout": subprocess.PIPE, "stderr": subprocess.PIPE}
    with subprocess.Popen([sys.executable, "-c", _NOISY], cwd=ROOT, **pipes) as child:
        assert child.stdin is not None
        assert child.stdout is not None
        child.stdin.write(b'{"task": "noisy"}\n')
        child.stdin.flush()
        assert child.stdout.readline() == b'{"at_least": 7, "plan": null}\n'
        out, err = child.communicate(timeout=PATIENCE_SECONDS)
        assert out == b""
        assert err == b"a banner of native code\nand one of Python\n"
