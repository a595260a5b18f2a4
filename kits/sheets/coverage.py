"""Which characters the faces of the sheets have. What they lack cannot be set: its page would be refused."""

from __future__ import annotations

from functools import cache
from pathlib import Path

from fontTools.ttLib import TTFont

__all__ = ["MISSING", "covered", "uncovered"]

# What stands in the place of a character that no face has.
MISSING = "\N{REPLACEMENT CHARACTER}"
FONTS = Path(__file__).parent / "fonts"
# Without ink, and never set as they are.
WHITE = frozenset("\t\n\r")


def uncovered(text: str) -> set[str]:
    """Return the characters of a text that no face of the sheets has in every weight.

    >>> sorted(uncovered("Ďábel 6 3⁄4 → 𝔸"))
    ['𝔸']
    """
    return set(text) - _characters()


def covered(text: str) -> str:
    """Return the text with U+FFFD for every character that no face has.

    >>> covered("𝔸 4 ½")
    '� 4 ½'
    """
    return "".join(letter if letter in _characters() else MISSING for letter in text)


@cache
def _characters() -> frozenset[str]:
    # In one weight and not in another it would change its look where a heading begins.
    first = frozenset.intersection(*(_of(path) for path in sorted(FONTS.glob("Commissioner-*.ttf"))))
    return first | _of(FONTS / "KitproofRest-Regular.ttf") | WHITE


def _of(path: Path) -> frozenset[str]:
    with TTFont(path, lazy=True) as face:
        return frozenset(map(chr, face.getBestCmap()))
