"""A sheet of the cut guide: what is cut from it, and every cut with its number."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from typing import Any

from layouts.cutting.sequence import CutStep
from layouts.document import Kit
from layouts.drawing.cut_plan import draw_sheet, leaves, unit_of
from layouts.drawing.svg import OCHRE, PAPER, USED, Drawing, figure_width

__all__ = ["guide_drawing"]

Spot = tuple[int, int]


def guide_drawing(
    kit: Kit,
    tree: Mapping[str, Any],
    cuts: Sequence[CutStep],
    *,
    name: str,
    title: str,
    figure: Callable[[int], str],
    mirrored: bool = False,
) -> str:
    """Return the SVG of one sheet with its cuts, numbered in the order of making.

    `figure` turns ticks into the text that the sheet shows. A number stands at an end of its cut, or as near to it as
    no other number stands.
    """
    unit = unit_of(tree)
    radius = 5 * unit
    drawing = Drawing(tree["width"], tree["height"], name=name, title=title, margin=2 * radius + unit)
    draw_sheet(drawing, kit, tree, unit, mirrored=mirrored)
    for leaf in leaves(tree):
        if "piece" in leaf:
            _write_size(drawing, leaf, figure, unit)
    taken: list[Spot] = []
    for cut in cuts:
        (x1, y1), (x2, y2) = _ends(cut)
        drawing.line(x1, y1, x2, y2, stroke=OCHRE, stroke_width=str(max(1, 3 * unit // 64)))
        taken.append(_spot(cut, radius, taken))
    for cut, (x, y) in zip(cuts, taken, strict=True):
        drawing.circle(x, y, radius, fill=OCHRE, stroke=PAPER, stroke_width=str(max(1, unit // 32)))
        size = 6 * unit
        drawing.text(
            x, y - size * 7 // 20, str(cut.number), size=size, fill=PAPER, text_anchor="middle", font_weight="700"
        )
    return drawing.markup()


def _write_size(drawing: Drawing, leaf: Mapping[str, Any], figure: Callable[[int], str], unit: int) -> None:
    """Write a piece's size, as it lies, into its middle, where there is room and no window."""
    size = 7 * unit
    across, up = figure(leaf["width"]), figure(leaf["height"])
    width = figure_width(across, size) + figure_width(up, size) + size
    if "cut_outs" in leaf or width > leaf["width"] or leaf["height"] < 26 * unit:
        return
    x, y = leaf["x"] + leaf["width"] // 2, leaf["y"] + leaf["height"] // 2 - 4 * unit
    start = x - width // 2
    drawing.figure(start + figure_width(across, size) // 2, y, across, size=size, ground=USED)
    drawing.figure(start + figure_width(across, size) + size // 2, y, "×", size=size, ground=USED)
    drawing.figure(start + width - figure_width(up, size) // 2, y, up, size=size, ground=USED)


def _ends(cut: CutStep) -> tuple[Spot, Spot]:
    """The ends of a cut, the lower or the right one first: there its number is looked for."""
    part = cut.part
    if cut.along == "x":
        return (cut.at, part.y), (cut.at, part.y + part.height)
    return (part.x + part.width, cut.at), (part.x, cut.at)


def _spot(cut: CutStep, radius: int, taken: Sequence[Spot]) -> Spot:
    spots = list(_spots(cut, radius))
    for spot in spots:
        if all(_apart(spot, other) >= (2 * radius) ** 2 for other in taken):
            return spot
    return max(spots, key=lambda spot: min(_apart(spot, other) for other in taken))


def _spots(cut: CutStep, radius: int) -> Iterator[Spot]:
    """Just beyond either end, then along the cut, from the first end on."""
    (x1, y1), (x2, y2) = _ends(cut)
    step_x, step_y = (x2 > x1) - (x2 < x1), (y2 > y1) - (y2 < y1)
    yield x1 - step_x * radius, y1 - step_y * radius
    yield x2 + step_x * radius, y2 + step_y * radius
    for way in range(radius, cut.length, radius):
        yield x1 + step_x * way, y1 + step_y * way


def _apart(one: Spot, other: Spot) -> int:
    return (one[0] - other[0]) ** 2 + (one[1] - other[1]) ** 2
