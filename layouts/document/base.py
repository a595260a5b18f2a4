"""The base of every object of a kit document: unknown fields are refused, `x_…` fields travel along, null is absent.

A hostile document may hold millions of faults, and a list of errors takes a thousand: members of lists are judged
only until enough has been found, so that memory and time stay bounded.
"""

from __future__ import annotations

from typing import Any

from pydantic import (
    BaseModel,
    ConfigDict,
    Field,
    ValidationError,
    ValidationInfo,
    ValidatorFunctionWrapHandler,
    WrapValidator,
    model_validator,
)
from pydantic_core import PydanticOmit

from layouts.lengths import Length, System

__all__ = ["CARRIED", "Bounded", "DocumentObject", "ReadingContext"]

# The tree reader gathers an object's x_… members under this key. It holds a control character, which no text of a
# document may hold, so that no document can write it.
CARRIED = "\0carried"

_MOST_UNKNOWN = 1001


class ReadingContext:
    """What is known while a document is read: its unit (None where that is refused), its printed steps, and how many
    more faults are worth looking for."""

    __slots__ = ("faults_left", "steps", "unit")

    def __init__(self, unit: System | None, steps: dict[System, Length], faults: int = 5000) -> None:
        self.unit = unit
        self.steps = steps
        # A fault deep inside counts once for every list around it, at most five: 5,000 leave 1,000 to be told.
        self.faults_left = faults


def _while_worth_it(value: Any, handler: ValidatorFunctionWrapHandler, info: ValidationInfo) -> Any:
    if not isinstance(info.context, ReadingContext):
        return handler(value)
    if info.context.faults_left <= 0:
        raise PydanticOmit
    try:
        return handler(value)
    except ValidationError as error:
        info.context.faults_left -= error.error_count()
        raise


# On the members of every list.
Bounded = WrapValidator(_while_worth_it)


def _schema_of_object(schema: dict[str, Any]) -> None:
    schema.get("properties", {}).pop(CARRIED, None)
    schema["patternProperties"] = {"^x_": {}}
    schema["additionalProperties"] = False


class DocumentObject(BaseModel):
    """A frozen object of the kit document."""

    model_config = ConfigDict(
        frozen=True, extra="forbid", arbitrary_types_allowed=True, json_schema_extra=_schema_of_object
    )

    carried: dict[str, Any] = Field(default_factory=dict, alias=CARRIED)

    @model_validator(mode="before")
    @classmethod
    def _null_is_absent(cls, value: Any) -> Any:
        """Drop null on optional fields; on a required one it stays and is refused as the wrong type."""
        if not isinstance(value, dict):
            return value
        fields = {field.alias or name: field for name, field in cls.model_fields.items()}
        if len(value) > len(fields) + _MOST_UNKNOWN:
            unknown = sorted(key for key in value if key not in fields)[:_MOST_UNKNOWN]
            value = {key: value[key] for key in (*fields, *unknown) if key in value}
        if None not in value.values():
            return value
        return {key: member for key, member in value.items() if member is not None or _is_required(fields.get(key))}


def _is_required(field: Any) -> bool:
    return field is None or bool(field.is_required())
