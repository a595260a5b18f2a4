"""Lengths as columns of a row and fields of a form."""

from __future__ import annotations

import pytest
from django.core.exceptions import ValidationError

from layouts.fields import LengthField, LengthFormField
from layouts.lengths import Length


@pytest.mark.parametrize(
    ("length", "text"),
    [
        pytest.param(Length.of("2⅞"), "2 7/8 in", id="inches"),
        pytest.param(Length.of("3.50 cm"), "35 mm", id="millimetres"),
        pytest.param(Length.of("25.4 mm"), "25.4 mm", id="an inch in millimetres"),
        pytest.param(Length.zero("in"), "0", id="zero"),
        pytest.param(None, None, id="nothing"),
    ],
)
def test_a_column_holds_the_text_with_its_unit_and_gives_the_length_back(length, text):
    column = LengthField(null=True)
    assert column.get_prep_value(length) == text
    again = column.from_db_value(text)
    assert again == length
    assert getattr(again, "system", None) == getattr(length, "system", None)


def test_the_longest_texts_fit_a_column():
    # The longest length is 10 m: inches in 64ths below it, and millimetres of one tick less (1/320 mm = 0.003125 mm).
    for length in (Length.of("393 44/64 in"), Length(10_000 * 320 - 1, "mm")):
        assert len(length.text()) <= (LengthField().max_length or 0)


@pytest.mark.parametrize("typed", ["1", "2.5", "1/2", "1/3 in", "wide", ""])
def test_a_column_takes_no_text_that_could_mean_two_lengths_or_none(typed):
    with pytest.raises(ValidationError):
        LengthField().to_python(typed)


@pytest.mark.parametrize("typed", ["1/2 in", "½ in", "0.5 in"])
def test_a_column_takes_a_text_that_means_one(typed):
    assert LengthField().to_python(typed) == Length.of("1/2 in")


@pytest.mark.parametrize(
    ("unit", "typed", "length"),
    [("in", "2 7/8", "2 7/8 in"), ("mm", "73", "73 mm"), ("mm", " 1/2 in ", "1/2 in"), ("in", "0", "0")],
)
def test_a_form_reads_a_length_in_the_unit_of_the_kit(unit, typed, length):
    assert LengthFormField(unit=unit).clean(typed).text() == length


@pytest.mark.parametrize(
    ("typed", "options", "code", "said"),
    [
        pytest.param("wide", {}, "not-a-length", "wide", id="no length"),
        pytest.param("11 m", {}, "not-a-length", "11 m", id="another unit"),
        # 0.3 in is 2438.4 ticks; on a step of 1/8 in its neighbours are 2/8 and 3/8.
        pytest.param("0.3", {"step": Length.of("1/8 in")}, "off-grid", "1/4 in or 3/8 in", id="between two ticks"),
        pytest.param("0", {"zero": False}, "out-of-range", "more than zero", id="nothing where something is needed"),
        pytest.param("", {}, "required", "required", id="empty"),
    ],
)
def test_a_form_refuses_what_the_document_would(typed, options, code, said):
    with pytest.raises(ValidationError) as refused:
        LengthFormField(**options).clean(typed)
    [error] = refused.value.error_list
    assert error.code == code
    assert said in error.messages[0]


def test_an_empty_field_that_may_be_empty_is_no_length():
    assert LengthFormField(required=False).clean("") is None


def test_a_column_asks_for_its_length_in_a_form():
    assert isinstance(LengthField().formfield(), LengthFormField)
