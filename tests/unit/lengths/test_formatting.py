"""How lengths are written."""

from __future__ import annotations

from fractions import Fraction

import pytest

from layouts.lengths import Length, in_inches, in_millimetres, mixed_number

INCH, MM = 8128, 320


@pytest.mark.parametrize(
    ("value", "expected"),
    [
        pytest.param(Fraction(0), "0", id="nothing"),
        pytest.param(Fraction(3), "3", id="whole"),
        pytest.param(Fraction(7, 8), "7/8", id="a fraction alone"),
        pytest.param(Fraction(23, 8), "2 7/8", id="mixed"),
        pytest.param(Fraction(12, 16), "3/4", id="lowest terms"),
        pytest.param(Fraction(16, 16), "1", id="16/16 carries"),
        pytest.param(Fraction(48, 16), "3", id="2 16/16 never prints"),
        pytest.param(Fraction(129, 64), "2 1/64", id="64ths"),
    ],
)
def test_a_mixed_number_is_in_lowest_terms(value, expected):
    assert mixed_number(value) == expected


@pytest.mark.parametrize("sixteenths", range(65))
def test_inches_are_in_lowest_terms(sixteenths):
    text = in_inches(sixteenths * INCH // 16)
    whole, _, fraction = text.rpartition(" ") if "/" in text else (text, "", "0/1")
    over, under = map(int, fraction.split("/"))
    assert Fraction(int(whole or 0)) + Fraction(over, under) == Fraction(sixteenths, 16)
    assert over == 0 or (over < under and over % 2 == 1)


@pytest.mark.parametrize(
    ("ticks", "expected"),
    [
        pytest.param(0, "0", id="nothing"),
        pytest.param(1, "0.003125", id="one tick"),
        pytest.param(127, "0.396875", id="1/64 in"),
        pytest.param(3200, "10", id="a whole number keeps its zero"),
        pytest.param(32_000, "100", id="two zeros"),
        pytest.param(32, "0.1", id="a tenth"),
        pytest.param(160, "0.5", id="a half"),
        pytest.param(23_368, "73.025", id="2 7/8 in"),
        pytest.param(3_200_000, "10000", id="10 m, no thousands mark"),
        pytest.param(319, "0.996875", id="one tick less than a millimetre"),
    ],
)
def test_millimetres_are_exact_without_trailing_zeros(ticks, expected):
    assert in_millimetres(ticks) == expected


@pytest.mark.parametrize(
    ("text", "read_in", "written_in", "expected"),
    [
        pytest.param("2⅞", "in", "in", "2 7/8", id="vulgar fraction"),
        pytest.param("2-7/8", "in", "in", "2 7/8", id="hyphen"),
        pytest.param("2,875", "in", "in", "2 7/8", id="decimal inches become a fraction"),
        pytest.param("46/16", "in", "in", "2 7/8", id="lowest terms, whole number apart"),
        pytest.param("16/16", "in", "in", "1", id="a whole number of inches"),
        pytest.param('2 7/8"', "in", "in", "2 7/8", id="the unit goes where it is the document's"),
        pytest.param('2 7/8"', "mm", "mm", "2 7/8 in", id="a quote becomes in"),
        pytest.param("2 7/8″", "mm", "mm", "2 7/8 in", id="a double prime becomes in"),
        pytest.param("2 7/8", "in", None, "2 7/8 in", id="the unit is always written where none is the document's"),
        pytest.param("73.50", "mm", "mm", "73.5", id="trailing zero"),
        pytest.param("73,5", "mm", "mm", "73.5", id="comma"),
        pytest.param("7.35 cm", "mm", "mm", "73.5", id="cm becomes mm, which is the document's"),
        pytest.param("7.35cm", "in", "in", "73.5 mm", id="cm becomes mm, which is not the document's"),
        pytest.param("73mm", "in", "in", "73 mm", id="one space before the unit"),
        pytest.param("25.4 mm", "in", "in", "25.4 mm", id="the system it was written in is kept"),
        pytest.param("1 in", "mm", "mm", "1 in", id="the system it was written in is kept, inches"),
        pytest.param("0 mm", "in", "in", "0", id="zero has no system, mm"),
        pytest.param("0/64 in", "mm", "mm", "0", id="zero has no system, in"),
        pytest.param("0", "in", None, "0", id="zero never has a unit"),
    ],
)
def test_the_canonical_text(text, read_in, written_in, expected):
    assert Length.of(text, read_in).text(written_in) == expected


@pytest.mark.parametrize(
    ("length", "expected"),
    [
        pytest.param(Length(-1016, "in"), "-1/8 in", id="inches"),
        pytest.param(Length(-23_368, "in"), "-2 7/8 in", id="a mixed fraction"),
        pytest.param(Length(-160, "mm"), "-0.5 mm", id="millimetres"),
    ],
)
def test_differences_below_zero_are_written_with_a_minus(length, expected):
    assert length.text() == expected
    assert Length.of(expected) == length


def test_inches_that_are_no_64th_are_written_as_exact_millimetres():
    """Such a length is only ever a sum: what is read in inches lies on 64ths, for 8128 = 64 × 127."""
    assert Length(1, "in").text("in") == "0.003125 mm"
    assert Length(127, "in").text("in") == "1/64"
