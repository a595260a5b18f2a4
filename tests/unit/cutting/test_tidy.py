from __future__ import annotations

import pytest

from layouts.cutting.rough import Laid, Split, Waste, laid, row
from layouts.cutting.tidy import in_rows, tidied

A, B = Laid(4, 6, 0), Laid(3, 6, 1)


@pytest.mark.parametrize(
    ("untidy", "tidy"),
    [
        pytest.param(row("x", [Waste(3, 6), row("y", [Waste(2, 1), Waste(2, 5)])]), Waste(5, 6), id="waste alone"),
        pytest.param(row("x", [Waste(2, 6), A]), row("x", [A, Waste(2, 6)]), id="waste goes last"),
        pytest.param(
            row("x", [A, Waste(1, 6), B, Waste(2, 6)]), row("x", [A, B, Waste(3, 6)]), id="waste of a row is one part"
        ),
        pytest.param(row("x", [A, row("x", [B, A])]), row("x", [A, B, A]), id="a row within a row"),
        pytest.param(row("x", [A, Waste(0, 6)]), A, id="nothing beside it"),
        pytest.param(
            row("x", [row("y", [A, Waste(4, 2)]), row("y", [B, Waste(3, 2)])]),
            row("y", [row("x", [A, B]), Waste(7, 2)]),
            id="waste beyond both is cut off once",
        ),
        pytest.param(
            row("x", [row("y", [A, Waste(4, 2)]), row("y", [B, Waste(3, 2)]), Waste(2, 8)]),
            row("y", [row("x", [A, B, Waste(2, 6)]), Waste(9, 2)]),
            id="and before what lies beside them",
        ),
        pytest.param(
            row("x", [row("y", [A, Waste(4, 9)]), Waste(1, 15)]),
            row("y", [row("x", [A, Waste(1, 6)]), Waste(5, 9)]),
            id="one piece in a corner leaves the larger offcut whole",
        ),
        pytest.param(
            row("x", [row("y", [A, Waste(4, 1)]), Waste(9, 7)]),
            row("x", [row("y", [A, Waste(4, 1)]), Waste(9, 7)]),
            id="and stays where that is so already",
        ),
    ],
)
def test_tidied(untidy, tidy):
    assert tidied(untidy) == tidy


def test_different_heights_share_what_they_have_in_common():
    # 4 x 6 under 3 of waste and 3 x 8 under 1: one long cut, then one short one over the lower piece.
    tall = Laid(3, 8, 1)
    untidy = row("x", [row("y", [A, Waste(4, 3)]), row("y", [tall, Waste(3, 1)])])
    assert tidied(untidy) == row("y", [row("x", [row("y", [A, Waste(4, 2)]), tall]), Waste(7, 1)])


def test_pieces_and_size_stay():
    untidy = row("y", [row("x", [Waste(1, 6), A, B]), row("x", [B, Waste(5, 6)]), Waste(8, 0)])
    tidy = tidied(untidy)
    assert isinstance(tidy, Split)
    assert (tidy.width, tidy.height) == (8, 12)
    assert [piece.kind for piece in laid(tidy)] == [0, 1, 1]


def test_parts_that_make_no_rectangle_are_no_row():
    with pytest.raises(ValueError, match="different heights"):
        row("x", [Laid(4, 6, 0), Laid(3, 5, 1)])


C = Laid(4, 2, 2)


@pytest.mark.parametrize(
    ("mixed", "ordered"),
    [
        pytest.param(row("x", [B, A, B, Waste(1, 6)]), row("x", [A, B, B, Waste(1, 6)]), id="the longest first"),
        pytest.param(row("x", [A, B, A]), row("x", [A, A, B]), id="the last needs no setting of its own"),
        pytest.param(row("x", [B, A, B]), row("x", [B, B, A]), id="even if it is the longest"),
        pytest.param(
            row("x", [A, Laid(4, 6, 3), A, Waste(1, 6)]), row("x", [A, A, Laid(4, 6, 3), Waste(1, 6)]), id="equal",
        ),
        pytest.param(row("y", [C, A, C]), row("y", [C, C, A]), id="one above the other"),
        pytest.param(
            row("y", [row("x", [B, A, B]), Waste(10, 1)]), row("y", [row("x", [B, B, A]), Waste(10, 1)]), id="within",
        ),
        pytest.param(A, A, id="a piece"),
    ],
)  # fmt: skip
def test_equal_parts_stand_side_by_side(mixed, ordered):
    assert in_rows(mixed) == ordered
