"""Templates at true size: outlines to cut along, and bars by which a reader sees whether a print is true."""

from __future__ import annotations

from layouts.document import Piece, Window
from layouts.drawing.lettering import Label
from layouts.drawing.outlines import outline_path
from layouts.drawing.scale import TRUE, ScaledDrawing, scaled
from layouts.drawing.svg import INK, OCHRE, Box, Drawing, Margins
from layouts.lengths import TICKS_PER_INCH, TICKS_PER_MM
from layouts.shapes import is_inside, resolve

__all__ = ["BARS", "check_bars", "piece_template", "window_template"]

_MARGIN = Margins.of(2 * TICKS_PER_MM)
# Thickness of lines, in tenths of a millimetre.
_CUT, _HELP = "3", "1"

BARS = "A square of 1 in, a square of 50 mm, a bar of 6 in and a bar of 150 mm."


def piece_template(piece: Piece, *, name: str, title: str) -> ScaledDrawing:
    """Return the outline of a piece with those of its windows that lie inside it."""
    width, height = piece.size.width.ticks, piece.size.height.ticks
    drawing = Drawing(width, height, name=name, title=title, margins=_MARGIN)
    whole = Box(0, 0, width, height)
    drawing.path(outline_path(piece.shape, whole), fill="none", stroke=INK, stroke_width=_CUT)
    if piece.shape.kind != "rect":
        # The rectangle that the shape is trimmed from: the template is laid on by it.
        drawing.box(whole, fill="none", stroke=INK, stroke_width=_HELP, stroke_dasharray="20 20")
    size = min(6 * TICKS_PER_MM, height // 3)
    letter = Label(piece.id, 2 * TICKS_PER_MM, height - size - TICKS_PER_MM, size)
    hidden = False
    for window in piece.windows:
        if is_inside(window, piece.size, piece.shape):
            aperture = resolve(window, piece.size)
            inner = Box(aperture.left.ticks, aperture.bottom.ticks, aperture.width.ticks, aperture.height.ticks)
            drawing.path(outline_path(window.shape, inner), fill="none", stroke=OCHRE, stroke_width=_CUT)
            hidden = hidden or letter.box.overlaps(inner)
    if not hidden and letter.box.width < width:
        letter.draw(drawing)
    return scaled(drawing, TRUE)


def window_template(piece: Piece, window: Window, *, name: str, title: str) -> ScaledDrawing:
    """Return the outline of one window by itself, for a piece larger than a page; it must lie inside its piece."""
    aperture = resolve(window, piece.size)
    width, height = aperture.width.ticks, aperture.height.ticks
    drawing = Drawing(width, height, name=name, title=title, margins=_MARGIN)
    drawing.path(outline_path(window.shape, Box(0, 0, width, height)), fill="none", stroke=OCHRE, stroke_width=_CUT)
    return scaled(drawing, TRUE)


def check_bars(*, name: str, type_size: int) -> ScaledDrawing:
    """Return a square of 1 in, one of 50 mm, and bars of 6 in and 150 mm; `type_size` in ticks.

    Source: common practice, no source; a print at 97 % shows the bar of 6 in as 5.82 in.
    """
    long_in, long_mm, square = 6 * TICKS_PER_INCH, 150 * TICKS_PER_MM, 50 * TICKS_PER_MM
    tick, line = 2 * TICKS_PER_MM, {"stroke": INK, "stroke_width": _CUT}
    # From below: the bar of 6 in, the bar of 150 mm, the squares; each bar with its words above it.
    low_mm = tick + type_size
    low_squares = 2 * (tick + type_size)
    drawing = Drawing(long_in, low_squares + square, name=name, title=BARS, margins=_MARGIN)
    for y, length, words in ((0, long_in, "6 in"), (low_mm, long_mm, "150 mm")):
        drawing.line(0, y, length, y, **line)
        for x in (0, length):
            drawing.line(x, y, x, y + tick, **line)
        Label(words, length // 2, y + tick // 2, type_size, middle=True, weight="400").draw(drawing)
    for x, side, words in ((0, TICKS_PER_INCH, "1 in"), (TICKS_PER_INCH + 10 * TICKS_PER_MM, square, "50 mm")):
        drawing.box(Box(x, low_squares, side, side), fill="none", **line)
        Label(words, x + side // 2, low_squares + side // 2, type_size, middle=True, weight="400").draw(drawing)
    return scaled(drawing, TRUE)
