"""The schedule: what is tried, in which order. The first entry that decides is the answer, on every machine.

Two numbers move towards each other: the sheets needed at least (proven) and at most (by a plan). The entries:

1. nothing to cut; a piece that no sheet can give; too much area; pieces that exclude each other
2. our own quick plans
3. pairs of dual feasible functions
4. the solver in its child process: a tree search over all sheets that remembers 256 beginnings at each step; then
   twice more for plans in three stages
5. prices, then builds enumerated in narrow passes
6. the solver, for plans in three stages by other measures, with the first cuts along x and along y
7. the solver, choosing among many ways to cut a sheet, where a sheet has few pieces
8. the solver, one sheet after the other, then with changed values
9. the largest pieces by themselves, then all builds
10. builds in a wide pass
11. the solver again: one sheet with more beginnings, then the tree search with 2048
12. builds without a beam, and chosen in another way

A list that fits is asked no further than the seventh for fewer sheets.
Every budget counts steps.
"""

from __future__ import annotations

from functools import partial
from typing import Any, Protocol

from layouts.cutting import bounds, built
from layouts.cutting.answer import Answer
from layouts.cutting.bounds import Bound
from layouts.cutting.greedy import MOST_COPIES, greedy_plan
from layouts.cutting.problem import Problem
from layouts.cutting.reduced import Reduced, reduced
from layouts.cutting.regions import regions
from layouts.cutting.rough import Rough
from layouts.cutting.wheel import Way, found, question

__all__ = ["Asks", "is_proven_short", "solve"]

# The solver's answers are the same everywhere, but it has no budget in steps of its own: what it may be asked is
# bounded by what its work was seen to grow with. For a tree search that is kinds x copies x queue; at the limit the
# slowest lists took 7 s on one shared core, far from the 60 s after which a run counts as broken. One sheet after the
# other it is the copies, each as much as a queue of 20,000 for a single kind, unless there are very many kinds.
QUEUES = (256, 2048)
WIDE_QUEUES = (64, 16)
# Narrow queues lead astray in ways of their own, so that some of them find more than the widest alone.
NARROW: tuple[tuple[Way, int], ...] = (
    ("level", 64),
    ("upright", 64),
    ("upright-again", 64),
    ("level", 128),
    ("upright", 128),
    ("level", 256),
    ("level-again", 256),
)
# How one sheet is filled with a long list, of so many pieces at least.
LONG_SPACES: tuple[Way, ...] = ("spaces-28", "spaces-48")
LEAST_LONG = 36
MOST_WORK = 3_000_000
MOST_SOLVER_COPIES = 300
QUEUE_PER_SHEET = 20_000
MOST_KINDS_TIMES_COPIES = 20_000
MOST_VALUED_COPIES = 80
# Of long lists too many builds clear their bars: prices may prove something, and a quick look is worth its while.
MOST_BUILT_COPIES = 300
MANY_COPIES = 100
STEPS_FOR_MANY = 20_000_000
# Where a list fits and fewer sheets are looked for, passes over builds of more pieces than this were never seen to find
# a plan: there it is the prices that count, and they take no steps.
MOST_COPIES_FOR_FEWER = 50
STEPS_FOR_FEWER = 1_000_000
# The stages of builds that prove a list short, if any does.
PROVING: tuple[built.Stage, ...] = ("first", "whole")
# Ways to cut a sheet are chosen among where there are few: their number grows with the pieces that a sheet has, and
# with those that there are, of which one that turns counts as two.
MOST_COLUMN_LIES = 80
MOST_COPIES_A_SHEET = 5


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
    if problem.copies > MOST_COPIES:
        return _without_plan(problem, _simple_bound(problem, small))
    search = _Search(problem, small, solver)
    search.bound_by_functions()
    # Also where a plan is there: fewer sheets are worth a few quick questions.
    search.ask("tree", _first_queue(small))
    search.cut_in_stages()
    search.build("first")
    search.cut_level_and_upright()
    search.choose_columns()
    for entry in (
        search.fill_sheets,
        search.fill_by_values,
        partial(search.build, "whole"),
        partial(search.build, "wide"),
        search.ask_again,
        partial(search.build, "other"),
    ):
        if not search.is_decided:
            entry()
    return search.answer()


def is_proven_short(problem: Problem, solver: Asks, steps: int) -> bool:
    """Whether a list is proven short by bounds, or by builds in at most so many steps.

    Raises: what `solve` raises.
    """
    solver.check()
    small = reduced(problem) if problem.items else None
    if small is None:
        return bool(problem.items)
    if problem.copies > MOST_COPIES or _simple_bound(problem, small).at_least > problem.sheets:
        return _simple_bound(problem, small).at_least > problem.sheets
    search = _Search(problem, small, solver)
    search.bound_by_functions()
    for stage in PROVING:
        if not search.is_decided:
            search.build(stage, steps)
    return search.low.at_least > problem.sheets


