"""A sum that a reader can check."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

__all__ = ["PrintedSum", "Summed"]


@dataclass(frozen=True, slots=True)
class PrintedSum:
    """Parts, each so many times, that add up to a total, all by place. `mark` is the figure that a sheet marks where
    the sum does not come out as shown."""

    parts: tuple[tuple[int, str], ...]
    total: str
    mark: str


@dataclass(frozen=True, slots=True)
class Summed:
    """A sum, and the figures in it that the document does not state: derived ones by place, in ticks."""

    sum: PrintedSum
    derived: Mapping[str, int] = field(default_factory=dict)

    @classmethod
    def of(cls, *parts: tuple[int, str], total: str, mark: str = "", **derived: int) -> Summed:
        return cls(PrintedSum(parts, total, mark or total), derived)
