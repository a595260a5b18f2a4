"""The parent's side: a child process with a memory limit, watched by a wall clock, of which nothing spreads.

Where a limit strikes that is a defect with a name of its own, never an answer, because an answer must not depend on
how fast the machine was.
"""

from __future__ import annotations

import os
import selectors
import signal
import subprocess
import sys
import time
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from pathlib import Path

from layouts.children.inside import End
from layouts.errors import KitproofError

__all__ = ["Child", "Ends", "Work"]

# How often a waiting parent looks whether it should go on waiting.
POLL_SECONDS = 0.05
# Between the closing of its output and its end a child only has to tidy up.
GRACE_SECONDS = 2.0
# Of what the child says on standard error, the end is enough to recognise a death.
WORDS = 4000
OUT_OF_MEMORY = (b"bad_alloc", b"MemoryError", b"can't start new thread", b"failed to allocate", b"Cannot allocate")


@dataclass(frozen=True, slots=True)
class Ends:
    """What is raised when a child comes to a bad end, or is no longer wanted."""

    died: type[KitproofError]
    too_slow: type[KitproofError]
    too_big: type[KitproofError]
    cancelled: type[KitproofError]


@dataclass(frozen=True, slots=True)
class Work:
    """A kind of child: the module it runs, its name in sentences ("the solver"), its messages, limits and ends.

    `memory` in bytes. The environment is this one and nothing of the parent's.
    """

    module: str
    name: str
    end: End
    ends: Ends
    memory: int
    environment: Mapping[str, str] = field(default_factory=dict)


class Child:
    """One running child process, until it is closed.

    The thread that starts it must outlive it: Linux lets a child die with its parent's *thread*.
    """

    def __init__(self, work: Work) -> None:
        self._work = work
        self._said = b""
        root = Path(__file__).resolve().parents[2]
        self._process = subprocess.Popen(
            [sys.executable, "-P", "-s", "-m", work.module, str(os.getpid()), str(work.memory)],
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            stderr=subprocess.PIPE,
            bufsize=0,
            cwd="/",
            # A second arena for threads reserves 64 MiB each, which would be taken for memory used.
            env={"PYTHONPATH": str(root), "LC_ALL": "C.UTF-8", "MALLOC_ARENA_MAX": "2", **work.environment},
            # A key pressed for the parent (Ctrl-C) is not meant for the child; the parent ends it.
            start_new_session=True,
        )
        assert self._process.stdin is not None
        assert self._process.stdout is not None
        assert self._process.stderr is not None
        self._in, self._out, self._err = self._process.stdin, self._process.stdout, self._process.stderr
        # A child that hangs before it has read a long question must not hold its parent.
        os.set_blocking(self._in.fileno(), False)

    @property
    def pid(self) -> int:
        return self._process.pid

    def ask(self, question: bytes, seconds: float, cancelled: Callable[[], bool] = lambda: False) -> bytes:
        """Return the child's next message. `cancelled` is asked often and must be quick.

        Raises: one of the ends of the child's work. After it the child is gone.
        """
        try:
            return self._exchange(question, seconds, cancelled)
        except BaseException:
            self.close()
            raise

    def close(self) -> None:
        """Kill the child and wait until it is gone."""
        self._process.kill()
        self._process.wait()
        for pipe in (self._in, self._out, self._err):
            pipe.close()

    def _exchange(self, question: bytes, seconds: float, cancelled: Callable[[], bool]) -> bytes:
        until = time.monotonic() + seconds
        unsent, answer = memoryview(question), b""
        with selectors.DefaultSelector() as ready:
            ready.register(self._in, selectors.EVENT_WRITE)
            ready.register(self._out, selectors.EVENT_READ)
            ready.register(self._err, selectors.EVENT_READ)
            while self._work.end(answer) is None:
                if cancelled():
                    raise self._work.ends.cancelled(f"{self._work.name} was called off")
                if time.monotonic() > until:
                    raise self._work.ends.too_slow(f"{self._work.name} was still at work after {seconds:.3g} s")
                for key, _ in ready.select(POLL_SECONDS):
                    if key.fileobj is self._in:
                        unsent = unsent[self._send(unsent) :]
                        if not unsent:
                            ready.unregister(self._in)
                        continue
                    chunk = os.read(key.fd, 1 << 16)
                    if not chunk:
                        ready.unregister(key.fileobj)
                    if key.fileobj is self._err:
                        self._said = (self._said + chunk)[-WORDS:]
                    elif chunk:
                        answer += chunk
                    else:
                        raise self._death()
        return answer

    def _send(self, unsent: memoryview) -> int:
        try:
            return os.write(self._in.fileno(), unsent[: 1 << 16])
        except BlockingIOError:
            return 0
        except BrokenPipeError:
            raise self._death() from None

    def _death(self) -> KitproofError:
        """The error that fits the end of a child whose output has closed."""
        try:
            status = self._process.wait(GRACE_SECONDS)
        except subprocess.TimeoutExpired:  # it closed its output and is yet there
            self._process.kill()
            status = self._process.wait()
        self._said = (self._said + self._err.read())[-WORDS:]
        name, ends = self._work.name, self._work.ends
        if any(words in self._said for words in OUT_OF_MEMORY):
            return ends.too_big(f"{name} needs more than {self._work.memory >> 20} MiB")
        how = signal.Signals(-status).name if status < 0 else f"exit {status}"
        last = self._said.decode("utf-8", "replace").strip().splitlines()[-1:]
        return ends.died(f"{name}'s process died ({how}){': ' if last else ''}{''.join(last)}")
