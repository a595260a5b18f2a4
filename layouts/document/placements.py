"""Placements: a thing put on a face, a piece or a panel of a form."""

from __future__ import annotations

from typing import Annotated, Any, Literal

from pydantic import Discriminator, Field, StrictStr, Tag, model_validator
from pydantic_core import PydanticCustomError

from layouts.document.base import Bounded, DocumentObject
from layouts.document.values import Centred, Count, Id, LengthOrZero, Side, Turn, kind_of

__all__ = ["BorderSides", "Copy", "Placement", "Put", "Support"]


def only_one(value: DocumentObject, names: tuple[Annotated[str, Bounded], ...]) -> str:
    """Return the one name of `names` that is given. Raises: not-together for several, missing for none."""
    given = [name for name in names if getattr(value, name) is not None]
    if len(given) > 1:
        raise PydanticCustomError("not-together", "{given} exclude each other: keep one", {"given": ", ".join(given)})
    if not given:
        raise PydanticCustomError("missing", "one of {names} is needed", {"names": ", ".join(names)})
    return given[0]


class Put(DocumentObject):
    """What is put: exactly one of five kinds of thing."""

    piece: Id | None = None
    element: StrictStr | None = None
    form: Id | None = None
    blank: Id | None = None
    supply: Id | None = None

    @model_validator(mode="after")
    def _one_thing(self) -> Put:
        only_one(self, ("piece", "element", "form", "blank", "supply"))
        return self


class Support(DocumentObject):
    """What it is put on: a face of a blank, a piece, or a panel of a form."""

    blank: Id | None = None
    face: Id | None = None
    piece: Id | None = None
    form: Id | None = None
    panel: Id | None = None
    skin: Literal["outside", "inside"] = "outside"

    @model_validator(mode="after")
    def _one_support(self) -> Support:
        kind = only_one(self, ("blank", "piece", "form"))
        for part, whole in (("face", "blank"), ("panel", "form")):
            given = getattr(self, part) is not None
            if given and kind != whole:
                raise PydanticCustomError(
                    "not-together",
                    "{part} goes with {whole}, not with {kind}",
                    {"part": part, "whole": whole, "kind": kind},
                )
            if kind == whole and not given:
                raise PydanticCustomError("missing", "name the {part} of the {whole}", {"part": part, "whole": whole})
        return self


class _Position(DocumentObject):
    left: LengthOrZero | None = None
    right: LengthOrZero | None = None
    centred: Centred | None = None
    top: LengthOrZero | None = None
    bottom: LengthOrZero | None = None
    middle: Centred | None = None
    turn: Turn = 0

    @model_validator(mode="after")
    def _one_way_an_axis(self) -> _Position:
        for names in (("left", "right", "centred"), ("top", "bottom", "middle")):
            given = [name for name in names if getattr(self, name) is not None]
            if len(given) > 1:
                raise PydanticCustomError(
                    "not-together", "{given} exclude each other: keep one", {"given": ", ".join(given)}
                )
        return self


class Copy(_Position):
    """Where one copy goes: on which copy of the support, and where on it."""

    on_copy: Count


class BorderSides(DocumentObject):
    """The border claimed on each side."""

    left: LengthOrZero | None = None
    right: LengthOrZero | None = None
    top: LengthOrZero | None = None
    bottom: LengthOrZero | None = None


def _copies(value: Any) -> str:
    return "<list>" if isinstance(value, list | tuple) else "<each>"


class Placement(_Position):
    """A thing on a face. `border` is a claim that is checked, never a position."""

    id: Id
    put: Put
    on: Support
    layer: Literal["over", "behind"] = "over"
    copies: Annotated[
        Annotated[Literal["each"], Tag("<each>")]
        | Annotated[tuple[Annotated[Copy, Bounded], ...], Field(min_length=1), Tag("<list>")],
        Discriminator(_copies),
    ] = "each"
    border: (
        Annotated[
            Annotated[LengthOrZero, Tag("<plain>")] | Annotated[BorderSides, Tag("<object>")], Discriminator(kind_of)
        ]
        | None
    ) = None
    wraps: tuple[Annotated[Side, Bounded], ...] = ()
    intends: tuple[Annotated[Literal["overhang", "uneven", "overlap"], Bounded], ...] = ()

    @model_validator(mode="after")
    def _positions_in_one_place(self) -> Placement:
        own = (
            any(getattr(self, name) is not None for name in ("left", "right", "centred", "top", "bottom", "middle"))
            or self.turn
        )
        if own and self.copies != "each":
            raise PydanticCustomError(
                "not-together", "with a list of copies, each copy has its own position: move it there"
            )
        return self
