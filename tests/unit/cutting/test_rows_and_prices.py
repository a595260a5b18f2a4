from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from layouts.cutting.rows import lengths, reachable
from layouts.cutting.simplex import Prices, Program


def _dearest(patterns, wanted, limits=()) -> Prices:
    program = Program(wanted)
    for pattern, limit in zip(patterns, limits or [1] * len(patterns), strict=True):
        program.limit(pattern, limit)
    return program.dearest()


@pytest.mark.parametrize(
    ("room", "pieces", "rows"),
    [
        pytest.param(10, [({4}, 2), ({3}, 1)], [0, 3, 4, 7, 8], id="no more copies than there are"),
        pytest.param(10, [({4}, 9)], [0, 4, 8], id="no more than the room"),
        pytest.param(9, [({4, 5}, 1)], [0, 4, 5, 9], id="a turning piece counts with both sides"),
        pytest.param(3, [({4}, 1)], [0], id="nothing fits"),
    ],
)
def test_lengths_of_rows(room, pieces, rows):
    reached = reachable(room, pieces)
    assert reached is not None
    assert lengths(reached) == rows


def test_rows_too_long_to_look_at_are_not_looked_at():
    assert reachable(1 << 20, [({3}, 1)]) is None


@pytest.mark.parametrize(
    ("patterns", "wanted", "worth"),
    [
        pytest.param([[4]], [10], Fraction(10, 4), id="one kind"),
        pytest.param([[2, 0], [0, 3]], [4, 3], Fraction(3), id="two kinds apart"),
        # At 1/2 and 1/3 the mixture [1, 2] would be worth 7/6: 4 a + 3 b is most at a = 1/2, b = 1/4.
        pytest.param([[2, 0], [0, 3], [1, 2]], [4, 3], Fraction(11, 4), id="a mixture that limits both"),
        pytest.param([[1, 1], [1, 0], [0, 1]], [1, 1], Fraction(1), id="equal limits"),
    ],
)
def test_the_dearest_prices(patterns, wanted, worth):
    found = _dearest(patterns, wanted)
    assert Fraction(found.worth, found.over) == worth
    assert sum(price * number for price, number in zip(found.of, wanted, strict=True)) == found.worth
    for pattern in patterns:
        assert sum(price * number for price, number in zip(found.of, pattern, strict=True)) <= found.over


def test_a_kind_without_a_limit_is_refused():
    with pytest.raises(ValueError, match="no pattern"):
        _dearest([[1, 0]], [1, 1])


@given(st.data())
def test_prices_are_proven_best_by_the_patterns_that_limit_them(data):
    """For two kinds the best prices lie where two limits cross: all such crossings are tried, in fractions."""
    patterns = [*data.draw(st.lists(st.tuples(st.integers(0, 5), st.integers(0, 5)), max_size=4)), (1, 0), (0, 1)]
    wanted = data.draw(st.tuples(st.integers(1, 9), st.integers(1, 9)))
    found = _dearest(patterns, wanted)
    lines = [(a, b, 1) for a, b in patterns] + [(1, 0, 0), (0, 1, 0)]
    best = Fraction(0)
    for number, (a, b, c) in enumerate(lines):
        for d, e, f in lines[:number]:
            if a * e != b * d:
                x, y = Fraction(c * e - b * f, a * e - b * d), Fraction(a * f - c * d, a * e - b * d)
                if x >= 0 and y >= 0 and all(p * x + q * y <= 1 for p, q in patterns):
                    best = max(best, wanted[0] * x + wanted[1] * y)
    assert Fraction(found.worth, found.over) == best


@given(st.data(), st.booleans())
def test_patterns_that_come_later_count_as_if_they_had_been_there(data, is_careful):
    kinds = data.draw(st.integers(1, 6))
    patterns = st.lists(st.integers(0, 4), min_size=kinds, max_size=kinds)
    first, later = ([*data.draw(st.lists(patterns, max_size=5))] for _ in range(2))
    first += [[int(place == kind) for place in range(kinds)] for kind in range(kinds)]
    wanted = data.draw(st.lists(st.integers(0, 9), min_size=kinds, max_size=kinds))
    limits = data.draw(st.lists(st.integers(0, 7), min_size=len(first), max_size=len(first)))
    with pytest.MonkeyPatch.context() as patch:
        if is_careful:
            patch.setattr("layouts.cutting.simplex.QUICK_PIVOTS", 0)
        program = Program(wanted)
        for pattern, limit in zip(first, limits, strict=True):
            program.limit(pattern, limit)
        for number, pattern in enumerate(later, start=1):
            program.dearest()
            program.limit(pattern)
            found = program.dearest()
            at_once = _dearest([*first, *later[:number]], wanted, [*limits, *([1] * number)])
            assert Fraction(found.worth, found.over) == Fraction(at_once.worth, at_once.over)
            assert min(found.of) >= 0
            assert sum(price * count for price, count in zip(found.of, wanted, strict=True)) == found.worth
            for kept, limit in zip([*first, *later[:number]], [*limits, *([1] * number)], strict=True):
                assert sum(p * count for p, count in zip(found.of, kept, strict=True)) <= limit * found.over


def test_quick_pivots_and_careful_ones_agree(monkeypatch):
    patterns, wanted = [[2, 0, 1], [0, 3, 1], [1, 2, 0], [0, 0, 4], [1, 1, 1]], [4, 3, 5]
    quick = _dearest(patterns, wanted)
    monkeypatch.setattr("layouts.cutting.simplex.QUICK_PIVOTS", 0)
    careful = _dearest(patterns, wanted)
    assert Fraction(quick.worth, quick.over) == Fraction(careful.worth, careful.over)


def test_several_sizes_of_sheet_are_priced_beside_the_pieces():
    # Two sizes of sheet, one of each: a large one gives two pieces, a small one gives one. Rows: pattern minus the
    # price of its sheet; the last one: both sheets together are worth 1. Three pieces are worth 1 at 1/3 each.
    found = _dearest([[2, -1, 0], [1, 0, -1], [0, 1, 1]], [3, 0, 0], [0, 0, 1])
    assert Fraction(found.worth, found.over) == 1
    assert [Fraction(price, found.over) for price in found.of] == [Fraction(1, 3), Fraction(2, 3), Fraction(1, 3)]
