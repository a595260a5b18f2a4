"""Outlines inside a bounding size, and openings cut inside a piece."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field, model_validator
from pydantic_core import PydanticCustomError

from layouts.document.base import Bounded, DocumentObject
from layouts.document.values import Id, Point, PositiveLength

__all__ = ["Opening", "Shape", "Window"]

_NEEDS = {"arch": "rise", "rounded": "radius", "polygon": "points"}


class Shape(DocumentObject):
    """An outline inside its bounding size, trimmed after the rectangle is cut.

    An arch is a rectangle whose top is an ellipse half of height `rise`; the points of a polygon are measured from
    the lower left of its bounding size.
    """

    kind: Literal["rect", "ellipse", "arch", "rounded", "polygon"] = "rect"
    rise: PositiveLength | None = None
    radius: PositiveLength | None = None
    points: tuple[Annotated[Point, Bounded], ...] | None = Field(default=None, min_length=3)

    @model_validator(mode="after")
    def _measures_of_its_kind(self) -> Shape:
        needed = _NEEDS.get(self.kind)
        for name in _NEEDS.values():
            given = getattr(self, name) is not None
            if given and name != needed:
                raise PydanticCustomError(
                    "not-together", "a shape of kind {kind} has no {name}: remove it", {"kind": self.kind, "name": name}
                )
            if name == needed and not given:
                raise PydanticCustomError(
                    "missing", "a shape of kind {kind} needs its {name}", {"kind": self.kind, "name": name}
                )
        return self


_RECT = Shape()


class Opening(DocumentObject):
    """An opening by any sufficient set of six measures: on each axis two of three. More are claims, and compared."""

    left: PositiveLength | None = None
    right: PositiveLength | None = None
    top: PositiveLength | None = None
    bottom: PositiveLength | None = None
    width: PositiveLength | None = None
    height: PositiveLength | None = None
    shape: Shape = _RECT

    @model_validator(mode="after")
    def _enough_measures(self) -> Opening:
        for names in (("left", "right", "width"), ("top", "bottom", "height")):
            if sum(getattr(self, name) is not None for name in names) < 2:
                raise PydanticCustomError("missing", "an opening needs two of {names}", {"names": ", ".join(names)})
        return self


class Window(Opening):
    """An opening cut inside a piece; what comes out is waste or is kept."""

    id: Id
    cut_out: Literal["waste", "kept"] = "waste"
