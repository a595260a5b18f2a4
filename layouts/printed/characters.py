"""Which characters a sheet can print: those that the faces of the sheets have, in every weight.

A sheet shows U+FFFD in the place of any other. The table is written out here, since whoever judges a document reads no
fonts; a test holds it to them.
"""

from __future__ import annotations

import unicodedata
from collections.abc import Iterator
from functools import cache

__all__ = ["unprintable"]

# Code points in hexadecimal, singly or from the first to the last.
_TABLE = """
20-7E A0-131 134-148 14A-17E 180-301 303-304 308-309 323 340-341 344 370-377 37A-37F 384-38A 38C 38E-3A1 3A3-3E1
3F0-482 48A-52F 1E00-1F15 1F18-1F1D 1F20-1F45 1F48-1F4D 1F50-1F57 1F59 1F5B 1F5D 1F5F-1F7D 1F80-1FB4 1FB6-1FC4
1FC6-1FD3 1FD6-1FDB 1FDD-1FEF 1FF2-1FF4 1FF6-1FFE 2002-200B 2010-2027 202F-205E 2070-2071 2074-208E 2090-209C
20A0-20BF 2100-215F 2184 2189 2190-21AE 21B0-21E5 21F1-21F2 21F4-22FF 2460-2473 25A0-2704 2706-2709 270B-2727
2729-274B 274D 274F-2753 2756-2794 2798-27AF 27B1-27BE 27DC 299B 29A0 29A3 29B8 2ADE 2AE3-2AE5 2AEE 2BFE FFFD
"""
# Without ink, and never set as they are.
_WHITE = "\t\n\r"
# No language puts more marks on one letter, and no more are set.
_MOST_MARKS = 4


def unprintable(text: str) -> tuple[str, ...]:
    """Return the characters of a text that no sheet can print, each once, as they come.

    >>> unprintable("Ďábel 6 3⁄4 → 𝔸𝔸"), unprintable("a\u0301\u0301\u0301\u0301\u0301")
    (('𝔸',), ('\u0301',))
    """
    return tuple(dict.fromkeys(_unprintable(text)))


def _unprintable(text: str) -> Iterator[str]:
    if set(text) <= _printable() and not any(map(unicodedata.combining, set(text))):
        return
    marks = 0
    for letter in text:
        marks = marks + 1 if unicodedata.combining(letter) else 0
        if marks > _MOST_MARKS or letter not in _printable():
            yield letter


@cache
def _printable() -> frozenset[str]:
    ranges = (one.partition("-") for one in _TABLE.split())
    found = (chr(code) for first, _, last in ranges for code in range(int(first, 16), int(last or first, 16) + 1))
    return frozenset((*found, *_WHITE))
