"""A build as a tree: pieces, and two parts side by side or one above the other."""

from __future__ import annotations

from dataclasses import dataclass

from layouts.cutting.tree import Along

__all__ = ["Join", "Node", "One"]


@dataclass(frozen=True, slots=True)
class One:
    """A piece of the kind with this number, in one of its lies."""

    kind: int
    width: int
    height: int

    @property
    def turned(self) -> One:
        return One(self.kind, self.height, self.width)

    def as_data(self) -> list[object]:
        return [self.kind, self.width, self.height]


@dataclass(frozen=True, slots=True)
class Join:
    """Two parts with their lower left corners on one line; a smaller one has waste behind it."""

    along: Along
    first: Node
    second: Node

    @property
    def turned(self) -> Join:
        return Join("y" if self.along == "x" else "x", self.first.turned, self.second.turned)

    def as_data(self) -> list[object]:
        """The tree as nested lists: `[kind, width, height]` or `[along, first, second]`."""
        return [self.along, self.first.as_data(), self.second.as_data()]


type Node = One | Join
