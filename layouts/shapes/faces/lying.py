"""Where one copy of a placement lies on its support, as far as the document says it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from fractions import Fraction

from layouts.document import Placement, Project
from layouts.lengths import Length
from layouts.shapes.faces.holes import Hole
from layouts.shapes.faces.rectangles import Rectangle
from layouts.shapes.faces.surfaces import OverFold, Surface
from layouts.shapes.faces.things import Thing
from layouts.shapes.forms.folded import Side

__all__ = ["Along", "Lying", "rectangle_of"]


@dataclass(frozen=True, slots=True)
class Along:
    """How a thing lies along one axis of its support; ticks, None where that is not known.

    `low` is the border on the left or at the bottom, `high` that on the right or at the top; a negative one overhangs.
    Where no position is said, neither is known: nobody is taken to mean the middle.
    """

    whole: Fraction | None
    span: Fraction | None
    low: Fraction | None
    high: Fraction | None

    @classmethod
    def of(
        cls, whole: Fraction | None, span: Fraction | None, low: Length | None, high: Length | None, centred: bool
    ) -> Along:
        """Work out one axis from what is said of it.

        >>> along = Along.of(Fraction(100), Fraction(30), None, Length(10, "mm"), False)
        >>> int(along.low), int(along.high)
        (60, 10)
        """
        spare = whole - span if whole is not None and span is not None else None
        if low is not None:
            near = Fraction(low.ticks)
            return cls(whole, span, near, None if spare is None else spare - near)
        if high is not None:
            far = Fraction(high.ticks)
            return cls(whole, span, None if spare is None else spare - far, far)
        middle = spare / 2 if centred and spare is not None else None
        return cls(whole, span, middle, middle)

    @property
    def spare(self) -> Fraction | None:
        """What both borders add up to; negative where the thing is longer than its support."""
        return None if self.whole is None or self.span is None else self.whole - self.span


@dataclass(frozen=True, slots=True)
class Lying:
    """One copy of a placement; or what lies alike on every copy of its support, where `on_copy` is None.

    `place` is that of the placement, or of this copy in its list. `rectangle` is that around the thing, from the lower
    left of its support; None unless all of it is known. `beyond` are the panels into which the thing turns, for the
    sides that it wraps, where they are known.
    """

    place: str
    project: Project
    placement: Placement
    thing: Thing
    surface: Surface
    on_copy: int | None
    across: Along
    up: Along
    rectangle: Rectangle | None
    turn: int = 0
    beyond: Mapping[Side, OverFold] = field(default_factory=dict)

    @property
    def borders(self) -> dict[Side, Fraction | None]:
        """The border on each side, negative where the thing overhangs, None where it is not known."""
        return {"left": self.across.low, "right": self.across.high, "top": self.up.high, "bottom": self.up.low}

    @property
    def turned_over(self) -> dict[OverFold, Rectangle]:
        """What turns over a fold, where it lies on the panel there, from that panel's lower left.

        What lies beyond two sides at once turns over neither.
        """
        whole = Rectangle(Fraction(0), Fraction(0), self.across.whole or Fraction(0), self.up.whole or Fraction(0))
        found = {}
        for side in self.placement.wraps:
            over, area = self.beyond.get(side), self.rectangle
            if over is None or area is None:
                continue
            left, bottom, right, top = area
            if side in ("left", "right"):
                bottom, top = max(bottom, whole.bottom), min(top, whole.top)
                left, right = (left + over.width, over.width) if side == "left" else (Fraction(0), right - whole.right)
            else:
                left, right = max(left, whole.left), min(right, whole.right)
                bottom, top = (
                    (bottom + over.height, over.height) if side == "bottom" else (Fraction(0), top - whole.top)
                )
            if left < right and bottom < top:
                found[over] = Rectangle(left, bottom, right, top)
        return found

    @property
    def windows(self) -> tuple[Hole, ...]:
        """The thing's windows where they lie on the support; none where it is not known where that is."""
        return self.windows_near(None)

    def windows_near(self, area: Rectangle | None) -> tuple[Hole, ...]:
        """Return those of the windows that have something in common with an area of the support, where they lie."""
        if self.rectangle is None:
            return ()
        left, bottom = self.rectangle.left, self.rectangle.bottom
        own = None if area is None else area.moved(-left, -bottom)
        near = (hole for hole in self.thing.windows if own is None or hole.around.common(own) is not None)
        return tuple(hole.moved(left, bottom) for hole in near)


def rectangle_of(across: Along, up: Along) -> Rectangle | None:
    """Return the rectangle around a thing that lies so; None where one of its edges is not known."""
    left, bottom, width, height = across.low, up.low, across.span, up.span
    if left is None or bottom is None or width is None or height is None:
        return None
    return Rectangle(left, bottom, left + width, bottom + height)
