"""A sheet of the cut guide: what is cut from it, to scale, and every cut with its number."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from layouts.cutting.sequence import CutStep
from layouts.document import Kit
from layouts.drawing.back_up import Corner, back_mark
from layouts.drawing.cut_plan import box_of, draw_sheet, sheet_labels, stroke
from layouts.drawing.lettering import Label, figure_width, text_width
from layouts.drawing.marks import Mark, mark_boxes, mark_sheet
from layouts.drawing.numbers import Bubble, number_spots
from layouts.drawing.scale import SCALES, ScaledDrawing, scaled
from layouts.drawing.svg import GRAPHITE, OCHRE, PAPER, Box, Drawing, Margins

__all__ = ["GuideDrawing", "guide_drawing"]

type Node = Mapping[str, Any]
type Figure = Callable[[int], str]

# In lines (`unit`): the radius of a number.
_RADIUS = 5


@dataclass(frozen=True, slots=True)
class GuideDrawing:
    """The drawing of a sheet, and what in it a reader must be told: dotted leaders from cuts to numbers that stand far
    off, black corners of pieces that have no room for “back up”."""

    drawing: ScaledDrawing
    has_leaders: bool
    has_corners: bool


def guide_drawing(
    kit: Kit,
    tree: Node,
    cuts: Sequence[CutStep],
    *,
    name: str,
    title: str,
    figure: Figure,
    room: tuple[int, int],
    line: int,
    from_behind: bool = False,
    marks: Sequence[Mark] = (),
) -> GuideDrawing:
    """Return the drawing of one sheet with its cuts, numbered in the order of making.

    It is as large as a simple scale allows in `room` (width and height on paper, in ticks); `line` is the thickness of
    a line on paper, and all lettering goes by it. `figure` turns ticks into the text that the sheet shows.
    `from_behind`: the tree, its cuts and the marks of its offcuts are seen with the back up.
    """
    for scale in SCALES:
        # What is beyond the room already without its numbers need not be tried with them.
        if scale.on_paper(tree["width"]) <= room[0] and scale.on_paper(tree["height"]) <= room[1]:
            plan = _Plan.of(kit, tree, cuts, figure, scale.drawn(line), marks, from_behind=from_behind)
            if all(scale.on_paper(side) <= most for side, most in zip(plan.whole, room, strict=True)):
                break
    else:
        scale = SCALES[-1]
        plan = _Plan.of(kit, tree, cuts, figure, scale.drawn(line), marks, from_behind=from_behind)
    drawing = Drawing(plan.sheet.width, plan.sheet.height, name=name, title=title, margins=plan.margins)
    left_over = drawing.hatching(apart=4 * plan.unit, stroke=GRAPHITE, width=plan.unit // 2)
    draw_sheet(drawing, kit, tree, plan.unit, left_over=left_over, from_behind=from_behind)
    mark_sheet(drawing, marks, plan.written, plan.unit)
    plan.draw(drawing)
    has_leaders = any(bubble.leader is not None for bubble in plan.bubbles)
    return GuideDrawing(scaled(drawing, scale), has_leaders, bool(plan.corners))


@dataclass(frozen=True, slots=True)
class _Plan:
    """Where letters, sizes and numbers stand at one scale; `unit` is the thickness of a line."""

    sheet: Box
    unit: int
    labels: tuple[Label, ...]
    sizes: tuple[_SizeLabel, ...]
    corners: tuple[Corner, ...]
    bubbles: tuple[Bubble, ...]
    margins: Margins

    @classmethod
    def of(
        cls,
        kit: Kit,
        tree: Node,
        cuts: Sequence[CutStep],
        figure: Figure,
        unit: int,
        marks: Sequence[Mark],
        *,
        from_behind: bool,
    ) -> _Plan:
        labels: list[Label] = []
        sizes: list[_SizeLabel] = []
        corners: list[Corner] = []
        for one in sheet_labels(kit, tree, unit, from_behind=from_behind):
            own = list(one.labels)
            # A sheet with its back up has no other pieces: it is turned over for them.
            if not from_behind and one.leaf.get("side") == "back":
                mark = back_mark(one, unit)
                if isinstance(mark, Corner):
                    corners.append(mark)
                else:
                    own.append(mark)
            sizes += _size(one.leaf, [*one.windows, *(label.box for label in own)], figure, unit)
            labels += own
        sheet = Box(0, 0, tree["width"], tree["height"])
        written = _boxes(labels, sizes, corners)
        discs = mark_boxes(marks, written, unit)
        bubbles = number_spots(cuts, sheet, [*written, *discs], radius=_RADIUS * unit)
        margins = _margins(bubbles, sheet, unit)
        return cls(sheet, unit, tuple(labels), tuple(sizes), tuple(corners), tuple(bubbles), margins)

    @property
    def written(self) -> list[Box]:
        return _boxes(self.labels, self.sizes, self.corners)

    @property
    def whole(self) -> tuple[int, int]:
        margins = self.margins
        return (
            self.sheet.width + margins.left + margins.right,
            self.sheet.height + margins.top + margins.bottom,
        )

    def draw(self, drawing: Drawing) -> None:
        unit = self.unit
        for bubble in self.bubbles:
            (x1, y1), (x2, y2) = bubble.line
            drawing.line(x1, y1, x2, y2, stroke=OCHRE, stroke_width=stroke(unit))
            if bubble.leader is not None:
                dots = f"{stroke(unit)} {stroke(2 * unit)}"
                (x1, y1), (x2, y2) = bubble.leader
                drawing.line(x1, y1, x2, y2, stroke=OCHRE, stroke_width=stroke(unit), stroke_dasharray=dots)
        for corner in self.corners:
            corner.draw(drawing)
        for label in self.labels:
            label.draw(drawing)
        for size in self.sizes:
            size.draw(drawing)
        for bubble in self.bubbles:
            drawing.circle(bubble.x, bubble.y, _RADIUS * unit, fill=OCHRE, stroke=PAPER, stroke_width=stroke(unit // 2))
            number = str(bubble.number)
            height = min(6 * unit, 6 * unit * 8 * unit // text_width(number, 6 * unit))
            Label(number, bubble.x, bubble.y - height * 7 // 20, height, middle=True, fill=PAPER).draw(drawing)


def _boxes(labels: Sequence[Label], sizes: Sequence[_SizeLabel], corners: Sequence[Corner]) -> list[Box]:
    """What numbers must leave readable."""
    return [*(one.box for one in labels), *(one.box for one in sizes), *(one.box for one in corners)]


class _SizeLabel:
    """The size of a piece as it lies, in one line."""

    def __init__(self, middle: tuple[int, int], across: str, up: str, size: int) -> None:
        self._across, self._up, self._size = across, up, size
        self._gap = text_width(" × ", size)
        self._width = figure_width(across, size) + self._gap + figure_width(up, size)
        self._x, self._y = middle

    @property
    def box(self) -> Box:
        return Box(self._x - self._width // 2, self._y - self._size // 2, self._width, self._size)

    def draw(self, drawing: Drawing) -> None:
        start, size = self.box.x, self._size
        first = figure_width(self._across, size)
        drawing.figure(start + first // 2, self._y, self._across, size=size)
        drawing.figure(start + first + self._gap // 2, self._y, "×", size=size)
        drawing.figure(start + self._width - figure_width(self._up, size) // 2, self._y, self._up, size=size)


def _size(leaf: Node, taken: Sequence[Box], figure: Figure, unit: int) -> Iterator[_SizeLabel]:
    """The size of a piece, as it lies, in its middle, where there is room and no window."""
    box = box_of(leaf)
    middle = (box.x + box.width // 2, box.y + box.height // 2)
    size = _SizeLabel(middle, figure(box.width), figure(box.height), 7 * unit)
    fits = size.box.width + 2 * unit <= box.width and size.box.height + 2 * unit <= box.height
    if fits and not any(size.box.overlaps(other) for other in taken):
        yield size


def _margins(bubbles: Sequence[Bubble], sheet: Box, unit: int) -> Margins:
    """Room for the numbers that stand outside, and for half a line all round."""
    reach = (_RADIUS + 1) * unit
    left = max([unit, *(reach - bubble.x for bubble in bubbles)])
    right = max([unit, *(bubble.x + reach - sheet.width for bubble in bubbles)])
    bottom = max([unit, *(reach - bubble.y for bubble in bubbles)])
    top = max([unit, *(bubble.y + reach - sheet.height for bubble in bubbles)])
    return Margins(left, right, top, bottom)
