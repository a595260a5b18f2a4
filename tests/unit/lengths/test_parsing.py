"""Which texts are lengths. Expected ticks: 1 in = 8128 ticks, 1 mm = 320 ticks (identity)."""

from __future__ import annotations

import pickle
import unicodedata

import pytest

from layouts.lengths import BadLength, Length, NotALength, OffGrid, OutOfRange, parse_length

INCH, MM = 8128, 320

ACCEPTED = [
    # text, unit of the document, ticks, system
    pytest.param("2", "in", 2 * INCH, "in", id="a whole number is in the document's unit, inches"),
    pytest.param("2", "mm", 2 * MM, "mm", id="a whole number is in the document's unit, millimetres"),
    pytest.param("0", "in", 0, "in", id="zero"),
    pytest.param("0/2", "in", 0, "in", id="no halves are zero"),
    pytest.param("0.0", "mm", 0, "mm", id="zero with a point"),
    pytest.param("0,00 cm", "in", 0, "mm", id="zero with a comma and a unit"),
    pytest.param("007", "in", 7 * INCH, "in", id="zeros in front"),
    pytest.param("2.875", "in", 23368, "in", id="a decimal with a point"),
    pytest.param("2,875", "in", 23368, "in", id="a decimal with a comma, no thousand"),
    pytest.param("2.8750", "in", 23368, "in", id="a zero behind"),
    pytest.param("0.015625", "in", 127, "in", id="a 64th as a decimal"),
    pytest.param("0.003125", "mm", 1, "mm", id="one tick"),
    pytest.param("73.025", "mm", 23368, "mm", id="exact millimetres"),
    pytest.param("1/2", "in", INCH // 2, "in", id="halves"),
    pytest.param("3/4", "in", 3 * INCH // 4, "in", id="quarters"),
    pytest.param("5/8", "in", 5 * INCH // 8, "in", id="eighths"),
    pytest.param("5/16", "in", 5 * INCH // 16, "in", id="sixteenths"),
    pytest.param("7/32", "in", 7 * INCH // 32, "in", id="thirty-seconds"),
    pytest.param("63/64", "in", 63 * 127, "in", id="sixty-fourths"),
    pytest.param("29/8", "in", 29 * INCH // 8, "in", id="more eighths than eight"),
    pytest.param("16/16", "in", INCH, "in", id="sixteen sixteenths"),
    pytest.param("2 7/8", "in", 23368, "in", id="whole number, space, fraction"),
    pytest.param("2-7/8", "in", 23368, "in", id="whole number, hyphen, fraction"),
    pytest.param("2-1/2", "in", 5 * INCH // 2, "in", id="a hyphen is no minus"),
    pytest.param("0-1/2", "in", INCH // 2, "in", id="zero, hyphen, fraction"),
    pytest.param("1 10/8", "in", 9 * INCH // 4, "in", id="whole number and more eighths than eight"),
    pytest.param("2⅞", "in", 23368, "in", id="whole number and vulgar fraction"),
    pytest.param("⅞", "in", 7112, "in", id="vulgar fraction alone"),
    pytest.param("0½", "in", INCH // 2, "in", id="zero and vulgar fraction"),
    pytest.param("¼", "in", INCH // 4, "in", id="¼"),
    pytest.param("½", "in", INCH // 2, "in", id="½"),
    pytest.param("¾", "in", 3 * INCH // 4, "in", id="¾"),
    pytest.param("⅛", "in", INCH // 8, "in", id="⅛"),
    pytest.param("⅜", "in", 3 * INCH // 8, "in", id="⅜"),
    pytest.param("⅝", "in", 5 * INCH // 8, "in", id="⅝"),
    pytest.param("2½", "in", 5 * INCH // 2, "in", id="NFKC would make 21/2 of 2½"),
    pytest.param("2 in", "mm", 2 * INCH, "in", id="in, after a space"),
    pytest.param("2in", "mm", 2 * INCH, "in", id="in, without a space"),
    pytest.param('2 "', "mm", 2 * INCH, "in", id="quote, after a space"),
    pytest.param('2"', "mm", 2 * INCH, "in", id="quote, without a space"),
    pytest.param("2 ″", "mm", 2 * INCH, "in", id="double prime, after a space"),
    pytest.param("2″", "mm", 2 * INCH, "in", id="double prime, without a space"),
    pytest.param('3 5/8"', "in", 29 * INCH // 8, "in", id="a fraction and a quote"),
    pytest.param("1/16 in", "mm", 508, "in", id="a fraction of an inch in a metric document"),
    pytest.param("⅞in", "mm", 7112, "in", id="a vulgar fraction of an inch in a metric document"),
    pytest.param("2⅞″", "mm", 23368, "in", id="mixed vulgar fraction and double prime in a metric document"),
    pytest.param("73 mm", "in", 73 * MM, "mm", id="mm, after a space"),
    pytest.param("73mm", "in", 73 * MM, "mm", id="mm, without a space"),
    pytest.param("7.3 cm", "in", 73 * MM, "mm", id="cm, after a space"),
    pytest.param("7,3cm", "mm", 73 * MM, "mm", id="cm, without a space, with a comma"),
    pytest.param("10000 mm", "in", 10_000 * MM, "mm", id="the longest, 10 m"),
    pytest.param("1000 cm", "in", 10_000 * MM, "mm", id="the longest, in cm"),
    pytest.param("393 44/64 in", "in", 393 * INCH + 44 * 127, "in", id="the longest in 64ths: 9999.6625 mm"),
    pytest.param("00000000000000000007", "in", 7 * INCH, "in", id="20 characters"),
    pytest.param("0000000000000002 1/2", "in", 5 * INCH // 2, "in", id="20 characters of a mixed fraction"),
]


@pytest.mark.parametrize(("text", "unit", "ticks", "system"), ACCEPTED)
def test_what_follows_the_grammar_is_read_exactly(text, unit, ticks, system):
    length = parse_length(text, unit)
    assert (length.ticks, length.system) == (ticks, system)


REFUSED = [
    pytest.param("", id="nothing"),
    pytest.param(" ", id="a space"),
    pytest.param("in", id="a unit alone"),
    pytest.param(" 2", id="a space before"),
    pytest.param("2 ", id="a space after"),
    pytest.param("2 in ", id="a space after the unit"),
    pytest.param("2\n", id="a newline after"),
    pytest.param("2 in\n", id="a newline after the unit"),
    pytest.param("\t2", id="a tab before"),
    pytest.param("2  in", id="two spaces before the unit"),
    pytest.param("2\u00a0in", id="a non-breaking space before the unit"),
    pytest.param("2\u00a01/2", id="a non-breaking space before the fraction"),
    pytest.param("2\u20091/2", id="a thin space before the fraction"),
    pytest.param("2  1/2", id="two spaces before the fraction"),
    pytest.param("2 - 1/2", id="spaces around the hyphen"),
    pytest.param("2--1/2", id="two hyphens"),
    pytest.param("2–1/2", id="a dash for a hyphen"),
    pytest.param("2\u20101/2", id="another hyphen"),
    pytest.param("2 ½", id="a space before a vulgar fraction"),
    pytest.param("2-½", id="a hyphen before a vulgar fraction"),
    pytest.param("½½", id="two vulgar fractions"),
    pytest.param("½2", id="a vulgar fraction in front"),
    pytest.param("2½ 1/2", id="vulgar and plain fraction"),
    pytest.param("2 1/2 1/2", id="two fractions"),
    pytest.param("2.5½", id="a decimal and a vulgar fraction"),
    pytest.param("2.5 1/2", id="a decimal and a fraction"),
    pytest.param("1⁄16", id="the fraction slash"),
    pytest.param("2 1⁄2", id="the fraction slash in a mixed fraction"),
    pytest.param(unicodedata.normalize("NFKC", "2½"), id="what NFKC makes of 2½: 21⁄2"),
    pytest.param("1∕2", id="the division slash"),
    pytest.param("1／2", id="a full-width slash"),
    pytest.param("1 / 2", id="spaces around the slash"),
    pytest.param("1/1", id="D = 1"),
    pytest.param("1/0", id="D = 0"),
    pytest.param("0/0", id="0/0"),
    pytest.param("1/3", id="D = 3"),
    pytest.param("1/3 in", id="D = 3 with a unit"),
    pytest.param("1/6", id="D = 6"),
    pytest.param("5/10", id="D = 10"),
    pytest.param("1/128", id="D = 128"),
    pytest.param("1/256", id="D = 256"),
    pytest.param("1/02", id="D with a zero in front"),
    pytest.param("1/", id="no D"),
    pytest.param("/2", id="no N"),
    pytest.param("2 /2", id="no N after a whole number"),
    pytest.param("1/2/4", id="a fraction of a fraction"),
    pytest.param("1.5/2", id="a decimal over D"),
    pytest.param("⅓", id="⅓"),
    pytest.param("⅔", id="⅔"),
    pytest.param("⅕", id="⅕"),
    pytest.param("⅙", id="⅙"),
    pytest.param("⅚", id="⅚"),
    pytest.param("⅐", id="⅐"),
    pytest.param("⅑", id="⅑"),
    pytest.param("⅒", id="⅒"),
    pytest.param("⅟2", id="⅟ over a digit"),
    pytest.param("↉", id="↉"),
    pytest.param("\u09f4", id="a Bengali sixteenth"),
    pytest.param("\u0b75", id="an Oriya sixteenth"),
    pytest.param("\u0d76", id="a Malayalam sixteenth"),
    pytest.param("\ua833", id="a North Indic sixteenth"),
    pytest.param("\U00011fc9", id="a Tamil sixteenth"),
    pytest.param("٢", id="an Arabic digit"),
    pytest.param("२", id="a Devanagari digit"),
    pytest.param("２", id="a full-width digit"),
    pytest.param("²", id="a superscript digit"),
    pytest.param("Ⅱ", id="a Roman numeral"),
    pytest.param("+1", id="a plus"),
    pytest.param("-1", id="a minus"),
    pytest.param("-0", id="minus nothing"),
    pytest.param("−1", id="a proper minus"),
    pytest.param("-1/2", id="a negative fraction"),
    pytest.param("1,000.5", id="a thousands mark and a point"),
    pytest.param("1.000,5", id="a thousands point and a comma"),
    pytest.param("1 000", id="a thousands space"),
    pytest.param("1'000", id="a thousands apostrophe"),
    pytest.param("1_000", id="a thousands underscore"),
    pytest.param("1.", id="no digit after the point"),
    pytest.param(".5", id="no digit before the point"),
    pytest.param("1,", id="no digit after the comma"),
    pytest.param(",5", id="no digit before the comma"),
    pytest.param("1..5", id="two points"),
    pytest.param("1.5.5", id="two decimals"),
    pytest.param("1e3", id="an exponent"),
    pytest.param("1E0", id="a capital exponent"),
    pytest.param("0x10", id="hexadecimal"),
    pytest.param("inf", id="infinity"),
    pytest.param("NaN", id="not a number"),
    pytest.param("one", id="a word"),
    pytest.param("2 ft", id="feet"),
    pytest.param("2'", id="a single quote"),
    pytest.param("2''", id="two single quotes"),
    pytest.param("2”", id="a typographic quote"),
    pytest.param("2 inch", id="inch written out"),
    pytest.param("2 in.", id="in with a point"),
    pytest.param("2 IN", id="IN"),
    pytest.param("2 MM", id="MM"),
    pytest.param("2 m", id="metres"),
    pytest.param("2 pt", id="points"),
    pytest.param("2 µm", id="micrometres"),
    pytest.param("2 ㎜", id="the square mm"),
    pytest.param('2 in"', id="two units"),
    pytest.param("2 in 3 mm", id="two lengths"),
    pytest.param("2 × 3", id="a size"),
    pytest.param("000000000000000000007", id="21 characters"),
    pytest.param("2.875" + "0" * 20, id="a good length, but too long a text"),
    pytest.param("9" * 4_000_000, id="millions of digits"),
]


@pytest.mark.parametrize("text", REFUSED)
@pytest.mark.parametrize("unit", ["in", "mm"])
def test_nothing_else_is_a_length(text, unit):
    with pytest.raises(NotALength) as refusal:
        parse_length(text, unit)
    assert refusal.value.code == "not-a-length"
    assert len(refusal.value.message) < 200


@pytest.mark.parametrize(
    ("text", "unit", "offered"),
    [
        pytest.param("1/16", "mm", "1/16 in", id="a bare fraction in a metric document"),
        pytest.param("2 1/2", "mm", "2 1/2 in", id="a bare mixed fraction in a metric document"),
        pytest.param("⅞", "mm", "⅞ in", id="a bare vulgar fraction in a metric document"),
        pytest.param("0/2", "mm", "0/2 in", id="even no halves"),
        pytest.param("½ mm", "in", "½ in", id="half a millimetre"),
        pytest.param("1/2mm", "mm", "1/2 in", id="a fraction of a millimetre"),
        pytest.param("2½ cm", "in", "2½ in", id="a fraction of a centimetre"),
        pytest.param("3 1/2 cm", "mm", "3 1/2 in", id="a mixed fraction of a centimetre"),
    ],
)
def test_fractions_are_inches_only_and_the_refusal_says_what_to_write(text, unit, offered):
    with pytest.raises(NotALength, match=f"write {offered}, or a decimal"):
        parse_length(text, unit)


@pytest.mark.parametrize(
    ("text", "unit", "step", "low", "high"),
    [
        pytest.param("0.1", "in", None, "1/16 in", "1/8 in", id="a tenth of an inch: 1.6 sixteenths"),
        pytest.param("3.3 in", "mm", None, "3 1/4 in", "3 5/16 in", id="inches in a metric document"),
        pytest.param("2.99", "in", None, "2 15/16 in", "3 in", id="the upper neighbour carries"),
        pytest.param("0.01", "in", None, "0", "1/16 in", id="below the first step"),
        pytest.param("0.1", "in", "1/32 in", "3/32 in", "1/8 in", id="a printed step of 1/32 in"),
        pytest.param("0.1", "in", "1/8 in", "0", "1/8 in", id="a printed step of 1/8 in"),
        pytest.param("0.001", "mm", None, "0", "1 mm", id="a thousandth of a millimetre"),
        pytest.param("73.02501", "mm", None, "73 mm", "74 mm", id="just beside the grid"),
        pytest.param("7.3333 cm", "in", None, "73 mm", "74 mm", id="centimetres name millimetres"),
        pytest.param("0.333", "mm", "0.5 mm", "0", "0.5 mm", id="a printed step of half a millimetre"),
        pytest.param("12.3456789", "mm", "0.1 mm", "12.3 mm", "12.4 mm", id="a printed step of 0.1 mm"),
        pytest.param("9999.999", "mm", None, "9999 mm", "10000 mm", id="just under 10 m"),
        pytest.param("0.333", "mm", "0", "0", "1 mm", id="a printed step of nothing is none"),
    ],
)
def test_off_the_grid_both_neighbours_at_the_printed_step_are_named(text, unit, step, low, high):
    with pytest.raises(OffGrid, match=f": write {low} or {high}$") as refusal:
        parse_length(text, unit, step=None if step is None else Length.of(step, "mm"))
    assert refusal.value.code == "off-grid"
    assert f"“{text}”" in refusal.value.message


@pytest.mark.parametrize(
    ("text", "unit"),
    [
        pytest.param("10000.003125", "mm", id="a tick more than 10 m"),
        pytest.param("1000.1 cm", "in", id="a millimetre more than 10 m, in cm"),
        pytest.param("394", "in", id="394 in are 10007.6 mm"),
        pytest.param("393 45/64", "in", id="a 64th more than fits: 10000.059375 mm"),
        pytest.param("10000.0000001", "mm", id="also where it lies off the grid"),
        pytest.param("99999999999999999999", "mm", id="20 nines"),
    ],
)
def test_longer_than_ten_metres_is_out_of_range(text, unit):
    with pytest.raises(OutOfRange, match="longer than 10 m") as refusal:
        parse_length(text, unit)
    assert refusal.value.code == "out-of-range"


def test_a_refusal_survives_the_way_between_processes():
    with pytest.raises(BadLength) as refusal:
        parse_length("0.1", "in")
    copy = pickle.loads(pickle.dumps(refusal.value))
    assert (type(copy), copy.message, copy.code) == (OffGrid, refusal.value.message, "off-grid")
