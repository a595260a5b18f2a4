"""Outlines inside a bounding size, and openings cut inside a piece."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Annotated, Any, Literal

from pydantic import Field
from pydantic_core import PydanticCustomError

from layouts.document.base import Bounded, DocumentObject, fault
from layouts.document.values import Id, Point, PositiveLength

__all__ = ["Opening", "Shape", "Window"]

_KINDS = ("rect", "ellipse", "arch", "rounded", "polygon")
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

    @classmethod
    def faults(cls, given: Mapping[str, Any]) -> list[PydanticCustomError]:
        kind = given.get("kind", "rect")
        if kind not in _KINDS:
            return []
        found = []
        for other, name in _NEEDS.items():
            if name in given and kind != other:
                found.append(fault("not-together", f"a shape of kind {kind} has no {name}: remove it"))
            if name not in given and kind == other:
                found.append(fault("lacking", f"a shape of kind {kind} needs its {name}"))
        return found


_RECT = Shape.by_default()


class Opening(DocumentObject):
    """An opening by any sufficient set of six measures: on each axis two of three. More are claims, and compared."""

    left: PositiveLength | None = None
    right: PositiveLength | None = None
    top: PositiveLength | None = None
    bottom: PositiveLength | None = None
    width: PositiveLength | None = None
    height: PositiveLength | None = None
    shape: Shape = _RECT
    cut_out: Literal["waste", "kept"] = "waste"

    @classmethod
    def faults(cls, given: Mapping[str, Any]) -> list[PydanticCustomError]:
        return [
            fault("lacking", f"an opening needs two of {', '.join(names)}")
            for names in (("left", "right", "width"), ("top", "bottom", "height"))
            if sum(name in given for name in names) < 2
        ]


class Window(Opening):
    """An opening cut inside a piece; what comes out is waste or is kept."""

    id: Id
