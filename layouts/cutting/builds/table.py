"""All builds of a pass: multisets of pieces, each with a box that it fills by cuts from edge to edge.

Rows are only ever added; one that another beats, with the same pieces in a box no larger on either side, is set aside.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from layouts.cutting.builds.arrays import Hashes, Ints, Marks

__all__ = ["Builds", "Table", "best_of_equals"]


@dataclass(frozen=True, slots=True)
class Builds:
    """Builds as columns: box, key with its hash, worth by both valuations, and what they were joined from.

    `first` and `second` are rows of the table, or row | TURNED for a build that is turned first; `along` is 0 where
    they lie side by side, 1 where one is above the other. A single piece has -1 - its kind as `first`.
    """

    width: Ints
    height: Ints
    key: Ints
    hash: Hashes
    value: Ints
    by_area: Ints
    first: Ints
    second: Ints
    along: Ints

    def __len__(self) -> int:
        return len(self.width)

    def taken(self, rows: Ints | Marks) -> Builds:
        return Builds(*(getattr(self, name)[rows] for name in _COLUMNS))

    @classmethod
    def joined(cls, some: list[Builds]) -> Builds:
        return cls(*(np.concatenate([getattr(one, name) for one in some]) for name in _COLUMNS))


_COLUMNS = ("width", "height", "key", "hash", "value", "by_area", "first", "second", "along")


class Table:
    """The builds of a pass, in the order in which they were found, and which of them still count."""

    def __init__(self, seeds: Builds) -> None:
        self.builds = seeds
        self.counts: Marks = np.ones(len(seeds), np.bool_)

    def __len__(self) -> int:
        return len(self.builds)

    @property
    def rows(self) -> Ints:
        return np.flatnonzero(self.counts)

    def fresh(self, found: Builds) -> Builds:
        """Return of these what neither this table nor another of them beats."""
        if not len(found):
            return found
        mine = self._alike(found)
        best = best_of_equals(Builds.joined([self.builds.taken(mine), found]))
        return found.taken(best[len(mine) :])

    def add(self, found: Builds) -> Ints:
        """Add builds that are fresh, set aside what they beat, and return their rows."""
        start = len(self)
        if len(found):
            mine = self._alike(found)
            best = best_of_equals(Builds.joined([self.builds.taken(mine), found]))
            self.counts[mine[~best[: len(mine)]]] = False
            self.builds = Builds.joined([self.builds, found])
            self.counts = np.concatenate([self.counts, np.ones(len(found), np.bool_)])
        return np.arange(start, len(self))

    def _alike(self, found: Builds) -> Ints:
        """The rows that have the same pieces as one of these, as far as their hashes tell."""
        hashes = np.sort(found.hash)
        rows = self.rows
        places = np.minimum(np.searchsorted(hashes, self.builds.hash[rows]), len(hashes) - 1)
        same: Ints = rows[hashes[places] == self.builds.hash[rows]]
        return same


def best_of_equals(builds: Builds) -> Marks:
    """Mark the builds that no other with equal pieces beats; of equal ones the first is marked."""
    boxes = builds.width * (int(builds.height.max(initial=0)) + 1) + builds.height
    order = np.lexsort((boxes, builds.hash))
    hashes, keys, heights = builds.hash[order], builds.key[order], builds.height[order]
    begins = np.ones(len(order), np.bool_)
    # Keys that share a hash may alternate: then one that is beaten stays, which costs time and nothing else.
    begins[1:] = (hashes[1:] != hashes[:-1]) | (keys[1:] != keys[:-1]).any(axis=-1)
    # Within a group widths rise, so a build is beaten by any before it that is no higher. Each group's heights are
    # moved below all of the group before, so that one running minimum serves them all.
    highest = int(heights.max(initial=0)) + 1
    lowered = heights - np.cumsum(begins) * highest
    beaten = np.zeros(len(order), np.bool_)
    beaten[1:] = ~begins[1:] & (lowered[1:] >= np.minimum.accumulate(lowered)[:-1])
    best = np.ones(len(builds), np.bool_)
    best[order[beaten]] = False
    return best
