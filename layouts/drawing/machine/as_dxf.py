"""A part as DXF at true size: millimetres, one layer for each kind of line, curves as curves."""

from __future__ import annotations

import io
from fractions import Fraction
from itertools import groupby
from math import pi, sqrt

import ezdxf
from ezdxf import units
from ezdxf.filemanagement import new
from ezdxf.layouts.layout import Modelspace

from layouts.drawing.machine.contours import Arc, Contour, Spot
from layouts.drawing.machine.parts import MachinePart
from layouts.lengths import TICKS_PER_MM

__all__ = ["LAYERS", "part_as_dxf"]

# Else the library writes the time of day and new random marks into every file. This is its only way to leave them out,
# a setting of the whole process, in which nothing else is written with it.
ezdxf.options.write_fixed_meta_data_for_testing = True  # type: ignore[attr-defined]  # it is there by import *

# Layer, its colour by number (red, blue, green), and its kind of line: in millimetres the whole, then dashes and gaps.
LAYERS = (
    ("CUT", 1, "Continuous", ()),
    ("SCORE-MOUNTAIN", 5, "MOUNTAIN", (7, 4, -1, 1, -1)),
    ("SCORE-VALLEY", 3, "VALLEY", (4, 2.5, -1.5)),
)

# How far a quarter of a circle bulges: the tangent of a quarter of its angle.
_QUARTER = sqrt(2) - 1


def part_as_dxf(part: MachinePart) -> bytes:
    """Return the file, of the version that most machines read (R2000). The same part gives the same bytes.

    A number is the binary one nearest to the exact length, and is written so that it reads as the exact decimal.
    """
    drawing = new("R2000", setup=False, units=units.MM)
    drawing.header["$MEASUREMENT"] = 1
    for layer, colour, line, pattern in LAYERS:
        if pattern:
            drawing.linetypes.add(line, pattern, description=layer.lower())
        drawing.layers.add(layer, color=colour, linetype=line)
    space = drawing.modelspace()
    for (layer, *_), lines in zip(LAYERS, (part.cuts, part.mountains, part.valleys), strict=True):
        for contour in lines:
            _add(space, contour, layer)
    drawing.header["$EXTMIN"], drawing.header["$EXTMAX"] = (0, 0, 0), (_mm(part.width), _mm(part.height), 0)
    text = io.StringIO()
    drawing.write(text)
    return text.getvalue().encode()


def _add(space: Modelspace, line: Contour, layer: str) -> None:
    """Add a line as one thing where the format can; an arch that is no half circle is its sides and its top."""
    arcs = [step for step in line.steps if isinstance(step, Arc)]
    on = {"layer": layer}
    if len(line.steps) == 1 and not arcs:
        space.add_line(_at(line.start), _at(line.spots[1]), dxfattribs=on)
    elif len(arcs) == 4 and len(line.steps) == 4 and len({arc.middle for arc in arcs}) == 1:
        arc = arcs[0]
        if arc.across == arc.up:
            space.add_circle(_at(arc.middle), _mm(arc.across), dxfattribs=on)
        else:
            major, ratio, _ = _axes(arc)
            space.add_ellipse(_at(arc.middle), major, ratio, dxfattribs=on)
    elif all(arc.across == arc.up for arc in arcs):
        _add_polyline(space, line.start, line.steps, line.closed, layer)
    else:
        here = line.start
        for curved, group in groupby(line.steps, lambda step: isinstance(step, Arc)):
            steps = tuple(group)
            if curved:
                _add_arch(space, [step for step in steps if isinstance(step, Arc)], layer)
            else:
                _add_polyline(space, here, steps, False, layer)
            last = steps[-1]
            here = last.end if isinstance(last, Arc) else last


def _add_polyline(space: Modelspace, start: Spot, steps: tuple[Spot | Arc, ...], closed: bool, layer: str) -> None:
    spots = [start, *(step.end if isinstance(step, Arc) else step for step in steps)]
    bulges = [_QUARTER if isinstance(step, Arc) else 0 for step in steps]
    if closed:
        spots = spots[:-1]
    else:
        bulges.append(0)
    points = [(_mm(spot.x), _mm(spot.y), bulge) for spot, bulge in zip(spots, bulges, strict=True)]
    space.add_lwpolyline(points, format="xyb", close=closed, dxfattribs={"layer": layer})


def _add_arch(space: Modelspace, arcs: list[Arc], layer: str) -> None:
    """Add the upper half of an ellipse, from its right end to its left one."""
    major, ratio, upright = _axes(arcs[0])
    first, last = (-pi / 2, pi / 2) if upright else (0, pi)
    space.add_ellipse(_at(arcs[0].middle), major, ratio, first, last, dxfattribs={"layer": layer})


def _axes(arc: Arc) -> tuple[tuple[float, float], float, bool]:
    """The longer half axis, the shorter one as a share of it, and whether the longer one stands upright."""
    if arc.across >= arc.up:
        return (_mm(arc.across), 0), _number(arc.up / arc.across), False
    return (0, _mm(arc.up)), _number(arc.across / arc.up), True


def _at(spot: Spot) -> tuple[float, float]:
    return _mm(spot.x), _mm(spot.y)


def _mm(ticks: Fraction) -> float:
    return _number(ticks / TICKS_PER_MM)


def _number(exact: Fraction) -> float:
    """The format holds binary numbers; a division of two whole numbers gives the nearest one."""
    return exact.numerator / exact.denominator
