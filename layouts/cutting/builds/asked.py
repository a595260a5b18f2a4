"""What is asked: kinds of pieces out of kinds of sheets, in the smallest whole numbers."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from layouts.cutting.reduced import Kind

__all__ = ["Asked", "Stock"]


@dataclass(frozen=True, slots=True)
class Stock:
    """Sheets of one size."""

    width: int
    height: int
    copies: int

    def holds(self, width: int, height: int) -> bool:
        return width <= self.width and height <= self.height


@dataclass(frozen=True, slots=True)
class Asked:
    """Pieces by kind, and sheets by size, of which there are one or more."""

    sheets: tuple[Stock, ...]
    kinds: tuple[Kind, ...]

    @classmethod
    def from_data(cls, question: Mapping[str, Sequence[Sequence[Any]]]) -> Asked:
        """Read `sheets` (width, height, copies) and `kinds` (width, height, copies, may turn) of a question.

        A lie in which a kind fits no sheet is left out: such a kind does not turn, and lies as it fits.
        """
        sheets = tuple(Stock(*sheet) for sheet in question["sheets"])
        return cls(sheets, tuple(_kind(sheets, *kind) for kind in question["kinds"]))

    @property
    def is_too_big(self) -> bool:
        """Whether some piece fits no sheet."""
        return any(not _fitting(self.sheets, *lie) for kind in self.kinds for lie in kind.lies)


def _kind(sheets: Sequence[Stock], width: int, height: int, copies: int, turns: bool) -> Kind:
    upright, sideways = _fitting(sheets, width, height), turns and _fitting(sheets, height, width)
    if sideways and not upright:
        return Kind(height, width, copies, turns=False)
    return Kind(width, height, copies, turns=upright and sideways)


def _fitting(sheets: Sequence[Stock], width: int, height: int) -> bool:
    return any(sheet.holds(width, height) for sheet in sheets)
