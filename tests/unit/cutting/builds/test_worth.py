from __future__ import annotations

from functools import cache

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from layouts.cutting.builds.grid import Grid, TooFine
from layouts.cutting.builds.worth import NOWHERE, best_pattern, outside_worths, plate_worths
from tests.unit.cutting.builds.questions import asked


@pytest.mark.parametrize(
    ("pieces", "each", "worth", "pattern"),
    [
        # Two rows of two 4 x 4s in 10 x 10.
        pytest.param([(4, 4, 10, False)], [1], 4, [4], id="a grid"),
        # Beside a 7 x 10 stand three 3 x 3s.
        pytest.param([(7, 10, 2, False), (3, 3, 9, False)], [5, 1], 9, [0, 9], id="the dearer of two ways"),
        pytest.param([(7, 10, 2, False), (3, 3, 9, False)], [7, 1], 10, [1, 3], id="a mixture"),
        pytest.param([(3, 10, 4, False)], [0], 0, [0], id="worth nothing"),
    ],
)
def test_the_worth_of_a_sheet(pieces, each, worth, pattern):
    what = asked([(10, 10, 1)], pieces)
    grid = Grid.of(what)
    worths = plate_worths(grid, what, each)
    assert worths[grid.ends[0]] == worth
    assert best_pattern(grid, what, each, worths, grid.ends[0]) == pattern


def test_no_pinwheel_is_cut_from_edge_to_edge():
    # It would be five pieces on 3 x 3; cut from edge to edge, one of its bars gives way.
    what = asked([(3, 3, 1)], [(2, 1, 2, False), (1, 2, 2, False), (1, 1, 1, False)])
    grid = Grid.of(what)
    assert plate_worths(grid, what, [2, 2, 0])[grid.ends[0]] == 8


PIECES = st.lists(
    st.tuples(st.integers(1, 6), st.integers(1, 6), st.integers(1, 3), st.booleans()), min_size=1, max_size=4
)


def _worth_of(pieces, each):
    """The worth of any rectangle by trying every cut at every whole length."""

    @cache
    def worth(width: int, height: int) -> int:
        best = 0
        for (w, h, _, turns), price in zip(pieces, each, strict=True):
            for a, b in [(w, h), (h, w)] if turns else [(w, h)]:
                best = max(best, price if a <= width and b <= height else 0)
        for at in range(1, width // 2 + 1):
            best = max(best, worth(at, height) + worth(width - at, height))
        for at in range(1, height // 2 + 1):
            best = max(best, worth(width, at) + worth(width, height - at))
        return best

    return worth


@settings(max_examples=60)
@given(PIECES, st.tuples(st.integers(6, 11), st.integers(6, 11)), st.data())
def test_worths_are_those_of_trying_every_cut(pieces, sheet, data):
    each = data.draw(st.lists(st.integers(0, 20), min_size=len(pieces), max_size=len(pieces)))
    # So many copies that their number is no limit: the grid knows it.
    many = [(w, h, 200, turns) for w, h, _, turns in pieces]
    what = asked([(*sheet, 1)], many)
    grid = Grid.of(what)
    worths, worth = plate_worths(grid, what, each), _worth_of(tuple(many), tuple(each))
    for i, width in enumerate(grid.x.lines.tolist()):
        for j, height in enumerate(grid.y.lines.tolist()):
            assert worths[i, j] == worth(width, height)


@settings(max_examples=60)
@given(PIECES, st.data())
def test_outside_worths_are_those_of_trying_every_way_to_cut_a_plate_free(pieces, data):
    each = data.draw(st.lists(st.integers(0, 20), min_size=len(pieces), max_size=len(pieces)))
    many = [(w, h, 200, turns) for w, h, _, turns in pieces]
    sheets = [(9, 7, 2), (6, 8, 1)]
    what = asked(sheets, many)
    grid = Grid.of(what)
    worths, worth = plate_worths(grid, what, each), _worth_of(tuple(many), tuple(each))
    total = sum(worth(width, height) * copies for width, height, copies in sheets)
    free: dict[tuple[int, int], int] = {}

    def cut_free(width: int, height: int, made: int) -> None:
        if free.get((width, height), NOWHERE) >= made:
            return
        free[width, height] = made
        for less in range(1, width):
            cut_free(width - less, height, made + worth(less, height))
        for less in range(1, height):
            cut_free(width, height - less, made + worth(width, less))

    for width, height, _ in sheets:
        cut_free(width, height, total - worth(width, height))
    outside = outside_worths(grid, worths, total)
    for i, width in enumerate(grid.x.lines.tolist()):
        for j, height in enumerate(grid.y.lines.tolist()):
            # A plate between grid lines is worth what the plate at the line below is, outside it rather more.
            if width and height:
                assert outside[i, j] >= max(
                    (made for (w, h), made in free.items() if w >= width and h >= height), default=NOWHERE
                )


def test_a_grid_too_fine_is_refused_before_any_work():
    many = [(5_003 + 17 * n, 6_007 + 29 * n, 5, False) for n in range(60)]
    with pytest.raises(TooFine):
        Grid.of(asked([(65_024, 65_024, 9)], many))
