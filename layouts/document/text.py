"""The texts of a document: which letters are refused, and how a text is brought to NFC in bounded time."""

from __future__ import annotations

import re
import sys
import unicodedata
from functools import cache

__all__ = ["composed", "refused_letter"]

# Control characters (category Cc) but tab and newline, and lone surrogates.
_REFUSED = re.compile(r"[\x00-\x08\x0b-\x1f\x7f-\x9f\ud800-\udfff]")

# No combining mark stands before U+0300: where no such stretch is, no run of marks is long.
_MAY_BE_MARKS = re.compile(r"[^\x00-\u02ff]{64}")
# They count as letters of their own and yet decompose into marks alone.
_HIDDEN_MARKS = "\u0f73\u0f75\u0f81"


def refused_letter(text: str) -> str | None:
    """Return the first letter that no text of a document may hold, or None.

    >>> refused_letter("tab\\tand\\nnewline") is None, refused_letter("bell\\x07")
    (True, '\\x07')
    """
    found = _REFUSED.search(text)
    return found[0] if found else None


def composed(text: str) -> str:
    """Return the text in NFC.

    Python puts combining marks in order by insertion, in a time that grows with the square of their number: a
    document of 4 MiB made of marks would take an hour. A long run of marks is put in order here first (a stable sort
    by combining class, which is what the standard asks for), and then there is nothing left to insert.
    Source: Unicode Standard Annex 15 and the standard's canonical ordering, from memory.

    >>> composed("cafe\\u0301") == "caf\\u00e9"
    True
    """
    if _MAY_BE_MARKS.search(text):
        text = _long_runs().sub(_in_order, text)
    return unicodedata.normalize("NFC", text)


@cache
def _long_runs() -> re.Pattern[str]:
    """The marks are looked up only once a text needs it: the search over all of Unicode takes a tenth of a second."""
    marks = "".join(letter for letter in map(chr, range(0x300, sys.maxunicode + 1)) if unicodedata.combining(letter))
    return re.compile(f"[{marks}{_HIDDEN_MARKS}]{{64,}}")


def _in_order(run: re.Match[str]) -> str:
    # A letter taken out of a string is a new string each time: these are looked up, so that millions share a few.
    parts = {mark: tuple(unicodedata.normalize("NFD", mark)) for mark in set(run[0])}
    return "".join(sorted((part for mark in run[0] for part in parts[mark]), key=unicodedata.combining))
