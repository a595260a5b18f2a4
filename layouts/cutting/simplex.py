"""A small linear program in whole numbers: the prices that make all pieces together worth most.

Every pattern of a sheet may be worth its limit at most; patterns come one after another, and each solution is found
from the one before. Simplex with integer pivoting (Edmonds; Bareiss 1968, from memory): the table always holds whole
numbers over one common denominator, so nothing is ever rounded and every machine agrees.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

__all__ = ["Prices", "Program"]

# After so many pivots the rule that cannot go in circles (Bland's) takes over from the one that is quick.
QUICK_PIVOTS = 200


@dataclass(frozen=True, slots=True)
class Prices:
    """Prices as numerators over one denominator, and what all pieces are worth."""

    of: tuple[int, ...]
    over: int
    worth: int


class Program:
    """Prices, none negative, at which no pattern is worth more than its limit and what is wanted is worth most.

    `steps` counts the numbers that were worked out so far.

    >>> program = Program([4, 3])
    >>> for pattern in ([2, 0], [0, 3], [1, 1]):
    ...     program.limit(pattern)
    >>> program.dearest()
    Prices(of=(3, 2), over=6, worth=18)
    """

    def __init__(self, wanted: Sequence[int]) -> None:
        self._kinds = len(wanted)
        # Each line says what its basic variable is, less so many of all others; the last number is what it is alone.
        self._table: list[list[int]] = []
        self._gain = [-number for number in wanted] + [0]
        self._basic: list[int] = []
        self._others = list(range(self._kinds))
        self._over = 1
        self.steps = 0

    def limit(self, pattern: Sequence[int], limit: int = 1) -> None:
        """Add a pattern, which may be worth so much; a limit is never negative."""
        line = [pattern[other] * self._over if other < self._kinds else 0 for other in self._others]
        line.append(limit * self._over)
        for basic, known in zip(self._basic, self._table, strict=True):
            if basic < self._kinds and pattern[basic]:
                times = pattern[basic]
                line = [value - times * other for value, other in zip(line, known, strict=True)]
                self.steps += len(line)
        self._basic.append(self._kinds + len(self._table))
        self._table.append(line)

    def dearest(self) -> Prices:
        """Return the best prices. Raises: ValueError where some price is limited by no pattern."""
        pivots = 0
        while (place := self._next(pivots)) is not None:
            self._pivot(*place)
            pivots += 1
        of = [0] * self._kinds
        for line, variable in zip(self._table, self._basic, strict=True):
            if variable < self._kinds:
                of[variable] = line[-1]
        return Prices(tuple(of), self._over, self._gain[-1])

    def _next(self, pivots: int) -> tuple[int, int] | None:
        """Where to pivot: what patterns added last forbid is put right first, then prices rise while that gains."""
        is_quick = pivots < QUICK_PIVOTS
        broken = [number for number, line in enumerate(self._table) if line[-1] < 0]
        if broken:
            leaves = min(broken, key=lambda number: (self._table[number][-1] * is_quick, self._basic[number]))
            return leaves, self._entering(self._table[leaves])
        falling = [place for place in range(self._kinds) if self._gain[place] < 0]
        if not falling:
            return None
        enters = min(falling, key=lambda place: (self._gain[place] * is_quick, self._others[place]))
        return self._leaving(enters), enters

    def _entering(self, line: Sequence[int]) -> int:
        """The variable that puts a broken line right at the least loss; among equals the one that comes first."""
        found = None
        for place in range(self._kinds):
            if line[place] >= 0:
                continue
            if found is not None:
                mine, best = self._gain[place] * line[found], self._gain[found] * line[place]
                # Both sides carry one factor below zero.
                if mine < best or (mine == best and self._others[place] > self._others[found]):
                    continue
            found = place
        assert found is not None  # all prices at 0 break nothing
        return found

    def _leaving(self, enters: int) -> int:
        """The line that limits the price that rises; among equals the variable that comes first."""
        table, basic = self._table, self._basic
        found = None
        for number, line in enumerate(table):
            if line[enters] <= 0:
                continue
            if found is not None:
                mine, best = line[-1] * table[found][enters], table[found][-1] * line[enters]
                if mine > best or (mine == best and basic[number] > basic[found]):
                    continue
            found = number
        if found is None:
            raise ValueError("a kind of piece that stands in no pattern")
        return found

    def _pivot(self, leaves: int, enters: int) -> None:
        row, over = self._table[leaves], self._over
        sign = 1
        if row[enters] < 0:  # the denominator stays above zero
            sign = -1
            row[:] = [-value for value in row]
        pivot = row[enters]
        for line in [self._gain, *(one for number, one in enumerate(self._table) if number != leaves)]:
            times = line[enters]
            line[:] = [(value * pivot - times * other) // over for value, other in zip(line, row, strict=True)]
            line[enters] = -sign * times
        row[enters] = sign * over
        self._basic[leaves], self._others[enters] = self._others[enters], self._basic[leaves]
        self._over = pivot
        self.steps += (len(self._table) + 1) * (self._kinds + 1)
