"""How a sheet is to be set: page, unit, size of print, and what it is cut with."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from layouts.document import Kit
from layouts.lengths import System

__all__ = ["CUTS", "PAGES", "PRINTS", "UNITS", "Cut", "Page", "PrintSize", "SheetOptions"]

Page = Literal["letter", "a4"]
PrintSize = Literal["normal", "large"]
Cut = Literal["trimmer", "scissors"]

PAGES: tuple[Page, ...] = ("letter", "a4")
UNITS: tuple[System, ...] = ("in", "mm")
PRINTS: tuple[PrintSize, ...] = ("normal", "large")
CUTS: tuple[Cut, ...] = ("trimmer", "scissors")


@dataclass(frozen=True, slots=True)
class SheetOptions:
    """The choices of a reader. `unit` is the system the sheet is set in; the other one stands beside it in tables."""

    page: Page
    unit: System
    print: PrintSize = "normal"
    cut: Cut = "trimmer"

    @classmethod
    def of(
        cls,
        kit: Kit,
        *,
        page: Page | None = None,
        unit: System | None = None,
        print: PrintSize | None = None,  # noqa: A002  the option's name in the contract
        cut: Cut | None = None,
    ) -> SheetOptions:
        """Fill in what was not chosen: the document's unit, and the page of the people who use it."""
        chosen = unit or kit.unit
        return cls(page or ("letter" if chosen == "in" else "a4"), chosen, print or "normal", cut or "trimmer")
