"""A piece with its windows, dimensioned."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from layouts.document import Piece, Window
from layouts.drawing.outlines import outline_path
from layouts.drawing.svg import INK, OCHRE, PAPER, USED, Box, Drawing, figure_width
from layouts.lengths import System
from layouts.shapes import resolve

__all__ = ["piece_drawing"]

_SIDES = ("left", "right", "top", "bottom", "width", "height")


def piece_drawing(piece: Piece, figure: Callable[[int], str], *, name: str, unit: System) -> tuple[str, str]:
    """Return the SVG of a piece with its windows, and the same in words for its alternative text.

    Only measures that the document states are drawn: `figure` turns their ticks into the text that the sheet shows.
    """
    width, height = piece.size.width.ticks, piece.size.height.ticks
    words = " ".join(_words(piece, figure, unit))
    u = max(width, height) // 100
    drawing = Drawing(width, height, name=name, title=words, margin=20 * u)
    line = {"stroke": INK, "stroke_width": _tenths(u)}
    drawing.path(outline_path(piece.shape, Box(0, 0, width, height)), fill=USED, **line)
    dimensions = _Dimensions(drawing, u, figure)
    dimensions.across(0, width, -11 * u, width)
    dimensions.upright(0, height, -11 * u, height)
    for window in piece.windows:
        aperture = resolve(window, piece.size)
        x, y = aperture.left.ticks, aperture.bottom.ticks
        wide, high = aperture.width.ticks, aperture.height.ticks
        if wide <= 0 or high <= 0:
            continue  # a finding says so; there is nothing to draw
        drawing.path(
            outline_path(window.shape, Box(x, y, wide, high)), fill=PAPER, stroke=OCHRE, stroke_width=_tenths(u)
        )
        middle, level = x + wide // 2, y + high // 2
        dimensions.across(0, x, level, _stated(window, "left"), USED)
        dimensions.across(x + wide, width, level, _stated(window, "right"), USED)
        dimensions.upright(0, y, middle, _stated(window, "bottom"), USED)
        dimensions.upright(y + high, height, middle, _stated(window, "top"), USED)
        dimensions.across(x, x + wide, y + high * 7 // 10, _stated(window, "width"))
        dimensions.upright(y, y + high, x + wide * 3 // 10, _stated(window, "height"))
    drawing.text(2 * u, height - 9 * u, piece.id, size=8 * u, font_weight="700")
    return drawing.markup(), words


def _stated(window: Window, side: str) -> int | None:
    length = getattr(window, side)
    return None if length is None else int(length.ticks)


def _words(piece: Piece, figure: Callable[[int], str], unit: System) -> Iterator[str]:
    size = f"{figure(piece.size.width.ticks)} by {figure(piece.size.height.ticks)} {unit}"
    yield f"{piece.id}, {piece.name}, {size}."
    for window in piece.windows:
        stated = [(side, _stated(window, side)) for side in _SIDES]
        sides = ", ".join(f"{side} {figure(ticks)}" for side, ticks in stated if ticks is not None)
        kind = "" if window.shape.kind == "rect" else f" ({window.shape.kind})"
        yield f"Window {window.id}{kind}: {sides}."


class _Dimensions:
    """Dimension lines with oblique ticks; the figure breaks the line, or stands beside it where there is no room."""

    def __init__(self, drawing: Drawing, u: int, figure: Callable[[int], str]) -> None:
        self._drawing = drawing
        self._u = u
        self._figure = figure
        self._size = 6 * u
        self._line = {"stroke": INK, "stroke_width": _tenths(u // 2)}

    def across(self, start: int, end: int, y: int, ticks: int | None, ground: str = PAPER) -> None:
        if ticks is None or end <= start:
            return
        u, text = self._u, self._figure(ticks)
        self._drawing.line(start, y, end, y, **self._line)
        for x in (start, end):
            self._drawing.line(x - u, y - u, x + u, y + u, **self._line)
        room = end - start > figure_width(text, self._size) + 2 * u
        self._drawing.figure((start + end) // 2, y if room else y + 5 * u, text, size=self._size, ground=ground)

    def upright(self, start: int, end: int, x: int, ticks: int | None, ground: str = PAPER) -> None:
        if ticks is None or end <= start:
            return
        u, text = self._u, self._figure(ticks)
        self._drawing.line(x, start, x, end, **self._line)
        for y in (start, end):
            self._drawing.line(x - u, y - u, x + u, y + u, **self._line)
        room = end - start > self._size + 2 * u
        aside = x if room else x + figure_width(text, self._size) // 2 + 2 * u
        self._drawing.figure(aside, (start + end) // 2, text, size=self._size, ground=ground)


def _tenths(ticks: int) -> str:
    return str(max(1, ticks // 32))
