"""How much shows of each layer on a support, and what hides the rest of it."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction

from layouts.shapes.faces.lying import Lying
from layouts.shapes.faces.rectangles import Rectangle
from layouts.shapes.faces.surfaces import Surface
from layouts.shapes.not_built import NotBuilt

__all__ = ["MOST_LAYERS", "Layer", "layers_on"]

# The layers of one support whose areas are worked out; more are refused, since the work grows with their third power.
MOST_LAYERS = 60


@dataclass(frozen=True, slots=True)
class Layer:
    """One layer of a support as it is seen from the front.

    `lying` is None for the support itself. Areas in square ticks; a thing's windows are no part of its area. `shows`
    are rectangles that do not overlap and add up to `showing`. `hidden_by` says how much each layer above hides of this
    one, by that layer's place in the list, from 0; what several cover is hidden by the topmost.
    """

    lying: Lying | None
    area: Fraction
    showing: Fraction
    shows: tuple[Rectangle, ...]
    hidden_by: Mapping[int, Fraction]

    @property
    def hidden(self) -> Fraction:
        return self.area - self.showing


def layers_on(surface: Surface, lying: Sequence[Lying], on_copy: int = 1) -> tuple[Layer, ...]:
    """Return the layers on one copy of a support, the lowest first.

    Below the support lies what is put behind it, the first of it next to the support; over it lies the rest, the last
    on top. Things whose place is not known are left out. Outlines and windows are the rectangles around them.
    Raises: NotBuilt for a support of unknown size, and for more than `MOST_LAYERS` layers.
    """
    if surface.width is None or surface.height is None:
        raise NotBuilt(f"the size of {surface.name} is not known: what shows of it is not worked out")
    here = [
        one
        for one in lying
        if one.surface.place == surface.place and one.on_copy in (None, on_copy) and one.rectangle is not None
    ]
    if len(here) >= MOST_LAYERS:
        raise NotBuilt(f"more than {MOST_LAYERS} layers lie on {surface.name}: what shows of them is not worked out")
    stack: list[Lying | None] = [one for one in reversed(here) if one.placement.layer == "behind"]
    stack.append(None)
    stack += [one for one in here if one.placement.layer == "over"]
    own = Rectangle(Fraction(0), Fraction(0), surface.width, surface.height)
    sheets = [_sheet(one, surface, own) for one in stack]
    return _seen(stack, sheets)


_Sheet = tuple[Rectangle, tuple[Rectangle, ...]]


def _sheet(one: Lying | None, surface: Surface, own: Rectangle) -> _Sheet:
    """A layer as a rectangle with rectangular holes; of a window that reaches outside, only what is inside counts."""
    area, holes = (own, surface.holes) if one is None or one.rectangle is None else (one.rectangle, one.windows)
    inside = (hole.around.common(area) for hole in holes)
    return area, tuple(hole for hole in inside if hole is not None)


def _seen(stack: Sequence[Lying | None], sheets: Sequence[_Sheet]) -> tuple[Layer, ...]:
    """Look down on every cell of the grid that all edges draw: the topmost layer there hides the others."""
    xs = sorted({x for area, holes in sheets for one in (area, *holes) for x in (one.left, one.right)})
    ys = sorted({y for area, holes in sheets for one in (area, *holes) for y in (one.bottom, one.top)})
    columns, rows = len(xs) - 1, len(ys) - 1
    covers = [_cells(area, holes, xs, ys) for area, holes in sheets]
    areas = [Fraction(0)] * len(sheets)
    hidden: list[dict[int, Fraction]] = [{} for _ in sheets]
    top = [[-1] * columns for _ in range(rows)]
    for layer in reversed(range(len(sheets))):
        for row, first, last in covers[layer]:
            height = ys[row + 1] - ys[row]
            for column in range(first, last):
                cell = (xs[column + 1] - xs[column]) * height
                areas[layer] += cell
                above = top[row][column]
                if above < 0:
                    top[row][column] = layer
                else:
                    hidden[layer][above] = hidden[layer].get(above, Fraction(0)) + cell
    shows = _joined(top, xs, ys, len(sheets))
    return tuple(
        Layer(
            one,
            areas[layer],
            sum((area.area for area in shows[layer]), Fraction(0)),
            tuple(shows[layer]),
            hidden[layer],
        )
        for layer, one in enumerate(stack)
    )


def _cells(
    area: Rectangle, holes: Sequence[Rectangle], xs: Sequence[Fraction], ys: Sequence[Fraction]
) -> list[tuple[int, int, int]]:
    """The cells that a layer covers: for each row of the grid its runs of columns, first and one past the last."""
    first, last = bisect_left(xs, area.left), bisect_left(xs, area.right)
    found = []
    for row in range(bisect_left(ys, area.bottom), bisect_left(ys, area.top)):
        open_ = sorted(
            (max(first, bisect_left(xs, hole.left)), min(last, bisect_left(xs, hole.right)))
            for hole in holes
            if hole.bottom <= ys[row] < hole.top
        )
        start = first
        for left, right in open_:
            if start < left:
                found.append((row, start, left))
            start = max(start, right)
        if start < last:
            found.append((row, start, last))
    return found


def _joined(
    top: Sequence[Sequence[int]], xs: Sequence[Fraction], ys: Sequence[Fraction], layers: int
) -> list[list[Rectangle]]:
    """The cells of each layer that show, joined to runs, and equal runs of rows above each other to one rectangle."""
    found: list[list[Rectangle]] = [[] for _ in range(layers)]
    growing: dict[tuple[int, int, int], int] = {}
    for row in range(len(ys)):
        runs: set[tuple[int, int, int]] = set()
        cells = top[row] if row < len(top) else ()
        start = 0
        for column in range(1, len(cells) + 1):
            if column == len(cells) or cells[column] != cells[start]:
                if cells[start] >= 0:
                    runs.add((cells[start], start, column))
                start = column
        for run in sorted(growing.keys() - runs):
            layer, left, right = run
            found[layer].append(Rectangle(xs[left], ys[growing.pop(run)], xs[right], ys[row]))
        for run in runs:
            growing.setdefault(run, row)
    return [sorted(rectangles, key=lambda one: (one.bottom, one.left)) for rectangles in found]
