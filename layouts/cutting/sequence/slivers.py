"""Which cuts of a sheet nobody can make: those that would take off less than a ruler shows."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from layouts.cutting.sequence.strips import Axis, Node

__all__ = ["without_slivers"]

_SPANS: dict[Axis, str] = {"x": "width", "y": "height"}


def without_slivers(tree: Node, least: int) -> Node:
    """Return the tree of a sheet without the cuts that take off less than `least` (ticks) of what is left over or lost.

    The strip stays where it is, at the edge of what lies beside it: pieces keep their places and sizes. Cuts that run
    through run on over it.

    >>> piece = {"x": 0, "y": 0, "width": 99, "height": 50, "piece": "project:p/piece:A", "copy": 1, "turn": 0}
    >>> rest = {"x": 99, "y": 0, "width": 1, "height": 50, "offcut": True}
    >>> sheet = {"x": 0, "y": 0, "width": 100, "height": 50, "cut": {"along": "x", "at": 99}, "parts": [piece, rest]}
    >>> without_slivers(sheet, 2)["piece"], "cut" in without_slivers(sheet, 1)
    ('project:p/piece:A', True)
    """
    # A waiting list, not calls within calls: a plan of many copies may be deeper than calls can be.
    whole: list[Node] = []
    waiting: list[tuple[Node, dict[str, Any] | None]] = [(tree, None)]
    while waiting:
        node, into = waiting.pop()
        while (only := _beside_sliver(node, least)) is not None:
            # What is finished is as large as it says; what is cut further reaches over the strip.
            node = {**only, **_place(node)} if "cut" in only else only
        made = {name: [] if name == "parts" else value for name, value in node.items()}
        (whole if into is None else into["parts"]).append(made)
        # The last is looked at first: parts stand from low to high again.
        waiting.extend((part, made) for part in reversed(node.get("parts", ())))
    return whole[0]


def _beside_sliver(node: Node, least: int) -> Node | None:
    """The part beside which a cut takes off too little, None where it takes off enough, or there is none."""
    if "cut" not in node:
        return None
    span = _SPANS[node["cut"]["along"]]
    parts: Sequence[Node] = node["parts"]
    for other, sliver in zip(parts, parts[::-1], strict=True):
        # What is lost with the cut comes off with the strip.
        if (len(parts) == 1 or "offcut" in sliver) and node[span] - other[span] < least:
            return other
    return None


def _place(node: Node) -> dict[str, int]:
    return {side: node[side] for side in ("x", "y", "width", "height")}
