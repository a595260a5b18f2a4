"""Steps side by side: which share a lane because one ends before the other begins."""

from __future__ import annotations

import heapq
from collections.abc import Callable, Sequence
from dataclasses import dataclass

from layouts.assembly import Bar

__all__ = ["Lane", "Task", "lanes_of"]


@dataclass(frozen=True, slots=True)
class Task:
    """One step: its place, its number within its project, and its bars, one after the other."""

    place: str
    number: int
    bars: tuple[Bar, ...]

    @property
    def start_s(self) -> int:
        return self.bars[0].start_s

    @property
    def end_s(self) -> int:
        return self.bars[-1].end_s


type Lane = list[Task]


def lanes_of(tasks: Sequence[Task], most: int, until: Callable[[Task], int]) -> tuple[list[Lane], int]:
    """Return the lanes, in each of which one task follows the other, and how many tasks have no place in `most` lanes.

    `until` is the second to which a task and its number take up their lane. Each goes into the lane that has been free
    for the longest time; so there are no more lanes than tasks at any one moment. A lane holds a few hundred tasks:
    more could not be told apart.
    """
    lanes: list[Lane] = []
    free: list[tuple[int, int]] = []
    more = 0
    for task in sorted(tasks, key=lambda task: (task.start_s, task.number)):
        if free and free[0][0] <= task.start_s and len(lanes[free[0][1]]) < _MOST_IN_LANE:
            _, lane = heapq.heappop(free)
            lanes[lane].append(task)
        elif len(lanes) < most:
            lane = len(lanes)
            lanes.append([task])
        else:
            more += 1
            continue
        heapq.heappush(free, (until(task), lane))
    return lanes, more


_MOST_IN_LANE = 200
