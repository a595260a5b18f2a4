"""The guard of the solver's process: starts it when it is first asked, and lets nothing that happens to it spread.

The solver is native code: it can crash, hang and grow. So it runs in a child with a memory limit, watched by a wall
clock. Where one of the two strikes that is a defect with a name of its own, never an answer, because an answer must
not depend on how fast the machine was.
"""

from __future__ import annotations

import json
import time
from collections.abc import Callable
from types import TracebackType
from typing import Any, Self

from layouts.children.inside import line_end
from layouts.children.watch import Child, Ends, Work
from layouts.errors import KitproofError

__all__ = ["MEMORY", "SECONDS", "Cancelled", "Solver", "SolverDied", "SolverTooBig", "SolverTooSlow"]

SECONDS = 60
MEMORY = 1 << 30


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
        self._seconds, self._cancelled = seconds, cancelled
        self._work = Work(
            module="layouts.cutting",
            name="the solver",
            end=line_end,
            ends=Ends(died=SolverDied, too_slow=SolverTooSlow, too_big=SolverTooBig, cancelled=Cancelled),
            memory=memory,
        )
        self._child: Child | None = None
        self._spent = 0.0

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
        self._child = self._child or Child(self._work)
        started = time.monotonic()
        left = self._seconds - self._spent
        try:
            line = self._child.ask(json.dumps(question).encode() + b"\n", left, self._cancelled)
        except BaseException:
            self._child = None
            raise
        finally:
            self._spent += time.monotonic() - started
        answer: dict[str, Any] = json.loads(line)
        if "too_big" in answer:
            self.close()
            raise SolverTooBig(f"the solver needs more than {self._work.memory >> 20} MiB ({answer['too_big']})")
        return answer

    def close(self) -> None:
        """Kill the child, if there is one, and wait until it is gone."""
        child, self._child = self._child, None
        if child is not None:
            child.close()
