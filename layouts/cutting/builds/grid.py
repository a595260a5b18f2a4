"""The lines at which cuts need to be looked for, on both axes of all sheets.

Any plan can be pushed to the left and down until every part is as long as some row of pieces (Herz 1972, "normal
patterns", from memory), so nothing is lost by looking at these lengths alone. A length between two lines is as good as
the line below it.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from layouts.cutting.builds.arrays import Ints, Marks
from layouts.cutting.builds.asked import Asked
from layouts.cutting.reduced import sides_along
from layouts.cutting.rows import lengths, reachable

__all__ = ["Axis", "Grid", "TooFine"]

# Lines on both axes together, and pairs of plates looked at for one valuation: beyond, the grid is not worth its work.
MOST_LINES = 1_500
MOST_STEPS = 60_000_000


class TooFine(Exception):
    """The grid has more lines than are worth the work. It never leaves this package."""


@dataclass(frozen=True, slots=True)
class Axis:
    """The lines of one axis, `lines[0]` being 0; `floor[length]` is the number of the last line within a length.

    For each line n, `near[n]` and `far[n]` are the numbers of the lines at which a part of that length can be divided:
    the shorter part first, the rest down to its line. `firsts`, `seconds` hold all of them behind each other, from
    `starts`, for the lines where `divides`.
    """

    lines: Ints
    floor: Ints
    near: tuple[Ints, ...]
    far: tuple[Ints, ...]
    firsts: Ints
    seconds: Ints
    starts: Ints
    divides: Marks

    @classmethod
    def of(cls, room: int, pieces: Sequence[tuple[set[int], int]]) -> Axis:
        """Return the axis for these rooms and pieces (sides, copies). Raises: TooFine."""
        reached = reachable(room, pieces)
        if reached is None or reached.bit_count() > MOST_LINES:
            raise TooFine
        lines = np.array(lengths(reached), np.int64)
        floor = np.searchsorted(lines, np.arange(room + 1), side="right") - 1
        near = tuple(np.arange(1, floor[line // 2] + 1) for line in lines)
        far = tuple(floor[line - lines[firsts]] for line, firsts in zip(lines, near, strict=True))
        numbers = np.array([len(firsts) for firsts in near])
        divides = numbers > 0
        starts = np.cumsum(numbers) - numbers
        return cls(lines, floor, near, far, np.concatenate(near), np.concatenate(far), starts[divides], divides)

    def __len__(self) -> int:
        return len(self.lines)

    def line(self, length: int) -> int:
        """The number of the last line within a length."""
        return int(self.floor[length])


@dataclass(frozen=True, slots=True)
class Grid:
    """The lines of both axes, and where each kind of sheet ends on them."""

    x: Axis
    y: Axis
    ends: tuple[tuple[int, int], ...]

    @classmethod
    def of(cls, asked: Asked) -> Grid:
        """Return the grid of a question. Raises: TooFine."""
        x = Axis.of(max(sheet.width for sheet in asked.sheets), sides_along(asked.kinds, 0))
        y = Axis.of(max(sheet.height for sheet in asked.sheets), sides_along(asked.kinds, 1))
        if len(x) * len(y) * (len(x) + len(y)) // 4 > MOST_STEPS:
            raise TooFine
        return cls(x, y, tuple((x.line(sheet.width), y.line(sheet.height)) for sheet in asked.sheets))

    @property
    def steps(self) -> int:
        """What one valuation costs: the pairs of plates looked at."""
        return len(self.x) * len(self.y) * (len(self.x) + len(self.y)) // 4
