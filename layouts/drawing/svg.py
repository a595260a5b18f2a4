"""Building SVG: lengths in tenths of a millimetre, y upwards until it is written."""

from __future__ import annotations

import xml.etree.ElementTree as ET
from collections.abc import Sequence
from dataclasses import dataclass

from layouts.lengths import TICKS_PER_MM

__all__ = ["INK", "OCHRE", "PAPER", "RULE", "USED", "Box", "Drawing", "figure_width"]

INK = "#17212b"
RULE = "#c4cbd0"
USED = "#f3f1ea"
OCHRE = "#7a2e1d"
PAPER = "#ffffff"

_TICKS_PER_UNIT = TICKS_PER_MM // 10


@dataclass(frozen=True, slots=True)
class Box:
    """A rectangle in ticks, from the lower left."""

    x: int
    y: int
    width: int
    height: int


class Drawing:
    """One SVG of a given size in ticks. `name` starts every id in it: ids must differ over a whole page."""

    def __init__(self, width: int, height: int, *, name: str, title: str, margin: int = 0) -> None:
        self._height = height + margin
        view = f"{_units(-margin)} {_units(-margin)} {_units(width + 2 * margin)} {_units(height + 2 * margin)}"
        self.root = ET.Element(
            "svg",
            {
                "xmlns": "http://www.w3.org/2000/svg",
                "viewBox": view,
                "role": "img",
                "aria-labelledby": f"{name}-title",
                "font-family": "Commissioner, sans-serif",
            },
        )
        ET.SubElement(self.root, "title", {"id": f"{name}-title"}).text = title
        self._margin = margin
        self._name = name

    def hatching(self) -> str:
        """Define the hatching of paper left over, and return what fills with it."""
        name = f"{self._name}-left-over"
        pattern = ET.SubElement(
            ET.SubElement(self.root, "defs"),
            "pattern",
            {
                "id": name,
                "width": "30",
                "height": "30",
                "patternUnits": "userSpaceOnUse",
                "patternTransform": "rotate(45)",
            },
        )
        line = {"x1": "0", "y1": "0", "x2": "0", "y2": "30", "stroke": RULE, "stroke-width": "8"}
        ET.SubElement(pattern, "line", line)
        return f"url(#{name})"

    def box(self, box: Box, **attributes: str) -> None:
        """Draw a rectangle; attribute names have `_` for `-`."""
        where = {"x": _units(box.x), "y": self._from_top(box.y + box.height)}
        size = {"width": _units(box.width), "height": _units(box.height)}
        ET.SubElement(self.root, "rect", {**where, **size, **_named(attributes)})

    def circle(self, x: int, y: int, radius: int, **attributes: str) -> None:
        where = {"cx": _units(x), "cy": self._from_top(y), "r": _units(radius)}
        ET.SubElement(self.root, "circle", {**where, **_named(attributes)})

    def line(self, x1: int, y1: int, x2: int, y2: int, **attributes: str) -> None:
        ends = {"x1": _units(x1), "y1": self._from_top(y1), "x2": _units(x2), "y2": self._from_top(y2)}
        ET.SubElement(self.root, "line", {**ends, **_named(attributes)})

    def path(self, steps: Sequence[tuple[str, Sequence[tuple[int, int]]]], **attributes: str) -> None:
        """Draw a path of steps: `M`, `L` with points, `A` with (radius x, radius y) and the end point, `Z` without."""
        parts = []
        for letter, points in steps:
            if letter == "A":
                (rx, ry), end = points
                parts.append(f"A {_units(rx)} {_units(ry)} 0 0 0 {self._point(end)}")
            else:
                parts.append(" ".join([letter, *(self._point(point) for point in points)]))
        ET.SubElement(self.root, "path", {"d": " ".join(parts), **_named(attributes)})

    def figure(self, x: int, y: int, text: str, *, size: int, fill: str = INK, ground: str = PAPER) -> None:
        """Write a measure centred on a point, on a ground that breaks the line under it.

        The whole number stands as it is and its fraction as a run of smaller figures.
        """
        whole, _, fraction = text.rpartition(" ") if "/" in text else (text, "", "")
        width = figure_width(text, size)
        self.box(Box(x - width // 2, y - size // 2, width, size), fill=ground, stroke="none")
        where = {"x": _units(x), "y": self._from_top(y - size * 7 // 20), "font-size": _units(size)}
        element = ET.SubElement(self.root, "text", {**where, "fill": fill, "text-anchor": "middle"})
        element.text = f"{whole} " if whole and fraction else whole
        if fraction:
            run = ET.SubElement(element, "tspan", {"font-size": _units(size * 17 // 20)})
            run.text = fraction.replace("/", "\u2044")

    def text(self, x: int, y: int, words: str, *, size: int, **attributes: str) -> None:
        """Write words with their baseline at y; `size` is the height of the type, in ticks."""
        where = {"x": _units(x), "y": self._from_top(y), "font-size": _units(size)}
        ET.SubElement(self.root, "text", {**where, "fill": INK, **_named(attributes)}).text = words

    def markup(self) -> str:
        """Return the SVG. Words in it are escaped: they never become markup."""
        return ET.tostring(self.root, encoding="unicode")

    def _point(self, point: tuple[int, int]) -> str:
        return f"{_units(point[0])} {self._from_top(point[1])}"

    def _from_top(self, y: int) -> str:
        return _units(self._height - self._margin - y)


def figure_width(text: str, size: int) -> int:
    """About how wide a measure is at this height of type, in ticks: its ground must cover it, and a little more."""
    return size * (5 * len(text) + 4) // 10


def _units(ticks: int) -> str:
    """Ticks as tenths of a millimetre, exact: 1/32 has five decimals."""
    sign, size = ("-", -ticks) if ticks < 0 else ("", ticks)
    whole, rest = divmod(size, _TICKS_PER_UNIT)
    return f"{sign}{whole}" if not rest else f"{sign}{whole}.{rest * 100_000 // _TICKS_PER_UNIT:05d}".rstrip("0")


def _named(attributes: dict[str, str]) -> dict[str, str]:
    return {name.replace("_", "-"): value for name, value in attributes.items()}
