"""The same question in the smallest numbers: what bounds and searches work on.

Three exact steps. Slack is paper that every piece and the sheet carry with them, so all grow by it and cuts become
lines. Then everything is divided by the greatest common divisor of the pieces. Then the sheet shrinks to the longest
row of pieces that it can hold, on either axis.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import gcd

from layouts.cutting.problem import Item, Problem
from layouts.cutting.rows import reachable

__all__ = ["Kind", "Reduced", "reduced", "sides_along"]


@dataclass(frozen=True, slots=True)
class Kind:
    """Pieces that nobody can tell apart while cutting; `turns`: width and height may change places. Units: reduced."""

    width: int
    height: int
    copies: int
    turns: bool

    @property
    def lies(self) -> tuple[tuple[int, int], ...]:
        """The sizes in which it may lie, along x and along y."""
        if self.turns:
            return ((self.width, self.height), (self.height, self.width))
        return ((self.width, self.height),)


@dataclass(frozen=True, slots=True)
class Reduced:
    """The problem in reduced units; `unit_x`, `unit_y` are the grown ticks of one unit on either axis.

    `items[n]` are the items that are cut as `kinds[n]`, in the order in which their copies are handed out. The kinds
    stand with the largest first, and their order does not depend on any key.
    """

    width: int
    height: int
    kinds: tuple[Kind, ...]
    items: tuple[tuple[Item, ...], ...]
    unit_x: int
    unit_y: int

    @property
    def copies(self) -> int:
        return sum(kind.copies for kind in self.kinds)


def reduced(problem: Problem) -> Reduced | None:
    """Return the problem in its smallest numbers; None if some piece fits the sheet in none of its lies.

    >>> small = reduced(Problem(100, 65, 1, (Item("A", 20, 60, 4, True, True), Item("B", 40, 20, 1, True, False))))
    >>> small.width, small.height, small.kinds[0]
    (5, 3, Kind(width=1, height=3, copies=4, turns=True))
    """
    slack = problem.slack
    width, height = problem.width + slack, problem.height + slack
    grown: list[tuple[Item, list[tuple[int, int]]]] = []
    for item in problem.items:
        lies = [(across, up) for across, up in _lies(item, slack) if across <= width and up <= height]
        if not lies:
            return None
        grown.append((item, lies))
    unit_x = gcd(*(across for _, lies in grown for across, _ in lies))
    unit_y = gcd(*(up for _, lies in grown for _, up in lies))
    if any(len(lies) > 1 for _, lies in grown):
        # A piece that turns carries its sides from one axis to the other: both need the same unit.
        unit_x = unit_y = gcd(unit_x, unit_y)
    alike: dict[tuple[int, int, bool], list[Item]] = {}
    for item, lies in grown:
        sizes = sorted((across // unit_x, up // unit_y) for across, up in lies)
        alike.setdefault((*sizes[0], len(sizes) > 1), []).append(item)
    found = [
        (Kind(across, up, sum(item.copies for item in items), turns), tuple(items))
        for (across, up, turns), items in alike.items()
    ]
    found.sort(key=lambda pair: (-pair[0].width * pair[0].height, -pair[0].height, pair[0].width, pair[0].turns))
    kinds = tuple(kind for kind, _ in found)
    return Reduced(
        width=_longest_row(width // unit_x, sides_along(kinds, 0)),
        height=_longest_row(height // unit_y, sides_along(kinds, 1)),
        kinds=kinds,
        items=tuple(items for _, items in found),
        unit_x=unit_x,
        unit_y=unit_y,
    )


def sides_along(kinds: Sequence[Kind], axis: int) -> list[tuple[set[int], int]]:
    """The sides that each kind can turn along an axis (0 is x, 1 is y), and its copies."""
    return [({lie[axis] for lie in kind.lies}, kind.copies) for kind in kinds]


def _lies(item: Item, slack: int) -> Iterator[tuple[int, int]]:
    if item.upright:
        yield item.width + slack, item.height + slack
    if item.sideways and (not item.upright or item.width != item.height):
        yield item.height + slack, item.width + slack


def _longest_row(room: int, pieces: Sequence[tuple[set[int], int]]) -> int:
    """The longest row within `room` that the pieces can form; all of it where that is too much to work out."""
    rows = reachable(room, pieces)
    return room if rows is None else rows.bit_length() - 1
