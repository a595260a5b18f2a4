"""What the box holds: pads, papers, embellishments, blanks, supplies; and the tools a member is expected to have."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Annotated, Any, Literal

from pydantic import Field, StrictBool, StrictStr
from pydantic_core import PydanticCustomError

from layouts.document.base import Bounded, DocumentObject, exactly_one
from layouts.document.shape import Opening
from layouts.document.values import Box, Count, CountOrNone, Id, LengthOrZero, Micrometres, PositiveLength, Reads, Size
from layouts.lengths import Length

__all__ = ["Blank", "Element", "Embellishment", "Face", "Pad", "Paper", "PrintSide", "Spoilt", "Supply", "Tool"]

_ZERO = Length.zero()


class Pad(DocumentObject):
    """Printed sheets of one size."""

    id: Id
    name: StrictStr
    size: Size


class PrintSide(DocumentObject):
    """One side of a leaf: `reads` is where the top of its print points, `repeat` which turns look the same."""

    name: StrictStr
    reads: Reads = "up"
    repeat: Literal["one-way", "two-way", "any"] = "any"


class Spoilt(DocumentObject):
    """Margins that cannot be used, as the front is seen."""

    left: LengthOrZero = _ZERO
    right: LengthOrZero = _ZERO
    top: LengthOrZero = _ZERO
    bottom: LengthOrZero = _ZERO


class Paper(DocumentObject):
    """One print: `sheets` leaves of it go to every member; the back is the same leaf turned like a page."""

    id: Id
    name: StrictStr
    pad: Id | None = None
    size: Size | None = None
    sheets: CountOrNone
    front: PrintSide
    back: PrintSide | None = None
    grammage: Count | None = None
    caliper_um: Micrometres | None = None
    grain: Literal["up", "sideways"] | None = None
    undersize: LengthOrZero = _ZERO
    spoilt: Spoilt = Spoilt.by_default()

    @classmethod
    def faults(cls, given: Mapping[str, Any]) -> list[PydanticCustomError]:
        return exactly_one(given, "pad", "size")


class Element(DocumentObject):
    """One kind of counted element on an embellishment sheet."""

    id: Id
    name: StrictStr
    count: Count
    size: Size | None = None
    two_sided: StrictBool = False


class Embellishment(DocumentObject):
    """A sheet of die-cuts, chipboard or stickers."""

    id: Id
    name: StrictStr
    sheets: CountOrNone = 1
    elements: tuple[Annotated[Element, Bounded], ...] = ()


class Face(DocumentObject):
    """A surface of a blank that something is stuck to."""

    id: Id
    size: Size
    count: Count = 1
    inside: StrictBool = False
    opening: Opening | None = None


class Blank(DocumentObject):
    """A bought part with known faces."""

    id: Id
    name: StrictStr
    count: Count = 1
    thickness_um: Micrometres | None = None
    outside: Box | None = None
    faces: tuple[Annotated[Face, Bounded], ...] = ()


class Supply(DocumentObject):
    """Anything else: ribbon, lamp, tape."""

    id: Id
    name: StrictStr
    kind: Literal["ribbon", "foam", "glazing", "light", "button-cell", "battery", "fastener", "adhesive-tape", "other"]
    count: Count | None = None
    length: PositiveLength | None = None
    thickness_um: Micrometres | None = None
    from_: Literal["kit", "member"] = Field(default="kit", alias="from")


class Tool(DocumentObject):
    """A tool a member is expected to have; the lengths say what it can do."""

    id: Id
    name: StrictStr | None = None
    kind: Literal[
        "trimmer",
        "knife",
        "scissors",
        "punch",
        "decorative",
        "scorer",
        "wet-glue",
        "solvent-glue",
        "hot-glue",
        "tape",
        "heat",
        "other",
    ]
    step: PositiveLength | None = None
    longest: PositiveLength | None = None
    narrowest: PositiveLength | None = None
    bite: LengthOrZero | None = None
    pitch: PositiveLength | None = None
    least_depth: LengthOrZero | None = None
