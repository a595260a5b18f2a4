"""Measures typed into step text: what counts as one, and what only looks like one.

Fractions: check values 1.5 (which vulgar fractions exist; the fraction slash; 2½ is 5/2 and never 21/2).
"""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from layouts.assembly import typed_numbers

_INCH, _MM = 8128, 320


@pytest.mark.parametrize(
    ("text", "typed", "ticks"),
    [
        pytest.param("a border of 3/4 all round", "3/4", Fraction(3, 4) * _INCH, id="a bare fraction"),
        pytest.param("cut 1 3/4 high", "1 3/4", Fraction(7, 4) * _INCH, id="a mixed one"),
        pytest.param("cut 2-1/2 in", "2-1/2 in", Fraction(5, 2) * _INCH, id="with a hyphen"),
        pytest.param("cut 2⅞ high", "2⅞", Fraction(23, 8) * _INCH, id="a vulgar fraction"),
        pytest.param("cut 2 ½ high", "2 ½", Fraction(5, 2) * _INCH, id="a vulgar fraction after a blank"),
        pytest.param("cut 2½ high", "2½", Fraction(5, 2) * _INCH, id="never 21/2"),
        pytest.param("leave 1⁄16 free", "1⁄16", Fraction(1, 16) * _INCH, id="the fraction slash"),
        pytest.param("leave ⅓ free", "⅓", Fraction(1, 3) * _INCH, id="between two ticks"),
        pytest.param("leave ½ mm", "½ mm", Fraction(1, 2) * _MM, id="a fraction with its unit"),
        pytest.param('cut 15/16" high', '15/16"', Fraction(15, 16) * _INCH, id="the inch sign"),
        pytest.param("cut 3 in high", "3 in", 3 * _INCH, id="inches"),
        pytest.param("cut 3in high", "3in", 3 * _INCH, id="without a blank"),
        pytest.param("a 3-inch strip", "3-inch", 3 * _INCH, id="as an adjective"),
        pytest.param("a 2-in-wide strip", "2-in", 2 * _INCH, id="as part of one"),
        pytest.param("cut 3 inches each", "3 inches", 3 * _INCH, id="inches each"),
        pytest.param("cut it 3″ high", "3″", 3 * _INCH, id="the double prime"),
        pytest.param("cut it 3” high", "3”", 3 * _INCH, id="a curly sign"),
        pytest.param("cut 2.5 in the middle", "2.5 in", Fraction(5, 2) * _INCH, id="a decimal is no count"),
        pytest.param("cut 1/2 in the middle", "1/2 in", Fraction(1, 2) * _INCH, id="nor is a fraction"),
        pytest.param("fold 73 mm up", "73 mm", 73 * _MM, id="millimetres"),
        pytest.param("fold 7,3 cm up", "7,3 cm", 73 * _MM, id="centimetres, with a comma"),
        pytest.param("fold 73 millimetres up", "73 millimetres", 73 * _MM, id="written out"),
        pytest.param("fold 73 MM up", "73 MM", 73 * _MM, id="in capitals"),
        pytest.param("a strip of 2 in.", "2 in", 2 * _INCH, id="at the end of a sentence"),
        pytest.param("2 in from the left", "2 in", 2 * _INCH, id="in from an edge"),
        pytest.param("leave 1 in all round", "1 in", _INCH, id="in all round"),
        pytest.param("leave 1 in either side", "1 in", _INCH, id="in either side"),
        pytest.param("write {{3/4}}", "3/4", Fraction(3, 4) * _INCH, id="in doubled braces"),
        pytest.param("cut 1/0 off", "1/0", None, id="no number at all"),
        pytest.param("cut 12345678901 mm off", "12345678901 mm", None, id="more digits than anyone means"),
    ],
)
def test_a_measure_is_found(text, typed, ticks):
    (found,) = typed_numbers(text)

    assert (found.text, found.ticks) == (typed, ticks)
    assert text[found.start : found.end] == typed


@pytest.mark.parametrize(
    "text",
    [
        pytest.param("Hold for 60 seconds, 2 min or 1/2 hour.", id="times"),
        pytest.param("Glue 2 in each corner.", id="in each"),
        pytest.param("Put 4 in the corners, 2 in a row, 3 in all.", id="in the, in a, in all"),
        pytest.param("Fold 2 in half and 2 in turn.", id="in half, in turn"),
        pytest.param("Glue 2 in {A}.", id="in a thing that is referred to"),
        pytest.param("Glue 2 in B.", id="in a piece"),
        pytest.param("Set 6 in 2 rows.", id="in 2 rows"),
        pytest.param("Slip 2 inside and 2 into it.", id="words that begin with in"),
        pytest.param("a 2-in-1 tool", id="two in one"),
        pytest.param("Cut {A.width} in and {A.height} mm.", id="figures the sheet fills in"),
        pytest.param("Fold 4 panels, A4, the 3rd of 5.", id="counts and names"),
        pytest.param("3/4/2027 is a date", id="a date"),
        pytest.param('the panel marked "side 2" and “side 3”', id="quotations that end with a number"),
        pytest.param("Glue the 4 feet.", id="feet are feet"),
        pytest.param("", id="nothing"),
    ],
)
def test_what_only_looks_like_a_measure_is_left_alone(text):
    assert typed_numbers(text) == ()


@pytest.mark.parametrize(
    ("text", "typed"),
    [
        ("Trim to 6 × 4 in.", ["6", "4 in"]),
        ("Trim to 6 by 4 mm.", ["6", "4 mm"]),
        ('Trim to 6" x 4".', ['6"', '4"']),
        ("Trim to 1/2 x 2 cm.", ["1/2", "2 cm"]),
        ("6 by 4 panels", []),
        ('a 2" strip, marked "left 2", 3" high', ['2"', '3"']),
        ("{A} 3/4 in and {B.width}1/2", ["3/4 in", "1/2"]),
    ],
)
def test_measures_are_found_beside_each_other(text, typed):
    assert [number.text for number in typed_numbers(text)] == typed


def test_a_number_before_times_has_the_unit_of_the_one_after():
    first, second = typed_numbers("6 × 4 cm")

    assert (first.system, second.system) == ("mm", "mm")
    assert [first.ticks, second.ticks] == [60 * _MM, 40 * _MM]


@given(st.text(alphabet='0123456789/.,-"″½⅞ inmx×{}Aa\n', max_size=40))
def test_any_text_is_read_and_spans_lie_in_it_in_turn(text):
    end = 0
    for number in typed_numbers(text):
        assert end <= number.start < number.end <= len(text)
        assert number.text == text[number.start : number.end]
        assert "{" not in number.text
        end = number.end
