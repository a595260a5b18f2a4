"""Lengths as columns of a row and fields of a form."""

from __future__ import annotations

from typing import Any

import pytest
from django import forms
from django.core import serializers
from django.core.exceptions import FieldError, ValidationError
from django.db import connection, models
from django.db.migrations.writer import MigrationWriter
from django.test.utils import isolate_apps

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


@pytest.mark.parametrize("length", [Length.of("-1/8 in"), Length(10_000 * 320 + 1, "mm")], ids=str)
def test_a_column_takes_no_length_that_a_document_could_not_hold(length):
    with pytest.raises(ValidationError) as refused:
        LengthField().to_python(length)
    assert refused.value.code == "out-of-range"
    with pytest.raises(ValidationError):
        LengthField().get_prep_value(length)


def test_a_column_says_what_the_parser_says():
    with pytest.raises(ValidationError, match="write 1/16 in or 1/8 in"):
        LengthField().clean("0.1 in", None)


def test_a_migration_writes_the_column_without_its_size():
    assert MigrationWriter.serialize(LengthField(null=True))[0] == "layouts.fields.LengthField(null=True)"
    _, path, args, options = LengthField(null=True).deconstruct()
    assert (path, args, options) == ("layouts.fields.LengthField", [], {"null": True})
    assert LengthField(*args, **options).max_length == LengthField().max_length == 24


@isolate_apps("layouts")
def ruler() -> type[models.Model]:
    """A model that exists here only."""

    class Ruler(models.Model):
        length = LengthField()
        spare = LengthField(null=True, blank=True)

        class Meta:
            app_label = "layouts"

        def __str__(self) -> str:
            return str(self.length)

    return Ruler


@pytest.mark.parametrize("lookup", ["lt", "lte", "gt", "gte", "range", "contains", "startswith", "iexact", "regex"])
def test_there_is_no_order_of_texts_nor_a_part_of_one_to_look_for(lookup):
    with pytest.raises(FieldError, match="Unsupported lookup"):
        ruler()._default_manager.filter(**{f"length__{lookup}": Length.of("1 in")})


@pytest.mark.django_db(transaction=True)
def test_a_length_comes_back_from_the_database_as_it_was_written():
    model: Any = ruler()
    with connection.schema_editor() as editor:
        editor.create_model(model)
    try:
        for text in ("2 7/8 in", "73.025 mm", "0"):
            model.objects.create(length=Length.of(text))
        found = list(model.objects.order_by("id"))
        assert [(row.length.text(), row.length.system) for row in found[:2]] == [
            ("2 7/8 in", "in"),
            ("73.025 mm", "mm"),
        ]
        assert found[2].length == Length.zero()
        assert [row.spare for row in found] == [None, None, None]
        # 73.025 mm are 2 7/8 in: a lookup finds the one that is written so.
        assert model.objects.get(length=Length.of("2⅞")).pk == found[0].pk
        assert model.objects.get(length="73.025 mm").pk == found[1].pk
        assert model.objects.filter(length__in=[Length.of("2⅞"), Length.zero()]).count() == 2
        assert model.objects.filter(spare__isnull=True).count() == 3
        assert set(model.objects.values_list("length", flat=True)) == {Length.of("2 7/8 in"), Length.zero()}
        assert '"length": "2 7/8 in"' in serializers.serialize("json", found[:1])
        with connection.cursor() as cursor:
            cursor.execute("SELECT length FROM layouts_ruler ORDER BY id")
            assert [text for (text,) in cursor.fetchall()] == ["2 7/8 in", "73.025 mm", "0"]
    finally:
        with connection.schema_editor() as editor:
            editor.delete_model(model)


@pytest.mark.parametrize(
    ("unit", "typed", "length"),
    [
        pytest.param("in", "  2 7/8  ", "2 7/8 in", id="spaces around"),
        pytest.param("in", "1⁄16", "1/16 in", id="a fraction as word processors set it"),
        pytest.param("in", "2 1⁄2", "2 1/2 in", id="a mixed fraction as they set it"),
        pytest.param("mm", "1⁄16 in", "1/16 in", id="with its unit"),
        pytest.param("mm", "7,3 cm", "73 mm", id="centimetres"),
        pytest.param("in", "10 mm", "10 mm", id="the other system is kept"),
    ],
)
def test_a_form_takes_what_people_type(unit, typed, length):
    assert LengthFormField(unit=unit).clean(typed).text() == length


@pytest.mark.parametrize(
    "typed",
    [
        pytest.param("21⁄2", id="what NFKC makes of 2½"),
        pytest.param("2⁄2", id="no proper fraction"),
        pytest.param("5⁄0", id="over nothing"),
        pytest.param("1⁄3", id="thirds"),
        pytest.param("2 ½", id="a space before a vulgar fraction"),
        pytest.param("two", id="a word"),
    ],
)
def test_a_form_refuses_what_may_be_two_things_or_none(typed):
    with pytest.raises(ValidationError) as refused:
        LengthFormField().clean(typed)
    assert refused.value.error_list[0].code == "not-a-length"


class RulerForm(forms.Form):
    length = LengthFormField(unit="mm")


def test_a_form_shows_a_length_without_the_unit_of_the_kit_and_keeps_what_was_typed():
    assert RulerForm(initial={"length": Length.of("73 mm")})["length"].value() == "73"
    assert RulerForm(initial={"length": Length.of("1 in")})["length"].value() == "1 in"
    refused = RulerForm({"length": " 21⁄2 in"})
    assert not refused.is_valid()
    assert refused["length"].value() == " 21⁄2 in"
    assert 'value=" 21⁄2 in"' in str(refused["length"])


@pytest.mark.parametrize(
    ("initial", "typed", "changed"),
    [
        pytest.param(Length.of("73 mm"), "73", False, id="typed as it is shown"),
        pytest.param(Length.of("73 mm"), "7.3 cm", False, id="typed otherwise"),
        pytest.param(Length.of("73 mm"), "74", True, id="another length"),
        pytest.param(Length.of("1 in"), "25.4", True, id="the same length in the other system"),
        pytest.param(Length.of("73 mm"), "", True, id="taken away"),
        pytest.param(None, "", False, id="still nothing"),
        pytest.param(None, "73", True, id="something"),
        pytest.param(Length.of("73 mm"), "wide", True, id="no length"),
    ],
)
def test_a_form_knows_whether_another_length_was_typed(initial, typed, changed):
    assert LengthFormField(unit="mm", required=False).has_changed(initial, typed) is changed
