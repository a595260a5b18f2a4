"""The one value of a kit's page that is being changed: its form, and what was refused about it."""

from __future__ import annotations

from dataclasses import dataclass

from frontend.kit_page.pieces import Cell

__all__ = ["Conflict", "Opened"]


@dataclass(frozen=True, slots=True)
class Conflict:
    """Somebody else was quicker: what they left, and what was typed here."""

    theirs: str
    yours: str
    by: str


@dataclass(frozen=True, slots=True)
class Opened:
    """A cell whose form is open, with what was typed into it."""

    cell: Cell
    typed: tuple[str, ...]
    errors: tuple[str, ...] = ()
    conflict: Conflict | None = None

    @classmethod
    def at(cls, cell: Cell) -> Opened:
        return cls(cell, cell.typed)

    @property
    def width(self) -> str:
        return self.typed[0] if self.typed else ""

    @property
    def height(self) -> str:
        return self.typed[1] if len(self.typed) > 1 else ""
