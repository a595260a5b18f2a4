"""Cut trees for tests, in the form in which proofs hold them."""

from __future__ import annotations

from typing import Any

__all__ = ["cut", "offcut", "piece"]

type Tree = dict[str, Any]


def piece(letter: str, x: int, y: int, width: int, height: int, **more: Any) -> Tree:
    place = f"project:p/piece:{letter}"
    return {"x": x, "y": y, "width": width, "height": height, "piece": place, "copy": 1, "turn": 0, **more}


def offcut(x: int, y: int, width: int, height: int) -> Tree:
    return {"x": x, "y": y, "width": width, "height": height, "offcut": True}


def cut(along: str, at: int, *parts: Tree, whole: tuple[int, int, int, int] | None = None) -> Tree:
    """A cut whose parts lie side by side with nothing lost, unless `whole` says what was cut."""
    x, y = min(part["x"] for part in parts), min(part["y"] for part in parts)
    right = max(part["x"] + part["width"] for part in parts)
    top = max(part["y"] + part["height"] for part in parts)
    x, y, width, height = whole or (x, y, right - x, top - y)
    return {"x": x, "y": y, "width": width, "height": height, "cut": {"along": along, "at": at}, "parts": list(parts)}
