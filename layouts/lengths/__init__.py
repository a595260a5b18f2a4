"""Exact lengths: whole ticks of 1/320 mm (1/8128 in), read from text and written as text."""

from layouts.lengths.formatting import in_inches, in_millimetres, mixed_number
from layouts.lengths.length import LONGEST, TICKS_PER_INCH, TICKS_PER_MM, Length, System
from layouts.lengths.parsing import BadLength, NotALength, OffGrid, OutOfRange, parse_length

__all__ = [
    "LONGEST",
    "TICKS_PER_INCH",
    "TICKS_PER_MM",
    "BadLength",
    "Length",
    "NotALength",
    "OffGrid",
    "OutOfRange",
    "System",
    "in_inches",
    "in_millimetres",
    "mixed_number",
    "parse_length",
]
