"""A part as SVG at true size: one unit is one millimetre, one group for each kind of line."""

from __future__ import annotations

import xml.etree.ElementTree as ET
from collections.abc import Iterator
from fractions import Fraction

from layouts.drawing.machine.contours import Arc, Contour, Spot
from layouts.drawing.machine.parts import MachinePart
from layouts.lengths import TICKS_PER_MM

__all__ = ["part_as_svg"]

# Machines tell kinds of lines by colour or by group. No line is dashed here: a dash would be cut as a dash.
_KINDS = (("CUT", "#ff0000"), ("SCORE-MOUNTAIN", "#0000ff"), ("SCORE-VALLEY", "#008000"))

# Digits behind the point beyond which no paper could tell; what needs fewer is written exactly.
_DIGITS = 6


def part_as_svg(part: MachinePart) -> bytes:
    """Return the file. Lengths are exact: a tick is 0.003125 mm, a micrometre of thickness 0.001 mm."""
    width, height = _mm(part.width), _mm(part.height)
    size = {"width": f"{width}mm", "height": f"{height}mm", "viewBox": f"0 0 {width} {height}"}
    root = ET.Element("svg", {"xmlns": "http://www.w3.org/2000/svg", "version": "1.1", **size})
    ET.SubElement(root, "title").text = part.title
    for (kind, colour), lines in zip(_KINDS, (part.cuts, part.mountains, part.valleys), strict=True):
        if lines:
            look = {"id": kind, "fill": "none", "stroke": colour, "stroke-width": "0.1"}
            group = ET.SubElement(root, "g", look)
            for line in lines:
                ET.SubElement(group, "path", {"d": " ".join(_steps(line, part.height))})
    return b'<?xml version="1.0" encoding="UTF-8"?>\n' + ET.tostring(root, encoding="unicode").encode() + b"\n"


def _steps(line: Contour, height: Fraction) -> Iterator[str]:
    def at(spot: Spot) -> str:
        return f"{_mm(spot.x)} {_mm(height - spot.y)}"

    yield f"M {at(line.start)}"
    last = len(line.steps) - 1
    for number, step in enumerate(line.steps):
        if isinstance(step, Arc):
            yield f"A {_mm(step.across)} {_mm(step.up)} 0 0 0 {at(step.end)}"
        elif not (line.closed and number == last):
            yield f"L {at(step)}"
    if line.closed:
        yield "Z"


def _mm(ticks: Fraction) -> str:
    """Ticks as millimetres.

    >>> _mm(Fraction(127)), _mm(Fraction(8, 25)), _mm(Fraction(-320))
    ('0.396875', '0.001', '-1')
    """
    units = round(ticks * 10**_DIGITS / TICKS_PER_MM)
    whole, rest = divmod(abs(units), 10**_DIGITS)
    sign = "-" if units < 0 else ""
    return f"{sign}{whole}.{rest:0{_DIGITS}d}".rstrip("0").rstrip(".")
