"""What must come before what, and what goes round in a circle."""

from __future__ import annotations

import heapq
from collections import deque
from collections.abc import Callable, Iterable, Mapping, Sequence

__all__ = ["Precedence"]


class Precedence:
    """Named things, each with those that must come before it. Circles are no error here: `circles` names them.

    All answers follow the order in which the names were given, so that the same input gives the same answer.

    >>> making = Precedence(("fold", "cut", "glue"), {"fold": ["cut"], "glue": ["fold"]})
    >>> making.precedes("cut", "glue"), making.precedes("glue", "cut"), making.circles
    (True, False, ())
    """

    __slots__ = ("_before", "_index", "_knots", "_reach", "names")

    def __init__(self, names: Sequence[str], before: Mapping[str, Iterable[str]]) -> None:
        self.names = tuple(names)
        self._index = {name: at for at, name in enumerate(self.names)}
        self._before = tuple(
            tuple(dict.fromkeys(self._index[earlier] for earlier in before.get(name, ()))) for name in self.names
        )
        self._knots = _knots(self._before)
        self._reach: tuple[int, ...] = ()

    def precedes(self, first: str, then: str) -> bool:
        """Whether `first` must come before `then`, directly or by way of others; in a circle everything does."""
        return bool(self.before(then) >> self._index[first] & 1)

    def bit(self, name: str) -> int:
        """Return the one bit that stands for a name in the sets below."""
        return 1 << self._index[name]

    def before(self, name: str) -> int:
        """Return the set of all that must come before a name, one bit each: many questions at once cost one `&`.

        >>> making = Precedence(("cut", "fold", "glue"), {"fold": ["cut"], "glue": ["fold"]})
        >>> making.before("glue") == making.bit("cut") | making.bit("fold")
        True
        """
        if not self._reach and self.names:
            self._reach = self._reached()
        return self._reach[self._index[name]]

    @property
    def circles(self) -> tuple[tuple[str, ...], ...]:
        """One shortest circle of each knot, as (a, b, c): a before b before c before a; `a` was named first."""
        found = [self._shortest_circle(knot) for knot in self._knots if self._is_circle(knot)]
        return tuple(tuple(self.names[at] for at in circle) for circle in sorted(found))

    def in_turn(self) -> tuple[str, ...]:
        """Return all names, each after all that must come before it; within a circle as they were named."""
        return tuple(self.names[at] for knot in self._knots for at in sorted(knot))

    def in_turn_by(self, rank: Callable[[str], int]) -> tuple[str, ...]:
        """Return all names, each after all that must come before it: of those that may come next always the one of
        the lowest rank, and of those the one named first.

        Raises: ValueError if there is a circle: then there is no such order.
        """
        waits_for = [len(before) for before in self._before]
        releases: list[list[int]] = [[] for _ in self.names]
        for then, before in enumerate(self._before):
            for first in before:
                releases[first].append(then)
        ready = [(rank(self.names[at]), at) for at, open_ in enumerate(waits_for) if not open_]
        heapq.heapify(ready)
        order = []
        while ready:
            _, at = heapq.heappop(ready)
            order.append(self.names[at])
            for then in releases[at]:
                waits_for[then] -= 1
                if not waits_for[then]:
                    heapq.heappush(ready, (rank(self.names[then]), then))
        if len(order) < len(self.names):
            raise ValueError("what goes round in a circle has no order")
        return tuple(order)

    def _reached(self) -> tuple[int, ...]:
        """For each name the set of all before it, one bit a name: 20,000 steps in a row need 25 MB."""
        reach = [0] * len(self.names)
        for knot in self._knots:  # whatever comes before a knot stands before it in this list
            together = 0
            for at in knot:
                for first in self._before[at]:
                    together |= reach[first] | 1 << first
            for at in knot:
                reach[at] = together
        return tuple(reach)

    def _is_circle(self, knot: tuple[int, ...]) -> bool:
        return len(knot) > 1 or knot[0] in self._before[knot[0]]

    def _shortest_circle(self, knot: tuple[int, ...]) -> tuple[int, ...]:
        """Walk from the knot's first member to what comes before it, breadth first, until it is met again."""
        start, inside = min(knot), set(knot)
        came_from: dict[int, int] = {}
        queue = deque([start])
        while queue:
            at = queue.popleft()
            for earlier in sorted(self._before[at]):
                if earlier == start:
                    circle = [at]
                    while circle[-1] != start:
                        circle.append(came_from[circle[-1]])
                    return (start, *circle[:-1])
                if earlier in inside and earlier not in came_from:
                    came_from[earlier] = at
                    queue.append(earlier)
        raise AssertionError("every member of a knot lies on a circle")


def _knots(before: Sequence[Sequence[int]]) -> list[tuple[int, ...]]:
    """Return the sets of things that all come before each other, each after everything that comes before it.

    Most hold a single thing. Without recursion: a kit may hold thousands of steps in a row.
    Source: R. Tarjan, Depth-first search and linear graph algorithms, SIAM J. Comput. 1 (1972), from memory.
    """
    number: dict[int, int] = {}
    low: dict[int, int] = {}
    on_stack: set[int] = set()
    stack: list[int] = []
    knots: list[tuple[int, ...]] = []
    for root in range(len(before)):
        if root in number:
            continue
        path = [(root, iter(before[root]))]
        number[root] = low[root] = len(number)
        stack.append(root)
        on_stack.add(root)
        while path:
            at, rest = path[-1]
            for earlier in rest:
                if earlier not in number:
                    number[earlier] = low[earlier] = len(number)
                    stack.append(earlier)
                    on_stack.add(earlier)
                    path.append((earlier, iter(before[earlier])))
                    break
                if earlier in on_stack:
                    low[at] = min(low[at], number[earlier])
            else:
                path.pop()
                if path:
                    low[path[-1][0]] = min(low[path[-1][0]], low[at])
                if low[at] == number[at]:
                    knot: list[int] = []
                    while not knot or knot[-1] != at:
                        knot.append(stack.pop())
                        on_stack.discard(knot[-1])
                    knots.append(tuple(sorted(knot)))
    return knots
