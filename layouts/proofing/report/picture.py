"""A sheet drawn with characters: pieces as boxes with their letters, what is left over as dots."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
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


def leaves_of(node: Mapping[str, Any]) -> Iterator[Mapping[str, Any]]:
    """Yield the pieces and offcuts of a cut tree, in the order of its cuts."""
    if "parts" in node:
        for part in node["parts"]:
            yield from leaves_of(part)
    else:
        yield node


def sheet_picture(tree: Mapping[str, Any], labels: Mapping[str, str], columns: int) -> list[str]:
    """Return a sheet as lines of at most `columns` characters, the front up; `labels` are by the place of a piece.

    A character is about twice as high as wide. Edges closer than one character fall together: it is a picture to find
    one's way by, the figures stand beside it.
    """
    canvas = _Canvas(tree, columns)
    for leaf in leaves_of(tree):
        canvas.box(leaf, labels.get(str(leaf.get("piece")), ""))
    return canvas.lines()


class _Canvas:
    def __init__(self, tree: Mapping[str, Any], columns: int) -> None:
        self._width: int = tree["width"]
        self._height: int = tree["height"]
        widest = max(self._width, self._height)
        self._across = max(4, (columns - 1) * self._width // widest)
        self._down = max(2, (columns - 1) * self._height // (2 * widest))
        self._strokes: dict[tuple[int, int], set[str]] = {}
        self._texts: dict[tuple[int, int], str] = {}

    def box(self, leaf: Mapping[str, Any], label: str) -> None:
        left, right = self._column(leaf["x"]), self._column(leaf["x"] + leaf["width"])
        top, bottom = self._row(leaf["y"] + leaf["height"]), self._row(leaf["y"])
        if left == right or top == bottom:
            return
        for row in (top, bottom):
            for column in range(left, right):
                self._stroke((row, column), "r")
                self._stroke((row, column + 1), "l")
        for column in (left, right):
            for row in range(top, bottom):
                self._stroke((row, column), "d")
                self._stroke((row + 1, column), "u")
        if "offcut" in leaf:
            self._fill(top, bottom, left, right)
        else:
            # A strip of one line's height has its letter on its upper edge.
            row = top + 1 if bottom - top > 1 else top
            room = right - left - 1
            start = left + (2 if room > len(label) + 1 else 1)
            for at, character in enumerate(label if len(label) <= room else ""):
                self._texts[row, start + at] = character

    def lines(self) -> list[str]:
        return [
            "".join(self._character(row, column) for column in range(self._across + 1)).rstrip()
            for row in range(self._down + 1)
        ]

    def _fill(self, top: int, bottom: int, left: int, right: int) -> None:
        for row in range(top + 1, bottom):
            for column in range(left + 2, right - 1, 2):
                self._texts[row, column] = "·"

    def _character(self, row: int, column: int) -> str:
        strokes = "".join(one for one in _ORDER if one in self._strokes.get((row, column), ()))
        return self._texts.get((row, column)) or _STROKES.get(strokes, "┼")

    def _stroke(self, cell: tuple[int, int], towards: str) -> None:
        self._strokes.setdefault(cell, set()).add(towards)

    def _column(self, x: int) -> int:
        return (2 * x * self._across + self._width) // (2 * self._width)

    def _row(self, y: int) -> int:
        return self._down - (2 * y * self._down + self._height) // (2 * self._height)
