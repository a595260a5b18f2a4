"""Lengths in the database and in forms."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, Any

from django import forms
from django.core.exceptions import ValidationError
from django.db import models

from layouts.lengths import LONGEST, BadLength, Length, NotALength, OutOfRange, System, parse_length

__all__ = ["LengthField", "LengthFormField"]

# Longer than any canonical text up to 10 m.
_LONGEST_TEXT = 24

# A fraction as word processors set it. Above one it may be what is left of 2½ after a change of letters (NFKC).
_SET_FRACTION = re.compile("([0-9]+)\u2044([0-9]+)")


if TYPE_CHECKING:
    _Field = models.Field
else:

    class _Field(models.Field):
        """Django's field, which knows of types only where they are checked."""

        def __class_getitem__(cls, _: Any) -> type:
            return cls


class LengthField[SetType, GetType](_Field[SetType, GetType]):
    """A length, stored as its canonical text with the unit always written: exact, and readable by anybody.

    Its value is a `Length` of nothing to 10 m. Lookups compare texts: `exact` and `in` find the same ticks in the same
    system only, and there is no order.
    """

    description = "An exact length"
    empty_strings_allowed = False

    # What may be assigned and what is read, for the checker of types.
    _pyi_private_set_type: Length
    _pyi_private_get_type: Length

    def get_internal_type(self) -> str:
        return "CharField"

    def __init__(self, *args: Any, **options: Any) -> None:
        super().__init__(*args, **{**options, "max_length": _LONGEST_TEXT})

    def deconstruct(self) -> tuple[str, str, list[Any], dict[str, Any]]:
        name, path, args, options = super().deconstruct()
        del options["max_length"]
        return name, path, [*args], options

    def from_db_value(self, value: str | None, *_: Any) -> Length | None:
        return None if value is None else Length.of(value)

    def to_python(self, value: Any) -> Length | None:
        """Read a text with its unit (or zero). Raises: ValidationError."""
        if value is None:
            return None
        if isinstance(value, Length):
            if not 0 <= value.ticks <= LONGEST:
                raise ValidationError(f"{value} is not a length of nothing to 10 m", code="out-of-range")
            return value
        try:
            read = {parse_length(str(value), unit).text() for unit in ("in", "mm")}
        except BadLength as error:
            raise ValidationError(error.message, code=error.code) from error
        if len(read) > 1:
            raise ValidationError(f"“{value}” lacks its unit: write in or mm", code="not-a-length")
        return Length.of(read.pop())

    def get_prep_value(self, value: Any) -> Any:
        length = self.to_python(super().get_prep_value(value))
        return None if length is None else length.text()

    def value_to_string(self, obj: models.Model) -> str:
        """For dumps: the text that is stored."""
        return str(self.get_prep_value(self.value_from_object(obj)) or "")

    def get_lookup(self, lookup_name: str) -> Any:
        # As a text 10 mm stands before 2 mm: whoever asks for an order or a part of it would get a wrong answer.
        return super().get_lookup(lookup_name) if lookup_name in ("exact", "in", "isnull") else None

    def formfield(self, **options: Any) -> Any:
        return super().formfield(**{"form_class": LengthFormField, **options})


class LengthFormField(forms.CharField):
    """A length as it is typed; a bare number is read in `unit`, and a refusal names the neighbours on `step`."""

    def __init__(self, *, unit: System = "in", step: Length | None = None, zero: bool = True, **options: Any) -> None:
        super().__init__(**options)
        self.unit = unit
        self.step = step
        self.zero = zero

    def to_python(self, value: Any) -> Any:
        if isinstance(value, Length):
            return value
        text = super().to_python(value)
        if not text:
            return None
        try:
            length = parse_length(_SET_FRACTION.sub(_typed_fraction, text), self.unit, step=self.step)
            if not length and not self.zero:
                raise OutOfRange("this length must be more than zero")
        except BadLength as error:
            raise ValidationError(error.message, code=error.code) from error
        return length

    def prepare_value(self, value: Any) -> Any:
        """What stands in the input: a length in its canonical text, and what was typed as it was typed."""
        return value.text(self.unit) if isinstance(value, Length) else value

    def has_changed(self, initial: Any, data: Any) -> bool:
        """Whether another length was typed, or the same one in the other system, which a document keeps apart."""
        if self.disabled:
            return False
        try:
            old, new = self.to_python(initial), self.to_python(data)
        except ValidationError:
            return True
        return not (old is new if old is None or new is None else old.written_like(new))


def _typed_fraction(match: re.Match[str]) -> str:
    over, under = match.groups()
    if int(over) >= int(under):
        raise NotALength(
            f"“{match[0]}” may be a mixed fraction run together: write it as in 2 1/2, or as {over}/{under}"
        )
    return f"{over}/{under}"
