"""Joining builds: two of them side by side, or one above the other, make a larger one.

A cut from edge to edge divides what it cuts in two, so every plan is made of such joins, and joining the smallest boxes
loses nothing. Of all pairs only those are looked at that can clear the bar of their box: builds stand in groups of
equal boxes, dearest first, so that whole groups, and then all but the first of a group, are passed over unseen.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from layouts.cutting.builds.arrays import Ints, portions, ranges
from layouts.cutting.builds.bars import Bars
from layouts.cutting.builds.keys import Keys
from layouts.cutting.builds.table import Builds, Table

__all__ = ["TURNED", "Budget", "Joiner"]

# Marks a row of the table whose build is turned by a quarter before it is joined.
TURNED = 1 << 40
# Pairs that are looked at together: so many that numpy is quick, so few that they need little memory.
AT_ONCE = 1 << 19


@dataclass(slots=True)
class Budget:
    """Steps that may still be spent; one step is one pair of builds, or what takes as long."""

    left: int

    def spend(self, steps: int) -> None:
        self.left -= steps

    @property
    def is_spent(self) -> bool:
        return self.left < 0


class Joiner:
    """Joins builds of a table. `is_symmetric`: all pieces turn and all sheets are one square, so that a build and
    its quarter turn are the same: only the one that is wider than high is kept, and all joins are made along x."""

    def __init__(self, table: Table, keys: Keys, tight: Bars, by_area: Bars, *, is_symmetric: bool) -> None:
        self._table, self._keys = table, keys
        self._tight, self._by_area = tight, by_area
        self._is_symmetric = is_symmetric

    def joins(self, new: Ints, old: Ints, budget: Budget) -> Iterator[Builds]:
        """Yield what can be joined of rows of which at least one is new, until the budget is spent."""
        for along in (0,) if self._is_symmetric else (0, 1):
            ours = self._groups(new, along)
            yield from self._pairs(ours, ours, along, budget)
            if len(old):
                yield from self._pairs(ours, self._groups(old, along), along, budget)

    def _groups(self, rows: Ints, along: int) -> _Groups:
        builds = self._table.builds
        length, other = (builds.height, builds.width) if along else (builds.width, builds.height)
        if not self._is_symmetric:
            return _Groups.of(rows, length[rows], other[rows], builds.value[rows])
        both = np.concatenate([rows, rows | TURNED])
        lengths, others = length[rows], other[rows]
        values = np.concatenate([builds.value[rows]] * 2)
        return _Groups.of(both, np.concatenate([lengths, others]), np.concatenate([others, lengths]), values)

    def _pairs(self, ours: _Groups, others: _Groups, along: int, budget: Budget) -> Iterator[Builds]:
        """Yield what one list of groups makes with another, or with itself: then each pair once."""
        # Groups stand by rising length, so that those which find room beside one of ours are the first of the others.
        numbers = np.searchsorted(others.length, self._tight.room(along) - ours.length, side="right")
        starts = np.arange(len(numbers)) if ours is others else np.zeros(len(numbers), np.int64)
        numbers = np.maximum(numbers - starts, 0)
        for start, end in portions(numbers, AT_ONCE):
            if budget.is_spent:
                return
            a, b = np.repeat(np.arange(start, end), numbers[start:end]), ranges(starts[start:end], numbers[start:end])
            budget.spend(len(a))
            length, other = ours.length[a] + others.length[b], np.maximum(ours.other[a], others.other[b])
            width, height = (other, length) if along else (length, other)
            bar = self._tight.least(width, height)
            keep = bar <= ours.top[a] + others.top[b]
            found = _GroupPairs(ours, others, a[keep], b[keep], width[keep], height[keep], bar[keep])
            for first, second, pair in found.members(budget):
                yield self._joined(first, second, found.width[pair], found.height[pair], along)

    def _joined(self, first: Ints, second: Ints, width: Ints, height: Ints, along: int) -> Builds:
        """Join rows pairwise, leaving out what has too many pieces or does not clear the other bar."""
        builds = self._table.builds
        a, b = first & ~TURNED, second & ~TURNED
        keep = np.flatnonzero(self._keys.go_together(builds.key[a], builds.key[b]))
        by_area = builds.by_area[a[keep]] + builds.by_area[b[keep]]
        clears = by_area >= self._by_area.least(width[keep], height[keep])
        keep, by_area = keep[clears], by_area[clears]
        a, b, width, height = a[keep], b[keep], width[keep], height[keep]
        lies = np.full(len(keep), along, np.int64)
        if self._is_symmetric:
            lies = (width < height).astype(np.int64)
            width, height = np.maximum(width, height), np.minimum(width, height)
        key = builds.key[a] + builds.key[b]
        return Builds(
            width=width,
            height=height,
            key=key,
            hash=self._keys.hashed(key),
            value=builds.value[a] + builds.value[b],
            by_area=by_area,
            first=first[keep],
            second=second[keep],
            along=lies,
        )


@dataclass(frozen=True, slots=True)
class _Groups:
    """Rows in groups of equal boxes, in each the dearest first: `start` and `size` of the groups in `rows`."""

    rows: Ints
    values: Ints
    start: Ints
    size: Ints
    length: Ints
    other: Ints
    top: Ints

    @classmethod
    def of(cls, rows: Ints, length: Ints, other: Ints, values: Ints) -> _Groups:
        order = np.lexsort((-values, other, length))
        rows, length, other, values = rows[order], length[order], other[order], values[order]
        begins = np.ones(len(order), np.bool_)
        begins[1:] = (length[1:] != length[:-1]) | (other[1:] != other[:-1])
        start = np.flatnonzero(begins)
        size = np.diff(start, append=len(order))
        return cls(rows, values, start, size, length[start], other[start], values[start])


@dataclass(frozen=True, slots=True)
class _GroupPairs:
    """Pairs of groups, by their numbers, with the box that they make and its bar."""

    ours: _Groups
    others: _Groups
    a: Ints
    b: Ints
    width: Ints
    height: Ints
    bar: Ints

    def members(self, budget: Budget) -> Iterator[tuple[Ints, Ints, Ints]]:
        """Yield rows of one group beside rows of the other that together clear the bar, and the number of the pair."""
        count = _Counter(self.ours)
        count_other = count if self.others is self.ours else _Counter(self.others)
        numbers = count.at_least(self.a, self.bar - self.others.top[self.b])
        for start, end in portions(numbers, AT_ONCE):
            pair = np.repeat(np.arange(start, end), numbers[start:end])
            mine = ranges(self.ours.start[self.a[start:end]], numbers[start:end])
            theirs = count_other.at_least(self.b[pair], self.bar[pair] - self.ours.values[mine])
            for first, last in portions(theirs, AT_ONCE):
                if budget.is_spent:
                    return
                which = np.repeat(np.arange(first, last), theirs[first:last])
                second = ranges(self.others.start[self.b[pair[first:last]]], theirs[first:last])
                budget.spend(len(second))
                yield self.ours.rows[mine[which]], self.others.rows[second], pair[which]


class _Counter:
    """Counts, for many groups at once, the members that are worth at least so much."""

    def __init__(self, groups: _Groups) -> None:
        self._groups = groups
        # One ascending line of numbers for all groups: each group's part is moved beyond the one before.
        self._most = int(groups.values.max(initial=0)) + 1
        numbers = np.repeat(np.arange(len(groups.size)), groups.size)
        self._line = numbers * (self._most + 1) + self._most - groups.values

    def at_least(self, group: Ints, value: Ints) -> Ints:
        value = np.clip(value, 0, self._most)
        ends = np.searchsorted(self._line, group * (self._most + 1) + self._most - value, side="right")
        return np.asarray(ends - self._groups.start[group], np.int64)
