"""Upright rectangles on a support, exact."""

from __future__ import annotations

from fractions import Fraction
from typing import NamedTuple

__all__ = ["Rectangle"]


class Rectangle(NamedTuple):
    """A rectangle in ticks from the lower left of what it lies on; `right` and `top` are coordinates, not borders."""

    left: Fraction
    bottom: Fraction
    right: Fraction
    top: Fraction

    @property
    def width(self) -> Fraction:
        return self.right - self.left

    @property
    def height(self) -> Fraction:
        return self.top - self.bottom

    @property
    def area(self) -> Fraction:
        """The area in square ticks."""
        return self.width * self.height

    def moved(self, right: Fraction, up: Fraction) -> Rectangle:
        return Rectangle(self.left + right, self.bottom + up, self.right + right, self.top + up)

    def holds(self, other: Rectangle) -> bool:
        """Whether another rectangle lies in this one; it may touch the edge."""
        return (
            self.left <= other.left
            and self.bottom <= other.bottom
            and other.right <= self.right
            and other.top <= self.top
        )

    def common(self, other: Rectangle) -> Rectangle | None:
        """Return what both cover, None where that is nothing or a mere line.

        >>> one, two = Rectangle(*map(Fraction, (0, 0, 4, 4))), Rectangle(*map(Fraction, (3, 1, 9, 9)))
        >>> one.common(two).area, one.common(two.moved(Fraction(1), Fraction(0)))
        (Fraction(3, 1), None)
        """
        left, bottom = max(self.left, other.left), max(self.bottom, other.bottom)
        right, top = min(self.right, other.right), min(self.top, other.top)
        return Rectangle(left, bottom, right, top) if left < right and bottom < top else None
