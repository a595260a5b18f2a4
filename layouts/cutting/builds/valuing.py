"""Prices of pieces, at which a sheet can be made into as little as possible more than the pieces wanted are worth.

Prices are looked for by generating columns (Gilmore and Gomory 1961): a linear program prices the pieces so that no
known pattern is worth more than its sheet, the plates answer with the pattern that is worth most at these prices, and
so on. If all pieces are worth more than all sheets, the list is short. Otherwise what is left between the two is the
room that a plan has: the less, the fewer builds can be part of one. Any prices are safe, so the search may stop
anywhere; all of it is in whole numbers.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from operator import mul

from layouts.cutting.builds.arrays import Ints
from layouts.cutting.builds.asked import Asked, Stock
from layouts.cutting.builds.grid import Grid
from layouts.cutting.builds.worth import best_pattern, plate_worths
from layouts.cutting.reduced import Kind
from layouts.cutting.simplex import Prices, dearest

__all__ = ["Valuation", "valuations"]

# Pairs of plates looked at; a step of the linear program, with its longer numbers, counts for several.
STEPS = 250_000_000
STEPS_OF_PROGRAM = 40
# Prices are rounded down to so many bits: sums of them stay far below 2**63.
BITS = 30
# Better prices than these close less than a ten-thousandth of what all sheets are worth.
ENOUGH = 10_000


@dataclass(frozen=True, slots=True)
class Valuation:
    """A price for each kind, the worth of every plate, of all sheets together, and of all pieces wanted."""

    prices: tuple[int, ...]
    worth: Ints
    sheets: int
    pieces: int

    @classmethod
    def at(cls, grid: Grid, asked: Asked, prices: Sequence[int]) -> Valuation:
        worth = plate_worths(grid, asked, prices)
        sheets = sum(int(worth[end]) * sheet.copies for end, sheet in zip(grid.ends, asked.sheets, strict=True))
        return cls(tuple(prices), worth, sheets, sum(map(mul, prices, (kind.copies for kind in asked.kinds))))

    @property
    def room(self) -> int:
        """By how much all sheets are worth more than the pieces; less than 0 proves that the list is short."""
        return self.sheets - self.pieces

    def sheets_needed(self, copies: int) -> int:
        """How many sheets are needed at least, where there are so many copies of one size."""
        return -(-self.pieces * copies // self.sheets)

    def is_tighter(self, other: Valuation) -> bool:
        """Whether it leaves a smaller share of the sheets' worth than another one."""
        return self.room * other.sheets < other.room * self.sheets


def valuations(grid: Grid, asked: Asked) -> tuple[Valuation, Valuation]:
    """Return the tightest valuation that is found, and the one in which every piece is worth its area.

    The first proves that the list is short if its room is less than 0.
    """
    by_area = Valuation.at(grid, asked, _rounded([kind.width * kind.height for kind in asked.kinds]))
    best = tried = by_area
    program = _Program(asked)
    left = STEPS
    while best.room >= 0 and (left := left - grid.steps * len(grid.ends)) >= 0:
        is_new = program.learn(grid, asked, tried)
        ideal = program.ideal(is_new)
        if is_new:
            left -= ideal.steps * STEPS_OF_PROGRAM
        # The program's own worth of all pieces, over that of all sheets: no prices can do better than it says.
        reach = 1 - Fraction(ideal.worth, ideal.over)
        if Fraction(best.room, best.sheets) - reach < Fraction(1, ENOUGH) or (not is_new and program.is_exact(tried)):
            break
        # Half way to the best prices so far the patterns found are better; where they are known, all the way it is.
        tried = Valuation.at(grid, asked, program.towards(best) if is_new else program.exactly())
        if tried.is_tighter(best):
            best = tried
    return best, by_area


class _Program:
    """The linear program: its patterns by kind of sheet, and its last solution."""

    def __init__(self, asked: Asked) -> None:
        self._asked = asked
        self._wanted = [kind.copies for kind in asked.kinds]
        self._patterns: list[tuple[int, list[int]]] = []
        for number, sheet in enumerate(asked.sheets):
            for at, kind in enumerate(asked.kinds):
                if pattern := _alone(sheet, kind, at, len(asked.kinds)):
                    self._patterns.append((number, pattern))
        self._ideal: Prices | None = None

    def learn(self, grid: Grid, asked: Asked, valuation: Valuation) -> bool:
        """Take the best pattern of each kind of sheet in; whether any of them is new."""
        known = len(self._patterns)
        for number, end in enumerate(grid.ends):
            pattern = best_pattern(grid, asked, valuation.prices, valuation.worth, end)
            if (number, pattern) not in self._patterns:
                self._patterns.append((number, pattern))
        return len(self._patterns) > known

    def ideal(self, has_changed: bool) -> Prices:
        """The best prices at which no pattern is worth more than its sheet and all sheets together are worth 1."""
        if self._ideal is None or has_changed:
            sheets = self._asked.sheets
            if len(sheets) == 1:
                found = dearest([pattern for _, pattern in self._patterns], self._wanted)
                self._ideal = replace(found, over=found.over * sheets[0].copies)
            else:
                self._ideal = self._with_prices_of_sheets()
        return self._ideal

    def _with_prices_of_sheets(self) -> Prices:
        """Where there are several sizes of sheets, each has a price as well, which limits its patterns."""
        sheets = self._asked.sheets
        rows = [
            [*pattern, *(-1 if at == number else 0 for at in range(len(sheets)))] for number, pattern in self._patterns
        ]
        copies = [0] * len(self._wanted) + [sheet.copies for sheet in sheets]
        found = dearest([*rows, copies], [*self._wanted, *([0] * len(sheets))], [0] * len(rows) + [1])
        return replace(found, of=found.of[: len(self._wanted)])

    def towards(self, best: Valuation) -> list[int]:
        ideal = self.ideal(has_changed=False)
        pairs = zip(ideal.of, best.prices, strict=True)
        return _rounded([price * best.sheets + other * ideal.over for price, other in pairs])

    def exactly(self) -> list[int]:
        return _rounded(self.ideal(has_changed=False).of)

    def is_exact(self, tried: Valuation) -> bool:
        """Whether the prices tried were the program's own, so that no better ones exist."""
        return tuple(self.exactly()) == tried.prices


def _alone(sheet: Stock, kind: Kind, at: int, kinds: int) -> list[int]:
    """The pattern of a sheet with a grid of one kind alone; none where it does not fit."""
    number = max((sheet.width // across) * (sheet.height // up) for across, up in kind.lies)
    return [number if place == at else 0 for place in range(kinds)] if number else []


def _rounded(prices: Sequence[int]) -> list[int]:
    most = max(prices)
    return [(price << BITS) // most for price in prices]
