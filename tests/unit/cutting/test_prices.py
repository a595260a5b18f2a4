from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from layouts.cutting import prices
from layouts.cutting.bounds import Bound, dual
from layouts.cutting.plates import Plates
from layouts.cutting.prices import priced
from layouts.cutting.reduced import Reduced, reduced
from layouts.cutting.rows import lengths, reachable
from layouts.cutting.simplex import dearest
from tests.unit.cutting.plans import problem


def _small(asked) -> Reduced:
    small = reduced(asked)
    assert small is not None
    return small


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
    ("asked", "each", "worth", "pattern"),
    [
        # Two rows of two 4 x 4s in 10 x 10.
        pytest.param(problem(10, 10, 9, [(4, 4, 10)]), [1], 4, [4], id="a grid"),
        # Beside a 7 x 10 stand three 3 x 3s.
        pytest.param(problem(10, 10, 9, [(7, 10, 2), (3, 3, 9)]), [5, 1], 9, [0, 9], id="the dearer of two ways"),
        pytest.param(problem(10, 10, 9, [(7, 10, 2), (3, 3, 9)]), [7, 1], 10, [1, 3], id="a mixture"),
        # The pinwheel would be five pieces on 3 x 3; cut from edge to edge, one of its bars gives way.
        pytest.param(problem(3, 3, 9, [(2, 1, 2), (1, 2, 2), (1, 1, 1)]), [2, 2, 0], 8, None, id="no pinwheel"),
    ],
)
def test_the_worth_of_a_sheet(asked, each, worth, pattern):
    small = _small(asked)
    plates = Plates(small, 10**8)
    assert plates.value(each) == worth
    found = plates.pattern()
    assert sum(price * number for price, number in zip(each, found, strict=True)) == worth
    assert pattern is None or found == pattern


def test_a_grid_too_fine_is_refused_before_any_work():
    many = problem(65_024, 65_024, 9, [(5_003 + 17 * n, 6_007 + 29 * n, 5) for n in range(60)])
    with pytest.raises(ValueError, match="pairs of plates"):
        Plates(_small(many), 10**7)
    assert priced(_small(many), 9) == Bound(0, "bound")


def test_a_worthless_sheet_has_an_empty_pattern():
    plates = Plates(_small(problem(10, 10, 9, [(4, 4, 10)])), 10**8)
    assert plates.value([0]) == 0
    assert plates.pattern() == [0]


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
    found = dearest(patterns, wanted)
    assert Fraction(found.worth, found.over) == worth
    assert sum(price * number for price, number in zip(found.of, wanted, strict=True)) == found.worth
    for pattern in patterns:
        assert sum(price * number for price, number in zip(found.of, pattern, strict=True)) <= found.over


def test_a_kind_without_a_limit_is_refused():
    with pytest.raises(ValueError, match="no pattern"):
        dearest([[1, 0]], [1, 1])


@given(st.data())
def test_prices_are_proven_best_by_the_patterns_that_limit_them(data):
    """For two kinds the best prices lie where two limits cross: all such crossings are tried, in fractions."""
    patterns = [*data.draw(st.lists(st.tuples(st.integers(0, 5), st.integers(0, 5)), max_size=4)), (1, 0), (0, 1)]
    wanted = data.draw(st.tuples(st.integers(1, 9), st.integers(1, 9)))
    found = dearest(patterns, wanted)
    lines = [(a, b, 1) for a, b in patterns] + [(1, 0, 0), (0, 1, 0)]
    best = Fraction(0)
    for number, (a, b, c) in enumerate(lines):
        for d, e, f in lines[:number]:
            if a * e != b * d:
                x, y = Fraction(c * e - b * f, a * e - b * d), Fraction(a * f - c * d, a * e - b * d)
                if x >= 0 and y >= 0 and all(p * x + q * y <= 1 for p, q in patterns):
                    best = max(best, wanted[0] * x + wanted[1] * y)
    assert Fraction(found.worth, found.over) == best


def test_quick_pivots_and_careful_ones_agree(monkeypatch):
    patterns, wanted = [[2, 0, 1], [0, 3, 1], [1, 2, 0], [0, 0, 4], [1, 1, 1]], [4, 3, 5]
    quick = dearest(patterns, wanted)
    monkeypatch.setattr("layouts.cutting.simplex.QUICK_PIVOTS", 0)
    careful = dearest(patterns, wanted)
    assert Fraction(quick.worth, quick.over) == Fraction(careful.worth, careful.over)


# Of the kit lists, proven short there: C2_0 and C2_24. Area and pairs of functions allow the sheets there are.
SHORT = [
    pytest.param(problem(32, 32, 2, [(20, 19, 2), (10, 13, 4), (8, 8, 8), (3, 10, 1), (3, 7, 8)]), id="C2_0"),
    pytest.param(problem(64, 64, 1, [(43, 16, 4), (19, 16, 4), (19, 5, 1)], turn=True), id="C2_24"),
]


@pytest.mark.parametrize("asked", SHORT)
def test_prices_prove_what_neither_area_nor_functions_do(asked):
    small = _small(asked)
    assert dual(small, enough=99).at_least == asked.sheets
    assert priced(small, asked.sheets) == Bound(asked.sheets + 1, "bound")


def test_prices_prove_nothing_of_a_list_that_fits():
    assert priced(_small(problem(10, 10, 1, [(5, 5, 4)])), 1) == Bound(1, "bound")


@pytest.mark.parametrize("asked", SHORT)
def test_without_steps_nothing_is_proven(asked, monkeypatch):
    monkeypatch.setattr(prices, "STEPS", 0)
    assert priced(_small(asked), asked.sheets).at_least <= asked.sheets


def test_lists_of_too_many_kinds_are_not_priced():
    assert priced(_small(problem(500, 500, 1, [(30 + n, 40, 1) for n in range(70)])), 1) == Bound(0, "bound")
