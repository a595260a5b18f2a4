"""What can be cut next: which strip comes off which end, and how the trimmer is set for it.

What is measured lies between the fence and the blade, and is held there: the strip that comes off, never waste, and
the rest only where the strip is too narrow to be held.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from layouts.cutting.sequence.steps import Edge
from layouts.cutting.sequence.strips import Part, Strip

__all__ = ["Left", "Sheet", "Way", "quarters"]

# What is left of a part: its number, and its first and last strip.
type Left = tuple[int, int, int]
type End = Literal["low", "high"]

_EDGES: dict[tuple[str, End], Edge] = {
    ("x", "low"): "left",
    ("x", "high"): "right",
    ("y", "low"): "bottom",
    ("y", "high"): "top",
}
_ROUND: dict[Edge, int] = {"left": 0, "bottom": 1, "right": 2, "top": 3}


@dataclass(frozen=True, slots=True)
class Way:
    """One cut that can be made: what is `left` of a part loses the strip at its `end`.

    `rank` says what comes first of equals: the longest cut, the lowest, the leftmost; strips too narrow to be held are
    last. `is_free`: made at a setting that stands, it never makes a later cut dearer (see `exact`).
    """

    left: Left
    end: End
    at: int
    edge: Edge
    setting: int
    rank: tuple[bool, int, int, int, bool]
    over_rest: bool
    is_held: bool
    is_free: bool

    @property
    def turned(self) -> tuple[int, Edge]:
        """How the trimmer stands and which edge lies at its fence."""
        return self.setting, self.edge


class Sheet:
    """The parts of one sheet and all ways of cutting them, worked out when they are first asked for.

    `from_behind`: the sheet is turned over, so that what it is measured from lies at the right. `narrowest` is the
    width (ticks) of the narrowest strip that the trimmer holds.
    """

    def __init__(self, parts: tuple[Part, ...], *, from_behind: bool, narrowest: int | None) -> None:
        self.parts = parts
        self.cuts = sum(len(part.strips) - 1 for part in parts)
        self._from_behind = from_behind
        self._narrowest = narrowest or 0
        self._free = [not any(self._is_narrow(part, strip) for strip in part.strips) for part in parts]
        self._known: dict[Left, tuple[Way, ...]] = {}

    @property
    def whole(self) -> tuple[Left, ...]:
        return ((0, 0, len(self.parts[0].strips) - 1),) if self.parts else ()

    def is_free(self, number: int) -> bool:
        """Whether every strip of the part can be held."""
        return self._free[number]

    def ways(self, left: Left) -> tuple[Way, ...]:
        if left not in self._known:
            self._known[left] = tuple(self._way(left, end) for end in self._ends(left))
        return self._known[left]

    def after(self, way: Way) -> tuple[Left, ...]:
        """What is left to be cut of the two sides of a cut."""
        number, first, last = way.left
        part = self.parts[number]
        came = first if way.end == "low" else last
        rest = (first + 1, last) if way.end == "low" else (first, last - 1)
        found = [self._strip_alone(part.strips[came])]
        found.append((number, *rest) if rest[0] < rest[1] else self._strip_alone(part.strips[rest[0]]))
        return tuple(one for one in found if one is not None)

    def _strip_alone(self, strip: Strip) -> Left | None:
        return None if strip.part is None else (strip.part, 0, len(self.parts[strip.part].strips) - 1)

    def _near(self, part: Part) -> End:
        return "high" if part.along == "x" and self._from_behind else "low"

    def _ends(self, left: Left) -> list[End]:
        """The ends at which something exact lies; else the near one: there a margin lies, or what trims an edge."""
        part = self.parts[left[0]]
        near = self._near(part)
        far: End = "low" if near == "high" else "high"
        ends: list[tuple[End, Strip]] = [("low", part.strips[left[1]]), ("high", part.strips[left[2]])]
        exact = {end for end, strip in ends if strip.is_exact}
        return [end for end in (near, far) if end in exact] or [near]

    def _way(self, left: Left, end: End) -> Way:
        number, first, last = left
        part = self.parts[number]
        start, stop = part.strips[first].low, part.strips[last].high
        at = _line(part, first, last, end)
        own, rest = (at - start, stop - at) if end == "low" else (stop - at, at - start)
        over_rest = own < self._narrowest <= rest
        other: End = "low" if end == "high" else "high"
        node = part.node
        x, y = (start, node["y"]) if part.along == "x" else (node["x"], start)
        return Way(
            left=left,
            end=end,
            at=at,
            edge=_EDGES[part.along, other if over_rest else end],
            setting=rest if over_rest else own,
            rank=(own < self._narrowest, -part.length, y, x, end != self._near(part)),
            over_rest=over_rest,
            is_held=over_rest or own >= self._narrowest,
            is_free=self._free[number],
        )

    def _is_narrow(self, part: Part, strip: Strip) -> bool:
        at_near = strip is part.strips[0 if self._near(part) == "low" else -1]
        return strip.span < self._narrowest and (strip.is_kept or at_near)


def quarters(one: Edge | None, other: Edge) -> int:
    """By how many quarters a part is turned so that another of its edges lies at the fence; 0 for the first.

    >>> quarters("left", "bottom"), quarters("left", "right"), quarters("top", "left"), quarters(None, "top")
    (1, 2, 1, 0)
    """
    if one is None:
        return 0
    apart = (_ROUND[one] - _ROUND[other]) % 4
    return min(apart, 4 - apart)


def _line(part: Part, first: int, last: int, end: End) -> int:
    """Where the cut runs: along what is kept; where a margin comes off, along what begins behind it."""
    ends, begins = (first, first + 1) if end == "low" else (last - 1, last)
    below, above = part.strips[ends], part.strips[begins]
    comes_off = below if end == "low" else above
    if end == "low":
        return below.high if comes_off.is_kept else above.low
    return above.low if comes_off.is_kept else below.high
