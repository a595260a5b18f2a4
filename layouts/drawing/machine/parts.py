"""What a cutting machine gets of a piece or a flat part: lines to cut, and lines to score."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction

from layouts.document import Piece, Tool
from layouts.drawing.machine.contours import Contour, circle, contour_of, polyline
from layouts.shapes import cut_size, is_inside, resolve
from layouts.shapes.cut_sizes import bites
from layouts.shapes.forms import FlatSheet

__all__ = ["MachinePart", "flat_sheet_part", "piece_part"]


@dataclass(frozen=True, slots=True)
class MachinePart:
    """One part, in ticks from its lower left, as it lies with its outside or the side that shows up.

    `cuts`: openings first, the outline last, so that a part lies fast as long as it is cut.
    """

    title: str
    width: Fraction
    height: Fraction
    cuts: tuple[Contour, ...]
    mountains: tuple[Contour, ...] = ()
    valleys: tuple[Contour, ...] = ()


def piece_part(piece: Piece, tools: Mapping[str, Tool], title: str) -> MachinePart:
    """Return a piece as it is cut: its rectangle, or the shape trimmed from it, and the windows that lie inside it.

    A decorative edge is made afterwards by its own tool: the piece is cut larger by what that takes.
    """
    size, taken = cut_size(piece, tools), bites(piece, tools)
    # Shape and windows are measured on the size that the document states.
    left, bottom = (0, 0) if piece.size_is == "cut" else (taken.left.ticks, taken.bottom.ticks)
    cuts = []
    for window in piece.windows:
        if is_inside(window, piece.size, piece.shape):
            aperture = resolve(window, piece.size)
            opening = contour_of(window.shape, aperture.width.ticks, aperture.height.ticks)
            cuts.append(opening.moved(aperture.left.ticks + left, aperture.bottom.ticks + bottom))
    if piece.shape.kind == "rect":
        cuts.append(contour_of(piece.shape, size.width.ticks, size.height.ticks))
    else:
        shape = contour_of(piece.shape, piece.size.width.ticks, piece.size.height.ticks)
        cuts.append(shape.moved(left, bottom))
    return MachinePart(title, Fraction(size.width.ticks), Fraction(size.height.ticks), tuple(cuts))


def flat_sheet_part(sheet: FlatSheet, title: str) -> MachinePart:
    """Return a flat part of a form: its cut lines, and its score lines as its outside is seen."""
    outline, *slits = (polyline(line) for line in sheet.cuts)
    holes = (circle(hole.middle, hole.diameter) for hole in sheet.holes)
    scores: dict[str, list[Contour]] = {"mountain": [], "valley": []}
    for crease in sheet.creases:
        scores[crease.fold].append(polyline((crease.start, crease.end)))
    return MachinePart(
        title,
        sheet.width,
        sheet.height,
        (*holes, *slits, outline),
        tuple(scores["mountain"]),
        tuple(scores["valley"]),
    )
