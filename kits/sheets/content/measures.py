"""Figures as a sheet shows them: rounded to the printed step, in the sheet's system with the other one beside it.

Sheets take every figure from here, and this takes it from the plan: a number typed into a template would be a number
that no proof has seen.
"""

from __future__ import annotations

from dataclasses import dataclass

from kits.sheets.options import SheetOptions
from layouts.document import Kit
from layouts.lengths import System
from layouts.printed import shown

__all__ = ["Measure", "Measures", "SizeText"]


@dataclass(frozen=True, slots=True)
class Measure:
    """One figure: its text without a unit, and the unit it stands in."""

    text: str
    unit: System

    @property
    def with_unit(self) -> str:
        # No line may end between a figure and its unit.
        return f"{self.text}\N{NO-BREAK SPACE}{self.unit}"


@dataclass(frozen=True, slots=True)
class SizeText:
    """Width and height in both systems, without units: the sheet's own first."""

    own: tuple[str, str]
    other: tuple[str, str]

    @property
    def own_text(self) -> str:
        return " × ".join(self.own)

    @property
    def other_text(self) -> str:
        return " × ".join(self.other)


class Measures:
    """The figures of one sheet."""

    def __init__(self, kit: Kit, options: SheetOptions) -> None:
        self.options = options
        self._steps: dict[System, int] = {"in": kit.printed.in_.ticks, "mm": kit.printed.mm.ticks}
        self.unit: System = options.unit
        self.other: System = "mm" if options.unit == "in" else "in"

    def own(self, ticks: int) -> Measure:
        return Measure(shown(ticks, self.unit, self._steps[self.unit]), self.unit)

    def in_other(self, ticks: int) -> Measure:
        return Measure(shown(ticks, self.other, self._steps[self.other]), self.other)

    def size(self, width: int, height: int) -> SizeText:
        return SizeText(
            (self.own(width).text, self.own(height).text), (self.in_other(width).text, self.in_other(height).text)
        )
