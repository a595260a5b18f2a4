"""Measures that somebody typed into the text of a step instead of referring to the plan."""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction

from layouts.assembly.text import Reference, parse_text
from layouts.lengths import TICKS_PER_INCH, TICKS_PER_MM, System

__all__ = ["TypedNumber", "typed_numbers"]


@dataclass(frozen=True, slots=True)
class TypedNumber:
    """A measure as it was typed; `start` and `end` count characters of the text.

    `ticks` may be no whole number (a third of an inch) and is None where the digits are no number one could mean
    (a denominator of zero, a number of more than nine digits).
    """

    text: str
    start: int
    end: int
    ticks: Fraction | None
    system: System


# An allow list, as for lengths, but prose may also speak of thirds and fifths.
_VULGAR = {
    "¼": Fraction(1, 4),
    "½": Fraction(1, 2),
    "¾": Fraction(3, 4),
    "⅓": Fraction(1, 3),
    "⅔": Fraction(2, 3),
    "⅕": Fraction(1, 5),
    "⅖": Fraction(2, 5),
    "⅗": Fraction(3, 5),
    "⅘": Fraction(4, 5),
    "⅙": Fraction(1, 6),
    "⅚": Fraction(5, 6),
    "⅛": Fraction(1, 8),
    "⅜": Fraction(3, 8),
    "⅝": Fraction(5, 8),
    "⅞": Fraction(7, 8),
}
# Stands for a reference while the words around it are read; no text of a document may hold it.
_REFERENCE = "\0"
_CHARACTERS = "".join(_VULGAR)
_SLASH = "/⁄∕"
# A number may not begin inside a word, another number or a date.
_NUMBER = re.compile(
    rf"""(?<![\w.,{_SLASH}{_CHARACTERS}])
    (?: (?: (?P<mixed> [0-9]+ ) [\s-] )? (?P<over> [0-9]+ ) [{_SLASH}] (?P<under> [0-9]+ ) (?! [0-9{_SLASH}] )
      | (?: (?P<whole> [0-9]+ ) [\s-]? )? (?P<vulgar> [{_CHARACTERS}] )
      | (?P<decimal> [0-9]* [.,] [0-9]+ ) (?! [0-9{_SLASH}] )
      | (?P<plain> [0-9]+ ) (?! [0-9{_SLASH}] )
    )""",
    re.VERBOSE,
)
_UNIT = re.compile(
    r"""(?P<gap> \s{0,2} | - )
    (?: (?P<word> inches|inch|ins|in|mm|cm|millimet(?:re|er)s?|centimet(?:re|er)s? ) (?![A-Za-z])
      | (?P<sign> ["″”] ) )""",
    re.VERBOSE | re.IGNORECASE,
)
_TIME = re.compile(r"[\s-]?(?:h|hrs?|hours?|min|mins|minutes?|s|sec|secs|seconds?|days?)(?![A-Za-z])", re.IGNORECASE)
# “1/2 of the glue” is a share, no length.
_SHARE = re.compile(r"\s+of\s+(?:the|a|an|its|your|each|every|it|them|this|that|these|those|all)\b")
_TIMES = re.compile(r"\s?(?:×|x|by)\s?")
# After these, `2 in` counts two things somewhere: in each corner, in a row, in all.
# `2 in` before one of these counts two things: in each corner, in a row, in all, in {A}, in B, in 3 rows.
_COUNTED = re.compile(
    rf"""\s+ (?: {_REFERENCE} | [0-9] | [A-Z]\b | (?! either\s+side\b | all\s+a?round\b )
    (?: a|adjacent|advance|all|alternate|an|and|another|any|between|both|case|contact|corners|different|diagonal|each
      |either|every|four|front|half|halves|her|his|its|lines?|my|neither|one|opposite|or|order|other|our|pairs?|place
      |position|quarters|reserve|reverse|rows?|sequence|stacks|succession|that|the|their|them|these|thirds|this|those
      |three|total|turns?|two|what|where|which|your )\b )""",
    re.VERBOSE,
)
_IN_ONE = re.compile("-[0-9]")  # a 2-in-1 tool
_LONGEST_NUMBER = 9


@dataclass(frozen=True, slots=True)
class _Unit:
    """The unit of a number; `end` is where it ends in the text."""

    system: System
    ticks: int
    end: int


