"""How lengths are written: mixed fractions of an inch in lowest terms, millimetres without trailing zeros."""

from __future__ import annotations

from fractions import Fraction

from layouts.lengths.length import TICKS_PER_INCH, TICKS_PER_MM, Length, System

__all__ = ["canonical_text", "in_inches", "in_millimetres", "mixed_number"]


def canonical_text(length: Length, unit: System | None) -> str:
    """Return the one text of a length: no unit where it is `unit`, no unit for zero, else `… in` or `… mm`.

    Inches that are no 64th (a sum of both systems) are written as exact millimetres.

    >>> canonical_text(Length(23368, "in"), "mm"), canonical_text(Length(0, "mm"), "in")
    ('2 7/8 in', '0')
    """
    if not length.ticks:
        return "0"
    sign, size = ("-", -length.ticks) if length.ticks < 0 else ("", length.ticks)
    if length.system == "in" and size % (TICKS_PER_INCH // 64) == 0:
        number, system = in_inches(size), "in"
    else:
        number, system = in_millimetres(size), "mm"
    return f"{sign}{number}" if system == unit else f"{sign}{number} {system}"


def in_inches(ticks: int) -> str:
    """Return `ticks` as a mixed number of inches in lowest terms, without a unit.

    >>> in_inches(10668), in_inches(8128 * 3)
    ('1 5/16', '3')
    """
    return mixed_number(Fraction(ticks, TICKS_PER_INCH))


def in_millimetres(ticks: int) -> str:
    """Return `ticks` as millimetres: a decimal point, no trailing zero, no unit. Always exact.

    >>> in_millimetres(23368), in_millimetres(3200)
    ('73.025', '10')
    """
    whole, rest = divmod(ticks, TICKS_PER_MM)
    if not rest:
        return str(whole)
    # 1/320 = 0.003125: six decimals hold every tick.
    return f"{whole}.{rest * 1_000_000 // TICKS_PER_MM:06d}".rstrip("0")


def mixed_number(value: Fraction) -> str:
    """Return a fraction that is not negative as a whole number and a fraction in lowest terms.

    >>> mixed_number(Fraction(32, 16)), mixed_number(Fraction(5, 16)), mixed_number(Fraction(11, 4))
    ('2', '5/16', '2 3/4')
    """
    whole, rest = divmod(value.numerator, value.denominator)
    if not rest:
        return str(whole)
    fraction = f"{rest}/{value.denominator}"
    return f"{whole} {fraction}" if whole else fraction
