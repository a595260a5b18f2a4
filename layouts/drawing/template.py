"""Templates at true size: outlines to cut along, and bars by which a reader sees whether a print is true."""

from __future__ import annotations

from dataclasses import dataclass

from layouts.document import Piece
from layouts.drawing.outlines import outline_path
from layouts.drawing.svg import INK, OCHRE, Box, Drawing
from layouts.lengths import TICKS_PER_INCH, TICKS_PER_MM, in_millimetres
from layouts.shapes import resolve

__all__ = ["TrueSize", "check_bars", "piece_template", "window_template"]

_MARGIN = 2 * TICKS_PER_MM


@dataclass(frozen=True, slots=True)
class TrueSize:
    """A drawing and the size at which it is true, with its margin: millimetres as text."""

    svg: str
    width_mm: str
    height_mm: str


def piece_template(piece: Piece, *, name: str, title: str) -> TrueSize:
    """Return the outline of a piece with its windows."""
    width, height = piece.size.width.ticks, piece.size.height.ticks
    drawing = Drawing(width, height, name=name, title=title, margin=_MARGIN)
    drawing.path(outline_path(piece.shape, Box(0, 0, width, height)), fill="none", stroke=INK, stroke_width="3")
    if piece.shape.kind != "rect":
        # The rectangle that the shape is trimmed from: the template is laid on by it.
        corners = Box(0, 0, width, height)
        drawing.box(corners, fill="none", stroke=INK, stroke_width="1", stroke_dasharray="20 20")
    for window in piece.windows:
        aperture = resolve(window, piece.size)
        inner = Box(aperture.left.ticks, aperture.bottom.ticks, aperture.width.ticks, aperture.height.ticks)
        if inner.width > 0 and inner.height > 0:
            drawing.path(outline_path(window.shape, inner), fill="none", stroke=OCHRE, stroke_width="3")
    size = min(6 * TICKS_PER_MM, height // 3)
    drawing.text(2 * TICKS_PER_MM, height - size - TICKS_PER_MM, piece.id, size=size, font_weight="700")
    return _true(drawing, width, height)


def window_template(piece: Piece, number: int, *, name: str, title: str) -> TrueSize | None:
    """Return the outline of one window (from 0) by itself, for pieces larger than a page; None for one of no size."""
    window = piece.windows[number]
    aperture = resolve(window, piece.size)
    width, height = aperture.width.ticks, aperture.height.ticks
    if width <= 0 or height <= 0:
        return None
    drawing = Drawing(width, height, name=name, title=title, margin=_MARGIN)
    drawing.path(outline_path(window.shape, Box(0, 0, width, height)), fill="none", stroke=OCHRE, stroke_width="3")
    return _true(drawing, width, height)


def check_bars(*, name: str, title: str) -> TrueSize:
    """Return a square of 1 in, one of 50 mm, and bars of 6 in and 150 mm.

    Source: common practice, no source; a print at 97 % shows the bar of 6 in as 5.82 in.
    """
    long_in, long_mm = 6 * TICKS_PER_INCH, 150 * TICKS_PER_MM
    high = 50 * TICKS_PER_MM
    width, height = long_in, high + 26 * TICKS_PER_MM
    drawing = Drawing(width, height, name=name, title=title, margin=_MARGIN)
    type_size = 4 * TICKS_PER_MM
    for y, length, words in ((0, long_in, "6 in"), (12 * TICKS_PER_MM, long_mm, "150 mm")):
        drawing.line(0, y, length, y, stroke=INK, stroke_width="4")
        for x in (0, length):
            drawing.line(x, y, x, y + 3 * TICKS_PER_MM, stroke=INK, stroke_width="4")
        drawing.text(length // 2, y + TICKS_PER_MM, words, size=type_size, text_anchor="middle")
    bottom = height - high
    squares = ((0, TICKS_PER_INCH, "1 in"), (TICKS_PER_INCH + 15 * TICKS_PER_MM, high, "50 mm"))
    for x, side, words in squares:
        drawing.box(Box(x, bottom, side, side), fill="none", stroke=INK, stroke_width="4")
        drawing.text(x + side // 2, bottom + side // 2, words, size=type_size, text_anchor="middle")
    return _true(drawing, width, height)


def _true(drawing: Drawing, width: int, height: int) -> TrueSize:
    around = 2 * _MARGIN
    return TrueSize(drawing.markup(), in_millimetres(width + around), in_millimetres(height + around))
