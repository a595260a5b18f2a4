"""How findings tell measures that are worked out, in words and as facts, and names that may be very long."""

from __future__ import annotations

from fractions import Fraction

from layouts.lengths import TICKS_PER_INCH, TICKS_PER_MM, Length, System, in_inches

__all__ = ["shortened", "told", "whole_ticks"]

# A name may fill a document: told in ten thousand findings it would fill gigabytes.
_LONGEST_NAME = 80


def told(ticks: Fraction | int, unit: System) -> str:
    """Return a measure as a person reads it: exact where it is a 64th of an inch or a tenth of a millimetre.

    Else it is told as about as much, in inches with the millimetres beside them.

    >>> told(Fraction(508), "in"), told(320, "mm"), told(Fraction(127, 2), "in"), told(1463, "in")
    ('1/16 in', '1 mm', 'about 0.2 mm', 'about 3/16 in (4.57 mm)')
    """
    exact = Fraction(ticks)
    for system, step in ((unit, _STEPS[unit]), ("mm", _STEPS["mm"])):
        if exact.denominator == 1 and exact.numerator % step == 0:
            return str(Length(exact.numerator, "in" if system == "in" else "mm"))
    hundredths = round(exact * 100 / TICKS_PER_MM)
    if not hundredths:
        return "less than 0.01 mm"
    mm = f"{Fraction(hundredths, 100):.2f}".rstrip("0").rstrip(".") + " mm"
    steps = round(exact / _STEPS["in"])
    return f"about {in_inches(steps * _STEPS['in'])} in ({mm})" if unit == "in" and steps > 0 else f"about {mm}"


def whole_ticks(ticks: Fraction | int) -> int:
    """Return a measure in whole ticks, the nearest.

    >>> whole_ticks(Fraction(127, 2)), whole_ticks(-3)
    (64, -3)
    """
    return round(ticks)


def shortened(name: str) -> str:
    """Return a name as a finding tells it: the beginning of a very long one.

    >>> shortened("front panel"), len(shortened("x" * 1000))
    ('front panel', 80)
    """
    return name if len(name) <= _LONGEST_NAME else f"{name[: _LONGEST_NAME - 1]}…"


_STEPS: dict[System, int] = {"in": TICKS_PER_INCH // 64, "mm": TICKS_PER_MM // 10}
