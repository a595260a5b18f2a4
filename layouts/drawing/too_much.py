"""What is too much for the sheets of a print: sheets and pieces beside each other, at one scale."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass

from layouts.drawing.lettering import Label, text_width
from layouts.drawing.svg import INK, USED, Box, Drawing, Margins
from layouts.lengths import TICKS_PER_MM

__all__ = ["TooMuch", "too_much_drawing"]

# Sheets and pieces that are drawn of many; a sentence beside the drawing counts all.
_SHEETS, _PIECES = 3, 12
# How far apart things stand, and how wide a row of pieces gets, in hundredths of the sheets' longer side.
_GAP, _ROW = 8, 220


@dataclass(frozen=True, slots=True)
class TooMuch:
    """Copies of a piece or flat part, by its place, and its size in ticks as it is seen the right way up."""

    place: str
    width: int
    height: int
    copies: int


def too_much_drawing(
    sheet: tuple[int, int],
    sheets: int,
    pieces: Sequence[TooMuch],
    letter: Callable[[str], str],
    *,
    name: str,
    title: str,
) -> str:
    """Return the SVG: the sheets (width and height in ticks) empty in the first row, below them the pieces.

    `name` starts the ids in it, `title` is its alternative text, `letter` says by which letter a place is called.
    """
    longest = max(sheet)
    gap, widest = longest * _GAP // 100, longest * _ROW // 100
    empty = list(_rows([(sheet, "")] * min(max(1, sheets), _SHEETS), widest, gap))
    alike = [((one.width, one.height), letter(one.place)) for one in pieces for _ in range(min(one.copies, _PIECES))]
    rows = [*empty, *_rows(alike[:_PIECES], widest, gap)]
    width = max(sum(size[0] for size, _ in row) + gap * (len(row) - 1) for row in rows)
    height = sum(max(size[1] for size, _ in row) for row in rows) + gap * (len(rows) - 1)
    unit = max(width, height) // 200
    drawing = Drawing(width, height, name=name, title=title, margins=Margins.of(unit))
    top = height
    for row in rows:
        left, level = 0, top - max(size[1] for size, _ in row)
        for (across, up), called in row:
            _draw(drawing, Box(left, level, across, up), called, unit)
            left += across + gap
        top = level - gap
    return drawing.markup()


def _rows(
    things: Sequence[tuple[tuple[int, int], str]], widest: int, gap: int
) -> Iterator[list[tuple[tuple[int, int], str]]]:
    """Part things into rows, one after the other, none wider than this unless a single thing is."""
    row: list[tuple[tuple[int, int], str]] = []
    for thing in things:
        if row and sum(size[0] + gap for size, _ in row) + thing[0][0] > widest:
            yield row
            row = []
        row.append(thing)
    if row:
        yield row


def _draw(drawing: Drawing, box: Box, letter: str, unit: int) -> None:
    """A sheet is an empty outline, its lines broken; a piece is filled, with its letter in the upper left corner."""
    thick = str(max(1, unit * 10 // TICKS_PER_MM))
    if not letter:
        dashes = f"{max(1, 60 * unit // TICKS_PER_MM)} {max(1, 40 * unit // TICKS_PER_MM)}"
        drawing.box(box, fill="none", stroke=INK, stroke_width=thick, stroke_dasharray=dashes)
        return
    drawing.box(box, fill=USED, stroke=INK, stroke_width=thick)
    size = min(14 * unit, box.height * 4 // 5, box.width * 9 * unit * 14 // (10 * text_width(letter, 14 * unit)))
    if size >= 6 * unit:
        aside = min(size // 4, (box.width - text_width(letter, size)) // 2)
        Label(letter, box.x + aside, box.y + box.height - size * 9 // 10, size).draw(drawing)
