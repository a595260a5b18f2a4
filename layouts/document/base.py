"""The base of every object of a kit document: unknown fields are refused, `x_…` fields travel along, null is absent.

A hostile document may hold millions of faults, and a list of errors takes a thousand: members of lists are judged
only until enough has been found, so that memory and time stay bounded.
"""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from typing import Any, Self

from pydantic import (
    BaseModel,
    ConfigDict,
    Field,
    ModelWrapValidatorHandler,
    ValidationError,
    ValidationInfo,
    ValidatorFunctionWrapHandler,
    WrapValidator,
    model_validator,
)
from pydantic_core import ErrorDetails, InitErrorDetails, PydanticCustomError, PydanticOmit

from layouts.lengths import Length, System

__all__ = ["CARRIED", "Bounded", "DocumentObject", "ReadingContext", "at_most_one", "exactly_one", "fault"]

# The tree reader gathers an object's x_… members under this key. It holds a control character, which no text of a
# document may hold, so that no document can write it.
CARRIED = "\0carried"

_MOST_UNKNOWN = 1001
_NOT_TOLD: set[str] = set()


class ReadingContext:
    """What is known while a document is read: its unit (None where that is refused), its printed steps, and how many
    more faults are worth looking for."""

    __slots__ = ("faults_left", "known", "steps", "unit")

    def __init__(self, unit: System | None, steps: dict[System, Length], faults: int = 5000) -> None:
        self.unit = unit
        self.steps = steps
        # Lengths that were read already: a kit has few different ones.
        self.known: dict[str, Length] = {}
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


def fault(code: str, sentence: str) -> PydanticCustomError:
    """Return a refusal of the contract, to be raised or yielded inside a model."""
    # Pydantic fills braces in a template: the sentence, which may quote what was typed, is passed as a value.
    return PydanticCustomError(code, "{sentence}", {"sentence": sentence})


def exactly_one(given: Mapping[str, Any], *names: str) -> list[PydanticCustomError]:
    """Return the fault that none or several of `names` are given, if it is so."""
    some = [name for name in names if name in given]
    return at_most_one(given, *some) if some else [fault("lacking", f"one of {', '.join(names)} is needed")]


def at_most_one(given: Mapping[str, Any], *names: str) -> list[PydanticCustomError]:
    """Return the fault that several of `names` are given, if it is so."""
    several = [name for name in names if name in given]
    if len(several) < 2:
        return []
    return [fault("not-together", f"{', '.join(several)} exclude each other: keep one")]


def _schema_of_object(schema: dict[str, Any]) -> None:
    properties = schema.get("properties", {})
    properties.pop(CARRIED, None)
    for name, member in properties.items():
        if name not in schema.get("required", []) and {"type": "null"} not in member.get("anyOf", []):
            about = {key: member.pop(key) for key in ("default", "title") if key in member}
            if isinstance(about.get("default"), dict):
                about["default"] = {}  # an object of nothing but defaults
            properties[name] = {"anyOf": [member, {"type": "null"}], **about}
    schema["patternProperties"] = {"^x_": {}}
    schema["additionalProperties"] = False


class DocumentObject(BaseModel):
    """A frozen object of the kit document."""

    model_config = ConfigDict(
        frozen=True, extra="forbid", defer_build=True, arbitrary_types_allowed=True, json_schema_extra=_schema_of_object
    )

    carried: dict[str, Any] = Field(default_factory=dict, alias=CARRIED)

    def __deepcopy__(self, memo: dict[int, Any] | None = None) -> Self:
        """Return itself, since nothing in it changes: pydantic copies a default for each object that takes it."""
        return self

    @classmethod
    def by_default(cls) -> Self:
        """Return an object of nothing but defaults, without its validator: to build that would slow every start."""
        return cls.model_construct()  # type: ignore[return-value]  # pydantic’s mypy plugin forgets Self

    @classmethod
    def faults(cls, given: Mapping[str, Any]) -> list[PydanticCustomError]:
        """Return what is wrong between members. `given` are those that are written, by their written names, unread."""
        return []

    @model_validator(mode="wrap")
    @classmethod
    def _judge_together(cls, value: Any, read: ModelWrapValidatorHandler[Self]) -> Self:
        """Judge the members one by one and as a whole, so that one wrong member hides no second error.

        Null on an optional field means absent; on a required one it stays, and is refused as the wrong type.
        """
        if not isinstance(value, dict):
            return read(value)
        members = cls._members(value)
        faults = cls.faults(members)
        if not faults:
            made = read(members)
            # What was written and what is a default is told apart by value only (`kept_members`). A set for each object
            # would take a third of the memory of a document.
            object.__setattr__(made, "__pydantic_fields_set__", _NOT_TOLD)
            return made
        found = [InitErrorDetails(type=one, loc=(), input=value) for one in faults]
        try:
            read(members)
        except ValidationError as error:
            found += [_again(detail) for detail in error.errors(include_url=False)]
        raise ValidationError.from_exception_data(cls.__name__, found)

    @classmethod
    def _members(cls, value: dict[str, Any]) -> dict[str, Any]:
        required = _fields_of(cls)
        if len(value) > len(required) + _MOST_UNKNOWN:
            unknown = sorted(key for key in value if key not in required)[:_MOST_UNKNOWN]
            value = {key: value[key] for key in (*required, *unknown) if key in value}
        if None not in value.values():
            return value
        return {key: member for key, member in value.items() if member is not None or required.get(key, True)}


@cache
def _fields_of(model: type[DocumentObject]) -> dict[str, bool]:
    """The written names of a model's fields, and whether each is required."""
    return {field.alias or name: field.is_required() for name, field in model.model_fields.items()}


def _again(detail: ErrorDetails) -> InitErrorDetails:
    """An error of a member, to be raised once more beside those of the whole."""
    told = PydanticCustomError(detail["type"], "{sentence}", {**detail.get("ctx", {}), "sentence": detail["msg"]})
    return InitErrorDetails(type=told, loc=detail["loc"], input=detail["input"])
