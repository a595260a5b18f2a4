"""What a form can ask for: one value, or rows of several; in sections."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from enum import StrEnum

from frontend.kit_page.pieces import Choice

__all__ = ["Entry", "Field", "Rows", "Section", "choices", "fields_of"]


class Entry(StrEnum):
    """How a value is typed. Points are corners, one a line, each a pair of lengths."""

    TEXT = "text"
    AREA = "area"
    LENGTH = "length"
    COUNT = "count"
    CHOICE = "choice"
    MANY = "many"
    FLAG = "flag"
    POINTS = "points"


@dataclass(frozen=True, slots=True)
class Field:
    """One value. `path` leads to it in the thing's plain JSON (`size/0`); `label` says what it is, `help` more of it.

    Where the document says nothing, the first one of a choice holds, and of other values the `usual` one. `only_for` is
    another choice and the one of it with which this value is asked for at all: that of an arch has a rise.
    """

    path: str
    label: str
    entry: Entry = Entry.TEXT
    choices: tuple[Choice, ...] = ()
    help: str = ""
    usual: str = ""
    only_for: tuple[str, str] | None = None

    @property
    def start(self) -> str:
        """What its control holds where the document says nothing."""
        return self.choices[0].value if self.entry == Entry.CHOICE and self.choices else self.usual


@dataclass(frozen=True, slots=True)
class Rows:
    """A list of alike things inside the thing, a row each, one empty row last. `one` is what a row is called."""

    path: str
    one: str
    fields: tuple[Field, ...]
    help: str = ""


@dataclass(frozen=True, slots=True)
class Section:
    """Values that belong together. `is_closed`: seldom needed, and folded away while nothing in it is given."""

    title: str
    items: tuple[Field | Rows, ...]
    help: str = ""
    is_closed: bool = False


def choices(*words: str, **named: str) -> tuple[Choice, ...]:
    """Return choices that are called what they are, then those with words of their own."""
    return (*(Choice(one, one.replace("-", " ")) for one in words), *(Choice(one, said) for one, said in named.items()))


def fields_of(sections: Sequence[Section]) -> Iterator[Field | Rows]:
    for section in sections:
        yield from section.items
