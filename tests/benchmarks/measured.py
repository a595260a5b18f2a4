"""One list decided by our schedule, with what it took.

What counts is processor time, of this process and of the solver's child from its start to its end: on a machine that
has nothing else to do it is the time that one waits, and on any other it is the same.
"""

from __future__ import annotations

import resource
import statistics
from collections.abc import Sequence
from dataclasses import dataclass

from layouts.cutting import Answer, Problem, Solver, solve

__all__ = ["Measured", "in_words", "largest_child", "measured", "seconds_used"]


@dataclass(frozen=True, slots=True)
class Measured:
    """An answer and the processor seconds that it took."""

    answer: Answer
    seconds: float


def measured(problem: Problem) -> Measured:
    started = seconds_used()
    # The wall clock is no limit here, however busy the machine is.
    with Solver(seconds=3_600) as solver:
        answer = solve(problem, solver)
    return Measured(answer, seconds_used() - started)


def seconds_used() -> float:
    """Processor seconds of this process and of its children that have ended."""
    uses = [resource.getrusage(who) for who in (resource.RUSAGE_SELF, resource.RUSAGE_CHILDREN)]
    return sum(use.ru_utime + use.ru_stime for use in uses)


def largest_child() -> int:
    """The most MiB that a child which has ended held."""
    return resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss >> 10


def in_words(seconds: Sequence[float]) -> str:
    """Half of them, nine of ten of them, all of them took no longer than this."""
    if not seconds:
        return "none"
    line = sorted(seconds)
    ninth = line[len(line) * 9 // 10]
    return f"median {statistics.median(line):.2f} s, nine of ten {ninth:.2f} s, longest {line[-1]:.2f} s"
