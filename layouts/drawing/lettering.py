"""How much room words and figures take, and the labels of a drawing.

Widths are those of the face that sheets are set in, its bold weight, rounded up: a label must keep clear of others
whatever stands in it.
"""

from __future__ import annotations

from dataclasses import dataclass

from layouts.drawing.svg import FRACTION, GAP, INK, Box, Drawing

__all__ = ["Label", "figure_width", "text_width"]

# Thousandths of the height of type.
_WIDTHS = (
    ("MW—…", 1050),
    ("mw", 880),
    (" ", 200),
    (".,:;'’|ijlI", 300),
    ("×", 590),
    ("0", 670),
    ("1", 460),
    ("7", 550),
    ("235", 590),
    ("4689", 620),
    ("⁄/", 320),
    ("abcdefghknopqrstuvxyz-", 610),
)
_WIDTH = {letter: width for letters, width in _WIDTHS for letter in letters}
_CAPITAL, _OTHER = 760, 1000


@dataclass(frozen=True, slots=True)
class Label:
    """A few words at a place (ticks): the left end, or the middle, of their baseline, and the height of their type.

    `upright` words run upwards.
    """

    text: str
    x: int
    y: int
    size: int
    middle: bool = False
    fill: str = INK
    weight: str = "700"
    upright: bool = False

    @property
    def box(self) -> Box:
        width = text_width(self.text, self.size)
        if self.upright:
            start = self.y - width // 2 if self.middle else self.y
            return Box(self.x - self.size * 3 // 4, start, self.size, width)
        return Box(self.x - width // 2 if self.middle else self.x, self.y - self.size // 4, width, self.size)

    def draw(self, drawing: Drawing) -> None:
        anchor = "middle" if self.middle else "start"
        drawing.text(
            self.x,
            self.y,
            self.text,
            size=self.size,
            upright=self.upright,
            fill=self.fill,
            font_weight=self.weight,
            text_anchor=anchor,
        )


def text_width(text: str, size: int) -> int:
    """How wide a text is at most, in ticks.

    >>> text_width("A 2", 1000)
    1550
    """
    return sum(_WIDTH.get(letter, _CAPITAL if "A" <= letter <= "Z" else _OTHER) for letter in text) * size // 1000


def figure_width(text: str, size: int) -> int:
    """How wide a measure is that `Drawing.figure` writes: what stands behind the whole number is smaller."""
    whole, _, fraction = text.rpartition(" ") if "/" in text else (text, "", "")
    small = text_width(fraction, size * FRACTION // 100)
    if not whole or not fraction:
        return text_width(whole, size) + small
    return text_width(f"{whole} ", size) + size * GAP // 100 + small
