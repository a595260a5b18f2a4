"""At which scale something is drawn, and how large the drawing is on paper."""

from __future__ import annotations

from dataclasses import dataclass

from layouts.drawing.svg import Drawing
from layouts.lengths import in_millimetres

__all__ = ["SCALES", "TRUE", "Scale", "ScaledDrawing", "largest_scale", "scaled"]


@dataclass(frozen=True, slots=True)
class Scale:
    """One to so many tenths.

    >>> Scale(25).words, Scale(40).words
    ('1\\xa0:\\xa02.5', '1\\xa0:\\xa04')
    """

    tenths: int

    @property
    def words(self) -> str:
        whole, rest = divmod(self.tenths, 10)
        times = f"{whole}.{rest}" if rest else str(whole)
        return f"1 : {times}".replace(" ", "\N{NO-BREAK SPACE}")  # in one line

    def on_paper(self, ticks: int) -> int:
        """How long something is on paper, in ticks, rounded up."""
        return -(-ticks * 10 // self.tenths)

    def drawn(self, ticks: int) -> int:
        """How long something is drawn that has this length on paper."""
        return ticks * self.tenths // 10


# Simple scales, the largest first. Lengths of up to ten metres fit a page at the last.
SCALES = tuple(map(Scale, (10, 15, 20, 25, 30, 40, 50, 60, 80, 100, 150, 200, 300, 400, 500, 1000)))
TRUE = SCALES[0]


@dataclass(frozen=True, slots=True)
class ScaledDrawing:
    """A drawing, its scale, and the size at which it is to scale, with its margins: millimetres as text."""

    svg: str
    scale: Scale
    width_mm: str
    height_mm: str


def largest_scale(width: int, height: int, room: tuple[int, int]) -> Scale:
    """Return the largest scale at which something of this size, in ticks, fits a room on paper; the last if none does.

    >>> largest_scale(65024, 65024, (80 * 320, 100 * 320)).tenths
    30
    """
    for scale in SCALES:
        if scale.on_paper(width) <= room[0] and scale.on_paper(height) <= room[1]:
            return scale
    return SCALES[-1]


def scaled(drawing: Drawing, scale: Scale) -> ScaledDrawing:
    width, height = (in_millimetres(scale.on_paper(side)) for side in drawing.whole)
    return ScaledDrawing(drawing.markup(), scale, width, height)
