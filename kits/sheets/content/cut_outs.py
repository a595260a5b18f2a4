"""What comes out of windows: which pieces do, which do not though they should, and which windows can be cut."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from layouts.document import Kit, Piece, Project, Window, piece_place
from layouts.shapes import is_inside

__all__ = ["becomes", "can_be_cut", "lost_pieces"]

# Rules of which each finding names first a piece that does not come out of the window it is meant to come out of.
_LOST = frozenset(["cut-out-too-small", "cut-out-overdrawn"])


def lost_pieces(proof: Mapping[str, Any]) -> frozenset[str]:
    """Return the places of the pieces that do not come out of their windows: nobody should keep a cut-out for them."""
    return frozenset(str(one["at"][0]) for one in proof["findings"] if one["rule"] in _LOST)


def becomes(kit: Kit, project: Project, piece: Piece, lost: frozenset[str]) -> Iterator[str]:
    """Yield what comes out of the windows of a piece, by letter, those of other projects with the title of theirs."""
    for window in piece.windows:
        for other in kit.projects:
            for guest in other.pieces:
                is_out = guest.from_ == f"{project.id}/{piece.id}/{window.id}"
                if is_out and piece_place(other.id, guest.id) not in lost:
                    yield f"{guest.id} of the {other.title}" if other.id != project.id else guest.id


def can_be_cut(piece: Piece) -> tuple[Window, ...]:
    """Return the windows that lie inside of a piece; a finding tells of the others."""
    return tuple(window for window in piece.windows if is_inside(window, piece.size, piece.shape))
