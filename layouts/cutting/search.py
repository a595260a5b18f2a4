"""The schedule: what is tried, in which order. The first entry that decides is the answer, on every machine.

Two numbers move towards each other: the sheets needed at least (proven) and at most (by a plan). The entries:

1. nothing to cut; a piece that no sheet can give; too much area; pieces that exclude each other
2. our own quick plans
3. pairs of dual feasible functions
4. the solver in its child process, remembering 256 beginnings at each step
5. prices
6. the solver again, remembering 2048

Every budget counts steps. The engine that decides everything takes its place here as further entries.
"""

from __future__ import annotations

from typing import Any, Protocol

from layouts.cutting import bounds
from layouts.cutting.answer import Answer
from layouts.cutting.bounds import Bound
from layouts.cutting.greedy import MOST_COPIES, greedy_plan
from layouts.cutting.prices import priced
from layouts.cutting.problem import Problem
from layouts.cutting.reduced import Reduced, reduced
from layouts.cutting.regions import regions
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
    search = _Search(problem, small, low, solver)
    search.bound_by_functions()
    queues = _queues(small)
    for queue in queues[:1]:  # also where a plan is there: fewer sheets are worth one question
        search.ask(queue)
    if not search.is_decided:
        search.bound_by_prices()
    for queue in queues[1:]:
        if not search.is_decided:
            search.ask(queue)
    return search.answer()


class _Search:
    """What is known of a problem so far: a bound, and the best plan; every entry of the schedule improves one."""

    def __init__(self, problem: Problem, small: Reduced, low: Bound, solver: Asks) -> None:
        self.problem, self.small, self.solver = problem, small, solver
        self.low = low
        self.plan = greedy_plan(small, low.at_least, alone=not _queues(small))

    @property
    def is_decided(self) -> bool:
        return len(self.plan) <= self.problem.sheets or self.low.at_least > self.problem.sheets

    @property
    def is_over(self) -> bool:
        """Whether nothing is left to find out: short, or no plan on fewer sheets."""
        return self.low.at_least > self.problem.sheets or self.low.at_least == len(self.plan)

    def bound_by_functions(self) -> None:
        if self.low.at_least < len(self.plan):
            self.low = bounds.better(self.low, bounds.dual(self.small, len(self.plan)))

    def bound_by_prices(self) -> None:
        self.solver.check()
        self.low = bounds.better(self.low, priced(self.small, self.problem.sheets))

    def ask(self, queue: int) -> None:
        """Ask the solver for a plan that would change the answer: one that fits, or one on fewer sheets."""
        if self.is_over:
            return
        room = min(self.problem.sheets, len(self.plan) - 1)
        answer = found(self.small, self.solver.ask(question(self.small, room, queue)))
        self.low = bounds.better(self.low, Bound(answer.at_least, "bound"))
        if answer.plan is not None and len(answer.plan) < len(self.plan):
            self.plan = list(answer.plan)

    def answer(self) -> Answer:
        """The answer; a plan stands in it unless there is a proof that none is of use."""
        at_least, at_most = self.low.at_least, len(self.plan)
        if at_least > self.problem.sheets:
            return Answer("short", self.low.by, at_least, at_most)
        sheets = regions(self.problem, self.small, self.plan)
        if at_most <= self.problem.sheets:
            return Answer("fits", "plan", at_least, at_most, sheets)
        return Answer("unknown", "budget", at_least, at_most, sheets)


def _queues(small: Reduced) -> list[int]:
    """The queues that may be asked for this list; a wide one gets a single narrower queue."""
    if small.copies > MOST_SOLVER_COPIES:
        return []
    work = len(small.kinds) * small.copies
    usual = [queue for queue in QUEUES if work * queue <= MOST_WORK]
    return usual or [queue for queue in WIDE_QUEUES if work * queue <= MOST_WORK][:1]


def _without_plan(problem: Problem, low: Bound) -> Answer:
    if low.at_least > problem.sheets:
        return Answer("short", low.by, low.at_least, None)
    return Answer("unknown", "too-big", low.at_least, None)
