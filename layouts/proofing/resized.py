"""A cut plan once more for pieces of slightly other sizes: the same cuts, each moved by as much as they ask."""

from __future__ import annotations

from typing import Literal

from layouts.proofing.checking import PlanFails, check_plan
from layouts.proofing.plans import Node, PrintAnswer
from layouts.proofing.prints import PrintPart

__all__ = ["resized"]

type Pair = tuple[int, int]
type Axis = Literal[0, 1]

# Deeper plans are left to the search: nobody cuts one sheet so often, and every level is a call in a call.
_DEEPEST = 200


def resized(answer: PrintAnswer, part: PrintPart) -> PrintAnswer | None:
    """Return the answer for a part that differs from that of `answer` in sizes only, by its plan; None: it does not do.

    A sheet cut alike in both systems is what people expect, and no search is needed for it. The plan has passed the
    independent checker. A piece that has become smaller than its area costs one cut more.
    """
    if answer.verdict != "fits":
        return None
    sizing = _Sizing(part)
    plan = []
    for sheet in answer.plan:
        root = sheet["tree"]
        tree = sizing.laid(root, (root["x"], root["y"]), (root["width"], root["height"]), 0)
        if tree is None:
            return None
        plan.append({"sheet": sheet["sheet"], "tree": tree})
    made = PrintAnswer(part, "fits", "plan", answer.at_least, answer.at_most, tuple(plan), refused=answer.refused)
    try:
        check_plan(made)
    except PlanFails:
        return None
    return made


class _Sizing:
    """The sizes of one part, by place."""

    def __init__(self, part: PrintPart) -> None:
        self._slack = part.slack
        self._sizes = {want.place: (want.width, want.height) for want in part.wants}
        self._windows = {
            (want.place, window.id): (window.width, window.height) for want in part.wants for window in want.windows
        }
        self._known: dict[int, Pair] = {}

    def laid(self, node: Node, at: Pair, size: Pair, depth: int) -> Node | None:
        """Lay a node of the old plan into an area; None where that is too small for it."""
        if min(size) <= 0 or depth > _DEEPEST:
            return None
        if "piece" in node:
            return self._piece(node, at, size, depth)
        if "cut" in node:
            return self._cut(node, at, size, depth)
        return {**_area(at, size), "offcut": True}

    def _piece(self, node: Node, at: Pair, size: Pair, depth: int) -> Node | None:
        """A piece, trimmed where its area is larger than it is."""
        own = self._needed(node)
        if own[0] > size[0] or own[1] > size[1]:
            return None
        for axis in _AXES:
            if own[axis] < size[axis]:
                inner = self._piece(node, at, _with(size, axis, own[axis]), depth)
                return None if inner is None else self._parted(at, size, axis, own[axis], [inner])
        made = {**_area(at, size), "piece": node["piece"], "copy": node["copy"], "turn": node["turn"]}
        if "side" in node:
            made["side"] = node["side"]
        cut_outs = {
            window: self.laid(tree, (0, 0), self._windows[node["piece"], window], depth + 1)
            for window, tree in node.get("cut_outs", {}).items()
        }
        if None in cut_outs.values():
            return None
        return {**made, "cut_outs": cut_outs} if cut_outs else made

    def _cut(self, node: Node, at: Pair, size: Pair, depth: int) -> Node | None:
        axis: Axis = 0 if node["cut"]["along"] == "x" else 1
        first, *others = node["parts"]
        taken = self._along(first, axis)
        if not others or others[0].get("offcut"):
            if taken == size[axis]:
                return self.laid(first, at, size, depth + 1)  # there is nothing left to cut off
            inner = self.laid(first, at, _with(size, axis, taken), depth + 1)
            return None if inner is None or taken > size[axis] else self._parted(at, size, axis, taken, [inner])
        inner = self.laid(first, at, _with(size, axis, taken), depth + 1)
        beyond = taken + self._slack
        rest = self.laid(
            others[0], _with(at, axis, at[axis] + beyond), _with(size, axis, size[axis] - beyond), depth + 1
        )
        return None if inner is None or rest is None else self._parted(at, size, axis, taken, [inner, rest])

    def _parted(self, at: Pair, size: Pair, axis: Axis, taken: int, parts: list[Node]) -> Node:
        """An area with a cut after `taken`; what is left beyond one part is an offcut, or lost with the cut."""
        left = size[axis] - taken - self._slack
        if len(parts) == 1 and left > 0:
            beyond = _with(at, axis, at[axis] + taken + self._slack)
            parts = [*parts, {**_area(beyond, _with(size, axis, left)), "offcut": True}]
        return {**_area(at, size), "cut": {"along": "xy"[axis], "at": at[axis] + taken}, "parts": parts}

    def _along(self, node: Node, axis: Axis) -> int:
        """How much of a cut area its first part takes: what is wasted there is a margin, and stays as it is."""
        return node["width" if axis == 0 else "height"] if "offcut" in node else self._needed(node)[axis]

    def _needed(self, node: Node) -> Pair:
        """The least area that a node can be laid into."""
        if id(node) not in self._known:
            self._known[id(node)] = self._least(node)
        return self._known[id(node)]

    def _least(self, node: Node) -> Pair:
        if "piece" in node:
            width, height = self._sizes[node["piece"]]
            return (height, width) if node["turn"] in (90, 270) else (width, height)
        if "cut" not in node:
            return 0, 0
        axis: Axis = 0 if node["cut"]["along"] == "x" else 1
        first, *others = node["parts"]
        least = [self._needed(first), *(self._needed(one) for one in others)]
        along = self._along(first, axis)
        if others and not others[0].get("offcut"):
            along += self._slack + least[1][axis]
        across = max(one[1 - axis] for one in least)
        return (along, across) if axis == 0 else (across, along)


_AXES: tuple[Axis, Axis] = (0, 1)


def _with(pair: Pair, axis: Axis, value: int) -> Pair:
    return (value, pair[1]) if axis == 0 else (pair[0], value)


def _area(at: Pair, size: Pair) -> Node:
    return {"x": at[0], "y": at[1], "width": size[0], "height": size[1]}
