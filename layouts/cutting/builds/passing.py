"""One pass: builds are joined, round by round, until some of them make a whole plan or nothing new can be joined.

A pass that threw nothing away but what cannot be part of a plan, or is beaten by the same pieces in a smaller box, has
looked at everything: if it ends without a plan there is none. A pass with a beam keeps only the most promising builds
of each round; it is quick, and says nothing if it finds nothing.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

import numpy as np

from layouts.cutting.builds.arrays import Ints
from layouts.cutting.builds.asked import Asked
from layouts.cutting.builds.assembling import EMPTY, Assembly
from layouts.cutting.builds.bars import Bars
from layouts.cutting.builds.grid import Grid
from layouts.cutting.builds.joining import TURNED, Budget, Joiner
from layouts.cutting.builds.keys import Keys
from layouts.cutting.builds.node import Join, Node, One
from layouts.cutting.builds.table import Builds, Table
from layouts.cutting.builds.valuing import Valuation

__all__ = ["Beam", "Ended", "Field", "run_pass"]

# While builds are still joined, a twelfth of the steps left may go into looking for a whole plan: it is looked for in
# each round again. At the end of a pass that threw something away it is a quarter: a wider pass may come.
ROUNDS, LAST = 12, 4
# So many builds are gathered before those that are beaten are left out.
GATHERED = 1 << 19
# Sorting a build among the others takes as long as so many pairs.
STEPS_PER_BUILD = 9
# A beam keeps as many builds of every class of value, since cheap ones are needed as much as dear ones.
CLASSES = 16


@dataclass(frozen=True, slots=True)
class Beam:
    """How many builds of each round are kept, and which: those furthest above their bar, or those filled best.

    Without a width all are kept. A pass with more than so many `rows` gives up.
    """

    width: int | None
    by: Literal["bar", "filling"] = "bar"
    rows: int = 1_000_000


@dataclass(frozen=True, slots=True)
class Ended:
    """How a pass ended: with a plan (the size of each sheet that is cut, and its tree), in a proof, or in nothing.

    `steps` is what it took.
    """

    steps: int
    is_exhausted: bool
    plan: tuple[tuple[int, Node], ...] | None = None


class _Overflow(Exception):
    """More builds than a pass may have."""


@dataclass(frozen=True, slots=True)
class Field:
    """What all passes over one question share: its grid, two valuations, and their bars."""

    asked: Asked
    grid: Grid
    tight: Valuation
    by_area: Valuation
    tight_bars: Bars
    area_bars: Bars

    @classmethod
    def of(cls, asked: Asked, grid: Grid, tight: Valuation, by_area: Valuation) -> Field:
        return cls(asked, grid, tight, by_area, Bars(grid, tight), Bars(grid, by_area))


def run_pass(field: Field, beam: Beam, steps: int) -> Ended:
    """Run a pass of at most so many steps."""
    return _Pass(field, beam, steps).ended()


class _Pass:
    def __init__(self, field: Field, beam: Beam, steps: int) -> None:
        asked, self._beam = field.asked, beam
        self._is_symmetric = (
            len(asked.sheets) == 1
            and asked.sheets[0].width == asked.sheets[0].height
            and all(kind.turns or kind.width == kind.height for kind in asked.kinds)
        )
        self._keys = Keys([kind.copies for kind in asked.kinds])
        self._bars = field.tight_bars, field.area_bars
        self._table = Table(self._seeds(field))
        self._joiner = Joiner(self._table, self._keys, *self._bars, is_symmetric=self._is_symmetric)
        self._assembly = Assembly(asked, field.grid, self._keys, field.tight)
        self._most, self._steps = steps, Budget(steps)
        self._pieces = field.tight.pieces
        self._is_whole = True

    def ended(self) -> Ended:
        new, old = self._table.rows, np.zeros(0, np.int64)
        while True:
            is_last = not len(new)
            # Only where it may become a proof is the last look worth all that is left.
            parts = 1 if is_last and self._is_whole else LAST if is_last else ROUNDS
            looks = Budget(self._steps.left // parts)
            at_most = looks.left
            plan = self._assembly.found(self._table, looks)
            self._steps.spend(at_most - looks.left)
            if plan is not None:
                trees = tuple((size, self._tree(row)) for size, row in plan if row != EMPTY)
                return Ended(self._spent, False, trees)
            if self._steps.is_spent:
                return Ended(self._spent, False)
            if is_last:
                return Ended(self._spent, self._is_whole)
            try:
                found = self._round(new, old)
            except _Overflow:
                return Ended(self._spent, False)
            old = self._table.rows
            new = self._table.add(found)
            old = old[self._table.counts[old]]

    @property
    def _spent(self) -> int:
        return self._most - self._steps.left

    def _seeds(self, field: Field) -> Builds:
        """Every piece in every lie."""
        lies = [
            (number, *lie)
            for number, kind in enumerate(field.asked.kinds)
            for lie in (kind.lies if not self._is_symmetric else [max(kind.lies)])
        ]
        kinds, widths, heights = (np.array(column, np.int64) for column in zip(*lies, strict=True))
        key = np.array([self._keys.of_one(number) for number, _, _ in lies])
        none = np.full(len(lies), -1)
        values, areas = (np.array(one.prices, np.int64)[kinds] for one in (field.tight, field.by_area))
        seeds = Builds(
            widths, heights, key, self._keys.hashed(key), values, areas, -1 - kinds, none, np.zeros(len(lies), np.int64)
        )
        clears = (values >= self._bars[0].least(widths, heights)) & (areas >= self._bars[1].least(widths, heights))
        return seeds.taken(clears)

    def _round(self, new: Ints, old: Ints) -> Builds:
        """What can be joined of what is new. Raises: _Overflow."""
        some: list[Builds] = []
        gathered, most = 0, GATHERED
        for found in self._joiner.joins(new, old, self._steps):
            some.append(found)
            gathered += len(found)
            self._steps.spend(STEPS_PER_BUILD * len(found))
            if gathered > most:
                some = [self._kept(some)]
                gathered = len(some[0])
                most = max(GATHERED, 2 * gathered)
        return self._kept(some) if some else self._table.builds.taken(np.zeros(0, np.int64))

    def _kept(self, some: list[Builds]) -> Builds:
        found = self._table.fresh(Builds.joined(some))
        if self._beam.width is not None:
            found = self._within(found, self._beam.width)
        if len(self._table) + len(found) > self._beam.rows:
            raise _Overflow
        return found

    def _within(self, found: Builds, width: int) -> Builds:
        """The best of each class of value; of equals the first."""
        if len(found) <= width:
            return found
        self._is_whole = False
        if self._beam.by == "bar":
            score = found.value - self._bars[0].least(found.width, found.height)
        else:
            score = (found.by_area << 20) // (found.width * found.height)
        classes = np.minimum(found.value * CLASSES // self._pieces, CLASSES - 1)
        order = np.lexsort((-score, classes))
        begins = np.searchsorted(classes[order], np.arange(CLASSES))
        rank = np.arange(len(order)) - begins[classes[order]]
        return found.taken(np.sort(order[rank < width // CLASSES]))

    def _tree(self, row: int) -> Node:
        """The build of a row as a tree."""
        builds = self._table.builds
        turned, row = bool(row & TURNED), row & ~TURNED
        width, height = int(builds.width[row]), int(builds.height[row])
        first, second = int(builds.first[row]), int(builds.second[row])
        if first < 0:
            node: Node = One(-1 - first, width, height)
        elif self._is_symmetric:
            node = Join("x", self._tree(first), self._tree(second))
            node = node.turned if builds.along[row] else node
        else:
            node = Join("y" if builds.along[row] else "x", self._tree(first), self._tree(second))
        return node.turned if turned else node
