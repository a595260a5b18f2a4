"""The one value of a kit's page that is being changed: its form, and what was refused about it."""

from __future__ import annotations

from dataclasses import dataclass

from frontend.kit_page.pieces import Cell

__all__ = ["Conflict", "Opened", "Wrong"]


@dataclass(frozen=True, slots=True)
class Conflict:
    """Somebody else was quicker: what they left, and what was typed here."""

    theirs: str
    yours: str
    by: str


@dataclass(frozen=True, slots=True)
class Wrong:
    """What is wrong with one input of the form: its name, and a sentence."""

    name: str
    sentence: str


@dataclass(frozen=True, slots=True)
class Input:
    name: str
    text: str
    wrong: bool
    first: bool


@dataclass(frozen=True, slots=True)
class Opened:
    """A cell whose form is open, with what was typed into it."""

    cell: Cell
    typed: tuple[str, ...]
    errors: tuple[Wrong, ...] = ()
    conflict: Conflict | None = None

    @classmethod
    def at(cls, cell: Cell) -> Opened:
        return cls(cell, cell.typed)

    @property
    def inputs(self) -> tuple[Input, ...]:
        """The inputs of the form; the one to start at is the first that is wrong."""
        names = ("width", "height") if len(self.cell.typed) == 2 else ("value",)
        wrong = [name for name in names if any(error.name == name for error in self.errors)]
        return tuple(
            Input(name, text, name in wrong, name == [*wrong, *names][0])
            for name, text in zip(names, self.typed, strict=True)
        )
