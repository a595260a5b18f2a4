"""A length as a value: whole ticks, and the system in which it was written."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from functools import total_ordering
from typing import Literal

__all__ = ["LONGEST", "TICKS_PER_INCH", "TICKS_PER_MM", "Length", "System"]

System = Literal["in", "mm"]

# One inch is 25.4 mm exactly (the yard and pound agreement of 1959, 24 FR 5348), so 1/320 mm = 1/8128 in.
TICKS_PER_MM = 320
TICKS_PER_INCH = 8128
# The longest length a document may hold: 10 m.
LONGEST = 10_000 * TICKS_PER_MM


@total_ordering
@dataclass(frozen=True, slots=True, eq=False, repr=False)
class Length:
    """A length in whole ticks. `system` only says how it was written: equality and order look at the ticks alone.

    Differences may be negative (a window that reaches outside its piece); text that is read never is.

    >>> Length.of("1 in") == Length.of("25.4 mm")
    True
    >>> Length.of("2 7/8 in") - Length.of("3 in")
    Length.of("-1/8 in")
    """

    ticks: int
    system: System

    def __post_init__(self) -> None:
        # A float or a bool here would be a lost fraction or a mix-up of arguments; both have happened elsewhere.
        if type(self.ticks) is not int:
            raise TypeError(f"ticks are whole numbers, not {self.ticks!r}")
        if self.system not in ("in", "mm"):
            raise ValueError(f"a length is written in in or mm, not {self.system!r}")

    @classmethod
    def of(cls, text: str, unit: System = "in") -> Length:
        """Read a length; a bare number is taken in `unit`. Raises: BadLength."""
        from layouts.lengths.parsing import parse_length

        if text.startswith("-"):
            return -parse_length(text[1:], unit)
        return parse_length(text, unit)

    @classmethod
    def zero(cls, system: System = "mm") -> Length:
        return cls(0, system)

    @property
    def mm(self) -> Fraction:
        """Millimetres, exact."""
        return Fraction(self.ticks, TICKS_PER_MM)

    @property
    def inches(self) -> Fraction:
        """Inches, exact."""
        return Fraction(self.ticks, TICKS_PER_INCH)

    def written_like(self, other: Length) -> bool:
        """Whether both have the same ticks in the same system; zero has no system."""
        return self.ticks == other.ticks and (self.ticks == 0 or self.system == other.system)

    def text(self, unit: System | None = None) -> str:
        """Return the canonical text; the unit is left out where it is `unit`.

        >>> Length.of("2 12/16").text("in"), Length.of("3.50 cm").text("in")
        ('2 3/4', '35 mm')
        """
        from layouts.lengths.formatting import canonical_text

        return canonical_text(self, unit)

    def __add__(self, other: Length) -> Length:
        if not isinstance(other, Length):  # a bare number has no unit
            return NotImplemented
        return Length(self.ticks + other.ticks, self._joint_system(other))

    def __sub__(self, other: Length) -> Length:
        if not isinstance(other, Length):
            return NotImplemented
        return Length(self.ticks - other.ticks, self._joint_system(other))

    def __mul__(self, times: int) -> Length:
        return Length(self.ticks * times, self.system)

    __rmul__ = __mul__

    def __neg__(self) -> Length:
        return Length(-self.ticks, self.system)

    def __bool__(self) -> bool:
        return self.ticks != 0

    def __eq__(self, other: object) -> bool:
        return self.ticks == other.ticks if isinstance(other, Length) else NotImplemented

    def __lt__(self, other: Length) -> bool:
        return self.ticks < other.ticks if isinstance(other, Length) else NotImplemented

    def __hash__(self) -> int:
        return hash(self.ticks)

    def __str__(self) -> str:
        return self.text()

    def __repr__(self) -> str:
        return f'Length.of("{self.text()}")'

    def _joint_system(self, other: Length) -> System:
        # A sum of inches and millimetres seldom is a fraction of an inch; its millimetres are always a finite decimal.
        if not other.ticks:
            return self.system
        if not self.ticks:
            return other.system
        return "in" if self.system == other.system == "in" else "mm"
