"""How much a build in its box must be worth to be part of a whole plan.

A build that stands in a plan leaves everything outside its box to all other pieces, and no more can be made of that
than its outside worth. So at any prices the build must be worth at least what all pieces are, less that. This holds for
builds in boxes smaller than the parts of a plan they came from, since the outside worth only rises when a box shrinks.
"""

from __future__ import annotations

import numpy as np

from layouts.cutting.builds.arrays import Ints
from layouts.cutting.builds.grid import Grid
from layouts.cutting.builds.valuing import Valuation
from layouts.cutting.builds.worth import outside_worths

__all__ = ["NEVER", "Bars"]

# More than anything is worth.
NEVER = 1 << 60


class Bars:
    """The least that a build must be worth at the prices of one valuation, by the size of its box."""

    def __init__(self, grid: Grid, valuation: Valuation) -> None:
        outside = outside_worths(grid, valuation.worth, valuation.sheets)
        self._least = np.where(outside >= 0, np.maximum(valuation.pieces - outside, 0), NEVER)
        self._x, self._y = grid.x, grid.y

    def least(self, width: Ints, height: Ints) -> Ints:
        """Return the bar for boxes of these sizes; NEVER where a box fits no sheet."""
        widest, highest = len(self._x.floor) - 1, len(self._y.floor) - 1
        bars = self._least[self._x.floor[np.minimum(width, widest)], self._y.floor[np.minimum(height, highest)]]
        return np.where((width > widest) | (height > highest), NEVER, bars)

    def room(self, along: int) -> int:
        """The longest that a box can be along x (0) or y (1)."""
        return len((self._y if along else self._x).floor) - 1
