"""What the leftovers of a plan are worth, so that plans on the same number of sheets can be compared.

A member keeps every offcut until all projects are finished, and cuts from it what went wrong, or something of their
own. One large rectangle serves more than the same paper in slivers, a strip too narrow for anything serves nobody, and
nothing is of more use than an offcut from which a piece of this very list could be cut once more.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Sequence
from math import isqrt

from layouts.cutting.problem import Problem
from layouts.cutting.tree import Cut, Offcut, Region

__all__ = ["Usefulness"]


class Usefulness:
    """The measure for one list of pieces. Units: ticks, as everything is cut.

    An offcut counts with its area, squared, times its shorter side: squared, so that one rectangle is worth more than
    the same paper in parts, and by its shorter side, since that decides what can be cut from it at all. It counts once,
    and once more for each of the pieces that fits it. A plan counts as all its offcuts together. The numbers mean
    nothing by themselves.

    >>> from layouts.cutting.problem import Item
    >>> useful = Usefulness(Problem(10, 10, 1, (Item("A", 3, 4, 5, True, False), Item("B", 9, 4, 1, True, True))))
    >>> useful.offcut(4, 5)  # 20 x 20 x 4, and again for one more A
    3200
    """

    def __init__(self, problem: Problem) -> None:
        self._lies = [
            [
                (w, h)
                for w, h, may in (
                    (item.width, item.height, item.upright),
                    (item.height, item.width, item.sideways),
                )
                if may
            ]
            for item in problem.items
        ]
        self._areas = sorted(item.width * item.height for item in problem.items)
        self._shorter = min(problem.width, problem.height)
        # What fits changes only where a side of some piece is reached.
        self._widths = sorted({w for lies in self._lies for w, _ in lies})
        self._heights = sorted({h for lies in self._lies for _, h in lies})
        self._known: dict[tuple[int, int], int] = {}

    def offcut(self, width: int, height: int) -> int:
        """What an offcut is worth; 0 for one that has no width or no height."""
        if width <= 0 or height <= 0:
            return 0
        key = (bisect_right(self._widths, width), bisect_right(self._heights, height))
        if key not in self._known:
            self._known[key] = sum(any(w <= width and h <= height for w, h in lies) for lies in self._lies)
        return (width * height) ** 2 * min(width, height) * (1 + self._known[key])

    def bound(self, area: int) -> int:
        """No offcuts of a sheet that have this area together are worth more."""
        area = max(0, area)
        return area**2 * min(self._shorter, isqrt(area)) * (1 + bisect_right(self._areas, area))

    def plan(self, sheets: Sequence[Region]) -> int:
        """What all offcuts of a plan are worth together."""
        total, waiting = 0, list(sheets)
        while waiting:
            region = waiting.pop()
            if isinstance(region.what, Cut):
                waiting.extend(region.what.parts)
            elif isinstance(region.what, Offcut):
                total += self.offcut(region.width, region.height)
        return total
