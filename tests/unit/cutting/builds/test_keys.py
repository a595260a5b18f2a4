from __future__ import annotations

from collections import Counter

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from layouts.cutting.builds.keys import Keys

COPIES = [
    pytest.param([1, 3, 7], 1, id="one word"),
    pytest.param([1] * 31, 1, id="a word full to the last bit"),
    pytest.param([1] * 32, 2, id="one kind more than a word holds"),
    pytest.param([300, 1, 299] * 12, 5, id="many words"),
]


@pytest.mark.parametrize(("copies", "words"), COPIES)
def test_single_pieces_add_up_to_all_of_them(copies, words):
    keys = Keys(copies)
    assert keys.words == words
    every = [keys.of_one(kind) for kind, number in enumerate(copies) for _ in range(number)]
    assert (np.sum(every, axis=0) == keys.full).all()


@pytest.mark.parametrize(("copies", "words"), COPIES)
def test_one_piece_too_many_does_not_go_with_the_rest(copies, words):
    keys = Keys(copies)
    for kind in range(len(copies)):
        one = keys.of_one(kind)
        assert keys.go_together(keys.full - one, one)
        assert not keys.go_together(keys.full, one)


COUNTS = st.lists(st.integers(1, 9), min_size=1, max_size=40)


@given(COUNTS, st.data())
def test_two_multisets_go_together_where_no_kind_has_too_many(copies, data):
    keys = Keys(copies)
    some = [data.draw(st.tuples(*(st.integers(0, number) for number in copies))) for _ in range(2)]
    first, second = (
        sum((keys.of_one(kind) * number for kind, number in enumerate(numbers)), np.zeros(keys.words, np.int64))
        for numbers in some
    )
    together = all(a + b <= number for a, b, number in zip(*some, copies, strict=True))
    assert bool(keys.go_together(first, second)) == together
    both = keys.hashed(first[None]) + keys.hashed(second[None])
    assert (keys.hashed((first + second)[None]) == both).all()


def test_different_multisets_have_different_hashes_here():
    keys = Keys([2] * 45)
    pairs = [keys.of_one(a) + keys.of_one(b) for a in range(45) for b in range(a, 45)]
    assert max(Counter(keys.hashed(np.array(pairs)).tolist()).values()) == 1
