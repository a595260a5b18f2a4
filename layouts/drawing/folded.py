"""A folded box as it stands on its rim: its base up, as its flat part lies, with its outside sizes."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from layouts.drawing.crowd import Crowd, Point, encloses, strokes_along
from layouts.drawing.dimensions import Chain, Dimensions, Segment
from layouts.drawing.fold_words import plain
from layouts.drawing.lettering import Label, figure_width
from layouts.drawing.scale import ScaledDrawing, largest_scale, scaled
from layouts.drawing.svg import INK, PAPER, USED, Box, Drawing, Margins
from layouts.lengths import TICKS_PER_MM, System
from layouts.rounding import nearest_step
from layouts.shapes.forms import Folded

__all__ = ["folded_drawing"]

type Figure = Callable[[int], str]

# How far what lies further up moves right and up, in hundredths, as where layers are drawn; in lines the type.
_ASIDE, _UP = 40, 35
_TYPE = 7


def folded_drawing(
    folded: Folded,
    figure: Figure,
    *,
    name: str,
    title: str,
    unit: System,
    room: tuple[int, int],
    line: int,
    step: int,
) -> ScaledDrawing | None:
    """Return the drawing of a box with four walls, None of what is no such box or cannot be folded.

    Its walls go away from who sees the base, as they do on the flat part. `figure` turns ticks into the text that the
    sheet shows, `step` is its printed step in ticks: the thickness of the paper is in these sizes, so that each is the
    nearest on the step. `room` is the width and height on paper, `line` the thickness of a line there, in ticks.
    """
    names = {area.name for sheet in folded.sheets[:1] for area in sheet.areas}
    if folded.faults or not {"base", "wall-left", "wall-right", "wall-bottom", "wall-top"} <= names:
        return None
    width, depth, height = (max(1, round(side)) for side in folded.size)
    aside, up = depth * _ASIDE // 100, depth * _UP // 100
    scale = largest_scale(width + aside, height + up, room)
    u = scale.drawn(line)
    shown = [figure(nearest_step(side, step)) for side in (width, depth, height)]
    words = f"{title}, folded, its base up: {shown[0]} wide, {shown[1]} deep, {shown[2]} high, {unit}."
    deep = figure_width(shown[1], _TYPE * u)
    # The depth stands at the right of its edge, above the row of the width.
    level = max(up // 2, 2 * u)
    beyond = Margins(right=aside + deep + 6 * u, top=max(up, level + 4 * u - height))
    dimensions = Dimensions(Box(0, 0, width, height), u, lambda ticks: figure(nearest_step(ticks, step)), beyond)
    dimensions.below(Chain((Segment(0, width, width),)))
    dimensions.left(Chain((Segment(0, height, height),)))
    drawing = Drawing(width, height, name=name, title=words, margins=dimensions.margins())
    faces: dict[str, list[Point]] = {
        "wall-bottom": [(0, 0), (width, 0), (width, height), (0, height)],
        "wall-right": [(width, 0), (width + aside, up), (width + aside, height + up), (width, height)],
        "base": [(0, height), (width, height), (width + aside, height + up), (aside, height + up)],
    }
    thick = str(max(1, u * 10 // TICKS_PER_MM))
    for face, corners in faces.items():
        fill = USED if face == "base" else PAPER
        steps = [("M", corners[:1]), ("L", corners[1:]), ("Z", [])]
        drawing.path(steps, fill=fill, stroke=INK, stroke_width=thick, stroke_linejoin="round")
    crowd = Crowd(stroke for corners in faces.values() for stroke in strokes_along(corners))
    for face, corners in faces.items():
        label = _named(face, corners, crowd, u)
        if label is not None:
            label.draw(drawing)
    dimensions.draw(drawing)
    edge = width + min(aside, aside * (level + 4 * u) // max(1, up))
    drawing.figure(edge + 3 * u + deep // 2, level, shown[1], size=_TYPE * u)
    return scaled(drawing, scale)


def _named(face: str, corners: Sequence[Point], crowd: Crowd, u: int) -> Label | None:
    """The name of a face in its middle, lying or upright, where it fits."""
    x, y = (sum(corner[axis] for corner in corners) // len(corners) for axis in (0, 1))
    words, size = plain(face), _TYPE * u
    for upright in (False, True):
        aside = (size // 4, 0) if upright else (0, -(size // 4))
        label = Label(words, x + aside[0], y + aside[1], size, middle=True, weight="600", upright=upright)
        if encloses(corners, label.box) and crowd.is_free(label.box, u):
            return label
    return None
