"""The schedule: what is tried, in which order. The first entry that decides is the answer, on every machine.

Two numbers move towards each other: the sheets needed at least (proven) and at most (by a plan). The entries:

1. nothing to cut; a piece that no sheet can give; too much area; pieces that exclude each other
2. our own quick plans
3. the sharper bounds, one pair of dual feasible functions after another
4. the solver in its child process, remembering 256 beginnings, then 2048

Every budget counts steps. The engine that decides everything takes its place here as further entries.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any, Protocol

from layouts.cutting import bounds
from layouts.cutting.answer import Answer
from layouts.cutting.bounds import Bound
from layouts.cutting.greedy import MOST_COPIES, greedy_plan
from layouts.cutting.problem import Problem
from layouts.cutting.reduced import Reduced, reduced
from layouts.cutting.regions import regions
from layouts.cutting.rough import Rough
from layouts.cutting.wheel import found, question

__all__ = ["Asks", "solve"]

# The solver's answers are the same everywhere for these queues; it has no budget in steps of its own, so what it may
# be asked is bounded by what its work was seen to grow with: kinds x copies x queue. At the limit the slowest lists
# took 7 s on one shared core, far from the 60 s after which a run counts as broken.
QUEUES = (256, 2048)
WIDE_QUEUES = (64, 16)
MOST_WORK = 3_000_000
MOST_SOLVER_COPIES = 300


class Asks(Protocol):
    """What the schedule needs of a solver; `layouts.cutting.guard.Solver` is the real one."""

    def check(self) -> None: ...

    def ask(self, question: dict[str, Any]) -> dict[str, Any]: ...


def solve(problem: Problem, solver: Asks) -> Answer:
    """Say whether the pieces can be cut from the sheets, with a plan or a proof.

    Raises: Cancelled, SolverDied, SolverTooSlow, SolverTooBig, SolverWrong; never an answer that depends on the clock.
    """
    solver.check()
    if not problem.items:
        return Answer("fits", "plan", 0, 0)
    small = reduced(problem)
    if small is None:  # some piece is too big in every lie: no number of sheets would do
        return Answer("short", "bound", problem.sheets + 1, None)
    low = bounds.better(bounds.area(problem), bounds.clique(small))
    if problem.copies > MOST_COPIES:
        return _without_plan(problem, low)
    plan = greedy_plan(small, low.at_least, alone=not _queues(small))
    solver.check()
    if low.at_least < len(plan):
        low = bounds.better(low, bounds.dual(small, len(plan)))
    for queue in _queues(small):
        if low.at_least > problem.sheets or low.at_least == len(plan):
            break
        if queue > QUEUES[0] and len(plan) <= problem.sheets:
            break  # decided already; fewer sheets were worth one question, not two
        # Only a plan that would change the answer is asked for.
        room = min(problem.sheets, len(plan) - 1)
        answer = found(small, solver.ask(question(small, room, queue)))
        low = bounds.better(low, Bound(answer.at_least, "bound"))
        if answer.plan is not None and len(answer.plan) < len(plan):
            plan = list(answer.plan)
    return _answer(problem, small, low, plan)


def _queues(small: Reduced) -> list[int]:
    """The queues that may be asked for this list; a wide one gets a single narrower queue."""
    if small.copies > MOST_SOLVER_COPIES:
        return []
    work = len(small.kinds) * small.copies
    return [queue for queue in QUEUES if work * queue <= MOST_WORK] or [
        queue for queue in WIDE_QUEUES if work * queue <= MOST_WORK
    ][:1]


def _answer(problem: Problem, small: Reduced, low: Bound, plan: Sequence[Rough]) -> Answer:
    if len(plan) <= problem.sheets:
        return Answer("fits", "plan", low.at_least, len(plan), regions(problem, small, plan))
    if low.at_least > problem.sheets:
        return Answer("short", low.by, low.at_least, len(plan))
    return Answer("unknown", "budget", low.at_least, len(plan), regions(problem, small, plan))


def _without_plan(problem: Problem, low: Bound) -> Answer:
    if low.at_least > problem.sheets:
        return Answer("short", low.by, low.at_least, None)
    return Answer("unknown", "too-big", low.at_least, None)
