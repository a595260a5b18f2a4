"""The guard of the solver's process: starts it when it is first asked, and lets nothing that happens to it spread.

The solver is native code: it can crash, hang and grow. So it runs in a child with a memory limit, watched by a wall
clock. Where one of the two strikes that is a defect with a name of its own, never an answer, because an answer must
not depend on how fast the machine was.
"""

from __future__ import annotations

import json
import os
import selectors
import signal
import subprocess
import sys
import time
from collections.abc import Callable
from pathlib import Path
from types import TracebackType
from typing import Any, Self

from layouts.errors import KitproofError

__all__ = ["MEMORY", "SECONDS", "Cancelled", "Solver", "SolverDied", "SolverTooBig", "SolverTooSlow"]

SECONDS = 60
MEMORY = 1 << 30
# How often a waiting parent looks whether it should go on waiting.
POLL_SECONDS = 0.05
# Between the closing of its output and its end a child only has to tidy up.
GRACE_SECONDS = 2.0
# Of what the child says on standard error, the end is enough to recognise a death.
WORDS = 4000
OUT_OF_MEMORY = (b"bad_alloc", b"MemoryError", b"can't start new thread")


class SolverDied(KitproofError):
    """The solver's process ended without an answer (exit 70)."""

    code = "solver-died"


class SolverTooSlow(KitproofError):
    """The solver was still at work when the wall clock ran out; its process was killed (exit 70)."""

    code = "solver-too-slow"


class SolverTooBig(KitproofError):
    """The solver's process needed more memory than it may have (exit 70)."""

    code = "solver-too-big"


class Cancelled(KitproofError):
    """Somebody no longer wants the answer; the solver's process was killed."""

    code = "cancelled"


class Solver:
    """One child process that answers one question after another, for as long as the `with` block lasts.

    It starts with the first question. `seconds` of wall clock are shared by all questions since the start or the last
    `new_part`; `memory` is in bytes; `cancelled` is asked often and must be quick.
    The thread that asks the first question must outlive the block: Linux lets a child die with its parent's *thread*.
    """

    def __init__(
        self, seconds: float = SECONDS, memory: int = MEMORY, cancelled: Callable[[], bool] = lambda: False
    ) -> None:
        self._seconds, self._memory, self._cancelled = seconds, memory, cancelled
        self._child: subprocess.Popen[bytes] | None = None
        self._spent = 0.0
        self._said = b""

    def __enter__(self) -> Self:
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        self.close()

    def new_part(self) -> None:
        """Give the next part its own share of wall clock."""
        self._spent = 0.0

    def check(self) -> None:
        """Raises: Cancelled."""
        if self._cancelled():
            self.close()
            raise Cancelled("the check was called off")

    def ask(self, question: dict[str, Any]) -> dict[str, Any]:
        """Return the child's answer.

        Raises: SolverDied, SolverTooSlow, SolverTooBig, Cancelled. After any of them the child is gone, and the next
        question would start a new one.
        """
        self.check()
        child = self._child or self._start()
        started = time.monotonic()
        try:
            line = self._exchange(child, json.dumps(question).encode() + b"\n", started + self._seconds - self._spent)
        except BaseException:
            self.close()
            raise
        finally:
            self._spent += time.monotonic() - started
        answer: dict[str, Any] = json.loads(line)
        if "too_big" in answer:
            self.close()
            raise SolverTooBig(f"the solver needs more than {self._memory >> 20} MiB ({answer['too_big']})")
        return answer

    def close(self) -> None:
        """Kill the child, if there is one, and wait until it is gone."""
        child, self._child = self._child, None
        if child is None:
            return
        child.kill()
        child.wait()
        for pipe in (child.stdin, child.stdout, child.stderr):
            if pipe is not None:
                pipe.close()

    def _start(self) -> subprocess.Popen[bytes]:
        root = Path(__file__).resolve().parents[2]
        self._said = b""
        self._child = subprocess.Popen(
            [sys.executable, "-P", "-s", "-m", "layouts.cutting", str(os.getpid()), str(self._memory)],
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            stderr=subprocess.PIPE,
            bufsize=0,
            cwd="/",
            # A second arena for threads reserves 64 MiB each, which would be taken for memory used.
            env={"PYTHONPATH": str(root), "LC_ALL": "C.UTF-8", "MALLOC_ARENA_MAX": "2"},
            # A key pressed for the parent (Ctrl-C) is not meant for the child; the parent ends it.
            start_new_session=True,
        )
        return self._child

    def _exchange(self, child: subprocess.Popen[bytes], line: bytes, until: float) -> bytes:
        assert child.stdin is not None
        assert child.stdout is not None
        assert child.stderr is not None
        try:
            child.stdin.write(line)
        except BrokenPipeError:
            raise self._death(child) from None
        answer = b""
        with selectors.DefaultSelector() as ready:
            ready.register(child.stdout, selectors.EVENT_READ)
            ready.register(child.stderr, selectors.EVENT_READ)
            while not answer.endswith(b"\n"):
                self.check()
                if time.monotonic() > until:
                    raise SolverTooSlow(f"the solver was still at work after {self._seconds:g} s")
                for key, _ in ready.select(POLL_SECONDS):
                    chunk = os.read(key.fd, 1 << 16)
                    if not chunk:
                        ready.unregister(key.fileobj)
                    if key.fileobj is child.stderr:
                        self._said = (self._said + chunk)[-WORDS:]
                    elif chunk:
                        answer += chunk
                    else:
                        raise self._death(child)
        return answer

    def _death(self, child: subprocess.Popen[bytes]) -> KitproofError:
        """The error that fits the end of a child whose output has closed."""
        assert child.stderr is not None
        try:
            status = child.wait(GRACE_SECONDS)
        except subprocess.TimeoutExpired:  # it closed its output and is yet there
            child.kill()
            status = child.wait()
        self._said = (self._said + child.stderr.read())[-WORDS:]
        if any(words in self._said for words in OUT_OF_MEMORY):
            return SolverTooBig(f"the solver needs more than {self._memory >> 20} MiB")
        how = signal.Signals(-status).name if status < 0 else f"exit {status}"
        last = self._said.decode("utf-8", "replace").strip().splitlines()[-1:]
        return SolverDied(f"the solver's process died ({how}){': ' if last else ''}{''.join(last)}")
