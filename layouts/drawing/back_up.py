"""How a piece is marked that does not show the side of its sheet which lies up: in words, or by a black corner."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from layouts.drawing.cut_plan import Labelled, box_of
from layouts.drawing.lettering import Label, text_width
from layouts.drawing.svg import INK, Box, Drawing

__all__ = ["Corner", "back_mark"]

_WORDS = "back up"
# In lines: the type of the words, and the legs of a corner. How many rows are looked at.
_TYPE, _LEG, _ROWS = 6, 6, 12


@dataclass(frozen=True, slots=True)
class Corner:
    """A black triangle in a corner of a piece; `box` is what it takes, `right` and `top` say in which corner."""

    box: Box
    right: bool
    top: bool

    def draw(self, drawing: Drawing) -> None:
        box = self.box
        x, other_x = (box.x + box.width, box.x) if self.right else (box.x, box.x + box.width)
        y, other_y = (box.y + box.height, box.y) if self.top else (box.y, box.y + box.height)
        drawing.path([("M", [(x, y)]), ("L", [(other_x, y), (x, other_y)]), ("Z", [])], fill=INK, stroke="none")


def back_mark(one: Labelled, unit: int) -> Label | Corner:
    """Return the words “back up” where the piece has room for them, lying or upright; else a corner of it.

    `unit` is the thickness of a line. Left out, a piece would be taken for one that shows the side which lies up.
    """
    box = box_of(one.leaf)
    taken = [*one.windows, *(label.box for label in one.labels)]
    for label in _spots(box, one.labels, unit):
        if box.holds(label.box) and not any(label.box.overlaps(other) for other in taken):
            return label
    corners = list(_corners(box, unit))
    return next((one for one in corners if not any(one.box.overlaps(other) for other in taken)), corners[0])


def _spots(box: Box, labels: Sequence[Label], unit: int) -> Iterator[Label]:
    """Beside the letter, below it, then from the top and the bottom towards the middle, where the size stands."""
    size = _TYPE * unit
    letter = labels[0].box if labels else Box(box.x, box.y + box.height, 0, 0)
    wide = text_width(_WORDS, size)
    left, right = box.x + unit, box.x + box.width - wide - unit
    low, high = box.y + unit + size // 4, box.y + box.height - size - unit
    yield Label(_WORDS, letter.x + letter.width + unit, high, size)
    yield Label(_WORDS, left, letter.y - size, size)
    for row in range(_ROWS):
        for level in (high - row * size, low + row * size):
            yield from (Label(_WORDS, x, level, size) for x in (left, right))
    for x in (box.x + box.width - size // 2, box.x + size, box.x + box.width // 2 + size // 4):
        for start in (box.y + unit, box.y + box.height - wide - unit):
            yield Label(_WORDS, x, start, size, upright=True)


def _corners(box: Box, unit: int) -> Iterator[Corner]:
    """Where no letter stands first. It takes half of a narrow piece at most."""
    leg = max(1, min(_LEG * unit, box.width // 2, box.height // 2))
    for right, top in ((True, False), (False, False), (True, True)):
        x, y = box.x + (box.width - leg if right else 0), box.y + (box.height - leg if top else 0)
        yield Corner(Box(x, y, leg, leg), right, top)
