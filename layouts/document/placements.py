"""Placements: a thing put on a face, a piece or a panel of a form."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Annotated, Any, Literal

from pydantic import AfterValidator, Discriminator, Field, StrictStr, Tag
from pydantic_core import PydanticCustomError

from layouts.document.base import Bounded, DocumentObject, at_most_one, exactly_one, fault
from layouts.document.values import OBJECT, PLAIN, Centred, Count, Id, LengthOrZero, Side, Turn, kind_of

__all__ = ["BorderSides", "Copy", "Placement", "Put", "Support"]


class Put(DocumentObject):
    """What is put: exactly one of five kinds of thing."""

    piece: Id | None = None
    element: StrictStr | None = None
    form: Id | None = None
    blank: Id | None = None
    supply: Id | None = None

    @classmethod
    def faults(cls, given: Mapping[str, Any]) -> list[PydanticCustomError]:
        return exactly_one(given, "piece", "element", "form", "blank", "supply")


class Support(DocumentObject):
    """What it is put on: a face of a blank, a piece, or a panel of a form."""

    blank: Id | None = None
    face: Id | None = None
    piece: Id | None = None
    form: Id | None = None
    panel: Id | None = None
    skin: Literal["outside", "inside"] = "outside"

    @classmethod
    def faults(cls, given: Mapping[str, Any]) -> list[PydanticCustomError]:
        found = exactly_one(given, "blank", "piece", "form")
        for part, whole in (("face", "blank"), ("panel", "form")):
            if part in given and whole not in given:
                found.append(
                    fault("not-together", f"a {part} goes with a {whole} only: remove it, or name the {whole}")
                )
            if whole in given and part not in given:
                found.append(fault("lacking", f"name the {part} of the {whole}"))
        if given.get("skin") == "inside" and "form" not in given:
            found.append(fault("not-together", "only a form has an inside and an outside: remove the skin"))
        return found


_AXES = (("left", "right", "centred"), ("top", "bottom", "middle"))


class _Position(DocumentObject):
    left: LengthOrZero | None = None
    right: LengthOrZero | None = None
    centred: Centred | None = None
    top: LengthOrZero | None = None
    bottom: LengthOrZero | None = None
    middle: Centred | None = None
    turn: Turn = 0

    @classmethod
    def faults(cls, given: Mapping[str, Any]) -> list[PydanticCustomError]:
        return [found for names in _AXES for found in at_most_one(given, *names)]


class Copy(_Position):
    """Where one copy goes: on which copy of the support, and where on it."""

    on_copy: Count


class BorderSides(DocumentObject):
    """The border claimed on each side."""

    left: LengthOrZero | None = None
    right: LengthOrZero | None = None
    top: LengthOrZero | None = None
    bottom: LengthOrZero | None = None


def _of_some_side(border: BorderSides | None) -> BorderSides | None:
    """Make one value of no border and of a border on no side, which are one document."""
    return None if border == BorderSides() else border


def _copies(value: Any) -> str:
    return "\0list" if isinstance(value, list | tuple) else "\0each"


class Placement(_Position):
    """A thing on a face. `border` is a claim that is checked, never a position."""

    id: Id
    put: Put
    on: Support
    layer: Literal["over", "behind"] = "over"
    copies: Annotated[
        Annotated[Literal["each"], Tag("\0each")]
        | Annotated[tuple[Annotated[Copy, Bounded], ...], Field(min_length=1), Tag("\0list")],
        Discriminator(_copies),
    ] = "each"
    border: (
        Annotated[
            Annotated[LengthOrZero, Tag(PLAIN)] | Annotated[BorderSides, AfterValidator(_of_some_side), Tag(OBJECT)],
            Discriminator(kind_of),
        ]
        | None
    ) = None
    wraps: tuple[Annotated[Side, Bounded], ...] = ()
    intends: tuple[Annotated[Literal["overhang", "uneven", "overlap"], Bounded], ...] = ()

    @classmethod
    def faults(cls, given: Mapping[str, Any]) -> list[PydanticCustomError]:
        found = super().faults(given)
        own = any(name in given for names in _AXES for name in names) or given.get("turn", 0) != 0
        if own and isinstance(given.get("copies"), list):
            found.append(fault("not-together", "with a list of copies, each copy has its own position: move it there"))
        return found
