"""The values a kit document is made of: lengths, sizes, ids, counts, durations, references to papers."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Annotated, Any, ClassVar, Literal, Self

from pydantic import (
    AfterValidator,
    Discriminator,
    Field,
    GetCoreSchemaHandler,
    GetJsonSchemaHandler,
    PlainSerializer,
    PlainValidator,
    StrictBool,
    StrictInt,
    StrictStr,
    StringConstraints,
    Tag,
    ValidationError,
    ValidationInfo,
    WithJsonSchema,
)
from pydantic_core import CoreSchema, InitErrorDetails, PydanticCustomError, core_schema

from layouts.document.base import Bounded, DocumentObject, ReadingContext, fault
from layouts.lengths import BadLength, Length, System, parse_length

__all__ = [
    "OBJECT",
    "PLAIN",
    "Box",
    "Centred",
    "Count",
    "CountOrNone",
    "Duration",
    "Each",
    "Id",
    "LengthOrZero",
    "Micrometres",
    "PaperRef",
    "Point",
    "PositiveLength",
    "PrintReads",
    "ReadingContext",
    "Reads",
    "Side",
    "Size",
    "Turn",
    "kind_of",
]

Side = Literal["left", "right", "top", "bottom"]
Reads = Literal["up", "down", "left", "right"]
PrintReads = Literal["up", "down", "left", "right", "any"]

_ID = r"^[A-Za-z0-9][A-Za-z0-9-]{0,31}\Z"
Id = Annotated[
    StrictStr,
    StringConstraints(pattern=re.compile(_ID)),
    WithJsonSchema({"type": "string", "pattern": "^[A-Za-z0-9][A-Za-z0-9-]{0,31}$"}),
]
Count = Annotated[StrictInt, Field(ge=1, le=10_000)]
CountOrNone = Annotated[StrictInt, Field(ge=0, le=10_000)]
# No thickness is greater than the greatest length, 10 m.
Micrometres = Annotated[StrictInt, Field(ge=1, le=10_000_000)]


_MOST_KNOWN = 10_000


def _read_length(value: Any, info: ValidationInfo) -> Length:
    if isinstance(value, Length):
        return value
    if not isinstance(value, str):
        raise fault("wrong-type", "a length is a text such as “2 7/8” or “73 mm”, never a bare number")
    context: ReadingContext = info.context or ReadingContext("in", {})
    if value in context.known:
        return context.known[value]
    # Where the document's own unit is refused, a bare length is judged leniently: either reading will do.
    units: tuple[System, ...] = (context.unit,) if context.unit else ("in", "mm")
    problems = []
    for unit in units:
        try:
            length = parse_length(value, unit, step=context.steps.get(_written_in(value, unit)))
        except BadLength as error:
            problems.append(error)
            continue
        if len(context.known) < _MOST_KNOWN:
            context.known[value] = length
        return length
    raise fault(problems[0].code, str(problems[0]))


def _written_in(text: str, unit: System) -> System:
    if text.endswith(("mm", "cm")):
        return "mm"
    return "in" if text.endswith(("in", '"', "″")) else unit


def _read_positive(value: Any, info: ValidationInfo) -> Length:
    length = _read_length(value, info)
    if not length.ticks:
        raise fault("out-of-range", "this length must be more than zero")
    return length


# The grammar of layouts/lengths/parsing.py once more, as JSON Schema writes it; a test holds the two together.
_LENGTH_PATTERN = (
    r"^([0-9]+[.,][0-9]+|([0-9]+[ -])?[0-9]+/(2|4|8|16|32|64)|[0-9]*[¼½¾⅛⅜⅝⅞]|[0-9]+)"
    r'( ?(in|"|″|mm|cm))?$'
)
_LENGTH_SCHEMA = {"type": "string", "maxLength": 20, "pattern": _LENGTH_PATTERN}
# For the defaults in the published schema; documents are written by `canonical`, which knows their unit.
_AS_TEXT = PlainSerializer(str, return_type=str)
PositiveLength = Annotated[Length, PlainValidator(_read_positive), _AS_TEXT, WithJsonSchema(_LENGTH_SCHEMA)]
LengthOrZero = Annotated[Length, PlainValidator(_read_length), _AS_TEXT, WithJsonSchema(_LENGTH_SCHEMA)]


class _ListOfLengths:
    """A value written as a list of lengths; what is wrong with one member is said at that member."""

    names: ClassVar[tuple[str, ...]]
    # Whether a member may be zero.
    zero: ClassVar[bool] = False

    __slots__ = ()

    @classmethod
    def __get_pydantic_core_schema__(cls, source: Any, handler: GetCoreSchemaHandler) -> CoreSchema:
        return core_schema.with_info_plain_validator_function(cls._read)

    @classmethod
    def _read(cls, value: Any, info: ValidationInfo) -> Self:
        if isinstance(value, cls):
            return value
        if not isinstance(value, list) or len(value) != len(cls.names):
            raise fault("wrong-type", f"write a list of {len(cls.names)} lengths: {', '.join(cls.names)}")
        read_one = _read_length if cls.zero else _read_positive
        read: list[Length] = []
        faults: list[InitErrorDetails] = []
        for at, member in enumerate(value):
            try:
                read.append(read_one(member, info))
            except PydanticCustomError as found:
                faults.append(InitErrorDetails(type=found, loc=(at,), input=member))
        if faults:
            raise ValidationError.from_exception_data(cls.__name__, faults)
        return cls(*read)

    @classmethod
    def __get_pydantic_json_schema__(cls, schema: CoreSchema, handler: GetJsonSchemaHandler) -> dict[str, Any]:
        return {"type": "array", "items": _LENGTH_SCHEMA, "minItems": len(cls.names), "maxItems": len(cls.names)}


@dataclass(frozen=True, slots=True)
class Size(_ListOfLengths):
    """Width and height, as the thing is seen the right way up."""

    names = ("width", "height")

    width: Length
    height: Length

    def __iter__(self) -> Iterator[Length]:
        return iter((self.width, self.height))

    @classmethod
    def of(cls, width: str, height: str, unit: System = "in") -> Size:
        return cls(Length.of(width, unit), Length.of(height, unit))


@dataclass(frozen=True, slots=True)
class Box(_ListOfLengths):
    """Width, depth and height of a solid thing."""

    names = ("width", "depth", "height")

    width: Length
    depth: Length
    height: Length


@dataclass(frozen=True, slots=True)
class Point(_ListOfLengths):
    """A corner of an outline, from the lower left of its bounding size: width across, height up."""

    names = ("width", "height")
    zero = True

    width: Length
    height: Length


_DURATION = re.compile(r"([0-9]{1,9}) (s|min|h)")
_SECONDS = {"s": 1, "min": 60, "h": 3600}


@dataclass(frozen=True, slots=True)
class Duration:
    """A time as it is written: a whole number of seconds, minutes or hours."""

    amount: int
    unit: Literal["s", "min", "h"]

    @property
    def seconds(self) -> int:
        return self.amount * _SECONDS[self.unit]

    def __str__(self) -> str:
        return f"{self.amount} {self.unit}"

    @classmethod
    def read(cls, value: Any) -> Duration:
        if isinstance(value, Duration):
            return value
        match = _DURATION.fullmatch(value) if isinstance(value, str) else None
        if match is None:
            raise fault("wrong-type", "write a duration as “60 s”, “30 min” or “2 h”")
        amount = int(match[1])
        if not 1 <= amount <= 10_000:
            raise fault("out-of-range", "a duration is 1 to 10,000 seconds, minutes or hours")
        return cls(amount, match[2])  # type: ignore[arg-type]

    @classmethod
    def __get_pydantic_core_schema__(cls, source: Any, handler: GetCoreSchemaHandler) -> CoreSchema:
        return core_schema.no_info_plain_validator_function(cls.read)

    @classmethod
    def __get_pydantic_json_schema__(cls, schema: CoreSchema, handler: GetJsonSchemaHandler) -> dict[str, Any]:
        return {"type": "string", "pattern": "^[0-9]+ (s|min|h)$"}


def _quarter_turn(value: int) -> int:
    if value not in (0, 90, 180, 270):
        raise fault("out-of-range", "a turn is 0, 90, 180 or 270 degrees, anticlockwise")
    return value


def _only_true(value: bool) -> bool:
    if not value:
        raise fault("out-of-range", "this must be true, or left out")
    return value


# Not Literals: to those, 0 and false are the same, and so are 1 and true.
Turn = Annotated[StrictInt, AfterValidator(_quarter_turn), WithJsonSchema({"enum": [0, 90, 180, 270]})]
Centred = Annotated[StrictBool, AfterValidator(_only_true), WithJsonSchema({"const": True})]


class Each(DocumentObject):
    """One copy of the project from each of these prints."""

    each: tuple[Annotated[Id, Bounded], ...]


# Names of the branches of unions; they turn up in pydantic's locations. No document can hold a key like them.
PLAIN = "\0plain"
OBJECT = "\0object"


def kind_of(value: Any) -> str:
    """Name the branch of a union of a plain value and an object."""
    return OBJECT if isinstance(value, dict | DocumentObject) else PLAIN


PaperRef = Annotated[Annotated[Id, Tag(PLAIN)] | Annotated[Each, Tag(OBJECT)], Discriminator(kind_of)]
