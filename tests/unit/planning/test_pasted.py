"""Cutting lists that are pasted: rows of a spreadsheet, lines of words, and what is no piece."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from kits.planning.pasted import MOST_LINES, prints_in, read_pasted
from layouts.document import read_kit
from tests.services.planning_cast import box_bytes

KIT = read_kit(box_bytes())
LETTERS = [chr(code) for code in range(ord("C"), ord("Z") + 1)] + [f"Z{number}" for number in range(900)]


def _read(text: str) -> list[Any]:
    return list(read_pasted(text, KIT, KIT.projects[0], iter(LETTERS)))


def _piece(text: str) -> dict[str, Any]:
    (one,) = _read(text)
    assert one.wrong == ""
    piece: dict[str, Any] = one.as_piece()
    return piece


def _made(id_: str, name: str, width: str, height: str, count: int = 1, **more: str) -> dict[str, Any]:
    return {"id": id_, "name": name, "size": [width, height], "count": count, "side": "front", **more}


END = _made("D", "end picture", "3 1/2", "4 1/2", 2, paper="slate")


@pytest.mark.parametrize(
    ("line", "piece"),
    [
        pytest.param("D\tend picture\t3 1/2\t4 1/2\t2\tSlate", END, id="a row of a spreadsheet"),
        pytest.param("D;end picture;3,5;4.5;2", _made("D", "end picture", "3,5", "4.5", 2), id="parted by semicolons"),
        pytest.param("mat | 5 x 3 | Kelp | 4", _made("C", "mat", "5", "3", 4, paper="kelp"), id="by strokes, a size"),
        pytest.param("rim\t\t6¾\t½ in\t\tSAND", _made("C", "rim", "6¾", "½ in", paper="kelp", side="back"), id="back"),
        pytest.param("D end picture 3 1/2 x 4 1/2, 2 of Slate", END, id="words"),
        pytest.param("2 x long strip, 7 × 1/2", _made("C", "long strip", "7", "1/2", 2), id="a count first"),
        pytest.param(
            "Cut 4: F: short strip 12 mm by 76 mm from kelp",
            _made("F", "short strip", "12 mm", "76 mm", 4, paper="kelp"),
            id="cut 4",
        ),
        pytest.param('AB - base (3-1/2 X 2")', _made("AB", "base", "3-1/2", '2"'), id="hyphens and marks"),
        pytest.param("a lid 6 x 4", _made("C", "a lid", "6", "4"), id="a small letter is a word"),
        pytest.param("6 x 4", _made("C", "piece", "6", "4"), id="nothing but a size"),
    ],
)
def test_a_line_is_read_as_a_piece(line, piece):
    assert _piece(line) == piece


@pytest.mark.parametrize(
    ("line", "wrong"),
    [
        pytest.param("end picture", "no size is in it, such as 6 3/4 x 4 3/4", id="no size"),
        pytest.param("D\tend picture\t3 1/2", "two lengths are needed, width and height", id="one length"),
        pytest.param("A\tfront\t3\t4", "A is there already", id="a letter of the project"),
        pytest.param("D lid 0 x 4", "a side is nothing long", id="nothing long"),
        pytest.param("D lid 6 x 4, 0 of slate", "a count is 1 to 10,000, not 0", id="none of them"),
    ],
)
def test_a_line_that_is_no_piece_says_why(line, wrong):
    (one,) = _read(line)
    assert (one.wrong, one.text) == (wrong, line)


def test_headings_and_empty_lines_are_passed_over_and_lines_keep_their_numbers():
    found = _read("letter\tpiece\twidth\theight\tcount\n\nD\tend\t1\t2\t1\n  \nrim 3 x 4\n")
    assert [(one.number, one.letter) for one in found] == [(3, "D"), (5, "C")]


def test_pieces_without_a_letter_get_the_free_ones_in_order():
    assert [one.letter for one in _read("x 1 x 1\nC y 1 x 1\nz 1 x 1\nw 1 x 1")] == ["D", "C", "E", "F"]


def test_a_letter_that_stands_twice_is_told_at_the_second():
    assert [one.wrong for one in _read("D x 1 x 1\nd\ty\t1\t1\nD y 1 x 1")] == ["", "", "D is there already"]


def test_a_list_too_long_says_where_it_ends():
    found = _read("x 1 x 1\n" * (MOST_LINES + 5))
    assert len(found) == MOST_LINES + 1
    assert found[-1].wrong == f"this and what follows: more than {MOST_LINES} lines"


@given(st.text(alphabet='ABx× \t\n;|,.0123456789/¾inmc"-()of', max_size=120))
def test_whatever_is_pasted_is_read_or_told(text):
    for one in _read(text):
        assert bool(one.wrong) != bool(one.letter and one.name and one.width and one.height)


@pytest.mark.parametrize(
    ("text", "names"),
    [
        pytest.param("A front 6 x 4, 2 of Kelp\nB rear 6 x 4, 1 of kelp", ("Kelp",), id="of, once in small letters"),
        pytest.param("A front 6 x 4 from Sea glass", ("Sea glass",), id="from, of two words"),
        pytest.param("A front from Kelp 6 x 4", ("Kelp",), id="before the size"),
        pytest.param("A front, 6 x 4, Kelp", ("Kelp",), id="at the end"),
        pytest.param("A front 6 x 4, on the left", (), id="small words"),
        pytest.param("A front 6 x 4", (), id="none"),
        pytest.param("A\tfront\t6\t4\t2\tKelp", ("Kelp",), id="the last words of a row"),
        pytest.param("A\tfront\t6\t4\t2", (), id="a row with a name alone"),
        pytest.param(
            "letter\tprint\tname\twidth\theight\nA\tKelp\tfront\t6\t4\nB\t\trear\t6\t4", ("Kelp",), id="a column"
        ),
        pytest.param("nothing at all", (), id="no list"),
    ],
)
def test_names_of_prints_are_looked_for_in_a_list_whose_kit_has_none(text, names):
    assert prints_in(text) == names
