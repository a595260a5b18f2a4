"""The order with the fewest settings, then the fewest quarter turns: searched through, with a proven bound.

A state is what parts lie open and how the trimmer stands; each is reached at its cheapest first (best first search with
the bound of `bounds`; from memory, textbook). What makes it small: a cut that can be made as the trimmer stands is made
at once. That is safe where every strip of its part can be held. Take any order that makes it later, or leaves its strip
to the end and measures the other one; leave that later cut out, and make it now. Nothing else changes: all other strips
come off as before, what the strip itself is divided into is only there earlier, and leaving a cut out of a row of
settings, or of turns, never makes the row dearer, for both are distances.
"""

from __future__ import annotations

import heapq
from dataclasses import dataclass
from typing import NamedTuple

from layouts.cutting.sequence.bounds import Needed
from layouts.cutting.sequence.greedy import Cost
from layouts.cutting.sequence.steps import Edge
from layouts.cutting.sequence.ways import Left, Sheet, Way, quarters

__all__ = ["Searched", "searched"]

type Standing = tuple[int, Edge]
type State = tuple[tuple[Left, ...], Standing | None]


@dataclass(frozen=True, slots=True)
class Searched:
    """The best order, None where the steps did not suffice; and what no order costs less than."""

    ways: tuple[Way, ...] | None
    at_least: Cost


class _Waiting(NamedTuple):
    """A state to go on from: the least that an order through it costs, the turns that lead to it, what they cost."""

    least: Cost
    turn: tuple[int, ...]
    cost: Cost
    state: State


@dataclass(frozen=True, slots=True)
class _Reached:
    """How a state was reached at its best, and the ways made since the state before."""

    cost: Cost
    turn: tuple[int, ...]
    before: State | None
    made: tuple[Way, ...]

    @property
    def how(self) -> tuple[Cost, tuple[int, ...]]:
        return self.cost, self.turn


def searched(sheet: Sheet, steps: int, *, turning: bool = True) -> Searched:
    """Search with so many steps, one for each way that is looked at.

    Of orders that cost the same, the one is found whose first cuts rank first. Without `turning`, turns cost nothing:
    then there are far fewer states.
    """
    needed = Needed(sheet)
    start: State = (sheet.whole, None)
    reached: dict[State, _Reached] = {start: _Reached((0, 0, 0), (), None, ())}
    heap = [_Waiting((0, needed.at_least(sheet.whole, None), 0), (), (0, 0, 0), start)]
    while heap:
        least, turn, cost, state = heapq.heappop(heap)
        if (cost, turn) != reached[state].how:
            continue
        left, standing = state
        if not left:
            return Searched(_path(state, reached), cost)
        if steps <= 0:
            return Searched(None, least)
        for number, way in enumerate(_branches(sheet, left, turning)):
            after, made = _made(sheet, left, way, turning)
            steps -= len(left) + len(made)
            further: State = (after, _standing(way, turning))
            total = _with(cost, standing, way, turning)
            own = (*turn, number)
            if further not in reached or (total, own) < reached[further].how:
                reached[further] = _Reached(total, own, state, made)
                least = (total[0], total[1] + needed.at_least(after, way.setting), total[2])
                heapq.heappush(heap, _Waiting(least, own, total, further))
    raise AssertionError("every part that is left has a cut that can be made")


def _standing(way: Way, turning: bool) -> Standing:
    return way.setting, way.edge if turning else "left"


def _with(cost: Cost, standing: Standing | None, way: Way, turning: bool) -> Cost:
    setting, edge = standing or (None, None)
    turns = quarters(edge, way.edge) if turning else 0
    return cost[0] + (not way.is_held), cost[1] + (way.setting != setting), cost[2] + turns


def _branches(sheet: Sheet, left: tuple[Left, ...], turning: bool) -> list[Way]:
    """One way for each standing of the trimmer, and each of those that are not free, in the order of their ranks."""
    found: dict[Standing, Way] = {}
    others: list[Way] = []
    for one in left:
        for way in sheet.ways(one):
            if not way.is_free:
                others.append(way)
                continue
            standing = _standing(way, turning)
            if standing not in found or way.rank < found[standing].rank:
                found[standing] = way
    return sorted([*found.values(), *others], key=lambda way: way.rank)


def _made(sheet: Sheet, left: tuple[Left, ...], way: Way, turning: bool) -> tuple[tuple[Left, ...], tuple[Way, ...]]:
    """Make a cut and all that are free with the trimmer as it then stands, the longest first."""
    made = [way]
    standing = _standing(way, turning)
    open_now = set(left) - {way.left} | set(sheet.after(way))
    ready = [
        (one.rank, number, one)
        for number, one in enumerate(way for one in sorted(open_now) for way in sheet.ways(one))
        if one.is_free and _standing(one, turning) == standing
    ]
    heapq.heapify(ready)
    number = len(open_now) * 2
    while ready:
        _, _, free = heapq.heappop(ready)
        if free.left not in open_now:
            continue
        made.append(free)
        open_now.remove(free.left)
        for after in sheet.after(free):
            open_now.add(after)
            for further in sheet.ways(after):
                if further.is_free and _standing(further, turning) == standing:
                    number += 1
                    heapq.heappush(ready, (further.rank, number, further))
    return tuple(sorted(open_now)), tuple(made)


def _path(state: State, reached: dict[State, _Reached]) -> tuple[Way, ...]:
    blocks: list[tuple[Way, ...]] = []
    at: State | None = state
    while at is not None:
        blocks.append(reached[at].made)
        at = reached[at].before
    return tuple(way for block in reversed(blocks) for way in block)
