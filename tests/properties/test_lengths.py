"""What holds for every length."""

from __future__ import annotations

import unicodedata
from fractions import Fraction

from hypothesis import given
from hypothesis import strategies as st

from layouts.lengths import LONGEST, BadLength, Length, in_inches, in_millimetres, parse_length
from layouts.rounding import nearest_step, step_up

systems = st.sampled_from(["in", "mm"])
# What can be read: any tick in millimetres, 64ths in inches.
metric = st.integers(0, LONGEST).map(lambda ticks: Length(ticks, "mm"))
imperial = st.integers(0, LONGEST // 127).map(lambda sixty_fourths: Length(sixty_fourths * 127, "in"))
lengths = metric | imperial
any_length = st.builds(Length, st.integers(-LONGEST, LONGEST), systems)


@given(lengths, systems | st.none(), systems)
def test_what_is_written_is_read_again(length, written_in, other):
    again = parse_length(length.text(written_in), written_in or other)
    assert again.written_like(length)


@given(lengths, systems)
def test_the_canonical_text_of_the_canonical_text_is_itself(length, unit):
    text = length.text(unit)
    assert parse_length(text, unit).text(unit) == text
    assert len(text) <= 20


@given(any_length, any_length, st.integers(-1000, 1000))
def test_arithmetic_is_that_of_exact_fractions(one, other, times):
    assert (one + other).mm == one.mm + other.mm
    assert (one - other).mm == one.mm - other.mm
    assert (one - other).inches == one.inches - other.inches
    assert (one * times).mm == one.mm * times
    assert (-one).mm == -one.mm
    assert one.mm == one.inches * Fraction(254, 10)


@given(any_length, any_length, any_length)
def test_the_laws_of_sums_hold_and_the_text_tells_the_sum(one, other, third):
    assert one + other == other + one
    assert (one + other) + third == one + (other + third)
    assert (one + other) - other == one
    assert (one + other).text() == (other + one).text()


@given(any_length, any_length)
def test_order_is_that_of_exact_fractions(one, other):
    assert (one < other) == (one.mm < other.mm)
    assert (one <= other) == (one.mm <= other.mm)
    assert (one == other) == (one.mm == other.mm)
    assert (one > other) == (one.mm > other.mm)


@given(any_length)
def test_its_text_is_read_again_also_below_zero(length):
    again = Length.of(length.text())
    assert again == length
    assert again.text() == length.text()


@given(st.integers(0, LONGEST))
def test_millimetres_as_written_are_the_exact_value(ticks):
    assert Fraction(in_millimetres(ticks)) == Fraction(ticks, 320)


@given(st.integers(0, LONGEST // 127))
def test_inches_as_written_are_the_exact_value(sixty_fourths):
    parts = in_inches(sixty_fourths * 127).split(" ")
    assert sum(Fraction(part) for part in parts) == Fraction(sixty_fourths, 64)


@given(st.text(alphabet='0123456789 ./-,in"″mc½¼¾⅛⅜⅝⅞⁄+e\n', max_size=22), systems)
def test_whatever_is_typed_is_a_length_or_refused_as_one(text, unit):
    try:
        length = parse_length(text, unit)
    except BadLength:
        return
    assert 0 <= length.ticks <= LONGEST
    assert parse_length(length.text(unit), unit).written_like(length)


@given(st.text(max_size=8), systems)
def test_letters_that_only_look_like_a_length_are_refused(text, unit):
    """No folding of any kind: what is read holds plain digits and the seven fractions only."""
    allowed = set('0123456789 .,/-½¼¾⅛⅜⅝⅞in"″mc')
    try:
        parse_length(text, unit)
    except BadLength:
        return
    assert set(text) <= allowed
    assert unicodedata.normalize("NFC", text) == text


@given(st.integers(-LONGEST, LONGEST), st.integers(1, 10_000))
def test_rounding_stays_within_half_a_step_and_is_idempotent(ticks, step):
    rounded = nearest_step(ticks, step)
    assert rounded % step == 0
    assert 2 * abs(rounded - ticks) <= step
    assert nearest_step(rounded, step) == rounded
    if 2 * abs(rounded - ticks) == step:
        assert rounded // step % 2 == 0


@given(st.integers(-LONGEST, LONGEST), st.integers(1, 10_000))
def test_rounding_up_never_goes_down_nor_a_whole_step_too_far(ticks, step):
    rounded = step_up(ticks, step)
    assert rounded % step == 0
    assert 0 <= rounded - ticks < step