def typed_numbers(text: str) -> tuple[TypedNumber, ...]:
    """Return the measures outside braces: each fraction, and each number that has a unit of length.

    A fraction without a unit is in inches; one of an hour, minute or second, or “of the” something, is no measure. Of
    two numbers joined by ×, x or by the first has the unit of the second. `2 in` before a word such as “each”, before a
    reference or before the letter of a piece counts things.

    >>> [number.text for number in typed_numbers("Cut 2 3/4 by 3 in, hold 60 seconds, glue 2 in each corner.")]
    ['2 3/4', '3 in']
    """
    seen = _without_references(text)
    closing = _closing_quotes(seen)
    found: list[TypedNumber] = []
    following: tuple[int, _Unit | None] = (len(seen), None)
    for number in reversed(list(_NUMBER.finditer(seen))):
        start, end = number.span()
        unit = _unit_after(seen, number, closing)
        if unit is None and following[1] and _TIMES.fullmatch(seen, end, following[0]):
            unit = _Unit(following[1].system, following[1].ticks, end)
        if unit is None and _is_fraction(number) and not _TIME.match(seen, end) and not _is_share(seen, number):
            unit = _Unit("in", TICKS_PER_INCH, end)
        following = start, unit
        if unit is not None:
            value = _value(number)
            ticks = None if value is None else value * unit.ticks
            found.append(TypedNumber(text[start : unit.end], start, unit.end, ticks, unit.system))
    return tuple(reversed(found))


def _without_references(text: str) -> str:
    """The text with each reference as one mark and blanks, so that positions stay as they are."""
    seen = list(text)
    for part in parse_text(text):
        if isinstance(part, Reference):
            seen[part.start : part.end] = _REFERENCE.ljust(part.end - part.start)
    return "".join(seen)


def _closing_quotes(seen: str) -> frozenset[int]:
    """Where quotation marks close a quotation: after a digit they would otherwise be read as inches."""
    closing = set()
    opened = ""
    for mark in re.finditer(r'["“”]', seen):
        at = mark.start()
        if opened and mark[0] == opened:
            closing.add(at)
            opened = ""
        elif mark[0] == "“":
            opened = "”"
        elif mark[0] == '"' and not opened and not _ends_a_number(seen[at - 1 : at]):
            opened = '"'
    return frozenset(closing)


def _ends_a_number(character: str) -> bool:
    return character.isdecimal() or character in _VULGAR


def _unit_after(seen: str, number: re.Match[str], closing: frozenset[int]) -> _Unit | None:
    match = _UNIT.match(seen, number.end())
    if match is None:
        return None
    if match["sign"]:
        # A blank before a common quotation mark means that it opens or closes a quotation.
        is_inches = match["sign"] == "″" or (not match["gap"] and match.start("sign") not in closing)
        return _Unit("in", TICKS_PER_INCH, match.end()) if is_inches else None
    word = match["word"].lower()
    if word == "in" and not _is_unit(seen, match, bare=bool(number["plain"])):
        return None
    if word.startswith("in"):
        return _Unit("in", TICKS_PER_INCH, match.end())
    return _Unit("mm", TICKS_PER_MM * (10 if word.startswith("c") else 1), match.end())


def _is_unit(seen: str, unit: re.Match[str], bare: bool) -> bool:
    """Whether `in` is the inch or the preposition; after a fraction or a decimal it is always the inch."""
    if not bare or not unit["gap"]:
        return True
    if unit["gap"] == "-":
        return _IN_ONE.match(seen, unit.end()) is None
    return not seen.startswith("-", unit.end()) and _COUNTED.match(seen, unit.end()) is None


def _is_share(seen: str, number: re.Match[str]) -> bool:
    return not (number["mixed"] or number["whole"]) and _SHARE.match(seen, number.end()) is not None


def _is_fraction(number: re.Match[str]) -> bool:
    return bool(number["over"] or number["vulgar"])


def _value(number: re.Match[str]) -> Fraction | None:
    if any(len(digits or "") > _LONGEST_NUMBER for digits in number.groups()):
        return None
    if number["over"]:
        under = int(number["under"])
        return int(number["mixed"] or 0) + Fraction(int(number["over"]), under) if under else None
    if number["vulgar"]:
        return int(number["whole"] or 0) + _VULGAR[number["vulgar"]]
    return Fraction((number["decimal"] or number["plain"]).replace(",", "."))
