"""Choosing a build for every sheet so that together they are all the pieces that are wanted.

At the prices of the tight valuation a sheet that is cut into a build loses what it is worth more; over all sheets the
losses make exactly the room of the valuation. So builds that lose more than that are left out. Of the last three sheets
those of one size are taken in the order of their losses, many at once, and the last is looked up by what is still
wanted. Where there are more sheets, one kind after another is settled, the rarest first: some sheet has to give it.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from layouts.cutting.builds.arrays import Hashes, Ints, portions, ranges
from layouts.cutting.builds.asked import Asked
from layouts.cutting.builds.grid import Grid
from layouts.cutting.builds.joining import AT_ONCE, Budget
from layouts.cutting.builds.keys import Keys
from layouts.cutting.builds.table import Table
from layouts.cutting.builds.valuing import Valuation

__all__ = ["EMPTY", "Assembly"]

# The row of a sheet that nothing is cut from.
EMPTY = -1
# What one look at a list of builds costs besides its members.
STEPS_PER_LOOK = 1_000
# So many sheets are looked for together.
TOGETHER = 3
# The rarest of so many kinds is settled next.
LOOKED_AHEAD = 3


@dataclass(frozen=True, slots=True)
class _Choice:
    """Builds that one size of sheet can be cut into, by rising loss."""

    rows: Ints
    loss: Ints
    key: Ints
    hash: Hashes

    def taken(self, numbers: Ints) -> _Choice:
        return _Choice(self.rows[numbers], self.loss[numbers], self.key[numbers], self.hash[numbers])


@dataclass(frozen=True, slots=True)
class _Index:
    """The numbers of the builds of a choice by rising hash, and the hashes."""

    numbers: Ints
    hashes: Hashes

    @classmethod
    def of(cls, choice: _Choice) -> _Index:
        numbers = np.argsort(choice.hash, kind="stable")
        return cls(numbers, choice.hash[numbers])


class Assembly:
    """Looks for a whole plan among the builds of a table."""

    def __init__(self, asked: Asked, grid: Grid, keys: Keys, valuation: Valuation) -> None:
        self._keys, self._room = keys, valuation.room
        self._sheets = [
            (int(grid.x.lines[end[0]]), int(grid.y.lines[end[1]]), int(valuation.worth[end])) for end in grid.ends
        ]
        self._copies = [sheet.copies for sheet in asked.sheets]
        self._order: list[int] = []
        # What the sheets in order are taken from, while the last few are looked for.
        self._choices: list[_Choice] = []
        self._indexes: list[_Index] = []
        self._rarest: list[int] = []

    def found(self, table: Table, budget: Budget) -> list[tuple[int, int]] | None:
        """Return the size of sheet and the row for each sheet, or None; also where the budget is spent before."""
        choices = [self._choice(table, *sheet) for sheet in self._sheets]
        sheets = [size for size, copies in enumerate(self._copies) for _ in range(copies)]
        if len(sheets) > TOGETHER:
            self._rarest = sorted(range(len(self._keys)), key=lambda kind: self._giving(choices, kind))
            budget.spend(len(self._keys) * sum(len(choice.rows) for choice in choices))
        return self._settled(sheets, choices, np.zeros(self._keys.words, np.int64), self._room, budget)

    def _giving(self, choices: Sequence[_Choice], kind: int) -> int:
        """How many builds have a piece of a kind."""
        return sum(int(np.count_nonzero(self._keys.has(choice.key, kind))) for choice in choices)

    def _settled(
        self, sheets: list[int], choices: list[_Choice], taken: Ints, room: int, budget: Budget
    ) -> list[tuple[int, int]] | None:
        """Sizes and rows for all these sheets, given by their sizes, out of choices that go with what is taken."""
        if len(sheets) <= TOGETHER:
            self._order, self._choices, self._indexes = sheets, choices, [_Index.of(choice) for choice in choices]
            rows = self._rest(0, taken, room, 0, budget)
            return None if rows is None else list(zip(sheets, rows, strict=True))
        wanted = [kind for kind in self._rarest if self._keys.wants(taken, kind)][:LOOKED_AHEAD]
        # Where nothing is wanted any more, empty sheets are left.
        kind = min(wanted, key=lambda kind: self._giving(choices, kind), default=None)
        for size in sorted(set(sheets)):
            choice = choices[size]
            gives = range(len(choice.rows)) if kind is None else np.flatnonzero(self._keys.has(choice.key, kind))
            left = list(sheets)
            left.remove(size)
            others = list(choices)
            remain = np.ones(len(choice.rows), np.bool_)
            for number in gives:
                budget.spend(STEPS_PER_LOOK + sum(len(one.rows) for one in others))
                if budget.is_spent:
                    return None
                both, room_left = taken + choice.key[number], room - int(choice.loss[number])
                narrowed = [self._within(one, both, room_left) for one in others]
                if all(len(narrowed[other].rows) for other in left):
                    found = self._settled(left, narrowed, both, room_left, budget)
                    if found is not None:
                        return [(size, int(choice.rows[number])), *found]
                # Every plan with this build has been looked for: none of the next ones needs it.
                remain[number] = False
                others[size] = choice.taken(np.flatnonzero(remain))
            choices = others
        return None

    def _within(self, choice: _Choice, taken: Ints, room: int) -> _Choice:
        """The builds that go with what is taken and lose no more than there is room for."""
        last = int(np.searchsorted(choice.loss, room, side="right"))
        return choice.taken(np.flatnonzero(self._keys.go_together(choice.key[:last], taken)))

    def _choice(self, table: Table, width: int, height: int, worth: int) -> _Choice:
        builds, rows = table.builds, table.rows
        fits = (builds.width[rows] <= width) & (builds.height[rows] <= height)
        rows = rows[fits & (worth - builds.value[rows] <= self._room)]
        loss, key, hashes = worth - builds.value[rows], builds.key[rows], builds.hash[rows]
        if worth <= self._room:
            rows, loss = np.append(rows, EMPTY), np.append(loss, worth)
            key, hashes = np.append(key, np.zeros((1, self._keys.words), np.int64), axis=0), np.append(hashes, 0)
        order = np.argsort(loss, kind="stable")
        return _Choice(rows[order], loss[order], key[order], hashes[order].astype(np.uint64))

    def _rest(self, at: int, taken: Ints, room: int, least: int, budget: Budget) -> list[int] | None:
        """Rows for the sheets from `at` on, when so much is taken and so much of the room is left.

        `least` is what the sheet before lost, if it was of the same size.
        """
        choice, left = self._choices[self._order[at]], len(self._order) - at
        if left == 1:
            return self._look_up(self._order[at], self._keys.full - taken)
        first, last = self._losing(at, room, least)
        budget.spend(STEPS_PER_LOOK + last - first)
        if budget.is_spent:
            return None
        open_to = first + np.flatnonzero(self._keys.go_together(choice.key[first:last], taken))
        if left == 2:
            found = self._last(at + 1, taken + choice.key[open_to])
            return None if found is None else [int(choice.rows[open_to[found[0]]]), found[1]]
        return self._last_three(at, open_to, taken, room, budget)

    def _losing(self, at: int, room: int, least: int) -> tuple[int, int]:
        """The stretch of builds for the sheet `at` whose losses leave room for the sheets behind it."""
        order, loss = self._order, self._choices[self._order[at]].loss
        alike = next((n for n in range(1, len(order) - at) if order[at + n] != order[at]), len(order) - at)
        first = int(np.searchsorted(loss, least, side="left")) if at and order[at - 1] == order[at] else 0
        return first, max(first, int(np.searchsorted(loss, room // alike, side="right")))

    def _last_three(self, at: int, open_to: Ints, taken: Ints, room: int, budget: Budget) -> list[int] | None:
        """Pairs for two sheets, many at once, and the third looked up."""
        one, two = self._choices[self._order[at]], self._choices[self._order[at + 1]]
        alike = self._order[at + 1] == self._order[at]
        rooms = room - one.loss[open_to]
        if self._order[at + 2] == self._order[at + 1]:
            rooms //= 2
        lasts = np.searchsorted(two.loss, rooms, side="right")
        firsts = np.searchsorted(two.loss, one.loss[open_to], side="left") if alike else np.zeros_like(lasts)
        numbers = np.maximum(lasts - firsts, 0)
        for start, end in portions(numbers, AT_ONCE):
            budget.spend(int(numbers[start:end].sum()))
            if budget.is_spent:
                return None
            first = np.repeat(open_to[start:end], numbers[start:end])
            second = ranges(firsts[start:end], numbers[start:end])
            both = taken + one.key[first]
            together = np.flatnonzero(self._keys.go_together(both, two.key[second]))
            found = self._last(at + 2, both[together] + two.key[second[together]])
            if found is not None:
                number = together[found[0]]
                return [int(one.rows[first[number]]), int(two.rows[second[number]]), found[1]]
        return None

    def _last(self, at: int, taken: Ints) -> tuple[int, int] | None:
        """Which of many beginnings the last sheet completes, and with which row."""
        index = self._indexes[self._order[at]]
        if not len(index.numbers) or not len(taken):
            return None
        wanted = self._keys.full - taken
        hashes = self._keys.hashed(wanted)
        places = np.minimum(np.searchsorted(index.hashes, hashes), len(index.hashes) - 1)
        for number in np.flatnonzero(index.hashes[places] == hashes):
            row = self._look_up(self._order[at], wanted[number])
            if row is not None:
                return int(number), row[0]
        return None

    def _look_up(self, size: int, wanted: Ints) -> list[int] | None:
        choice, index = self._choices[size], self._indexes[size]
        hashed = self._keys.hashed(wanted)
        first = int(np.searchsorted(index.hashes, hashed, side="left"))
        last = int(np.searchsorted(index.hashes, hashed, side="right"))
        for number in index.numbers[first:last]:
            if (choice.key[number] == wanted).all():
                return [int(choice.rows[number])]
        return None
