"""A piece with its windows, dimensioned and to scale."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise

from layouts.document import Piece, Shape, Tool, Window
from layouts.drawing.crowd import Crowd, Point, encloses, strokes_along
from layouts.drawing.dimensions import Chain, Dimensions, Segment
from layouts.drawing.edges import edge_lines, edge_words
from layouts.drawing.lettering import Label
from layouts.drawing.outlines import outline_path
from layouts.drawing.scale import ScaledDrawing, largest_scale, scaled
from layouts.drawing.svg import INK, OCHRE, PAPER, USED, Box, Drawing
from layouts.lengths import TICKS_PER_MM, System
from layouts.shapes import is_inside, resolve
from layouts.shapes.outlines import outline

__all__ = ["PieceDrawing", "piece_drawing"]

type Figure = Callable[[int], str]

_SIDES = ("left", "right", "top", "bottom", "width", "height")
# Chains of dimensions beyond so many crowd the drawing: what they would say is said in words.
_CHAINS = 4
_CORNERS = 12
# Windows that have a name on the drawing, since more are told by what is said of them; and those that are drawn.
_NAMED, _DRAWN = 24, 200
_RECT = Shape.by_default()
_NO_TOOLS: Mapping[str, Tool] = {}


@dataclass(frozen=True, slots=True)
class PieceDrawing:
    """A drawing of a piece, and the same in words for its alternative text.

    `beside` are sentences with what dimension lines do not say: shapes, and the measures of windows for which there
    is no room; `outside` are the ids of windows that do not lie inside the piece: they are not drawn.
    """

    drawing: ScaledDrawing
    words: str
    beside: tuple[str, ...]
    outside: tuple[str, ...]


def piece_drawing(
    piece: Piece,
    figure: Figure,
    *,
    name: str,
    unit: System,
    room: tuple[int, int],
    line: int,
    tools: Mapping[str, Tool] = _NO_TOOLS,
) -> PieceDrawing:
    """Return the drawing of a piece with its windows and decorative edges, as large as a simple scale allows.

    Only measures that the document states are drawn: `figure` turns their ticks into the text that the sheet shows.
    `room` is the width and height on paper for the piece itself, `line` the thickness of a line there, in ticks.
    `tools`, by id, are those that edges are made with; of an edge whose tool is not among them nothing is shown.
    """
    width, height = piece.size.width.ticks, piece.size.height.ticks
    first, more = piece.windows[:_DRAWN], len(piece.windows) - _DRAWN
    inside = [window for window in first if is_inside(window, piece.size, piece.shape)]
    lying = {window.id for window in inside}
    outside = tuple(window.id for window in first if window.id not in lying)
    across, upright, crowded = _chains(piece, inside)
    words = " ".join(_words(piece, inside, figure, unit))
    scale = largest_scale(width, height, room)
    u = scale.drawn(line)
    dimensions = Dimensions(Box(0, 0, width, height), u, figure)
    dimensions.above(Chain((Segment(0, width, width),)))
    dimensions.left(Chain((Segment(0, height, height),)))
    for chain in across:
        dimensions.below(chain)
    for chain in upright:
        dimensions.right(chain)

    boxes = [_box(piece, window) for window in inside]
    teeth = list(edge_lines(piece, tools, u))
    labels = list(_labels(piece, inside, boxes, teeth, u))
    drawing = Drawing(width, height, name=name, title=words, margins=dimensions.margins())
    whole = Box(0, 0, width, height)
    drawing.path(outline_path(piece.shape, whole), fill=USED, stroke=INK, stroke_width=dimensions.thick)
    if piece.shape.kind != "rect":
        # The rectangle that the shape is trimmed from, and that the dimensions measure.
        dashes = {"stroke_width": _tenths(u // 4), "stroke_dasharray": f"{_tenths(4 * u)} {_tenths(3 * u)}"}
        drawing.box(whole, fill="none", stroke=INK, **dashes)
    for window, box in zip(inside, boxes, strict=True):
        drawing.path(outline_path(window.shape, box), fill=PAPER, stroke=OCHRE, stroke_width=dimensions.thick)
    for line_of_teeth in teeth:
        steps = [("M", line_of_teeth[:1]), ("L", line_of_teeth[1:])]
        drawing.path(steps, fill="none", stroke=INK, stroke_width=_tenths(u * 3 // 4))
    for label in labels:
        label.draw(drawing)
    dimensions.draw(drawing, [label.box for label in labels])
    beside = (*_beside(piece, inside, crowded, figure), *edge_words(piece, tools, figure))
    if more > 0:
        beside = (*beside, f"… and {more:,} more windows, not drawn.")
    return PieceDrawing(scaled(drawing, scale), words, beside, outside)


def _box(piece: Piece, window: Window) -> Box:
    aperture = resolve(window, piece.size)
    return Box(aperture.left.ticks, aperture.bottom.ticks, aperture.width.ticks, aperture.height.ticks)


def _chains(piece: Piece, windows: Sequence[Window]) -> tuple[list[Chain], list[Chain], list[Window]]:
    """The chains below and at the right, each once, and the windows of which not all found a place there."""
    across: list[Chain] = []
    upright: list[Chain] = []
    beside = []
    for window in windows:
        box = _box(piece, window)
        width, height = piece.size.width.ticks, piece.size.height.ticks
        columns, rows = (0, box.x, box.x + box.width, width), (0, box.y, box.y + box.height, height)
        # A helping line begins where the outline touches it: of an oval, and of the top of an arch, that is the middle.
        low = box.y + (box.height // 2 if window.shape.kind == "ellipse" else 0)
        right = width - box.x - (box.width // 2 if window.shape.kind in ("ellipse", "arch") else box.width)
        own = (
            (across, _chain(columns, window, ("left", "width", "right"), low)),
            (upright, _chain(rows, window, ("bottom", "height", "top"), right)),
        )
        new = [(chains, chain) for chains, chain in own if chain not in chains]
        if any(len(chains) >= _CHAINS for chains, _ in new):
            beside.append(window)
            continue
        for chains, chain in new:
            chains.append(chain)
    return across, upright, beside


def _chain(spots: Sequence[int], window: Window, names: Sequence[str], depth: int) -> Chain:
    stated = zip(pairwise(spots), (getattr(window, name) for name in names), strict=True)
    return Chain(tuple(Segment(*span, length.ticks) for span, length in stated if length is not None), depth)


def _labels(
    piece: Piece, windows: Sequence[Window], boxes: Sequence[Box], teeth: Sequence[Sequence[Point]], u: int
) -> Iterator[Label]:
    """The letter of the piece in a corner, and the names of its windows where there are several."""
    width, height = piece.size.width.ticks, piece.size.height.ticks
    edge = _corners(piece.shape, Box(0, 0, width, height))
    few = len(windows) <= _NAMED
    openings = [_corners(window.shape if few else _RECT, box) for window, box in zip(windows, boxes, strict=True)]
    crowd = Crowd(stroke for line in (edge, *openings) for stroke in strokes_along(line))
    for line in teeth:
        for start, end in pairwise(line):
            crowd.draw(start, end)
    if 1 < len(windows) <= _NAMED:
        for window, box, opening in zip(windows, boxes, openings, strict=True):
            middle, level = box.x + box.width // 2, box.y + box.height // 2 - 6 * u * 7 // 20
            name = Label(window.id, middle, level, 6 * u, middle=True, fill=OCHRE, weight="600")
            if encloses(opening, name.box) and crowd.is_free(name.box):
                crowd.add(name.box)
                yield name
    size = 11 * u
    letter = Label(piece.id, 0, 0, size)
    right, top = width - letter.box.width - 2 * u, height - size
    middle, level = right // 2 + u, (height - size) // 2
    for x, y in (
        (2 * u, top), (right, top), (2 * u, 4 * u), (right, 4 * u), (middle, top), (middle, level),
        (middle, 4 * u), (2 * u, level), (right, level), (middle, height // 5),
    ):  # fmt: skip
        letter = Label(piece.id, x, y, size)
        in_window = any(encloses(opening, letter.box) for opening in openings)
        if encloses(edge, letter.box) and not in_window and crowd.is_free(letter.box):
            yield letter
            return


def _corners(shape: Shape, box: Box) -> list[Point]:
    spots = outline(shape, box.width, box.height)
    return [(box.x + spot.x // spot.over, box.y + spot.y // spot.over) for spot in spots]


def _beside(piece: Piece, windows: Sequence[Window], crowded: Sequence[Window], figure: Figure) -> Iterator[str]:
    shape = _shape(piece.shape, figure)
    if shape:
        yield f"The piece is {shape}."
    no_room = {window.id for window in crowded}
    for window in windows:
        shape = _shape(window.shape, figure)
        if window.id in no_room:
            yield _measures(window, figure)
        elif shape:
            which = f"window {window.id}" if len(windows) > 1 else "window"
            yield f"The {which} is {shape}."


def _words(piece: Piece, windows: Sequence[Window], figure: Figure, unit: System) -> Iterator[str]:
    size = f"{figure(piece.size.width.ticks)} by {figure(piece.size.height.ticks)} {unit}"
    shape = _shape(piece.shape, figure)
    yield f"{piece.id}, {piece.name}, {size}{f', {shape}' if shape else ''}."
    for window in windows:
        yield _measures(window, figure)


def _measures(window: Window, figure: Figure) -> str:
    stated = [(side, getattr(window, side)) for side in _SIDES]
    sides = ", ".join(f"{side} {figure(length.ticks)}" for side, length in stated if length is not None)
    shape = _shape(window.shape, figure)
    return f"Window {window.id}{f', {shape}' if shape else ''}: {sides}."


def _shape(shape: Shape, figure: Figure) -> str:
    """A shape in words with its own measure; nothing for a rectangle.

    The corners of a polygon are given from the lower left, across and up, where they are few enough to be drawn by.
    """
    if shape.kind == "arch" and shape.rise is not None:
        return f"an arch with a rise of {figure(shape.rise.ticks)}"
    if shape.kind == "rounded" and shape.radius is not None:
        return f"rounded at its corners with a radius of {figure(shape.radius.ticks)}"
    if shape.kind == "polygon" and shape.points is not None:
        if len(shape.points) > _CORNERS:
            return "an outline of its own"
        corners = "; ".join(f"{figure(spot.width.ticks)}, {figure(spot.height.ticks)}" for spot in shape.points)
        return f"an outline with corners, across and up from the lower left, at {corners}"
    return "an oval" if shape.kind == "ellipse" else ""


def _tenths(ticks: int) -> str:
    """A thickness in tenths of a millimetre, one at least."""
    return str(max(1, ticks * 10 // TICKS_PER_MM))
