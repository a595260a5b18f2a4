"""Which characters the faces of the sheets have. What they lack cannot be set: its page would be refused."""

from __future__ import annotations

import unicodedata
from collections.abc import Collection, Iterator
from functools import cache
from pathlib import Path

from fontTools.ttLib import TTFont

__all__ = ["MISSING", "can_be_made", "covered", "uncovered"]

# What stands in the place of a character that no face has.
MISSING = "\N{REPLACEMENT CHARACTER}"
FONTS = Path(__file__).parent / "fonts"
# No language puts more marks on one letter: more would be painted over the lines above, and thousands of them keep the
# library that sets the pages for minutes.
MARKS = 4
# Without ink, and never set as they are.
WHITE = frozenset("\t\n\r")


def uncovered(text: str) -> set[str]:
    """Return the characters of a text that no face of the sheets has in every weight.

    >>> sorted(uncovered("Ďábel 6 3⁄4 → 𝔸"))
    ['𝔸']
    """
    return {letter for letter in set(text) if not _is_covered(letter)}


def covered(text: str) -> str:
    """Return the text with U+FFFD for every character that no face has, and for marks heaped on one letter.

    >>> covered("𝔸 4 ½")
    '� 4 ½'
    """
    return "".join(_covered(text))


def _covered(text: str) -> Iterator[str]:
    marks = 0
    for letter in text:
        marks = marks + 1 if unicodedata.combining(letter) else 0
        yield letter if marks <= MARKS and _is_covered(letter) else MISSING


def can_be_made(letter: str, of: Collection[str]) -> bool:
    """Return whether these characters hold the letter, or what it is put together of (Unicode, 3.7, decomposition).

    >>> can_be_made("ǭ", "ǫ\u0304"), can_be_made("ǭ", "o\u0304")
    (True, False)
    """
    if letter in of:
        return True
    parts = unicodedata.decomposition(letter).split()
    return bool(parts) and not parts[0].startswith("<") and all(can_be_made(chr(int(part, 16)), of) for part in parts)


def _is_covered(letter: str) -> bool:
    return letter in WHITE or letter in _rest() or can_be_made(letter, _first())


@cache
def _first() -> frozenset[str]:
    # In one weight and not in another it would change its look where a heading begins.
    return frozenset.intersection(*(_of(path) for path in sorted(FONTS.glob("Commissioner-*.ttf"))))


@cache
def _rest() -> frozenset[str]:
    return _of(FONTS / "KitproofRest-Regular.ttf")


def _of(path: Path) -> frozenset[str]:
    with TTFont(path, lazy=True) as face:
        return frozenset(map(chr, face.getBestCmap()))
