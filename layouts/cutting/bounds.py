"""How many sheets are needed at least, whatever the cuts: three proofs, each in whole numbers.

None of them knows that cuts run from edge to edge, so all of them hold for such cuts as well.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import product
from operator import mul
from typing import Literal

from layouts.cutting.dual import Count, counts
from layouts.cutting.problem import Problem
from layouts.cutting.reduced import Kind, Reduced

__all__ = ["Bound", "area", "better", "clique", "dual"]

# Steps are pairs of functions times kinds of pieces; more is not tried, and the bound found so far stands.
DUAL_STEPS = 400_000
CLIQUE_KINDS = 100


@dataclass(frozen=True, slots=True)
class Bound:
    """So many sheets at least; `by` says which proof it is.

    `area` is plain area, `exhausted` that every way was tried on fewer sheets, all others are `bound`.
    """

    at_least: int
    by: Literal["area", "bound", "exhausted"]


def better(first: Bound, second: Bound) -> Bound:
    """The stronger of two; the first where they are equal, since it is the simpler proof."""
    return second if second.at_least > first.at_least else first


def area(problem: Problem) -> Bound:
    """The pieces' area over the sheet's, both with the slack that every cut takes along.

    >>> from layouts.cutting.problem import Item
    >>> area(Problem(10, 10, 1, (Item("A", 5, 7, 3, True, True),)))
    Bound(at_least=2, by='area')
    """
    slack = problem.slack
    wanted = sum((item.width + slack) * (item.height + slack) * item.copies for item in problem.items)
    return Bound(_up(wanted, (problem.width + slack) * (problem.height + slack)), "area")


def clique(small: Reduced) -> Bound:
    """Pieces of which no two can lie in one sheet: each needs its own.

    Two rectangles share a sheet only side by side or one above the other, each in the lie that is best for it. Started
    from each of the largest kinds, others are added while they go with none of those before.
    """
    kinds = small.kinds[:CLIQUE_KINDS]
    least = [(min(lie[0] for lie in kind.lies), min(lie[1] for lie in kind.lies)) for kind in kinds]
    apart = [
        sum(1 << n for n, (c, d) in enumerate(least) if a + c > small.width and b + d > small.height) for a, b in least
    ]
    most = 0
    for start in range(len(kinds)):
        chosen, open_to = [start], apart[start] & ~(1 << start)
        while open_to:
            lowest = (open_to & -open_to).bit_length() - 1
            chosen.append(lowest)
            open_to &= apart[lowest] & ~(1 << lowest)
        # Only a kind that excludes itself counts with all its copies.
        most = max(most, sum(kinds[n].copies if apart[n] >> n & 1 else 1 for n in chosen))
    return Bound(most, "bound")


def dual(small: Reduced, enough: int) -> Bound:
    """The best product of two dual feasible functions, one an axis; a turning piece counts with its cheaper lie.

    Stops as soon as `enough` sheets are proven: nothing beyond is of use.
    Source: Fekete and Schepers 2001 for products of functions (from memory).
    """
    kinds = small.kinds
    numbers = [kind.copies for kind in kinds]
    best, steps = 0, 0
    for on_x, on_y in product(_counts(small.width, kinds, 0), _counts(small.height, kinds, 1)):
        steps += len(kinds)
        if best >= enough or steps > DUAL_STEPS:
            break
        # The sides of all first lies, then those of all last lies (the same ones, for a kind that does not turn).
        worth = list(map(mul, on_x.sides, on_y.sides))
        cheapest = map(min, worth[: len(kinds)], worth[len(kinds) :])
        best = max(best, _up(sum(map(mul, numbers, cheapest)), on_x.room * on_y.room))
    return Bound(best, "bound")


def _counts(room: int, kinds: Sequence[Kind], axis: int) -> list[Count]:
    sides = [lie[axis] for end in (0, -1) for lie in (kind.lies[end] for kind in kinds)]
    numbers = [kind.copies for kind in kinds] + [kind.copies if kind.turns else 0 for kind in kinds]
    return counts(room, sides, numbers)


def _up(wanted: int, of: int) -> int:
    return -(-wanted // of) if of > 0 else 0
