"""Why a list is short: a smallest set of its pieces that already does not fit.

A deletion filter: pieces are left out one kind after the other, the smallest first, as long as the rest is still proven
short; what remains is short, and leaving out any piece of it would leave something that is not proven so. The smallest
go first, so that a planner is shown few large pieces rather than many small ones.
Source: deletion filters for infeasible systems (Chinneck and Dravnieks 1991, from memory).
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import Literal

from layouts.cutting import bounds
from layouts.cutting.problem import Item, Problem
from layouts.cutting.reduced import reduced
from layouts.cutting.search import Asks, is_proven_short

__all__ = ["Culprits", "find_culprits"]

# Lists that are judged for one explanation, and the solver's steps for each of them. A list of more items than that
# would be left unexplained after all tries.
MOST_TRIES = 60
MOST_ITEMS = 60
STEPS_PER_TRY = 4_000_000


@dataclass(frozen=True, slots=True)
class Culprits:
    """Copies of each item that already do not fit, in the order of the problem.

    `because`: `too-big` one piece fits no sheet · `area` together they are more than the sheets · `apart` no two of
    them lie in one sheet, and there are more of them than sheets · `cuts` no way of cutting gives them all.
    `is_smallest`: leaving out any one of them leaves a list that is not proven short.
    """

    copies: tuple[tuple[str, int], ...]
    because: Literal["too-big", "area", "apart", "cuts"]
    is_smallest: bool


def find_culprits(problem: Problem, solver: Asks) -> Culprits | None:
    """Return why a list is short; None where it is not proven so within the steps of one try, or is a long one.

    Raises: what `solve` raises.
    """
    if len(problem.items) > MOST_ITEMS:
        return None
    filtering = _Filtering(problem, lambda rest: is_proven_short(rest, solver, STEPS_PER_TRY))
    if not filtering.is_short(problem):
        return None
    for item in sorted(problem.items, key=lambda item: (item.width * item.height, item.key)):
        filtering.leave_out(item)
    rest = filtering.rest
    copies = tuple((item.key, item.copies) for item in rest.items)
    return Culprits(copies, _because(rest), filtering.tries_left > 0)


class _Filtering:
    """The deletion filter; `rest` is always proven short once the whole list is."""

    def __init__(self, problem: Problem, is_short: Callable[[Problem], bool]) -> None:
        self.rest, self._is_short = problem, is_short
        self.tries_left = MOST_TRIES

    def is_short(self, rest: Problem) -> bool:
        if self.tries_left <= 0:
            return False
        self.tries_left -= 1
        return self._is_short(rest)

    def leave_out(self, item: Item) -> None:
        """Leave out as many copies of an item as can be, found by halving: fewer pieces are never harder to cut."""
        least, most = 0, item.copies  # the copies that must stay
        while least < most:
            middle = (least + most) // 2
            if self.is_short(self._with(item, middle)):
                most = middle
            else:
                least = middle + 1
        self.rest = self._with(item, most)

    def _with(self, item: Item, copies: int) -> Problem:
        kept = (one for one in self.rest.items if one.key != item.key)
        return replace(self.rest, items=(*kept, replace(item, copies=copies)) if copies else tuple(kept))


def _because(rest: Problem) -> Literal["too-big", "area", "apart", "cuts"]:
    small = reduced(rest)
    if small is None:
        return "too-big"
    if bounds.area(rest).at_least > rest.sheets:
        return "area"
    return "apart" if bounds.clique(small).at_least > rest.sheets else "cuts"
