"""The most that the leftovers of one sheet can be worth, by trying every cut: for tiny lists, and without one line of
the code it judges, but for what an offcut is worth."""

from __future__ import annotations

from collections.abc import Callable
from functools import cache

from layouts.cutting import Problem

__all__ = ["most_left"]


def most_left(problem: Problem, worth: Callable[[int, int], int]) -> int | None:
    """What the offcuts of one sheet are worth at most once all pieces are cut from it; None if they do not fit."""
    lies = [
        [(w, h) for w, h, may in ((i.width, i.height, i.upright), (i.height, i.width, i.sideways)) if may]
        for i in problem.items
        for _ in range(i.copies)
    ]
    slack = problem.slack

    @cache
    def most(some: int, width: int, height: int) -> int:
        """For a set of pieces, as bits; -1 if they do not fit."""
        if not some:
            return worth(width, height)
        best = 0 if some & (some - 1) == 0 and (width, height) in lies[some.bit_length() - 1] else -1
        for room, cut in ((width, lambda a: (a, height)), (height, lambda a: (width, a))):
            for at in range(1, room):
                rest = room - at - slack
                part = some
                while True:  # every subset goes to the first part, the others to the second
                    first = most(part, *cut(at))
                    second = most(some ^ part, *cut(rest)) if rest > 0 else -1 if some ^ part else 0
                    if min(first, second) >= 0:
                        best = max(best, first + second)
                    if not part:
                        break
                    part = (part - 1) & some
        return best

    found = most((1 << len(lies)) - 1, problem.width, problem.height)
    return None if found < 0 else found
