"""The size to which a piece is cut, before its decorative edges are made."""

from __future__ import annotations

from collections.abc import Mapping

from layouts.document import Piece, Size, Tool
from layouts.lengths import Length

__all__ = ["cut_size"]


def cut_size(piece: Piece, tools: Mapping[str, Tool]) -> Size:
    """Return the size a piece is cut to; `tools` by id, a tool without a bite takes nothing.

    A piece whose size is the finished one is cut larger by the bite of each decorative edge: left and right to its
    width, top and bottom to its height. Shape and windows change nothing: they are trimmed from the rectangle.
    Source: common practice, no source (the bite must be added to the strip before punching).
    """
    if piece.size_is == "cut":
        return piece.size

    def bite(tool: str | None) -> Length:
        return (tools[tool].bite if tool is not None else None) or Length.zero()

    edges = piece.edges
    return Size(
        piece.size.width + bite(edges.left) + bite(edges.right),
        piece.size.height + bite(edges.top) + bite(edges.bottom),
    )