class _Search:
    """What is known of a problem so far: a bound, and the best plan; every entry of the schedule improves one."""

    def __init__(self, problem: Problem, small: Reduced, solver: Asks) -> None:
        self.problem, self.small, self.solver = problem, small, solver
        self.low = _simple_bound(problem, small)
        self.plan = greedy_plan(small, self.low.at_least, alone=_first_queue(small) == 0)

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

    def build(self, stage: built.Stage, steps: int = built.STEPS) -> None:
        """Enumerate builds: for as many sheets as there are, or one fewer than the plan needs."""
        many = self.small.copies > MANY_COPIES
        if self.is_over or self.small.copies > MOST_BUILT_COPIES or (many and stage != "first"):
            return
        steps = min(steps, STEPS_FOR_MANY) if many else steps
        if self.is_decided and self.small.copies > MOST_COPIES_FOR_FEWER:
            steps = min(steps, STEPS_FOR_FEWER)
        room = self._room
        found = built.read(self.small, room, self.solver.ask(built.question(self.small, room, stage, steps)))
        self._learn(found.low, found.plan)

    def cut_in_stages(self) -> None:
        """Look for a plan in three stages of cuts: most are, and there are far fewer of them."""
        queue = _first_queue(self.small)
        self.ask("stages", queue)
        if self._room > 1:
            self.ask("stage-values", queue)

    def cut_level_and_upright(self) -> None:
        """The same by other measures."""
        for way, queue in NARROW:
            self.ask(way, min(queue, _first_queue(self.small)))

    def choose_columns(self) -> None:
        lies = sum(kind.copies * len(kind.lies) for kind in self.small.kinds)
        if lies <= MOST_COLUMN_LIES and self.small.copies <= MOST_COPIES_A_SHEET * self._room:
            self.ask("columns", QUEUES[0])

    def fill_sheets(self) -> None:
        small = self.small
        if small.copies <= MOST_SOLVER_COPIES and len(small.kinds) * small.copies <= MOST_KINDS_TIMES_COPIES:
            way: Way = "spaces" if self.problem.sheets == 1 else "sheets"
            self.ask(way, QUEUE_PER_SHEET // len(small.kinds))
        if self.problem.sheets == 1 and LEAST_LONG <= small.copies <= MANY_COPIES:
            # Builds of so many pieces take longer than this, and decide less.
            for more in LONG_SPACES:
                self.ask(more, QUEUES[0])

    def fill_by_values(self) -> None:
        if self.problem.sheets > 1 and self.small.copies <= MOST_VALUED_COPIES:
            self.ask("values", 2 * QUEUE_PER_SHEET // len(self.small.kinds))

    def ask_again(self) -> None:
        if self.problem.sheets == 1 and self.small.copies <= MANY_COPIES:
            self.ask("more-spaces", QUEUES[0])
        if self.is_decided:
            return
        if _is_within(self.small, QUEUES[1]):
            self.ask("tree", QUEUES[1])

    def ask(self, way: Way, queue: int) -> None:
        """Ask the solver for a plan that would change the answer: one that fits, or one on fewer sheets."""
        if queue == 0 or self.is_over:
            return
        answer = found(self.small, self.solver.ask(question(self.small, self._room, queue, way)))
        self._learn(Bound(answer.at_least, "bound"), answer.plan)

    @property
    def _room(self) -> int:
        """The sheets on which a plan would change the answer."""
        return min(self.problem.sheets, len(self.plan) - 1)

    def _learn(self, low: Bound, plan: tuple[Rough, ...] | None) -> None:
        self.low = bounds.better(self.low, low)
        if plan is not None and len(plan) < len(self.plan):
            self.plan = list(plan)

    def answer(self) -> Answer:
        """The answer; a plan stands in it unless there is a proof that none is of use."""
        at_least, at_most = self.low.at_least, len(self.plan)
        if at_least > self.problem.sheets:
            return Answer("short", self.low.by, at_least, at_most)
        sheets = regions(self.problem, self.small, self.plan)
        if at_most <= self.problem.sheets:
            return Answer("fits", "plan", at_least, at_most, sheets)
        return Answer("unknown", "budget", at_least, at_most, sheets)


def _simple_bound(problem: Problem, small: Reduced) -> Bound:
    return bounds.better(bounds.area(problem), bounds.clique(small))


def _is_within(small: Reduced, queue: int) -> bool:
    return small.copies <= MOST_SOLVER_COPIES and len(small.kinds) * small.copies * queue <= MOST_WORK


def _first_queue(small: Reduced) -> int:
    """The queue of the first question; narrower for a wide list, 0 for one that is too long to be asked."""
    return next((queue for queue in (QUEUES[0], *WIDE_QUEUES) if _is_within(small, queue)), 0)


def _without_plan(problem: Problem, low: Bound) -> Answer:
    if low.at_least > problem.sheets:
        return Answer("short", low.by, low.at_least, None)
    return Answer("unknown", "too-big", low.at_least, None)
