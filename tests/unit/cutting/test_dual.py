"""A dual feasible function never makes more of a row than of the room; here every row is tried."""

from __future__ import annotations

from itertools import product

import pytest

from layouts.cutting.dual import Count, counts


def _rows(room, sides, numbers):
    """Every choice of copies that stands in the room."""
    for taken in product(*(range(number + 1) for number in numbers)):
        if sum(side * copies for side, copies in zip(sides, taken, strict=True)) <= room:
            yield taken


@pytest.mark.parametrize(
    ("room", "sides", "numbers"),
    [
        pytest.param(10, [6, 5, 4, 3], [1, 2, 2, 3], id="both sides of the half"),
        pytest.param(12, [7, 6, 5, 4, 3, 2, 1], [1, 2, 2, 3, 2, 2, 2], id="many"),
        pytest.param(13, [12, 9, 7, 6, 4], [1, 1, 1, 2, 3], id="odd room"),
        pytest.param(16, [8, 8, 9, 7], [2, 1, 1, 1], id="exact halves"),
        pytest.param(5, [5, 1], [1, 5], id="whole room"),
    ],
)
def test_no_row_counts_more_than_the_room(room, sides, numbers):
    rows = list(_rows(room, sides, numbers))
    found = counts(room, sides, numbers)
    assert len(found) > 3
    for count in found:
        for row in rows:
            worth = sum(value * copies for value, copies in zip(count.sides, row, strict=True))
            assert worth <= count.room, (count, row)


def test_the_plain_length_comes_first():
    assert counts(10, [6, 5], [1, 1])[0] == Count((6, 5), 10)


def test_of_two_sides_beyond_the_half_only_one_stands():
    assert Count((1, 1, 0), 1) in counts(10, [6, 7, 5], [1, 1, 1])


def test_thirds_are_counted_as_thirds():
    # In 10 stand two 4s and no third one: with k = 4 each counts 2 of 4, so three of them are too many.
    assert Count((2,), 4) in counts(10, [4], [3])


def test_functions_are_not_repeated():
    found = counts(12, [6, 6, 6], [1, 1, 1])
    assert len(set(found)) == len(found)
