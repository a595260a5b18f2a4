"""Lengths in the database and in forms."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from django import forms
from django.core.exceptions import ValidationError
from django.db import models

from layouts.lengths import BadLength, Length, OutOfRange, System, parse_length

__all__ = ["LengthField", "LengthFormField"]

# What a person may type; what is stored is never longer.
_LONGEST = 20


if TYPE_CHECKING:
    _Field = models.Field
else:

    class _Field(models.Field):
        """Django's field, which knows of types only where they are checked."""

        def __class_getitem__(cls, _: Any) -> type:
            return cls


class LengthField[SetType, GetType](_Field[SetType, GetType]):
    """A length, stored as its canonical text with the unit always written: exact, and readable by anybody.

    Its value is a `Length`. Lookups compare texts: `exact` finds the same ticks in the same system only, and there is
    no order.
    """

    description = "An exact length"

    # What may be assigned and what is read, for the checker of types.
    _pyi_private_set_type: Length
    _pyi_private_get_type: Length

    def get_internal_type(self) -> str:
        return "CharField"

    def __init__(self, *args: Any, **options: Any) -> None:
        options.setdefault("max_length", _LONGEST)
        super().__init__(*args, **options)

    def deconstruct(self) -> tuple[str, str, list[Any], dict[str, Any]]:
        name, path, args, options = super().deconstruct()
        if options.get("max_length") == _LONGEST:
            del options["max_length"]
        return name, path, [*args], options

    def from_db_value(self, value: str | None, *_: Any) -> Length | None:
        return None if value is None else Length.of(value)

    def to_python(self, value: Any) -> Length | None:
        """Read a text with its unit (or zero). Raises: ValidationError."""
        if value is None or isinstance(value, Length):
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
            length = parse_length(text, self.unit, step=self.step)
            if not length and not self.zero:
                raise OutOfRange("this length must be more than zero")
        except BadLength as error:
            raise ValidationError(error.message, code=error.code) from error
        return length
