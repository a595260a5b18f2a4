"""How a sheet lies when it is turned like a page: the same cut tree, seen from behind."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

__all__ = ["seen_from_behind"]

Node = Mapping[str, Any]


def seen_from_behind(tree: Node) -> dict[str, Any]:
    """Return a cut tree with left and right exchanged, in the form in which proofs hold trees.

    Up stays up. The two parts of an upright cut change places, and what is lost with the cut (slack) lies on its other
    side, so `at` is where the part that is now the left one ends. Turns and sides of pieces, and what comes out of
    cut-outs, are said of the pieces themselves and stay as they are.

    >>> sheet = {"x": 0, "y": 0, "width": 8, "height": 8, "cut": {"along": "x", "at": 5}, "parts": [
    ...     {"x": 0, "y": 0, "width": 5, "height": 8, "offcut": True},
    ...     {"x": 6, "y": 0, "width": 2, "height": 8, "offcut": True}]}
    >>> turned = seen_from_behind(sheet)
    >>> turned["cut"]["at"], [(part["x"], part["width"]) for part in turned["parts"]]
    (2, [(0, 2), (3, 5)])
    """
    return _turned(tree, tree["x"] + tree["x"] + tree["width"])


def _turned(node: Node, across: int) -> dict[str, Any]:
    turned = {**node, "x": across - node["x"] - node["width"]}
    if "cut" not in node:
        return turned
    parts = [_turned(part, across) for part in node["parts"]]
    if node["cut"]["along"] == "x":
        parts.reverse()
        first = parts[0]
        # Where one part only is left, the cut runs along the edge that it was given.
        alone_at = first["x"] if len(parts) == 1 and first["x"] > turned["x"] else first["x"] + first["width"]
        turned["cut"] = {**node["cut"], "at": alone_at}
    turned["parts"] = parts
    return turned
