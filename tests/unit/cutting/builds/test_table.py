from __future__ import annotations

import numpy as np
from hypothesis import given
from hypothesis import strategies as st

from layouts.cutting.builds.table import Builds, Table, best_of_equals

BOXES = st.lists(st.tuples(st.integers(1, 6), st.integers(1, 6), st.integers(0, 2)), min_size=1, max_size=30)


def _builds(boxes, hashed=lambda key: key) -> Builds:
    width, height, key = (np.array(column, np.int64) for column in zip(*boxes, strict=True))
    none = np.zeros(len(width), np.int64)
    hashes = np.array([hashed(one) for one in key.tolist()], np.uint64)
    return Builds(width, height, key[:, None], hashes, none, none, none, none, none)


def _beaten(boxes, number: int) -> bool:
    """By another with the same pieces in a box no larger on either side; of equal boxes by the first."""
    w, h, key = boxes[number]
    return any(
        other == key and a <= w and b <= h and ((a, b) != (w, h) or place < number)
        for place, (a, b, other) in enumerate(boxes)
    )


@given(BOXES)
def test_the_best_of_equals_are_those_that_no_other_beats(boxes):
    best = best_of_equals(_builds(boxes))
    assert best.tolist() == [not _beaten(boxes, number) for number in range(len(boxes))]


@given(BOXES)
def test_builds_that_share_a_hash_by_accident_never_beat_each_other(boxes):
    best = best_of_equals(_builds(boxes, hashed=lambda key: 0))
    assert all(best[number] or _beaten(boxes, number) for number in range(len(boxes)))


@given(BOXES, BOXES)
def test_a_table_keeps_what_nothing_beats(first, second):
    table = Table(_builds(first))
    table.counts[:] = best_of_equals(table.builds)
    rows = table.add(table.fresh(_builds(second)))
    assert set(rows.tolist()) <= set(table.rows.tolist())
    kept = {(int(table.builds.width[n]), int(table.builds.height[n]), int(table.builds.key[n, 0])) for n in table.rows}
    both = [*first, *second]
    assert kept == {both[number] for number in range(len(both)) if not _beaten(both, number)}
    assert len(kept) == len(table.rows)
