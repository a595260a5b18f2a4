"""A sheet drawn with characters: pieces as boxes with their letters, what is left over as dots."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from typing import Any

__all__ = ["leaves_of", "sheet_picture"]

# Which strokes leave a cell, as left, right, up, down, and the character that has just these.
_STROKES = {
    "": " ",
    "lr": "─",
    "ud": "│",
    "rd": "┌",
    "ld": "┐",
    "ru": "└",
    "lu": "┘",
    "rud": "├",
    "lud": "┤",
    "lrd": "┬",
    "lru": "┴",
    "lrud": "┼",
}
_ORDER = "lrud"
# Two lines with one character between them: what a piece takes at least, so that its letter can be read.
_NARROWEST = 2


def leaves_of(node: Mapping[str, Any]) -> Iterator[Mapping[str, Any]]:
    """Yield the pieces and offcuts of a cut tree, in the order of its cuts."""
    if "parts" in node:
        for part in node["parts"]:
            yield from leaves_of(part)
    else:
        yield node


def sheet_picture(tree: Mapping[str, Any], label: Callable[[str], str], columns: int) -> list[str]:
    """Return a sheet as lines of at most `columns` characters, the front up; `label` names a piece by its place.

    A character is about twice as high as wide. A strip is drawn wide enough for its letter where there is room at all,
    and what is left over is not drawn where it is too narrow for a dot. It is a picture to find one's way by, the
    figures stand beside it.
    """
    most = columns - 1
    width, height = tree["width"], tree["height"]
    across, down = most * width // max(width, height), most * height // (2 * max(width, height))
    # More than the shape of the sheet asks for, up to a square, where the letters need it.
    across, down = min(max(across, _least(tree, "x"), 4), most), min(max(down, _least(tree, "y"), 2), most)
    canvas = _Canvas()
    _draw(canvas, tree, label, _Box(0, across, 0, down))
    canvas.frame(_Box(0, across, 0, down))
    return canvas.lines(across, down)


@dataclass(frozen=True, slots=True)
class _Box:
    """Columns and rows of the lines around a part, from the upper left."""

    left: int
    right: int
    top: int
    bottom: int


def _draw(canvas: _Canvas, node: Mapping[str, Any], label: Callable[[str], str], box: _Box) -> None:
    """Draw a part into its box; the slack between two parts is drawn as one line."""
    if "parts" not in node:
        canvas.leaf(box, label(node["piece"]) if "piece" in node else None)
        return
    first, *others = node["parts"]
    if not others:  # the rest beyond the cut is lost
        _draw(canvas, first, label, box)
        return
    second = others[0]
    if node["cut"]["along"] == "x":
        low, high = _shares(node, first, second, "x", box.right - box.left)
        _draw(canvas, first, label, _Box(box.left, box.left + low, box.top, box.bottom))
        _draw(canvas, second, label, _Box(box.right - high, box.right, box.top, box.bottom))
    else:
        low, high = _shares(node, first, second, "y", box.bottom - box.top)
        _draw(canvas, first, label, _Box(box.left, box.right, box.bottom - low, box.bottom))
        _draw(canvas, second, label, _Box(box.left, box.right, box.top, box.top + high))


def _shares(
    node: Mapping[str, Any], first: Mapping[str, Any], second: Mapping[str, Any], along: str, room: int
) -> tuple[int, int]:
    """Share the columns or rows of a part out between the two that it is cut into."""
    start, span = ("x", "width") if along == "x" else ("y", "height")
    middle = first[start] + first[span] + second[start] - 2 * node[start]  # twice the middle of the cut
    low = (middle * room + node[span]) // (2 * node[span])
    least = _least(first, along), _least(second, along)
    if sum(least) <= room:
        low = max(min(low, room - least[1]), least[0])
    if "offcut" in first and low == 1:
        low = 0
    if "offcut" in second and low == room - 1:
        low = room
    return low, room - low


def _least(node: Mapping[str, Any], along: str) -> int:
    """The columns (x) or rows (y) that the letters of a part need."""
    if "parts" not in node:
        return _NARROWEST if "piece" in node else 0
    needed = [_least(part, along) for part in node["parts"]]
    return sum(needed) if node["cut"]["along"] == along else max(needed)


class _Canvas:
    def __init__(self) -> None:
        self._strokes: dict[tuple[int, int], set[str]] = {}
        self._texts: dict[tuple[int, int], str] = {}

    def leaf(self, box: _Box, label: str | None) -> None:
        """Draw a piece with its label, or an offcut (None) with dots."""
        if box.right <= box.left or box.bottom <= box.top:
            return
        self.frame(box)
        if label is None:
            for row in range(box.top + 1, box.bottom):
                for column in range(box.left + 2, box.right - 1, 2):
                    self._texts[row, column] = "·"
        else:
            self._write(box, label)

    def frame(self, box: _Box) -> None:
        for row in (box.top, box.bottom):
            for column in range(box.left, box.right):
                self._stroke((row, column), "r")
                self._stroke((row, column + 1), "l")
        for column in (box.left, box.right):
            for row in range(box.top, box.bottom):
                self._stroke((row, column), "d")
                self._stroke((row + 1, column), "u")

    def lines(self, across: int, down: int) -> list[str]:
        return [
            "".join(self._character(row, column) for column in range(across + 1)).rstrip() for row in range(down + 1)
        ]

    def _write(self, box: _Box, label: str) -> None:
        """Write a label along its piece, down it where that is narrow, or as much of it as there is room for."""
        wide, high = box.right - box.left - 1, box.bottom - box.top - 1
        row, column = box.top + 1, box.left + (2 if wide > len(label) + 1 else 1)
        upright = len(label) > wide and high > wide
        for at, character in enumerate(label[: high if upright else wide]):
            self._texts[(row + at, column) if upright else (row, column + at)] = character

    def _character(self, row: int, column: int) -> str:
        strokes = "".join(one for one in _ORDER if one in self._strokes.get((row, column), ()))
        return self._texts.get((row, column)) or _STROKES.get(strokes, "┼")

    def _stroke(self, cell: tuple[int, int], towards: str) -> None:
        self._strokes.setdefault(cell, set()).add(towards)
