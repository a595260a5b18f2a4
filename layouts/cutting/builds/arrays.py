"""The arrays that this package works on: whole numbers of 64 bits throughout, so that nothing is ever rounded."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np
from numpy.typing import NDArray

__all__ = ["Hashes", "Ints", "Marks", "portions", "ranges"]

type Ints = NDArray[np.int64]
type Marks = NDArray[np.bool_]
type Hashes = NDArray[np.uint64]


def ranges(starts: Ints, numbers: Ints) -> Ints:
    """Put ranges behind each other: `numbers[n]` whole numbers from `starts[n]` on.

    >>> ranges(np.array([5, 0, 8]), np.array([2, 0, 3])).tolist()
    [5, 6, 8, 9, 10]
    """
    ends = np.cumsum(numbers)
    return np.arange(int(numbers.sum())) + np.repeat(starts - ends + numbers, numbers)


def portions(numbers: Ints, most: int) -> Iterator[tuple[int, int]]:
    """Divide a list of counts into stretches that sum to at most `most`, or hold a single count that is more.

    >>> list(portions(np.array([3, 3, 9, 1]), 6))
    [(0, 2), (2, 3), (3, 4)]
    """
    sums = np.cumsum(numbers)
    start, passed = 0, 0
    while start < len(numbers):
        end = max(start + 1, int(np.searchsorted(sums, passed + most, side="right")))
        yield start, end
        start, passed = end, int(sums[end - 1])
