"""Figures as a sheet shows them: those of the proof, in the sheet's system with the other one beside it.

Sheets take every figure from here, and this takes it from what the proof has found printable: a number typed into a
template would be a number that no proof has seen, and one rounded here might not add up with the others.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property
from typing import Any

from kits.sheets.options import SheetOptions
from layouts.document import Kit
from layouts.lengths import TICKS_PER_INCH, TICKS_PER_MM, System
from layouts.printed import grid_of, kit_as_shown, shown, text_of
from layouts.shapes import FlatSizes

__all__ = ["OFF_SUM", "Measure", "Measures", "SizeText"]

# What stands behind a figure that does not come to the sum of others that a reader can check.
OFF_SUM = "*"


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
    """The figures of one sheet.

    `kit` is the kit as it is, `as_shown` the same as a sheet in this system shows it: lengths taken from that are shown
    as they are. Figures that a proof does not hold (it may be an older one) are rounded each by itself.
    """

    def __init__(self, kit: Kit, options: SheetOptions, proof: Mapping[str, Any] | None = None) -> None:
        self.options = options
        self.kit = kit
        self._steps: dict[System, int] = {"in": grid_of(kit, "in"), "mm": grid_of(kit, "mm")}
        self.unit: System = options.unit
        self.other: System = "mm" if options.unit == "in" else "in"
        printed = proof.get("printed", ()) if proof is not None else ()
        self._shown: dict[System, dict[str, int]] = {
            system: {figure["at"]: _ticks(figure[system], system) for figure in printed} for system in self._steps
        }
        self._off_sum = {figure["at"]: figure["off_sum"] for figure in printed if "off_sum" in figure}
        self.as_shown = kit_as_shown(kit, self._shown[self.unit], self.unit)
        self.as_shown_in_other = kit_as_shown(kit, self._shown[self.other], self.other)

    @cached_property
    def flat_sizes(self) -> FlatSizes:
        """The flat parts of the kit as it is."""
        return FlatSizes.of(self.kit)

    @cached_property
    def flat_sizes_as_shown(self) -> FlatSizes:
        """The flat parts of the kit as this sheet shows it: what they are made up of are figures of the proof."""
        return FlatSizes.of(self.as_shown)

    @property
    def step(self) -> int:
        """The step in ticks to which a sheet in this system rounds."""
        return self._steps[self.unit]

    def ticks_at(self, place: str, otherwise: int) -> int:
        """Return the figure at a place as this sheet shows it, in ticks; where the proof has none, the other one."""
        return self._shown[self.unit].get(place, otherwise)

    def own(self, ticks: int, mark: str = "") -> Measure:
        return Measure(shown(ticks, self.unit, self._steps[self.unit]) + mark, self.unit)

    def in_other(self, ticks: int) -> Measure:
        return Measure(shown(ticks, self.other, self._steps[self.other]), self.other)

    def size(self, width: int, height: int) -> SizeText:
        return SizeText(
            (self.own(width).text, self.own(height).text), (self.in_other(width).text, self.in_other(height).text)
        )

    def size_at(self, place: str, width: int, height: int) -> SizeText:
        """Return the size whose width and height stand at a place; where there is none, of these exact values."""
        pairs = [(f"{place}/width", width), (f"{place}/height", height)]
        own, other = (tuple(self._at(at, ticks, system) for at, ticks in pairs) for system in (self.unit, self.other))
        return SizeText((own[0], own[1]), (other[0], other[1]))

    def mark(self, place: str) -> str:
        """Return the sign for the figure at a place that does not come to a sum on this sheet, else nothing."""
        return OFF_SUM if self.unit in self._off_sum.get(place, ()) else ""

    def _at(self, place: str, ticks: int, system: System) -> str:
        known = self._shown[system].get(place)
        text = shown(ticks, system, self._steps[system]) if known is None else text_of(known, system)
        return text + (self.mark(place) if system == self.unit else "")


def _ticks(text: str, system: System) -> int:
    """Read a printed figure: a mixed number or a decimal. A flat part may be longer than any length of a document."""
    number = sum((Fraction(part) for part in text.split()), Fraction(0))
    return int(number * (TICKS_PER_INCH if system == "in" else TICKS_PER_MM))
