"""Mends as values: changes that belong together, in words what they do, and what they cost."""

from __future__ import annotations

import json
from collections.abc import Sequence
from dataclasses import dataclass
from decimal import ROUND_HALF_EVEN, Decimal
from typing import Any

from layouts.document import Change
from layouts.lengths import System

__all__ = ["Cost", "Mend", "area_words", "cost", "listed"]

type Cost = tuple[tuple[str, int | str], ...]

# How areas are told: ticks to the side of the square that is counted in.
_SQUARES: dict[System, tuple[int, str]] = {"in": (8128, "square inches"), "mm": (3200, "square centimetres")}


@dataclass(frozen=True, slots=True)
class Mend:
    """Changes that belong together, in words what they do, and what they cost: sheets more, a wider border …

    `relief` is the area by which less is cut from the sheets of the print, in square ticks.
    """

    changes: tuple[Change, ...]
    message: str
    cost: Cost
    relief: int = 0

    @property
    def key(self) -> str:
        """What it changes, as text."""
        return json.dumps([change.as_data() for change in self.changes], sort_keys=True)

    def as_data(self) -> dict[str, Any]:
        """The mend as it stands in a proof, which holds only such as were proved to fit."""
        changes = [change.as_data() for change in self.changes]
        return {"change": changes, "cost": dict(self.cost), "verdict": "fits", "message": self.message}

    def and_(self, change: Change, *, sheets: int, words: str) -> Mend:
        """Return this with one more change, its cost in sheets, and a sentence more."""
        told = cost(**dict(self.cost) | {"sheets": sheets})
        return Mend((*self.changes, change), f"{self.message} {words}", told, self.relief)


def cost(sheets: int | str = 0, **more: int | str) -> Cost:
    return (("sheets", sheets), *more.items())


def area_words(square_ticks: int, unit: System) -> str:
    """Return an area in the square measure that people use beside a unit, to a tenth, half to even.

    >>> area_words(8128 * 8128 * 5 // 4, "in"), area_words(3200 * 3200, "mm")
    ('1.2 square inches', '1.0 square centimetres')
    """
    side, words = _SQUARES[unit]
    return f"{(Decimal(square_ticks) / (side * side)).quantize(Decimal('0.1'), ROUND_HALF_EVEN)} {words}"


def listed(words: Sequence[str]) -> str:
    """
    >>> listed(["A"]), listed(["A", "B"]), listed(["A", "B", "C"])
    ('A', 'A and B', 'A, B and C')
    """
    return words[0] if len(words) == 1 else f"{', '.join(words[:-1])} and {words[-1]}"
