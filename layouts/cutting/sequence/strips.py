"""Which parts a sheet comes apart into, and which strips lie side by side in each.

Cuts that run the same way through the same part can be made in any order, whatever the tree says: here they are one
part with several strips. Cutting takes one strip after the other off an end.

It reads trees in the form in which proofs hold them.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, Literal

__all__ = ["Axis", "Node", "Part", "Strip", "parts_of"]

type Node = Mapping[str, Any]
type Axis = Literal["x", "y"]

_SIDES: dict[Axis, tuple[str, str]] = {"x": ("x", "width"), "y": ("y", "height")}


@dataclass(frozen=True, slots=True)
class Strip:
    """One strip of a part: from `low` on, `span` wide (ticks, on the part's axis).

    `node` is None where no more is left than the cut loses. `part` is the number of the part that it is, if further
    cuts divide it. `is_exact`: pieces fill it from end to end, so measuring it is measuring them.
    """

    node: Node | None
    low: int
    span: int
    part: int | None
    is_exact: bool

    @property
    def high(self) -> int:
        return self.low + self.span

    @property
    def is_kept(self) -> bool:
        return self.node is not None and "offcut" not in self.node


@dataclass(frozen=True, slots=True)
class Part:
    """A rectangle that is divided into strips by cuts of one direction; the strips stand from low to high."""

    along: Axis
    node: Node
    strips: tuple[Strip, ...]

    @property
    def length(self) -> int:
        """How long each of its cuts is."""
        return int(self.node["height"] if self.along == "x" else self.node["width"])


def parts_of(tree: Node) -> tuple[Part, ...]:
    """Return the parts of a sheet, each before those that come out of it; none if nothing is cut.

    >>> piece = {"piece": "project:p/piece:A", "copy": 1, "turn": 0}
    >>> strips = [{"x": x, "y": 0, "width": 2, "height": 8, **piece} for x in (0, 2)]
    >>> inner = {"x": 0, "y": 0, "width": 4, "height": 8, "cut": {"along": "x", "at": 2}, "parts": strips}
    >>> rest = {"x": 4, "y": 0, "width": 3, "height": 8, "offcut": True}
    >>> sheet = {"x": 0, "y": 0, "width": 7, "height": 8, "cut": {"along": "x", "at": 4}, "parts": [inner, rest]}
    >>> [[(strip.low, strip.span, strip.is_exact) for strip in part.strips] for part in parts_of(sheet)]
    [[(0, 2, True), (2, 2, True), (4, 3, False)]]
    """
    if "cut" not in tree:
        return ()
    # A waiting list, not calls within calls: a plan of many copies may be deeper than calls can be.
    found: list[tuple[Node, Axis, list[Node]]] = []
    numbers: dict[int, int] = {}
    waiting = [tree]
    for node in waiting:
        along: Axis = node["cut"]["along"]
        numbers[id(node)] = len(found)
        side_by_side = _side_by_side(node, along)
        found.append((node, along, side_by_side))
        waiting.extend(one for one in side_by_side if "cut" in one)
    exact: dict[tuple[int, Axis], bool] = {}
    made: list[Part] = []
    for node, along, side_by_side in reversed(found):
        strips = [_strip(one, along, numbers, exact) for one in side_by_side]
        across: Axis = "y" if along == "x" else "x"
        # Along its strips all must be full, across them one piece that reaches through is enough.
        exact[id(node), along] = len(node["parts"]) == 2 and all(strip.is_exact for strip in strips)
        exact[id(node), across] = any(_is_exact(one, across, exact) for one in side_by_side)
        made.append(Part(along, node, _with_lost(node, along, strips)))
    return tuple(reversed(made))


def _side_by_side(node: Node, along: Axis) -> list[Node]:
    """What the cuts of one direction through a part divide it into, from low to high."""
    if len(node["parts"]) == 1:
        return list(node["parts"])
    found: list[Node] = []
    waiting = [node]
    while waiting:
        one = waiting.pop()
        # An edge that is only trimmed is trimmed when the strip is alone: elsewhere it would be measured along.
        if "cut" in one and one["cut"]["along"] == along and len(one["parts"]) == 2:
            waiting.extend(reversed(one["parts"]))
        else:
            found.append(one)
    return found


def _strip(node: Node, along: Axis, numbers: Mapping[int, int], exact: Mapping[tuple[int, Axis], bool]) -> Strip:
    low, span = _SIDES[along]
    return Strip(node, node[low], node[span], numbers.get(id(node)), _is_exact(node, along, exact))


def _is_exact(node: Node, along: Axis, exact: Mapping[tuple[int, Axis], bool]) -> bool:
    return exact[id(node), along] if "cut" in node else "piece" in node


def _with_lost(node: Node, along: Axis, strips: list[Strip]) -> tuple[Strip, ...]:
    """The strips with what is trimmed off the edge of a lone one."""
    if len(strips) > 1:
        return tuple(strips)
    low, span = _SIDES[along]
    [alone] = strips
    start, end = node[low], node[low] + node[span]
    if alone.low > start:
        return Strip(None, start, alone.low - start, None, is_exact=False), alone
    return alone, Strip(None, alone.high, end - alone.high, None, is_exact=False)
