"""An order of the cuts by simple rules: for sheets with more cuts than can be searched through."""

from __future__ import annotations

import heapq
from collections.abc import Callable
from typing import Literal

from layouts.cutting.sequence.steps import Edge
from layouts.cutting.sequence.ways import Left, Sheet, Way, quarters

__all__ = ["Cost", "cost_of", "greedy"]

# Cuts that cannot be held, settings, quarter turns: what comes first weighs more.
type Cost = tuple[int, int, int]
type Rule = Literal["longest", "most", "unturned"]

# With more cuts than this only one rule is tried.
_MANY = 400
_RULES: tuple[Rule, ...] = ("longest", "most", "unturned")


def greedy(sheet: Sheet) -> tuple[Way, ...]:
    """Return the best of a few orders, the first of equals.

    Each makes all cuts that can be made as the trimmer stands, those that need no turn first. Then it is set anew:
    for the longest cut, for the most cuts at once, or for the longest that need no turn.
    """
    rules = _RULES if sheet.cuts <= _MANY else _RULES[:1]
    return min((_by_rule(sheet, rule) for rule in rules), key=cost_of)


def cost_of(ways: tuple[Way, ...]) -> Cost:
    unheld = settings = turns = 0
    edge: Edge | None = None
    setting: int | None = None
    for way in ways:
        unheld += not way.is_held
        settings += way.setting != setting
        turns += quarters(edge, way.edge)
        setting, edge = way.turned
    return unheld, settings, turns


def _by_rule(sheet: Sheet, rule: Rule) -> tuple[Way, ...]:
    ready = _Ready(sheet)
    made: list[Way] = []
    setting: int | None = None
    edge: Edge | None = None
    while (way := ready.next_of(setting, edge, rule)) is not None:
        made.append(way)
        ready.make(way)
        setting, edge = way.turned
    return tuple(made)


class _Ready:
    """The ways that are open now, found by how the trimmer stands without looking through all of them."""

    def __init__(self, sheet: Sheet) -> None:
        self._sheet = sheet
        self._count = 0
        self._open: set[Left] = set()
        self._all: list[tuple[tuple[bool, int, int, int, bool], int, Way]] = []
        self._alike: dict[tuple[int, Edge], list[tuple[tuple[bool, int, int, int, bool], int, Way]]] = {}
        self._many: dict[int, int] = {}
        for left in sheet.whole:
            self._add(left)

    def _add(self, left: Left) -> None:
        self._open.add(left)
        for way in self._sheet.ways(left):
            self._count += 1
            entry = (way.rank, self._count, way)
            heapq.heappush(self._all, entry)
            heapq.heappush(self._alike.setdefault(way.turned, []), entry)
            self._many[way.setting] = self._many.get(way.setting, 0) + 1

    def make(self, way: Way) -> None:
        self._open.remove(way.left)
        for other in self._sheet.ways(way.left):
            self._many[other.setting] -= 1
        for left in self._sheet.after(way):
            self._add(left)

    def next_of(self, setting: int | None, edge: Edge | None, rule: Rule) -> Way | None:
        if not self._open:
            return None
        if setting is not None and edge is not None:
            edges: tuple[Edge, ...] = ("left", "bottom", "right", "top")
            for other in sorted(edges, key=lambda one: quarters(edge, one)):
                if (way := self._first(self._alike.get((setting, other), []))) is not None:
                    return way
        if rule == "most":
            # Of as many, the setting of the longest cut.
            return min(self._tops(lambda way: True), key=lambda way: (-self._many[way.setting], way.rank))
        if rule == "unturned":
            unturned = list(self._tops(lambda way: way.edge == edge))
            if unturned:
                return min(unturned, key=lambda way: way.rank)
        return self._first(self._all)

    def _tops(self, fits: Callable[[Way], bool]) -> list[Way]:
        """The first way of each way in which the trimmer can stand."""
        tops = (self._first(heap) for heap in self._alike.values())
        return [way for way in tops if way is not None and fits(way)]

    def _first(self, heap: list[tuple[tuple[bool, int, int, int, bool], int, Way]]) -> Way | None:
        """The first way of a heap that is still open; those that are not are dropped."""
        while heap:
            if heap[0][2].left in self._open:
                return heap[0][2]
            heapq.heappop(heap)
        return None
