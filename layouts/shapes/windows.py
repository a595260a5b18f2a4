"""Where an opening lies in its piece, whether its measures agree, and whether it lies inside."""

from __future__ import annotations

from dataclasses import dataclass

from layouts.document import Opening, Shape, Size
from layouts.lengths import Length
from layouts.shapes.outlines import encloses, outline

__all__ = ["Aperture", "WindowSum", "contradictions", "is_inside", "resolve"]

_RECT = Shape.by_default()
_AXES = (("left", "width", "right", "width"), ("bottom", "height", "top", "height"))


@dataclass(frozen=True, slots=True)
class Aperture:
    """The rectangle around an opening, from the lower left of the whole it is cut from.

    A margin or a side may be negative: a document may ask for an opening that reaches outside.
    """

    left: Length
    bottom: Length
    width: Length
    height: Length
    whole: Size

    @property
    def right(self) -> Length:
        return self.whole.width - self.left - self.width

    @property
    def top(self) -> Length:
        return self.whole.height - self.bottom - self.height

    @property
    def size(self) -> Size:
        return Size(self.width, self.height)


@dataclass(frozen=True, slots=True)
class WindowSum:
    """Three stated measures of one axis (`names`, in the order of the sum) that do not add up to the whole."""

    names: tuple[str, str, str]
    stated: Length
    whole: Length


def resolve(opening: Opening, whole: Size) -> Aperture:
    """Return where an opening lies in a whole of this size.

    Where all three measures of an axis are stated, the left (or bottom) one and the opening's own side win.

    >>> inch = Length.of("1 in")
    >>> pane = resolve(Opening(left=inch, right=inch, bottom=inch, height=3 * inch), Size.of("7", "5"))
    >>> pane.width, pane.top
    (Length.of("5 in"), Length.of("1 in"))
    """
    left, width = _axis(opening.left, opening.width, opening.right, whole.width)
    bottom, height = _axis(opening.bottom, opening.height, opening.top, whole.height)
    return Aperture(left, bottom, width, height, whole)


def contradictions(opening: Opening, whole: Size) -> tuple[WindowSum, ...]:
    """Return the axes, across before upright, on which all three measures are stated and miss the whole."""
    found = []
    for low, span, high, side in _AXES:
        first, second, third = (getattr(opening, name) for name in (low, span, high))
        if first is None or second is None or third is None:
            continue
        stated = first + second + third
        if stated != getattr(whole, side):
            found.append(WindowSum((low, span, high), stated, getattr(whole, side)))
    return tuple(found)


def is_inside(opening: Opening, whole: Size, shape: Shape = _RECT) -> bool:
    """Whether an opening of positive size lies inside a piece with this outline and leaves a rim all round.

    A straight-sided opening (rect, polygon) is judged exactly, in a piece of any outline. A curved opening in a rect is
    judged by the rectangle around it, which it touches on all four sides, so exactly too. A curved opening in a piece
    that is no rect is judged at 65 exact points of each quarter of a curve: it may pass the piece's outline unseen by
    less than 1/8000 of its half axis between two of them. A polygon must also keep to its own size.
    """
    aperture = resolve(opening, whole)
    width, height = aperture.width.ticks, aperture.height.ticks
    margins = (aperture.left, aperture.right, aperture.bottom, aperture.top)
    if width <= 0 or height <= 0 or any(margin.ticks <= 0 for margin in margins):
        return False
    line = outline(opening.shape, width, height)
    if any(not (0 <= spot.x <= width * spot.over and 0 <= spot.y <= height * spot.over) for spot in line):
        return False
    moved = [spot.moved(aperture.left.ticks, aperture.bottom.ticks) for spot in line]
    return encloses(shape, whole.width.ticks, whole.height.ticks, moved)


def _axis(low: Length | None, span: Length | None, high: Length | None, whole: Length) -> tuple[Length, Length]:
    """The near margin and the opening's own side on one axis."""
    if low is not None and span is not None:
        return low, span
    if low is not None and high is not None:
        return low, whole - low - high
    if span is not None and high is not None:
        return whole - high - span, span
    raise ValueError("an opening has two of three measures on each axis")
