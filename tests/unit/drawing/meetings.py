"""What meets what on a drawing, worked out from its SVG alone: words with words, and words with lines."""

from __future__ import annotations

import re
import xml.etree.ElementTree as ET
from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from itertools import combinations, pairwise

from layouts.drawing.lettering import text_width
from tests.unit.drawing.reading import SVG

__all__ = ["Area", "collisions", "outside", "written"]

type Spot = tuple[Fraction, Fraction]

# In tenths of a millimetre: what half a stroke may take, and what the rounding of widths to whole ticks.
_GIVE, _ROUNDED = Fraction(1, 2), Fraction(1, 20)


@dataclass(frozen=True)
class Area:
    """Words and the rectangle they take, in the drawing's units, downwards."""

    words: str
    left: Fraction
    top: Fraction
    right: Fraction
    bottom: Fraction

    def meets(self, other: Area) -> bool:
        return (
            self.left + _GIVE < other.right
            and other.left + _GIVE < self.right
            and self.top + _GIVE < other.bottom
            and other.top + _GIVE < self.bottom
        )

    def is_crossed(self, start: Spot, end: Spot) -> bool:
        """Whether a line enters the rectangle by more than the give, cut to one pair of sides after the other."""
        low, high = Fraction(0), Fraction(1)
        for near, far, one, other in (
            (self.left + _GIVE, self.right - _GIVE, start[0], end[0]),
            (self.top + _GIVE, self.bottom - _GIVE, start[1], end[1]),
        ):
            if one == other:
                if not near < one < far:
                    return False
                continue
            first, last = sorted(((near - one) / (other - one), (far - one) / (other - one)))
            low, high = max(low, first), min(high, last)
        return low < high


def collisions(svg: str) -> list[str]:
    """Return every meeting of words with words or with a line that is drawn."""
    root = ET.fromstring(svg)
    words = list(written(svg))
    found = [f"{one.words!r} on {other.words!r}" for one, other in combinations(words, 2) if one.meets(other)]
    lines = list(_lines(root))
    return found + [
        f"{one.words!r} on a line from {tuple(map(str, start))} to {tuple(map(str, end))}"
        for one in words
        for start, end in lines
        if one.is_crossed(start, end)
    ]


def outside(svg: str) -> list[str]:
    """Return the words that are not wholly within the view."""
    root = ET.fromstring(svg)
    left, top, width, height = map(Fraction, root.attrib["viewBox"].split())
    return [
        one.words
        for one in written(svg)
        if one.left < left - _ROUNDED
        or one.top < top - _ROUNDED
        or one.right > left + width + _ROUNDED
        or one.bottom > top + height + _ROUNDED
    ]


def written(svg: str) -> Iterator[Area]:
    """Yield all words of a drawing, as high as digits are: half of a line's height is air."""
    for element in _elements(ET.fromstring(svg)):
        if element.tag != f"{SVG}text":
            continue
        size = Fraction(element.attrib["font-size"])
        words = "".join(element.itertext())
        width = Fraction(text_width(element.text or "", 1000)) * size / 1000
        for run in element:
            width += Fraction(run.attrib.get("dx", "0"))
            width += Fraction(text_width(run.text or "", 1000)) * Fraction(run.attrib["font-size"]) / 1000
        x, y = Fraction(element.attrib["x"]), Fraction(element.attrib["y"])
        along = -width / 2 if element.attrib.get("text-anchor") == "middle" else Fraction(0)
        if element.attrib.get("transform", "").startswith("rotate(-90"):
            yield Area(words, x - size * 7 / 10, y - along - width, x, y - along)
        else:
            yield Area(words, x + along, y - size * 7 / 10, x + along + width, y)


def _lines(root: ET.Element) -> Iterator[tuple[Spot, Spot]]:
    for element in _elements(root):
        if element.attrib.get("stroke", "none") == "none":
            continue
        at = element.attrib
        if element.tag == f"{SVG}line":
            yield (Fraction(at["x1"]), Fraction(at["y1"])), (Fraction(at["x2"]), Fraction(at["y2"]))
        elif element.tag == f"{SVG}rect":
            x, y, wide, high = (Fraction(at[name]) for name in ("x", "y", "width", "height"))
            corners = [(x, y), (x + wide, y), (x + wide, y + high), (x, y + high)]
            yield from pairwise([*corners, corners[0]])
        elif element.tag == f"{SVG}path":
            yield from _along(at["d"])


def _along(path: str) -> Iterator[tuple[Spot, Spot]]:
    """The straight lines of a path; of an arc, a quarter of an ellipse, eight chords."""
    here = begun = (Fraction(0), Fraction(0))
    for letter, rest in re.findall(r"([MLAZ])([^MLAZ]*)", path):
        numbers = [Fraction(number) for number in rest.split()]
        if letter == "M":
            here = begun = (numbers[0], numbers[1])
        spots = []
        if letter == "A":
            spots = list(_quarter(here, (numbers[-2], numbers[-1])))
        elif letter == "L":
            spots = list(zip(numbers[::2], numbers[1::2], strict=True))
        elif letter == "Z":
            spots = [begun]
        for spot in spots:
            yield here, spot
            here = spot


def _quarter(start: Spot, end: Spot) -> Iterator[Spot]:
    """Points of a quarter that turns anticlockwise as it is seen, y downwards: ((1 - t²) / (1 + t²), 2t / (1 + t²))."""
    for x, y in ((start[0], end[1]), (end[0], start[1])):
        a, b = (start[0] - x, start[1] - y), (end[0] - x, end[1] - y)
        if a[0] * b[1] - a[1] * b[0] < 0:
            for k in range(1, 9):
                near, far = Fraction(64 - k * k, 64 + k * k), Fraction(16 * k, 64 + k * k)
                yield x + a[0] * near + b[0] * far, y + a[1] * near + b[1] * far


def _elements(element: ET.Element) -> Iterator[ET.Element]:
    if element.tag in (f"{SVG}defs", f"{SVG}title", f"{SVG}desc"):
        return
    yield element
    for inner in element:
        yield from _elements(inner)
