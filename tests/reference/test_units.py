"""Units against values from outside the project."""

from __future__ import annotations

from fractions import Fraction

import pytest

from layouts.lengths import TICKS_PER_INCH, TICKS_PER_MM, Length, in_inches, in_millimetres
from layouts.rounding import nearest_step

INCH, MM = TICKS_PER_INCH, TICKS_PER_MM


def test_the_inch_is_25_4_mm_exactly():
    """24 FR 5348 (FR Doc 59-5442, 1 July 1959), yard = 0.9144 m exactly; NIST HB 44 App. C; NIST SP 811 App. B.8."""
    assert Length.of("1 in").mm == Fraction(254, 10) == Fraction(127, 5)
    assert 36 * Length.of("1 in") == Length.of("914.4 mm")
    assert 12 * Length.of("1 in") == Length.of("304.8 mm")  # foot: 381/1250 m
    assert Fraction(36 * INCH, 1000 * MM) == Fraction(1143, 1250)


def test_the_grid_holds_64ths_of_an_inch_and_tenths_of_a_millimetre():
    """1/64 in is 127 ticks and 0.1 mm is 32 ticks (identity)."""
    assert Length.of("1/64 in").ticks == 127
    assert Length.of("0.1 mm").ticks == 32


@pytest.mark.parametrize(
    ("inches", "mm"),
    [
        # Inch fraction to millimetres, all exact (identity).
        ("1/64", "0.396875"),
        ("1/32", "0.79375"),
        ("3/64", "1.190625"),
        ("1/16", "1.5875"),
        ("3/32", "2.38125"),
        ("1/8", "3.175"),
        ("3/16", "4.7625"),
        ("1/4", "6.35"),
        ("5/16", "7.9375"),
        ("3/8", "9.525"),
        ("7/16", "11.1125"),
        ("1/2", "12.7"),
        ("9/16", "14.2875"),
        ("5/8", "15.875"),
        ("11/16", "17.4625"),
        ("3/4", "19.05"),
        ("13/16", "20.6375"),
        ("7/8", "22.225"),
        ("15/16", "23.8125"),
        ("6", "152.4"),
        ("8", "203.2"),
        ("12", "304.8"),
        ("2 1/2", "63.5"),
        ("3 7/8", "98.425"),
        ("5 5/16", "134.9375"),
        ("7 1/2", "190.5"),
        ("11 15/16", "303.2125"),
    ],
)
def test_inch_fractions_in_millimetres(inches, mm):
    length = Length.of(inches, "in")
    assert in_millimetres(length.ticks) == mm
    assert Length.of(mm, "mm") == length
    assert in_inches(Length.of(mm, "mm").ticks) == inches


@pytest.mark.parametrize(
    ("inches", "decimal"),
    [
        # Identity.
        ("1/64", "0.015625"),
        ("1/32", "0.03125"),
        ("3/64", "0.046875"),
        ("1/16", "0.0625"),
        ("3/32", "0.09375"),
        ("1/8", "0.125"),
        ("3/16", "0.1875"),
        ("5/16", "0.3125"),
        ("3/8", "0.375"),
        ("7/16", "0.4375"),
        ("9/16", "0.5625"),
        ("5/8", "0.625"),
        ("11/16", "0.6875"),
        ("13/16", "0.8125"),
        ("7/8", "0.875"),
        ("15/16", "0.9375"),
    ],
)
def test_inch_fractions_as_decimals(inches, decimal):
    assert Length.of(decimal, "in").text("in") == inches


@pytest.mark.parametrize(
    ("mm", "inches", "residual"),
    [
        # Millimetres to the nearest 1/16 in; residual = fraction minus input, in mm (recomputed from the definition).
        ("10", "3/8", "-0.475"),
        ("15", "9/16", "-0.7125"),
        ("20", "13/16", "0.6375"),
        ("25", "1", "0.4"),
        ("50", "1 15/16", "-0.7875"),
        ("100", "3 15/16", "0.0125"),
        ("150", "5 7/8", "-0.775"),
        ("210", "8 1/4", "-0.45"),
        ("297", "11 11/16", "-0.1375"),
        ("305", "12", "-0.2"),
    ],
)
def test_millimetres_to_the_nearest_sixteenth(mm, inches, residual):
    ticks = Length.of(mm, "mm").ticks
    rounded = nearest_step(ticks, INCH // 16)
    assert in_inches(rounded) == inches
    assert Fraction(rounded - ticks, MM) == Fraction(residual)
    # Half of 1/16 in.
    assert abs(Fraction(residual)) <= Fraction("0.79375")


@pytest.mark.parametrize(
    ("name", "width", "height", "ticks"),
    [
        # ISO 216 as listed by the libpaper paperspecs file; 320 ticks a millimetre (identity).
        ("A0", "841 mm", "1189 mm", (269_120, 380_480)),
        ("A1", "594 mm", "841 mm", (190_080, 269_120)),
        ("A2", "420 mm", "594 mm", (134_400, 190_080)),
        ("A3", "297 mm", "420 mm", (95_040, 134_400)),
        ("A4", "210 mm", "297 mm", (67_200, 95_040)),
        ("A5", "148 mm", "210 mm", (47_360, 67_200)),
        ("A6", "105 mm", "148 mm", (33_600, 47_360)),
        ("A7", "74 mm", "105 mm", (23_680, 33_600)),
        ("B4", "250 mm", "353 mm", (80_000, 112_960)),
        ("B5", "176 mm", "250 mm", (56_320, 80_000)),
        ("C5", "162 mm", "229 mm", (51_840, 73_280)),
        ("C6", "114 mm", "162 mm", (36_480, 51_840)),
        # ANSI/ASME Y14.1, the same file; 8128 ticks an inch (identity).
        ("ANSI A, Letter", "8 1/2 in", "11 in", (69_088, 89_408)),
        ("ANSI B", "11 in", "17 in", (89_408, 138_176)),
    ],
)
def test_paper_sizes_in_ticks(name, width, height, ticks):
    assert (Length.of(width).ticks, Length.of(height).ticks) == ticks, name


def test_letter_is_215_9_by_279_4_mm_exactly():
    """US Letter 215.9×279.4 mm exact; "216×279" is rounded."""
    assert Length.of("8 1/2 in") == Length.of("215.9 mm")
    assert Length.of("11 in") == Length.of("279.4 mm")
    rounded = [nearest_step(Length.of(side).ticks, MM) // MM for side in ("8 1/2 in", "11 in")]
    assert rounded == [216, 279]
