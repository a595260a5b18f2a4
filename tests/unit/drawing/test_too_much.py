"""What is too much for the sheets of a print, drawn beside them at one scale. Sheets of 100 by 80 mm."""

from __future__ import annotations

import pytest

from layouts.drawing.too_much import TooMuch, too_much_drawing
from tests.unit.drawing.reading import read, texts

MM = 320


def _drawn(*pieces: tuple[str, int, int, int], sheets: int = 1, sheet: tuple[int, int] = (100, 80)) -> str:
    told = [TooMuch(letter, width * MM, height * MM, copies) for letter, width, height, copies in pieces]
    size = (sheet[0] * MM, sheet[1] * MM)
    return too_much_drawing(size, sheets, told, str, name="n", title="two of A")


def _boxes(svg: str) -> list[tuple[bool, float, float]]:
    """Whether it is a sheet, which is an outline of broken lines, and its size in tenths of a millimetre."""
    return [("stroke-dasharray" in one, one.width, one.height) for one in read(svg, "rect")]


def test_sheets_and_pieces_are_drawn_at_one_scale_each_copy_with_its_letter():
    svg = _drawn(("A", 60, 50, 2), ("B", 30, 70, 1), sheets=2)
    assert _boxes(svg) == [(True, 1000, 800)] * 2 + [(False, 600, 500)] * 2 + [(False, 300, 700)]
    assert texts(svg) == ["A", "A", "B"]
    assert "<title" in svg
    assert "two of A" in svg


def test_nothing_lies_over_anything_else_or_outside():
    svg = _drawn(("A", 90, 30, 5), ("B", 40, 40, 3), sheets=3)
    boxes = [(one.x, one.y, one.x + one.width, one.y + one.height) for one in read(svg, "rect")]
    for at, (left, top, right, bottom) in enumerate(boxes):
        for other in boxes[at + 1 :]:
            assert right <= other[0] or other[2] <= left or bottom <= other[1] or other[3] <= top
    left, top, width, height = map(float, read(svg, "svg")[0]["viewBox"].split())
    for box in boxes:
        assert left <= box[0] < box[2] <= left + width
        assert top <= box[1] < box[3] <= top + height


@pytest.mark.parametrize(("sheets", "drawn"), [(0, 1), (1, 1), (3, 3), (50, 3)])
def test_of_many_sheets_the_first_stand_for_all(sheets, drawn):
    assert len([one for one in _boxes(_drawn(("A", 60, 50, 2), sheets=sheets)) if one[0]]) == drawn


def test_of_many_copies_the_first_are_drawn():
    assert len(texts(_drawn(("A", 20, 20, 10_000), ("B", 20, 20, 1)))) == 12


def test_a_letter_that_could_not_be_read_is_left_out():
    assert texts(_drawn(("A", 95, 1, 1), ("B", 50, 50, 1))) == ["B"]


def test_a_piece_larger_than_a_sheet_is_drawn_whole():
    assert (False, 4000, 500) in _boxes(_drawn(("A", 400, 50, 1)))
