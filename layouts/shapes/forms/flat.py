"""What every construction works with: exact sizes before rounding, and the paper a form is made of."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from layouts.document import Size
from layouts.lengths import Length

__all__ = ["ExactSize", "FlatPart", "FormPaper", "thickness"]


@dataclass(frozen=True, slots=True)
class ExactSize:
    """A width and a height in ticks, exact: thickness is given in micrometres, which are no whole ticks."""

    width: Fraction
    height: Fraction

    @classmethod
    def of(cls, width: Fraction | int, height: Fraction | int) -> ExactSize:
        return cls(Fraction(width), Fraction(height))

    @classmethod
    def exactly(cls, size: Size) -> ExactSize:
        return cls.of(size.width.ticks, size.height.ticks)


@dataclass(frozen=True, slots=True)
class FlatPart:
    """The rectangle that a form, or the part of it with this number (from 1), is cut as; no number where it is one."""

    number: int | None
    width: Length
    height: Length


@dataclass(frozen=True, slots=True)
class FormPaper:
    """The paper a form is made of: its thickness (0 where it is not stated), and its sheet within its margins."""

    caliper_um: int
    usable: Size


def thickness(micrometres: int) -> Fraction:
    """Return a thickness in ticks: 1 µm = 1/1000 mm = 8/25 tick.

    >>> thickness(254), thickness(254) * 100 == 8128  # 254 µm is 0.01 in
    (Fraction(2032, 25), True)
    """
    return Fraction(8 * micrometres, 25)
