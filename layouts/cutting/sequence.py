"""In which order to make the cuts of one sheet, and how the trimmer is set for each.

A cut tree says which cuts there are, not their order among parts that lie side by side. Here the order keeps the
trimmer's setting where it can, and else takes the longest cut first: a long edge is easiest to lay against the fence
while the part is large. A setting is the distance of the cut from one edge of the part in hand, the edge at which what
the cut is made for lies: the left or the lower one on a sheet as the engine plans it, the right one where the sheet is
turned over.

It reads trees in the form in which proofs hold them.
"""

from __future__ import annotations

import heapq
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any, Literal

__all__ = ["CutStep", "Edge", "Outcome", "Rectangle", "Taken", "cuts_of"]

type Node = Mapping[str, Any]
type Edge = Literal["left", "right", "bottom", "top"]


@dataclass(frozen=True, slots=True)
class Rectangle:
    """Where something lies on its sheet, in ticks from the lower left, as the sheet is seen."""

    x: int
    y: int
    width: int
    height: int


@dataclass(frozen=True, slots=True)
class Outcome:
    """What one side of a cut is: a piece (`place`, `copy`), a part that further cuts divide, or an offcut.

    `side` is the side of the cut on which it lies; `back` says that the piece shows the back of the leaf; `keep` are
    the windows of the piece whose cut-outs others come from.
    """

    kind: Literal["piece", "part", "offcut"]
    side: Edge
    area: Rectangle
    place: str = ""
    copy: int = 0
    back: bool = False
    keep: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Taken:
    """Which part to take in hand: the one on this side of an earlier cut."""

    cut: int
    side: Edge


@dataclass(frozen=True, slots=True)
class CutStep:
    """One cut. `along` "x" is an upright line at `at`, "y" a level one.

    `part` is what is cut: the whole sheet where `taken` is None. `setting` is the distance of the cut from the part's
    edge `edge`. `outcomes` are left then right, or lower then upper; one only where the rest is lost with the cut.
    """

    number: int
    taken: Taken | None
    part: Rectangle
    along: Literal["x", "y"]
    at: int
    edge: Edge
    setting: int
    length: int
    outcomes: tuple[Outcome, ...]


def cuts_of(tree: Node, *, from_behind: bool = False) -> tuple[CutStep, ...]:
    """Return the cuts of a sheet in the order of making, numbered from 1; `from_behind`: the tree is turned over.

    Of the cuts that can be made now, one with the setting and the direction of the last is taken; else the longest; of
    equals the lowest, then the leftmost. A tree that is one piece needs no cut.

    >>> sheet = {"x": 0, "y": 0, "width": 8, "height": 8, "cut": {"along": "x", "at": 5}, "parts": [
    ...     {"x": 0, "y": 0, "width": 5, "height": 8, "piece": "project:p/piece:A", "copy": 1, "turn": 0},
    ...     {"x": 5, "y": 0, "width": 3, "height": 8, "offcut": True}]}
    >>> [(cut.number, cut.setting, cut.edge, [side.kind for side in cut.outcomes]) for cut in cuts_of(sheet)]
    [(1, 5, 'left', ['piece', 'offcut'])]
    """
    steps: list[CutStep] = []
    waiting = _Waiting()
    if "cut" in tree:
        waiting.add(_Ready.of(tree, None, from_behind))
    last = None
    while (ready := waiting.next_after(last)) is not None:
        step = ready.step(len(steps) + 1)
        steps.append(step)
        last = (ready.along, ready.edge, ready.setting)
        for part, outcome in zip(ready.node["parts"], step.outcomes, strict=True):
            if "cut" in part:
                waiting.add(_Ready.of(part, Taken(step.number, outcome.side), from_behind))
    return tuple(steps)


@dataclass(frozen=True, slots=True)
class _Ready:
    """A cut whose part is there already."""

    node: Node
    taken: Taken | None
    along: Literal["x", "y"]
    edge: Edge
    setting: int

    @classmethod
    def of(cls, node: Node, taken: Taken | None, from_behind: bool) -> _Ready:
        along = node["cut"]["along"]
        edge: Edge = "bottom" if along == "y" else "right" if from_behind else "left"
        return cls(node, taken, along, edge, _setting(node, edge))

    @property
    def length(self) -> int:
        return int(self.node["height"] if self.along == "x" else self.node["width"])

    @property
    def rank(self) -> tuple[int, int, int]:
        return -self.length, self.node["y"], self.node["x"]

    def step(self, number: int) -> CutStep:
        area = _area(self.node)
        far = area.x + area.width
        start = area.x if self.along == "x" else area.y
        at = far - self.setting if self.edge == "right" else start + self.setting
        outcomes = tuple(_outcomes(self.node, self.along, at))
        return CutStep(number, self.taken, area, self.along, at, self.edge, self.setting, self.length, outcomes)


class _Waiting:
    """The cuts that can be made now: found by setting and by rank without looking through all of them."""

    def __init__(self) -> None:
        self._count = 0
        self._all: list[tuple[tuple[int, int, int], int, _Ready]] = []
        self._alike: dict[tuple[str, str, int], list[tuple[tuple[int, int, int], int, _Ready]]] = {}
        self._made: set[int] = set()

    def add(self, ready: _Ready) -> None:
        self._count += 1
        entry = (ready.rank, self._count, ready)
        heapq.heappush(self._all, entry)
        heapq.heappush(self._alike.setdefault((ready.along, ready.edge, ready.setting), []), entry)

    def next_after(self, setting: tuple[str, str, int] | None) -> _Ready | None:
        for heap in (self._alike.get(setting, []) if setting else [], self._all):
            while heap:
                _, number, ready = heapq.heappop(heap)
                if number not in self._made:
                    self._made.add(number)
                    return ready
        return None


def _setting(node: Node, edge: Edge) -> int:
    """How far from that edge the cut runs: along what is kept.

    A margin that is cut off has no use of its own: what matters is where the rest begins, behind what the cut loses.
    """
    low, span = ("x", "width") if edge in ("left", "right") else ("y", "height")
    parts = node["parts"] if edge in ("left", "bottom") else list(reversed(node["parts"]))
    near, beyond = parts[0], parts[1:]
    kept = beyond[0] if beyond and "offcut" in near else near
    if edge == "right":
        ends, edge_at = kept[low] + kept[span], node[low] + node[span]
        trimmed = edge_at - ends
    else:
        trimmed = kept[low] - node[low]
    return int(trimmed) or int(kept[span])


def _outcomes(node: Node, along: str, at: int) -> Iterator[Outcome]:
    sides: tuple[Edge, Edge] = ("left", "right") if along == "x" else ("bottom", "top")
    for part in node["parts"]:
        area = _area(part)
        side = sides[0] if (area.x if along == "x" else area.y) < at else sides[1]
        if "piece" in part:
            keep = tuple(part.get("cut_outs", {}))
            back = part.get("side") == "back"
            yield Outcome("piece", side, area, part["piece"], part["copy"], back, keep)
        else:
            yield Outcome("part" if "cut" in part else "offcut", side, area)


def _area(node: Node) -> Rectangle:
    return Rectangle(node["x"], node["y"], node["width"], node["height"])
