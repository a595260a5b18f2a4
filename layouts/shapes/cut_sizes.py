"""The size to which a piece is cut, before its decorative edges are made, and the size that is left of it after."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from layouts.document import Piece, Size, Tool
from layouts.lengths import Length

__all__ = ["Bites", "bites", "cut_size", "finished_size"]


@dataclass(frozen=True, slots=True)
class Bites:
    """What the decorative edges of a piece take from each side; nothing where an edge is cut straight."""

    left: Length
    right: Length
    top: Length
    bottom: Length


def bites(piece: Piece, tools: Mapping[str, Tool]) -> Bites:
    """Return what the edges of a piece take; `tools` by id, a tool without a bite takes nothing."""

    def bite(tool: str | None) -> Length:
        return (tools[tool].bite if tool is not None else None) or Length.zero()

    edges = piece.edges
    return Bites(bite(edges.left), bite(edges.right), bite(edges.top), bite(edges.bottom))


def cut_size(piece: Piece, tools: Mapping[str, Tool]) -> Size:
    """Return the size a piece is cut to; `tools` by id.

    A piece whose size is the finished one is cut larger by the bite of each decorative edge: left and right to its
    width, top and bottom to its height. Shape and windows change nothing: they are trimmed from the rectangle.
    Source: common practice, no source (the bite must be added to the strip before punching).
    """
    if piece.size_is == "cut":
        return piece.size
    taken = bites(piece, tools)
    return Size(
        piece.size.width + taken.left + taken.right,
        piece.size.height + taken.top + taken.bottom,
    )


def finished_size(piece: Piece, tools: Mapping[str, Tool]) -> Size:
    """Return what is left of a piece once its decorative edges are made; `tools` by id.

    A side may be zero or less: a document may ask for a bite that leaves nothing.
    """
    if piece.size_is == "finished":
        return piece.size
    taken = bites(piece, tools)
    return Size(
        piece.size.width - taken.left - taken.right,
        piece.size.height - taken.top - taken.bottom,
    )
