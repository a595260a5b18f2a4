"""Forms: folded parts, each given by the parameters of its construction."""

from __future__ import annotations

from typing import Annotated, Any, Literal

from pydantic import Discriminator, Field, StrictStr, Tag, model_validator
from pydantic_core import PydanticCustomError

from layouts.document.base import Bounded, DocumentObject
from layouts.document.values import Count, Id, LengthOrZero, PaperRef, PositiveLength, PrintReads, Side, Size, kind_of
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

    @property
    def turned_in(self) -> Length:
        """How far the wall turns in: the depth when it is double, nothing when single, unless stated."""
        if self.turn_in is not None:
            return self.turn_in
        return self.depth if self.walls == "double" else Length.zero()

    def _one_of(self, *names: str) -> None:
        given = [name for name in names if getattr(self, name) is not None]
        if len(given) > 1:
            raise PydanticCustomError(
                "not-together", "{given} exclude each other: keep one", {"given": ", ".join(given)}
            )
        if not given:
            raise PydanticCustomError("missing", "one of {names} is needed", {"names": ", ".join(names)})


class Tray(_Walled):
    """An open tray with single or double walls."""

    as_: Literal["tray"] = Field(alias="as")

    @model_validator(mode="after")
    def _one_size(self) -> Tray:
        self._one_of("inside", "outside")
        return self


class Covered(DocumentObject):
    """The blank or the form that a lid covers."""

    blank: Id | None = None
    form: Id | None = None

    @model_validator(mode="after")
    def _one_thing(self) -> Covered:
        if self.blank is not None and self.form is not None:
            raise PydanticCustomError("not-together", "a lid fits a blank or a form, not both: keep one")
        if self.blank is None and self.form is None:
            raise PydanticCustomError("missing", "name the blank or the form that the lid fits")
        return self


class Lid(_Walled):
    """A tray turned over something: given like a tray, or by what it fits and the clearance a side."""

    as_: Literal["lid"] = Field(alias="as")
    fits: (
        Annotated[Annotated[Covered, Tag("<object>")] | Annotated[Size, Tag("<plain>")], Discriminator(kind_of)] | None
    ) = None
    clearance: PositiveLength = Length.of("1/32 in")

    @model_validator(mode="after")
    def _one_size(self) -> Lid:
        self._one_of("inside", "outside", "fits")
        return self


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
        return "<>"
    name = value.get("as")
    # A name that is no text cannot be a construction; the marker keeps null apart from a missing name.
    return f"<{name}>" if isinstance(name, str) else "<>" if "as" in value else None


Form = Annotated[
    Annotated[Tray, Tag("<tray>")]
    | Annotated[Lid, Tag("<lid>")]
    | Annotated[Sleeve, Tag("<sleeve>")]
    | Annotated[Concertina, Tag("<concertina>")]
    | Annotated[Pocket, Tag("<pocket>")]
    | Annotated[Frame, Tag("<frame>")]
    | Annotated[Envelope, Tag("<envelope>")]
    | Annotated[FlatTag, Tag("<tag>")]
    | Annotated[Scored, Tag("<scored>")],
    Discriminator(_construction),
]
