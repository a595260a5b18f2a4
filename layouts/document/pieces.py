"""Pieces: parts cut as rectangles."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Annotated, Any, Literal

from pydantic import Field, StrictStr
from pydantic_core import PydanticCustomError

from layouts.document.base import Bounded, DocumentObject, at_most_one
from layouts.document.shape import Shape, Window
from layouts.document.values import Count, Id, PaperRef, PrintReads, Size

__all__ = ["Edges", "Piece"]


class Edges(DocumentObject):
    """The tool that finishes each edge; an edge that is not named is cut straight."""

    left: Id | None = None
    right: Id | None = None
    top: Id | None = None
    bottom: Id | None = None


class Piece(DocumentObject):
    """A part cut as a rectangle: from a paper, or from a kept cut-out (`PROJECT/PIECE/WINDOW`)."""

    id: Id
    name: StrictStr
    paper: PaperRef | None = None
    from_: StrictStr | None = Field(default=None, alias="from")
    side: Literal["front", "back", "either", "both"] = "front"
    size: Size
    size_is: Literal["cut", "finished"] = "cut"
    count: Count = 1
    print_reads: PrintReads = "up"
    shape: Shape = Shape.by_default()
    edges: Edges = Edges.by_default()
    windows: tuple[Annotated[Window, Bounded], ...] = ()
    mirror_of: Id | None = None

    @classmethod
    def faults(cls, given: Mapping[str, Any]) -> list[PydanticCustomError]:
        return at_most_one(given, "paper", "from")
