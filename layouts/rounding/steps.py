"""One figure by itself on the grid of a printed step."""

from __future__ import annotations

from fractions import Fraction

__all__ = ["nearest_step", "step_up"]


def nearest_step(ticks: int, step: int) -> int:
    """Return the multiple of `step` nearest to `ticks` (both in ticks); a tie goes to the even multiple.

    Source: NIST PS 20-20 App. B1 rounds half to even (7 1/2 in is printed as 190 mm); for inch fractions common
    practice, no source.

    >>> nearest_step(60960, 320) // 320
    190
    """
    return round(Fraction(ticks, step)) * step


def step_up(ticks: int, step: int) -> int:
    """Return the smallest multiple of `step` that is not below `ticks`.

    >>> step_up(321, 320), step_up(640, 320)
    (640, 640)
    """
    return -(-ticks // step) * step
