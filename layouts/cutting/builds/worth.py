"""What a plate is worth when every piece has a price, and what can be made of everything outside it.

Copies are unlimited here, which makes the question easy: the worth of a plate is that of a piece, of the plate one
grid line shorter, or of two plates side by side or one above the other. No real plan makes more of a plate.
Source: the recursion of Gilmore and Gomory 1966 on normal patterns (from memory).
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from layouts.cutting.builds.arrays import Ints
from layouts.cutting.builds.asked import Asked
from layouts.cutting.builds.grid import Axis, Grid

__all__ = ["NOWHERE", "best_pattern", "outside_worths", "plate_worths"]

# The outside worth of a plate that lies in no sheet.
NOWHERE = -1
# More than anything is worth: what is so far below zero stays below it, whatever is added.
_FAR = 1 << 60

type Corners = dict[tuple[int, int], tuple[int, int]]


def plate_worths(grid: Grid, asked: Asked, prices: Sequence[int]) -> Ints:
    """Return the worth of every plate, by the numbers of its grid lines, with a price for each kind."""
    worth = np.zeros((len(grid.x), len(grid.y)), np.int64)
    for corner, (price, _) in _corners(grid, asked, prices).items():
        worth[corner] = price
    for number in range(1, len(grid.x)):
        row = np.maximum(worth[number], worth[number - 1])
        near, far = grid.x.near[number], grid.x.far[number]
        if len(near):
            row = np.maximum(row, (worth[near] + worth[far]).max(axis=0))
        worth[number] = _divided_upwards(grid, row)
    return worth


def _divided_upwards(grid: Grid, row: Ints) -> Ints:
    """The worths of plates of one width, given what they are worth undivided: nothing is divided twice the same way,
    so that it is done when nothing changes."""
    axis = grid.y
    np.maximum.accumulate(row, out=row)
    while len(axis.starts):
        best = np.maximum.reduceat(row[axis.firsts] + row[axis.seconds], axis.starts)
        if (best <= row[axis.divides]).all():
            break
        row[axis.divides] = np.maximum(row[axis.divides], best)
        np.maximum.accumulate(row, out=row)
    return row


def best_pattern(grid: Grid, asked: Asked, prices: Sequence[int], worth: Ints, end: tuple[int, int]) -> list[int]:
    """Return how many pieces of each kind make the worth of the plate that ends at these lines."""
    corners = _corners(grid, asked, prices)
    counted = [0] * len(asked.kinds)
    waiting = [end]
    while waiting:
        i, j = waiting.pop()
        value = int(worth[i, j])
        if not value:
            continue
        price, kind = corners.get((i, j), (0, 0))
        if price == value:
            counted[kind] += 1
        elif worth[i - 1, j] == value:
            waiting.append((i - 1, j))
        elif worth[i, j - 1] == value:
            waiting.append((i, j - 1))
        else:
            waiting.extend(_division(grid, worth, i, j))
    return counted


def _division(grid: Grid, worth: Ints, i: int, j: int) -> tuple[tuple[int, int], tuple[int, int]]:
    near, far = grid.x.near[i], grid.x.far[i]
    found = np.flatnonzero(worth[near, j] + worth[far, j] == worth[i, j])
    if len(found):
        return (int(near[found[0]]), j), (int(far[found[0]]), j)
    near, far = grid.y.near[j], grid.y.far[j]
    found = np.flatnonzero(worth[i, near] + worth[i, far] == worth[i, j])
    return (i, int(near[found[0]])), (i, int(far[found[0]]))


def outside_worths(grid: Grid, worth: Ints, all_sheets: int) -> Ints:
    """Return for every plate the most that can be made of everything outside it, NOWHERE if it lies in no sheet.

    `all_sheets` is what all sheets together are worth. A plate that is a sheet leaves the other sheets; any other was
    cut off a larger one, whose other part is a plate of its own. So this charges for what lies beside a plate as well.
    Cuts on both axes alternate: it is done when nothing changes.
    """
    outside = np.full_like(worth, -_FAR)
    for end in grid.ends:
        outside[end] = max(int(outside[end]), all_sheets - int(worth[end]))
    upright = np.ascontiguousarray(worth.T)
    while True:
        before = outside.copy()
        _cut_free(outside, worth, grid.x)
        turned = np.ascontiguousarray(outside.T)
        _cut_free(turned, upright, grid.y)
        outside = np.ascontiguousarray(turned.T)
        if (outside == before).all():
            return np.where(outside < 0, NOWHERE, outside)


def _cut_free(outside: Ints, worth: Ints, axis: Axis) -> None:
    """Let every plate be cut off one that is longer on the first axis, from the longest on; changes `outside`."""
    for number in reversed(range(len(axis) - 1)):
        best = worth[axis.floor[axis.lines[number + 1 :] - axis.lines[number]]]
        best += outside[number + 1 :]
        np.maximum(outside[number], best.max(axis=0), out=outside[number])


def _corners(grid: Grid, asked: Asked, prices: Sequence[int]) -> Corners:
    """The dearest piece that fills a plate alone, with its price, by the lines at which the plate ends."""
    corners: Corners = {}
    for number, (kind, price) in enumerate(zip(asked.kinds, prices, strict=True)):
        for width, height in kind.lies:
            if any(sheet.holds(width, height) for sheet in asked.sheets):
                corner = grid.x.line(width), grid.y.line(height)
                corners[corner] = max(corners.get(corner, (0, 0)), (price, number))
    return corners
