"""Forms: folded parts, each given by the parameters of its construction."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Annotated, Any, Literal, Self

from pydantic import Discriminator, Field, StrictStr, Tag, model_validator
from pydantic_core import PydanticCustomError

from layouts.document.base import Bounded, DocumentObject, exactly_one
from layouts.document.values import (
    OBJECT,
    PLAIN,
    Count,
    Id,
    LengthOrZero,
    PaperRef,
    PositiveLength,
    PrintReads,
    Side,
    Size,
    kind_of,
)
from layouts.lengths import Length

__all__ = [
    "Concertina",
    "Covered",
    "Envelope",
    "FlatTag",
    "Form",
    "FormBase",
    "Frame",
    "Lid",
    "Pocket",
    "Score",
    "Scored",
    "Sleeve",
    "Tray",
]


class FormBase(DocumentObject):
    """What every form has, whatever its construction."""

    id: Id
    name: StrictStr
    paper: PaperRef
    side: Literal["front", "back"] = "front"
    count: Count = 1
    print_reads: PrintReads = "any"


class _Walled(FormBase):
    inside: Size | None = None
    outside: Size | None = None
    depth: PositiveLength
    walls: Literal["single", "double"] = "single"
    turn_in: LengthOrZero | None = None
    flange: LengthOrZero = Length.zero()
    corner: Literal["tab", "cut"] = "tab"

    @model_validator(mode="after")
    def _write_the_usual_turn_in(self) -> Self:
        """Make one value of both ways to write it: `turn_in` is never None once a form is read."""
        if self.turn_in is None:
            object.__setattr__(self, "turn_in", self.usual_turn_in)
        return self

    @property
    def usual_turn_in(self) -> Length:
        """The depth of a double wall, nothing of a single one."""
        return self.depth if self.walls == "double" else Length.zero()

    @property
    def turned_in(self) -> Length:
        """How far the wall turns in."""
        return self.usual_turn_in if self.turn_in is None else self.turn_in


class Tray(_Walled):
    """An open tray with single or double walls."""

    as_: Literal["tray"] = Field(alias="as")

    @classmethod
    def faults(cls, given: Mapping[str, Any]) -> list[PydanticCustomError]:
        return exactly_one(given, "inside", "outside")


class Covered(DocumentObject):
    """The blank or the form that a lid covers."""

    blank: Id | None = None
    form: Id | None = None

    @classmethod
    def faults(cls, given: Mapping[str, Any]) -> list[PydanticCustomError]:
        return exactly_one(given, "blank", "form")


class Lid(_Walled):
    """A tray turned over something: given like a tray, or by what it fits and the clearance a side."""

    as_: Literal["lid"] = Field(alias="as")
    fits: Annotated[Annotated[Covered, Tag(OBJECT)] | Annotated[Size, Tag(PLAIN)], Discriminator(kind_of)] | None = None
    clearance: PositiveLength = Length.of("1/32 in")

    @classmethod
    def faults(cls, given: Mapping[str, Any]) -> list[PydanticCustomError]:
        return exactly_one(given, "inside", "outside", "fits")


class Sleeve(FormBase):
    """A band around something of the size `around` [width, depth]."""

    as_: Literal["sleeve"] = Field(alias="as")
    around: Size
    length: PositiveLength
    overlap: PositiveLength
    clearance: PositiveLength = Length.of("1/32 in")


class Concertina(FormBase):
    """A strip folded to and fro; longer than its paper, it is cut in strips that are joined at folds."""

    as_: Literal["concertina"] = Field(alias="as")
    panel: Size
    panels: Count
    join: PositiveLength = Length.of("1/2 in")
    first_fold: Literal["mountain", "valley"] = "mountain"


class Pocket(FormBase):
    """A panel with flaps on three sides, open on the fourth."""

    as_: Literal["pocket"] = Field(alias="as")
    panel: Size
    flap: PositiveLength
    open: Side = "top"


class Frame(FormBase):
    """Four strips around an opening."""

    as_: Literal["frame"] = Field(alias="as")
    opening: Size
    width: PositiveLength
    corner: Literal["mitre", "butt"] = "mitre"


class Envelope(FormBase):
    """A sheet folded around what it holds."""

    as_: Literal["envelope"] = Field(alias="as")
    holds: Size
    clearance: PositiveLength = Length.of("1/16 in")
    side_flap: PositiveLength
    bottom_flap: PositiveLength
    top_flap: PositiveLength


class FlatTag(FormBase):
    """A flat tag: a length cut off each corner, and perhaps a hole."""

    as_: Literal["tag"] = Field(alias="as")
    size: Size
    corner: LengthOrZero = Length.zero()
    hole: PositiveLength | None = None


class Score(DocumentObject):
    """One score line: its distance from an edge of the flat part, and how it folds as the outside is seen."""

    from_: Side = Field(alias="from")
    at: PositiveLength
    fold: Literal["mountain", "valley"] = "valley"


class Scored(FormBase):
    """A sheet given by its score lines."""

    as_: Literal["scored"] = Field(alias="as")
    size: Size
    scores: tuple[Annotated[Score, Bounded], ...] = ()
    corners: Literal["keep", "tab", "cut"] = "keep"


def _construction(value: Any) -> str | None:
    if not isinstance(value, dict):
        return "\0"
    name = value.get("as")
    # A name that is no text cannot be a construction; the marker keeps null apart from a missing name.
    return f"\0{name}" if isinstance(name, str) else "\0" if "as" in value else None


Form = Annotated[
    Annotated[Tray, Tag("\0tray")]
    | Annotated[Lid, Tag("\0lid")]
    | Annotated[Sleeve, Tag("\0sleeve")]
    | Annotated[Concertina, Tag("\0concertina")]
    | Annotated[Pocket, Tag("\0pocket")]
    | Annotated[Frame, Tag("\0frame")]
    | Annotated[Envelope, Tag("\0envelope")]
    | Annotated[FlatTag, Tag("\0tag")]
    | Annotated[Scored, Tag("\0scored")],
    Discriminator(_construction),
]
