"""Which texts are lengths: the grammar of the kit document, and nothing else."""

from __future__ import annotations

import re
from fractions import Fraction

from layouts.errors import KitproofError
from layouts.lengths.length import LONGEST, TICKS_PER_INCH, TICKS_PER_MM, Length, System

__all__ = ["BadLength", "NotALength", "OffGrid", "OutOfRange", "parse_length"]


class BadLength(KitproofError):
    """A text that is refused as a length."""

    code = "not-a-length"


class NotALength(BadLength):
    """The text does not follow the grammar, or is a fraction of something that is not an inch."""

    code = "not-a-length"


class OffGrid(BadLength):
    """A length between two ticks: no exact whole number of 1/320 mm."""

    code = "off-grid"


class OutOfRange(BadLength):
    """A length beyond 10 m, or zero where nothing is not an answer."""

    code = "out-of-range"


# An allow list: `unicodedata.numeric` would also take sixteenths of other scripts, and NFKC turns 2½ into 21/2.
_VULGAR = {"¼": (1, 4), "½": (1, 2), "¾": (3, 4), "⅛": (1, 8), "⅜": (3, 8), "⅝": (5, 8), "⅞": (7, 8)}
_LONGEST_TEXT = 20
_GRAMMAR = re.compile(
    r"""(?: (?P<decimal> [0-9]+ [.,] [0-9]+ )
          | (?: (?P<mixed> [0-9]+ ) [ -] )? (?P<over> [0-9]+ ) / (?P<under> 2|4|8|16|32|64 )
          | (?P<whole> [0-9]* ) (?P<vulgar> [¼½¾⅛⅜⅝⅞] )
          | (?P<plain> [0-9]+ )
        )
        (?: [ ]? (?P<unit> in | " | ″ | mm | cm ) )?""",
    re.VERBOSE,
)
_PER_UNIT = {
    "in": TICKS_PER_INCH,
    '"': TICKS_PER_INCH,
    "″": TICKS_PER_INCH,
    "mm": TICKS_PER_MM,
    "cm": 10 * TICKS_PER_MM,
}


def parse_length(text: str, unit: System, *, step: Length | None = None) -> Length:
    """Read one length; a bare number is taken in `unit`.

    `step` is the printed step of the system the text is written in; the neighbours named by a refusal lie on it
    (by default 1/16 in and 1 mm).

    Raises: NotALength, OffGrid, OutOfRange.
    Source: the grammar of the kit document (`layouts/document`); 1 in = 25.4 mm (24 FR 5348, 1959).

    >>> parse_length("2⅞", "in").ticks, parse_length("7.3 cm", "in").text()
    (23368, '73 mm')
    """
    match = _GRAMMAR.fullmatch(text) if len(text) <= _LONGEST_TEXT else None
    if match is None:
        raise NotALength(f"“{_shown(text)}” is not a length: write a number such as 2 7/8 in, 2.875 in or 73 mm")
    written = match["unit"] or unit
    system: System = "mm" if written in ("mm", "cm") else "in"
    if system == "mm" and (match["over"] or match["vulgar"]):
        raise NotALength(
            f"“{text}” is a fraction, and fractions are inches only: write {_bare(text, match)} in, or a decimal"
        )
    over, under = _number(match)
    over *= _PER_UNIT[written]
    if over > LONGEST * under:
        raise OutOfRange(f"“{text}” is longer than 10 m, the longest length a kit may hold")
    ticks, rest = divmod(over, under)
    if rest:
        raise OffGrid(_neighbours(text, Fraction(over, under), system, step))
    return Length(ticks, system)


def _number(match: re.Match[str]) -> tuple[int, int]:
    """The number of a text as numerator and denominator, not reduced: Fractions would take most of the time."""
    if match["over"]:
        under = int(match["under"])
        return int(match["mixed"] or 0) * under + int(match["over"]), under
    if match["vulgar"]:
        over, under = _VULGAR[match["vulgar"]]
        return int(match["whole"] or 0) * under + over, under
    if match["plain"]:
        return int(match["plain"]), 1
    whole, decimals = match["decimal"].replace(",", ".").split(".")
    return int(whole + decimals), 10 ** len(decimals)


def _neighbours(text: str, exact: Fraction, system: System, step: Length | None) -> str:
    if step is None or not step:
        step = Length(TICKS_PER_INCH // 16, "in") if system == "in" else Length(TICKS_PER_MM, "mm")
    below = exact // step.ticks * step.ticks
    low, high = Length(below, step.system), Length(below + step.ticks, step.system)
    return f"“{text}” is not a whole number of ticks of 1/320 mm: write {low.text()} or {high.text()}"


def _bare(text: str, match: re.Match[str]) -> str:
    return text[: match.start("unit")].rstrip() if match["unit"] else text


def _shown(text: str) -> str:
    return text if len(text) <= 40 else text[:40] + "…"
