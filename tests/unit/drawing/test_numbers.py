"""Where the numbers of cuts stand: each visible, at its own line, and clear of letters where that can be."""

from __future__ import annotations

from hypothesis import given

from layouts.cutting.sequence import cuts_of
from layouts.drawing.numbers import Bubble, number_spots
from layouts.drawing.svg import Box
from tests.properties.test_sequence import trees
from tests.unit.cutting.trees import cut, offcut, piece

# A sheet 100 by 80: a column of 60 with a level cut at 50, the strip beyond it cut at 70.
LEFT = cut("y", 50, piece("A", 0, 0, 60, 50), piece("B", 0, 50, 60, 30))
SHEET = Box(0, 0, 100, 80)
TREE = cut("x", 60, LEFT, cut("x", 70, piece("C", 60, 0, 10, 80), offcut(70, 0, 30, 80)))


def _spots(written: list[Box], radius: int = 4) -> dict[int, Bubble]:
    return {bubble.number: bubble for bubble in number_spots(cuts_of(TREE), SHEET, written, radius=radius)}


def test_numbers_stand_outside_where_their_cut_ends_at_an_edge():
    spots = _spots([])
    assert (spots[1].x, spots[1].y) == (60, -4)
    assert (spots[2].x, spots[2].y) == (70, -4)  # 10 from the other, and both are 8 wide
    assert (spots[3].x, spots[3].y) == (-4, 50)  # its other end is at the edge


def test_a_number_outside_is_reached_by_its_line():
    assert _spots([])[1].line == ((60, -4), (60, 80))


def test_numbers_that_would_hide_each_other_stand_further_out():
    spots = _spots([], radius=8)
    assert (spots[1].y, spots[2].y) == (-8, 88)  # the other end
    assert {spots[1].x, spots[2].x} == {60, 70}


def test_a_number_whose_cut_ends_within_stands_on_its_line():
    inner = cut("x", 30, piece("A", 0, 20, 30, 40), piece("B", 30, 20, 70, 40))
    tree = cut("y", 20, piece("C", 0, 0, 100, 20), cut("y", 60, inner, piece("D", 0, 60, 100, 20)))
    last = number_spots(cuts_of(tree), SHEET, [], radius=4)[-1]
    assert (last.x, last.y) == (30, 24)
    assert last.line == ((30, 20), (30, 60))  # a line that went on would look like a longer cut


def test_numbers_keep_clear_of_letters():
    inner = cut("x", 30, piece("A", 0, 20, 30, 40), piece("B", 30, 20, 70, 40))
    tree = cut("y", 20, piece("C", 0, 0, 100, 20), cut("y", 60, inner, piece("D", 0, 60, 100, 20)))
    letter = Box(31, 18, 6, 10)
    last = number_spots(cuts_of(tree), SHEET, [letter], radius=4)[-1]
    assert last.x == 30
    assert last.y >= 31  # the letter reaches up to 28, 1 to the right of the line


def test_a_number_that_has_no_room_at_its_cut_stands_outside_with_a_leader():
    """The cut at 30 runs from 20 to 60, all of it beside words; straight below its lower end the edge is nearer."""
    inner = cut("x", 30, piece("A", 0, 20, 30, 40), piece("B", 30, 20, 70, 40))
    tree = cut("y", 20, piece("C", 0, 0, 100, 20), cut("y", 60, inner, piece("D", 0, 60, 100, 20)))
    last = number_spots(cuts_of(tree), SHEET, [Box(31, 12, 6, 56)], radius=4)[-1]
    assert (last.x, last.y) == (30, -4)
    assert last.line == ((30, 20), (30, 60))
    assert last.leader == ((30, 20), (30, -4))


def test_a_number_at_its_cut_has_no_leader():
    assert all(bubble.leader is None for bubble in _spots([]).values())


@given(tree=trees())
def test_every_cut_has_its_number_once(tree):
    sheet = Box(0, 0, tree["width"], tree["height"])
    bubbles = number_spots(cuts_of(tree), sheet, [], radius=2)
    assert [bubble.number for bubble in bubbles] == list(range(1, len(bubbles) + 1))
