"""Offcuts that a piece could be cut again from: their letters, and their marks on a sheet. Sheets of 100 by 80 mm."""

from __future__ import annotations

import pytest

from layouts.drawing import Mark, OffcutLetters, sheet_drawing
from layouts.drawing.marks import mark_boxes
from layouts.drawing.svg import Box
from tests.unit.drawing.reading import texts
from tests.unit.proofing.small_prints import MM, kit_of, paper, piece, project


def _source(sheet, x, y, width, height):
    return {"sheet": sheet, "x": x * MM, "y": y * MM, "width": width * MM, "height": height * MM}


def _answer(*sources, sheets=1, of="oak"):
    pieces = [{"at": f"project:p/piece:P{number}", "from": source} for number, source in enumerate(sources)]
    return {"paper": of, "plan": [None] * sheets, "spare": {"score": "0.000", "pieces": pieces}}


RIGHT, LEFT = _source(1, 70, 0, 30, 80), _source(1, 0, 40, 70, 40)


def test_letters_go_from_the_last_and_pass_over_those_of_pieces_and_forms():
    letters = OffcutLetters(kit_of(project(piece("Z", "10", "10"), piece("x", "10", "10"))), [_answer(RIGHT, LEFT)])
    # By sheet, then from the left: Y, then W, since Z and X are pieces.
    assert (letters.of("oak", LEFT), letters.of("oak", RIGHT)) == ("Y", "W")


def test_one_offcut_has_one_letter_however_many_pieces_it_gives():
    letters = OffcutLetters(kit_of(), [_answer(RIGHT, RIGHT, None, LEFT)])
    assert [mark.letter for mark in letters.on("oak", 1)] == ["Z", "Y"]


def test_letters_differ_over_all_prints_of_a_kit():
    answers = [_answer(RIGHT), _answer(RIGHT, of="fern")]
    letters = OffcutLetters(kit_of(papers=[paper(), paper("fern")]), answers)
    assert (letters.of("oak", RIGHT), letters.of("fern", RIGHT)) == ("Z", "Y")


def test_after_the_last_letter_they_go_on_with_numbers():
    many = [_source(1, x, 0, 2, 80) for x in range(30)]
    letters = OffcutLetters(kit_of(project(piece("Y2", "10", "10"))), [_answer(*many)])
    assert [letters.of("oak", one) for one in many[22:28]] == ["B", "A", "Z2", "X2", "W2", "V2"]


def test_a_sheet_that_is_not_touched_has_no_letter():
    whole = _source(2, 0, 0, 100, 80)
    letters = OffcutLetters(kit_of(), [_answer(whole)])
    assert (letters.of("oak", whole), letters.on("oak", 2)) == ("", ())


@pytest.mark.parametrize("spare", [{}, {"spare": None}], ids=["an older proof", "a print that is short"])
def test_a_print_without_spare_has_no_letters(spare):
    assert OffcutLetters(kit_of(), [{"paper": "oak", "plan": [], **spare}]).on("oak", 1) == ()


def test_a_mark_turns_over_with_its_sheet():
    # 30 of 100 at the right are 30 at the left.
    assert Mark("Z", Box(70, 5, 30, 60)).seen_from_behind(100) == Mark("Z", Box(0, 5, 30, 60))


def test_a_letter_keeps_clear_of_what_is_written():
    mark, unit = Mark("Z", Box(0, 0, 8000, 1600)), 100
    (free,) = mark_boxes([mark], [], unit)
    assert mark.box.holds(free)
    (moved,) = mark_boxes([mark], [free], unit)
    assert mark.box.holds(moved)
    assert not moved.overlaps(free)


def test_marks_are_hatched_both_ways_and_lettered():
    kit = kit_of(project(piece("A", "70", "80")))
    here = {"x": 0, "y": 0, "width": 70 * MM, "height": 80 * MM, "piece": "project:p/piece:A", "copy": 1, "turn": 0}
    rest = {"x": 70 * MM, "y": 0, "width": 30 * MM, "height": 80 * MM, "offcut": True}
    cut = {"along": "x", "at": 70 * MM}
    tree = {"x": 0, "y": 0, "width": 100 * MM, "height": 80 * MM, "cut": cut, "parts": [here, rest]}
    marks = OffcutLetters(kit, [_answer(RIGHT)]).on("oak", 1)
    svg = sheet_drawing(kit, {"sheet": 1, "tree": tree}, name="s", title="t", marks=marks)
    assert texts(svg) == ["Z", "A"]
    # The area of the offcut, in tenths of a millimetre, and no style of any kind.
    assert '<rect x="700" y="0" width="300" height="800" fill="url(#s-cut-again)"' in svg
    assert "style" not in svg
    assert "s-cut-again" not in sheet_drawing(kit, {"sheet": 1, "tree": tree}, name="s", title="t")
