"""How much room a page has, and how thick its lines are: sizes on paper, in ticks."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from kits.sheets.options import SheetOptions
from layouts.drawing import ScaledDrawing
from layouts.lengths import TICKS_PER_MM

__all__ = ["Room", "room_of"]

# Inside the margins of the style sheet (15 mm at the sides, 14 above, 17 below), in tenths of a millimetre.
_PAGES = {"letter": (1859, 2484), "a4": (1800, 2660)}
# Lettering is seven lines high: 9 points, 14.2 in large print. The digits of its fractions are 85 % of that.
_LINES = {"normal": 145, "large": 229}

# What stands above a drawing, in heights of type.
_WORDS = 9


@dataclass(frozen=True, slots=True)
class Room:
    """The inside of a page, the thickness of a line, and the height of the type that words are set in."""

    width: int
    height: int
    line: int
    type_size: int
    large: bool

    def holds(self, drawing: ScaledDrawing) -> bool:
        """Whether a page has room for a drawing below a heading with a few lines of words."""
        width, height = (Fraction(side) * TICKS_PER_MM for side in (drawing.width_mm, drawing.height_mm))
        return width <= self.width and height <= self.height - _WORDS * self.type_size


def room_of(options: SheetOptions) -> Room:
    width, height = (side * TICKS_PER_MM // 10 for side in _PAGES[options.page])
    large = options.print == "large"
    points = 18 * 2 if large else 23
    return Room(width, height, _LINES[options.print], points * TICKS_PER_MM * 127 // 720, large)
