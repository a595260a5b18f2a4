"""What is asked of the cutting room: pieces out of identical rectangular sheets, by cuts from edge to edge."""

from __future__ import annotations

import hashlib
import json
from dataclasses import dataclass

__all__ = ["Item", "Problem"]


@dataclass(frozen=True, slots=True)
class Item:
    """One piece as often as it is wanted. Units: ticks.

    `key` names it and is opaque here. `upright`: it may lie at 0 or 180 degrees, its width along x; `sideways`: it may
    lie at 90 or 270 degrees, its height along x. Which of the two turns is meant is the caller's business: a cut does
    not know the difference.
    Raises: TypeError, ValueError.
    """

    key: str
    width: int
    height: int
    copies: int
    upright: bool
    sideways: bool

    def __post_init__(self) -> None:
        if type(self.key) is not str or not self.key:
            raise ValueError(f"a piece needs a key, not {self.key!r}")
        _whole(width=self.width, height=self.height, copies=self.copies)
        if min(self.width, self.height, self.copies) < 1:
            raise ValueError(f"{self.key}: {self.copies} of {self.width} x {self.height} cannot be cut")
        if not (self.upright or self.sideways):
            raise ValueError(f"{self.key} may not lie at all")


@dataclass(frozen=True, slots=True)
class Problem:
    """`sheets` rectangles of the same usable size, the pieces wanted of them, and the paper lost between two parts.

    Units: ticks. A usable side may be 0 or less where spoilt margins leave nothing: then no piece fits.
    The order of the items has no meaning: two problems that differ in it alone have the same key and the same answer.
    Raises: TypeError, ValueError.

    >>> one = Problem(10, 10, 1, (Item("A", 5, 5, 4, True, False),))
    >>> Problem.from_json(one.to_json()) == one
    True
    """

    width: int
    height: int
    sheets: int
    items: tuple[Item, ...]
    slack: int = 0

    def __post_init__(self) -> None:
        _whole(width=self.width, height=self.height, sheets=self.sheets, slack=self.slack)
        if min(self.sheets, self.slack) < 0:
            raise ValueError(f"{self.sheets} sheets and a slack of {self.slack}: neither may be negative")
        if len({item.key for item in self.items}) != len(self.items):
            raise ValueError("two pieces have the same key")
        # One order, so that equal questions are equal values wherever they were put together.
        object.__setattr__(self, "items", tuple(sorted(self.items, key=lambda item: item.key)))

    @property
    def copies(self) -> int:
        """How many pieces are wanted in all."""
        return sum(item.copies for item in self.items)

    def to_json(self) -> str:
        """The canonical text of the question: members sorted, no white space."""
        value = {
            "height": self.height,
            "items": [
                {
                    "copies": item.copies,
                    "height": item.height,
                    "key": item.key,
                    "sideways": item.sideways,
                    "upright": item.upright,
                    "width": item.width,
                }
                for item in self.items
            ],
            "sheets": self.sheets,
            "slack": self.slack,
            "width": self.width,
        }
        return json.dumps(value, ensure_ascii=False, separators=(",", ":"), sort_keys=True)

    @classmethod
    def from_json(cls, text: str) -> Problem:
        """Read what `to_json` wrote. Raises: ValueError, KeyError, TypeError."""
        value = json.loads(text)
        items = tuple(Item(**item) for item in value["items"])
        return cls(value["width"], value["height"], value["sheets"], items, value["slack"])

    @property
    def hash(self) -> str:
        """SHA-256 of the canonical text: the name under which an answer may be kept."""
        return hashlib.sha256(self.to_json().encode()).hexdigest()


def _whole(**values: int) -> None:
    for name, value in values.items():
        # bool is an int to Python; a float would be a lost fraction.
        if type(value) is not int:
            raise TypeError(f"{name} is a whole number of ticks or things, not {value!r}")
