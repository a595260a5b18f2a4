"""What a plate is worth when every piece has a price: the best that cuts from edge to edge can make of it.

Copies are unlimited here, which makes the question easy: the worth of a plate is that of a piece, of the plate one
grid line shorter, or of two plates side by side or one above the other. No real plan makes more of a sheet, so prices
prove how many sheets are needed. Source: the recursion of Gilmore and Gomory 1966 on normal patterns (from memory).
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Callable, Sequence
from operator import add, itemgetter
from typing import Any

from layouts.cutting.reduced import Reduced, sides_along
from layouts.cutting.rows import lengths, reachable

__all__ = ["Plates"]

# Halves of a plate: how many first halves there are (grid lines 1, 2 …), and a getter of the second halves' worths.
type _Halves = tuple[int, Callable[[Sequence[int]], Any]]


class Plates:
    """The plates of a sheet's grid, to be valued again and again.

    `steps` is what one valuation costs: the pairs of plates looked at. Raises: ValueError beyond `most`.
    """

    def __init__(self, small: Reduced, most: int) -> None:
        self._kinds = small.kinds
        self._across = _grid(small.width, sides_along(small.kinds, 0))
        self._up = _grid(small.height, sides_along(small.kinds, 1))
        columns, rows = len(self._across), len(self._up)
        self.steps = columns * rows * (columns + rows) // 4
        if self.steps > most:
            raise ValueError(f"{self.steps} pairs of plates")
        self._halves_across, self._halves_up = _halves(self._across), _halves(self._up)
        self._worth: list[list[int]] = []
        self._pieces: dict[tuple[int, int], tuple[int, int]] = {}

    def value(self, prices: Sequence[int]) -> int:
        """Return what a whole sheet is worth, with a price for each kind."""
        self._pieces = {}
        for number, (kind, price) in enumerate(zip(self._kinds, prices, strict=True)):
            for across, up in kind.lies:
                corner = _floor(self._across, across), _floor(self._up, up)
                self._pieces[corner] = max(self._pieces.get(corner, (0, 0)), (price, number))
        rows = len(self._up)
        columns: list[list[int]] = [[0] for _ in range(rows)]  # the same worths by grid line of y
        self._worth = [[0] * rows]
        for i in range(1, len(self._across)):
            narrower, column = self._worth[-1], [0]
            number_across, others_across = self._halves_across[i]
            columns[0].append(0)
            for j in range(1, rows):
                best = max(narrower[j], column[j - 1])
                if (i, j) in self._pieces:
                    best = max(best, self._pieces[i, j][0])
                if number_across:
                    line = columns[j]
                    best = max(best, max(map(add, line[1 : number_across + 1], others_across(line))))
                number_up, others_up = self._halves_up[j]
                if number_up:
                    best = max(best, max(map(add, column[1 : number_up + 1], others_up(column))))
                column.append(best)
                columns[j].append(best)
            self._worth.append(column)
        return self._worth[-1][-1]

    def pattern(self) -> list[int]:
        """Return how many pieces of each kind make the worth of the sheet, in the last valuation."""
        counted = [0] * len(self._kinds)
        waiting = [(len(self._across) - 1, len(self._up) - 1)]
        while waiting:
            i, j = waiting.pop()
            worth = self._worth[i][j]
            if not worth:
                continue
            price, number = self._pieces.get((i, j), (0, 0))
            if price == worth:
                counted[number] += 1
            elif self._worth[i - 1][j] == worth:
                waiting.append((i - 1, j))
            elif self._worth[i][j - 1] == worth:
                waiting.append((i, j - 1))
            else:
                waiting.extend(self._divided(i, j))
        return counted

    def _divided(self, i: int, j: int) -> tuple[tuple[int, int], tuple[int, int]]:
        worth = self._worth
        for half in range(1, self._halves_across[i][0] + 1):
            other = _floor(self._across, self._across[i] - self._across[half])
            if worth[half][j] + worth[other][j] == worth[i][j]:
                return (half, j), (other, j)
        for half in range(1, self._halves_up[j][0] + 1):
            other = _floor(self._up, self._up[j] - self._up[half])
            if worth[i][half] + worth[i][other] == worth[i][j]:
                return (i, half), (i, other)
        raise AssertionError("a plate is worth more than anything that can be made of it")


def _grid(room: int, pieces: Sequence[tuple[set[int], int]]) -> list[int]:
    reached = reachable(room, pieces)
    if reached is None:
        raise ValueError("too many lengths")
    return lengths(reached)


def _floor(grid: Sequence[int], length: int) -> int:
    """The last grid line within a length."""
    return bisect_right(grid, length) - 1


def _halves(grid: Sequence[int]) -> list[_Halves]:
    """For each grid line the ways to divide a plate there: the shorter part first, the other down to its grid line."""
    found: list[_Halves] = []
    for line in grid:
        others = [_floor(grid, line - grid[half]) for half in range(1, _floor(grid, line // 2) + 1)]
        # A getter of one place gives no tuple: repeat it, the shorter of two lists counts.
        found.append((len(others), itemgetter(*others, *others[:1]) if others else _nothing))
    return found


def _nothing(line: Sequence[int]) -> Sequence[int]:
    return ()
