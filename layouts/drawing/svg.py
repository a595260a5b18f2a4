"""Building SVG: lengths in tenths of a millimetre, y upwards until it is written."""

from __future__ import annotations

import xml.etree.ElementTree as ET
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from layouts.lengths import TICKS_PER_MM

__all__ = [
    "FRACTION",
    "GAP",
    "GRAPHITE",
    "INK",
    "OCHRE",
    "PAPER",
    "RULE",
    "USED",
    "Box",
    "Drawing",
    "Margins",
    "Texture",
]

# Lines at a slant one way or the other, both ways, or dots: told apart where there is no colour.
Texture = Literal["rising", "falling", "crossed", "dots"]

INK = "#17212b"
GRAPHITE = "#56616b"
RULE = "#c4cbd0"
USED = "#f3f1ea"
OCHRE = "#7a2e1d"
PAPER = "#ffffff"

_TICKS_PER_UNIT = TICKS_PER_MM // 10

# In hundredths of the height of type: the digits of a fraction, and what its whole number keeps clear of it beside the
# blank. A blank alone is narrow: 1 15/16 would look like 115/16.
FRACTION, GAP = 85, 10


@dataclass(frozen=True, slots=True)
class Box:
    """A rectangle in ticks, from the lower left."""

    x: int
    y: int
    width: int
    height: int

    def overlaps(self, other: Box) -> bool:
        return (
            self.x < other.x + other.width
            and other.x < self.x + self.width
            and self.y < other.y + other.height
            and other.y < self.y + self.height
        )

    def holds(self, other: Box) -> bool:
        return (
            self.x <= other.x
            and self.y <= other.y
            and other.x + other.width <= self.x + self.width
            and other.y + other.height <= self.y + self.height
        )


@dataclass(frozen=True, slots=True)
class Margins:
    """Room around what is drawn, in ticks."""

    left: int = 0
    right: int = 0
    top: int = 0
    bottom: int = 0

    @classmethod
    def of(cls, all_round: int) -> Margins:
        return cls(all_round, all_round, all_round, all_round)


class Drawing:
    """One SVG of a given size in ticks. `name` starts every id in it: ids must differ over a whole page.

    `title` says what it shows; `description` says at length what can be seen, for those who cannot.
    """

    def __init__(
        self,
        width: int,
        height: int,
        *,
        name: str,
        title: str,
        description: str = "",
        margins: Margins = Margins(),
    ) -> None:
        self._height = height
        self.whole = (width + margins.left + margins.right, height + margins.top + margins.bottom)
        corner = f"{_units(-margins.left)} {_units(-margins.top)}"
        view = f"{corner} {_units(self.whole[0])} {_units(self.whole[1])}"
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
        if description:
            self.root.set("aria-describedby", f"{name}-description")
            ET.SubElement(self.root, "desc", {"id": f"{name}-description"}).text = description
        self._name = name

    def hatching(
        self, *, apart: int, stroke: str, width: int, texture: Texture = "rising", called: str = "left-over"
    ) -> str:
        """Define a hatching, lines or dots so far apart, by default that of paper left over; return what fills with it.

        `called` ends its id: it differs from those of other hatchings of the drawing.
        """
        name = f"{self._name}-{called}"
        pattern = ET.SubElement(
            ET.SubElement(self.root, "defs"),
            "pattern",
            {
                "id": name,
                "width": _units(apart),
                "height": _units(apart),
                "patternUnits": "userSpaceOnUse",
                "patternTransform": "rotate(-45)" if texture == "falling" else "rotate(45)",
            },
        )
        if texture == "dots":
            middle = _units(apart // 2)
            ET.SubElement(pattern, "circle", {"cx": middle, "cy": middle, "r": _units(width), "fill": stroke})
            return f"url(#{name})"
        strokes = {"stroke": stroke, "stroke-width": _units(width)}
        ET.SubElement(pattern, "line", {"x1": "0", "y1": "0", "x2": "0", "y2": _units(apart), **strokes})
        if texture == "crossed":
            ET.SubElement(pattern, "line", {"x1": "0", "y1": "0", "x2": _units(apart), "y2": "0", **strokes})
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

    def figure(self, x: int, y: int, text: str, *, size: int, fill: str = INK) -> None:
        """Write a measure centred on a point. The whole number stands as it is, its fraction as smaller figures."""
        whole, _, fraction = text.rpartition(" ") if "/" in text else (text, "", "")
        where = {"x": _units(x), "y": self._from_top(y - size * 7 // 20), "font-size": _units(size)}
        element = ET.SubElement(self.root, "text", {**where, "fill": fill, "text-anchor": "middle"})
        element.text = f"{whole} " if whole and fraction else whole
        if fraction:
            run = ET.SubElement(element, "tspan", {"font-size": _units(size * FRACTION // 100)})
            if whole:
                run.set("dx", _units(size * GAP // 100))
            run.text = fraction.replace("/", "\u2044")

    def text(self, x: int, y: int, words: str, *, size: int, upright: bool = False, **attributes: str) -> None:
        """Write words with their baseline at y; `size` is the height of the type, in ticks.

        `upright`: they run upwards, with their baseline at x.
        """
        where = {"x": _units(x), "y": self._from_top(y), "font-size": _units(size)}
        if upright:
            where["transform"] = f"rotate(-90 {where['x']} {where['y']})"
        ET.SubElement(self.root, "text", {**where, "fill": INK, **_named(attributes)}).text = words

    def markup(self) -> str:
        """Return the SVG. Words in it are escaped: they never become markup."""
        return ET.tostring(self.root, encoding="unicode")

    def _point(self, point: tuple[int, int]) -> str:
        return f"{_units(point[0])} {self._from_top(point[1])}"

    def _from_top(self, y: int) -> str:
        return _units(self._height - y)


def _units(ticks: int) -> str:
    """Ticks as tenths of a millimetre, exact: 1/32 has five decimals."""
    sign, size = ("-", -ticks) if ticks < 0 else ("", ticks)
    whole, rest = divmod(size, _TICKS_PER_UNIT)
    return f"{sign}{whole}" if not rest else f"{sign}{whole}.{rest * 100_000 // _TICKS_PER_UNIT:05d}".rstrip("0")


def _named(attributes: dict[str, str]) -> dict[str, str]:
    return {name.replace("_", "-"): value for name, value in attributes.items()}
