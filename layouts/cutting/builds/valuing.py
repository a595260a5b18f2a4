"""Prices of pieces, at which a sheet can be made into as little as possible more than the pieces wanted are worth.

Prices are looked for by generating columns (Gilmore and Gomory 1961): a linear program prices the pieces so that no
known pattern is worth more than its sheet, the plates answer with the pattern that is worth most at these prices, and
so on, after a beginning without the program. If all pieces are worth more than all sheets, the list is short. Otherwise
what is left between the two is the room that a plan has: the less, the fewer builds can be part of one. Any prices are
safe, so the search may stop anywhere; all of it is in whole numbers.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from operator import mul

from layouts.cutting.builds.arrays import Ints
from layouts.cutting.builds.asked import Asked, Stock
from layouts.cutting.builds.grid import Grid
from layouts.cutting.builds.worth import best_pattern, plate_worths
from layouts.cutting.reduced import Kind
from layouts.cutting.simplex import Prices, Program

__all__ = ["Valuation", "valuations"]

# Pairs of plates looked at; a step of the linear program, with its longer numbers, counts for several.
STEPS = 80_000_000
STEPS_OF_PROGRAM = 20
# Prices are rounded down to so many bits: sums of them stay far below 2**63.
BITS = 30
# A price falls by a sixth at most, where four times as many pieces are cut as are wanted, or more.
MOST_TIMES, SLOWNESS = 4, 6
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

    def patterns(self, grid: Grid, asked: Asked) -> list[list[int]]:
        """The best pattern of each size of sheet at these prices."""
        return [best_pattern(grid, asked, self.prices, self.worth, end) for end in grid.ends]

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
    columns = _Columns(asked)
    left = STEPS
    for _ in asked.kinds:
        if best.room < 0 or (left := left - grid.steps * len(grid.ends)) < 0:
            return best, by_area
        columns.learn(patterns := tried.patterns(grid, asked))
        tried = Valuation.at(grid, asked, _cheapened(tried.prices, patterns, asked))
        if tried.is_tighter(best):
            best = tried
    left -= columns.solve() * STEPS_OF_PROGRAM
    while best.room >= 0 and (left := left - grid.steps * len(grid.ends)) >= 0:
        is_new = columns.learn(tried.patterns(grid, asked))
        if is_new:
            left -= columns.solve() * STEPS_OF_PROGRAM
        ideal = columns.ideal
        # The program's own worth of all pieces, over that of all sheets: no prices can do better than it says.
        reach = 1 - Fraction(ideal.worth, ideal.over)
        if Fraction(best.room, best.sheets) - reach < Fraction(1, ENOUGH) or (not is_new and columns.is_exact(tried)):
            break
        # Half way to the best prices so far the patterns found are better; where they are known, all the way it is.
        tried = Valuation.at(grid, asked, columns.towards(best) if is_new else columns.exactly())
        if tried.is_tighter(best):
            best = tried
    return best, by_area


def _cheapened(prices: Sequence[int], patterns: Sequence[Sequence[int]], asked: Asked) -> list[int]:
    """Prices that fall for what all sheets together are cut into, the more the less of it is wanted.

    Twenty or fifty such steps find most of the patterns that matter, for far less than the program would take.
    """
    cut = [0] * len(prices)
    for pattern, sheet in zip(patterns, asked.sheets, strict=True):
        cut = [number + more * sheet.copies for number, more in zip(cut, pattern, strict=True)]
    return [
        price - price * min(number, MOST_TIMES * kind.copies) // (MOST_TIMES * SLOWNESS * kind.copies)
        for price, number, kind in zip(prices, cut, asked.kinds, strict=True)
    ]


class _Columns:
    """The patterns that are known, by kind of sheet, and the best prices at which none is worth more than its sheet.

    All sheets together are worth 1 then. Where there are several sizes each has a price as well, which limits its
    patterns: they stand behind those of the pieces.
    """

    # What `solve` found last.
    ideal: Prices

    def __init__(self, asked: Asked) -> None:
        self._kinds, self._sheets = len(asked.kinds), asked.sheets
        self._known: set[tuple[int, ...]] = set()
        more = len(asked.sheets) if len(asked.sheets) > 1 else 0
        self._program = Program([kind.copies for kind in asked.kinds] + [0] * more)
        if more:
            self._program.limit([0] * self._kinds + [sheet.copies for sheet in asked.sheets])
        for number, sheet in enumerate(asked.sheets):
            for at, kind in enumerate(asked.kinds):
                if pattern := _alone(sheet, kind, at, len(asked.kinds)):
                    self._take(number, pattern)

    def learn(self, patterns: Sequence[Sequence[int]]) -> bool:
        """Take a pattern for each size of sheet in; whether any of them is new."""
        taken = [self._take(number, pattern) for number, pattern in enumerate(patterns)]
        return any(taken)

    def _take(self, number: int, pattern: Sequence[int]) -> bool:
        several = len(self._sheets) > 1
        line = (*pattern, *(-int(place == number) for place in range(len(self._sheets)))) if several else tuple(pattern)
        if line in self._known:
            return False
        self._known.add(line)
        self._program.limit(line, 0 if several else 1)
        return True

    def solve(self) -> int:
        """Find the best prices for what is known now, and return the steps that it took."""
        before = self._program.steps
        found = self._program.dearest()
        over = found.over if len(self._sheets) > 1 else found.over * self._sheets[0].copies
        self.ideal = Prices(found.of[: self._kinds], over, found.worth)
        return self._program.steps - before

    def towards(self, best: Valuation) -> list[int]:
        pairs = zip(self.ideal.of, best.prices, strict=True)
        return _rounded([price * best.sheets + other * self.ideal.over for price, other in pairs])

    def exactly(self) -> list[int]:
        return _rounded(self.ideal.of)

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
