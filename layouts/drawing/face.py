"""A face with what is put on it: as it looks when all is in place, its borders dimensioned, and layer by layer."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction

from layouts.document import Shape
from layouts.drawing.crowd import Crowd, Stroke, strokes_along
from layouts.drawing.dimensions import Chain, Dimensions, Segment
from layouts.drawing.exploded import exploded_drawing
from layouts.drawing.leaders import names_beside, seen_spot
from layouts.drawing.lettering import Label, text_width
from layouts.drawing.outlines import outline_path
from layouts.drawing.scale import ScaledDrawing, largest_scale, scaled
from layouts.drawing.stacks import MOST_WINDOWS, Layer, Stack
from layouts.drawing.svg import INK, PAPER, USED, Box, Drawing, Margins
from layouts.lengths import TICKS_PER_MM, System
from layouts.shapes.faces import Hole, Lying, Rectangle, claimed_borders
from layouts.shapes.forms import Side

__all__ = ["FaceDrawing", "face_drawing"]

type Figure = Callable[[int], str]
type Step = tuple[str, list[tuple[int, int]]]

# Rows of dimensions on one side of the face; what would need more is said in words.
_ROWS = 4

_DASHED = "Dashes are the edges of what lies under something else, from which its borders are measured."

# Corners of one outline that words keep clear of one by one.
_MOST_CORNERS = 400


@dataclass(frozen=True, slots=True)
class FaceDrawing:
    """A face as it looks in the end, and its layers one above the other (None where there is one layer or none).

    `words` say the same for who cannot see it; `beside` are sentences with what the drawings do not show.
    """

    assembled: ScaledDrawing
    exploded: ScaledDrawing | None
    words: str
    beside: tuple[str, ...]


def face_drawing(
    stack: Stack,
    figure: Figure,
    *,
    name: str,
    title: str,
    unit: System,
    room: tuple[int, int],
    line: int,
    step: int,
    marked: str = "",
) -> FaceDrawing:
    """Return the drawings of one face, as large as a simple scale allows.

    `figure` turns ticks into the text that the sheet shows, `step` is its printed step in ticks: a border off the step
    that nobody claims (half of an odd rest) is not given, since the middle is found without it. `room` is the width and
    height on paper for the face, `line` the thickness of a line there, in ticks. `name` starts the ids. `marked` is the
    place of a placement that is drawn with a thick outline, dashed where others lie over it, and with all its borders.
    """
    face = _Face(stack, figure, step, marked)
    rows, crowded = face.rows()
    under = face.edges_under(crowded)
    beside = (*face.beside(crowded), *([_DASHED] if under else []))
    width, height = figure(round(face.width)), figure(round(face.height))
    heading = f"{title}, {width} by {height} {unit}, seen from the front."
    words = " ".join((heading, *face.layers_in_words(), *beside))
    assembled = face.assembled(name, heading, words, rows, room, line, under)
    exploded = None
    if stack.layers:
        exploded = exploded_drawing(stack, name=f"{name}-layers", face=title, words=words, room=room, line=line)
    return FaceDrawing(assembled, exploded, words, beside)


class _Face:
    def __init__(self, stack: Stack, figure: Figure, step: int, marked: str) -> None:
        self._stack = stack
        self._marked = marked
        self._figure = figure
        self._step = step
        self._holes = stack.surface.holes[:MOST_WINDOWS]
        self.width, self.height = stack.surface.width or Fraction(0), stack.surface.height or Fraction(0)

    def layers_in_words(self) -> Iterator[str]:
        for layer in self._stack.layers:
            where = "behind it" if layer.level < 0 else f"layer {layer.level}"
            borders = ", ".join(f"{side} {text}" for side, text in self._borders(layer))
            yield f"{layer.lying.thing.name}: {where}{f', borders {borders}' if borders else ''}."

    def beside(self, crowded: Sequence[Layer]) -> Iterator[str]:
        told = set()
        for layer in crowded:
            borders = ", ".join(f"{side} {text}" for side, text in self._borders(layer))
            sentence = f"{layer.lying.thing.name}: {borders}."
            if borders and sentence not in told:
                told.add(sentence)
                yield sentence
        for one in self._stack.unplaced:
            yield f"{one.thing.name} is put on it too; the plan does not say where."
        if self._stack.more:
            least = "" if self._stack.counted else "at least "
            yield f"… and {least}{self._stack.more:,} more, not drawn."
        if self._stack.unlike:
            yield f"… and {self._stack.unlike:,} more copies that look different, not drawn."

    def rows(self) -> tuple[tuple[list[Chain], list[Chain]], list[Layer]]:
        """The chains of borders below and at the right, and the layers of which not all borders have room there."""
        across: list[list[Segment]] = []
        up: list[list[Segment]] = []
        crowded = []
        for layer in self._stack.layers:
            both = self._segments(layer, across=True), self._segments(layer, across=False)
            trial = [[list(row) for row in rows] for rows in (across, up)]
            for rows, segments in zip(trial, both, strict=True):
                _place(rows, segments)
            if any(len(rows) > _ROWS for rows in trial):
                crowded.append(layer)
                continue
            across, up = trial
        chains = tuple([Chain(tuple(sorted(row, key=lambda one: one.start))) for row in rows] for rows in (across, up))
        return (chains[0], chains[1]), crowded

    def assembled(
        self,
        name: str,
        title: str,
        words: str,
        rows: tuple[list[Chain], list[Chain]],
        room: tuple[int, int],
        line: int,
        under: Sequence[Layer],
    ) -> ScaledDrawing:
        around = self._stack.around
        scale = largest_scale(round(around.width), round(around.height), room)
        u = scale.drawn(line)
        whole = Box(0, 0, max(1, round(self.width)), max(1, round(self.height)))
        beyond = Margins(
            round(-around.left),
            round(around.right) - whole.width,
            round(around.top) - whole.height,
            round(-around.bottom),
        )
        dimensions = Dimensions(whole, u, self._figure, beyond)
        dimensions.above(Chain((Segment(0, whole.width, round(self.width)),)))
        dimensions.left(Chain((Segment(0, whole.height, round(self.height)),)))
        for chain in rows[0]:
            dimensions.below(chain)
        for chain in rows[1]:
            dimensions.right(chain)
        drawing = Drawing(
            whole.width, whole.height, name=name, title=title, description=words, margins=dimensions.margins()
        )
        thin, thick = _tenths(u * 3 // 4), _tenths(u * 5 // 4)
        face = Hole("", "", Rectangle(Fraction(0), Fraction(0), self.width, self.height), Shape.by_default())
        drawn = False
        for layer in self._stack.layers:
            if layer.level > 0 and not drawn:
                _draw(drawing, face, self._holes, PAPER, thick)
                drawn = True
            _draw(drawing, layer.outline, layer.windows, USED, _tenths(2 * u) if self._is_marked(layer) else thin)
        if not drawn:
            _draw(drawing, face, self._holes, PAPER, thick)
        for layer in under:
            dashes = f"{_tenths(4 * u)} {_tenths(3 * u)}"
            drawing.path(_path(layer.outline), fill="none", stroke=INK, stroke_width=thin, stroke_dasharray=dashes)
        for layer in filter(self._is_marked, self._stack.layers):
            dashes = f"{_tenths(6 * u)} {_tenths(4 * u)}"
            drawing.path(_path(layer.outline), fill="none", stroke=INK, stroke_width=thick, stroke_dasharray=dashes)
        labels = []
        for label, leader in self._labels(face, whole, u):
            labels.append(label)
            label.draw(drawing)
            if leader is not None:
                (x1, y1), (x2, y2) = leader
                drawing.line(x1, y1, x2, y2, stroke=INK, stroke_width=_tenths(u // 2))
                drawing.circle(x2, y2, u, fill=INK)
        dimensions.draw(drawing, [label.box for label in labels])
        return scaled(drawing, scale)

    def edges_under(self, crowded: Sequence[Layer]) -> list[Layer]:
        """The layers of which a border is drawn, from an edge that lies under something else."""
        found = []
        for at, layer in enumerate(self._stack.layers):
            if layer in crowded:
                continue
            over = [(one.outline.around, one.windows) for one in self._stack.layers[at + 1 :]]
            if layer.level < 0:
                zero = Fraction(0)
                over.append((Rectangle(zero, zero, self.width, self.height), tuple(self._holes)))
            measured = [*self._segments(layer, across=True), *self._segments(layer, across=False)]
            sides = [side for side, _ in self._borders(layer)] if measured else []
            if any(_is_under(_edge(layer.area, side), *one) for side in sides for one in over):
                found.append(layer)
        return found

    def _labels(self, face: Hole, whole: Box, u: int) -> Iterator[tuple[Label, Stroke | None]]:
        """The letter of each layer, or its name, where that shows and crosses no line; else beside it with a leader.

        What is there several times is led to once.
        """
        outlines = [face, *self._holes]
        for layer in self._stack.layers:
            outlines += [layer.outline, *layer.windows]
        crowd = Crowd(stroke for outline in outlines for stroke in _strokes(outline))
        over = [layer.outline for layer in self._stack.layers]
        named: set[str] = set()
        labels: list[Label] = []
        unnamed: dict[str, tuple[Layer, str, tuple[int, int]]] = {}
        for at, layer in enumerate(self._stack.layers):
            words = layer.letter or layer.lying.thing.name.strip("“”")
            size = 8 * u if layer.letter else 6 * u
            for label in _tries(words, layer, size, u):
                hidden = any(_touch(other.around, label.box) for other in over[at + 1 :])
                hidden = hidden or any(_touch(hole.around, label.box) for hole in layer.windows)
                if layer.level < 0:
                    hidden = hidden or not any(_holds(hole.around, label.box) for hole in self._holes)
                if not hidden and crowd.is_free(label.box, u // 2):
                    crowd.add(label.box)
                    named.add(layer.lying.thing.place)
                    labels.append(label)
                    yield label, None
                    break
            else:
                spot = seen_spot(layer, self._stack.layers[at + 1 :], self._holes, whole)
                if spot is not None:
                    unnamed.setdefault(layer.lying.thing.place, (layer, words, spot))
        beside = [one for place, one in unnamed.items() if place not in named]
        yield from names_beside(beside, whole, crowd, labels, u)

    def _is_marked(self, layer: Layer) -> bool:
        place = layer.lying.place
        return bool(self._marked) and (place == self._marked or place.startswith(f"{self._marked}/"))

    def _borders(self, layer: Layer) -> Iterator[tuple[Side, str]]:
        return ((side, self._figure(measure)) for side, measure in self._measures(layer).items())

    def _measures(self, layer: Layer) -> dict[Side, int]:
        """The borders of a layer that are said: claimed, stated as its place, or equal because it lies in the middle.

        A claim is shown where it is true, as far as the step can tell; what is not claimed, where it lies on the step.
        Of what is marked it is every border that is left.
        """
        claimed = claimed_borders(layer.lying)
        found: dict[Side, int] = {}
        for side, border in layer.lying.borders.items():
            if border is not None and border > 0 and self._is_marked(layer):
                found[side] = round(border)
                continue
            if border is None or border < 0 or (side not in claimed and not _is_said(layer.lying, side)):
                continue
            if side in claimed and abs(border - claimed[side].ticks) < self._step:
                found[side] = claimed[side].ticks
            elif border % self._step == 0:
                found[side] = int(border)
        return found

    def _segments(self, layer: Layer, *, across: bool) -> list[Segment]:
        """The borders of a layer on the two sides of one axis, where they lie on the face."""
        if layer.turn != layer.lying.turn:
            return []  # it lies on something turned: its sides are not those of the face
        measures = self._measures(layer)
        area, on = layer.area, layer.on
        sides: tuple[tuple[Side, Fraction, Fraction], ...] = (
            (("left", on.left, area.left), ("right", area.right, on.right))
            if across
            else (("bottom", on.bottom, area.bottom), ("top", area.top, on.top))
        )
        depth = round(area.bottom if across else self.width - area.right)
        found = []
        for side, start, end in sides:
            measure = measures.get(side)
            if measure and round(start) < round(end):
                found.append(Segment(round(start), round(end), measure, depth=max(0, depth)))
        return found


def _is_said(lying: Lying, side: Side) -> bool:
    """Whether a placement states this border as its place, or lies in the middle of that axis."""
    copies = lying.placement.copies
    number = lying.place.rpartition("/copies/")[2]
    at = lying.placement if copies == "each" or not number.isdigit() else copies[int(number) - 1]
    return getattr(at, side) is not None or bool(at.centred if side in ("left", "right") else at.middle)


def _place(rows: list[list[Segment]], segments: Sequence[Segment]) -> None:
    """Put segments that no row holds yet into the first row where they overlap nothing."""
    new = [
        one
        for one in segments
        if not any((one.start, one.end) == (other.start, other.end) for row in rows for other in row)
    ]
    if not new:
        return
    for row in rows:
        if not any(one.start < other.end and other.start < one.end for one in new for other in row):
            row += new
            return
    rows.append(new)


def _draw(drawing: Drawing, outline: Hole, windows: Sequence[Hole], fill: str, thickness: str) -> None:
    """Draw something with its windows as holes in it, through which what is below shows."""
    paths = [step for one in (outline, *windows) for step in _path(one)]
    drawing.path(paths, fill=fill, fill_rule="evenodd", stroke=INK, stroke_width=thickness)


def _path(outline: Hole) -> list[Step]:
    left, bottom, right, top = map(round, outline.around)
    if outline.turn == 0 or outline.shape.kind in ("rect", "ellipse", "rounded"):
        return outline_path(outline.shape, Box(left, bottom, right - left, top - bottom))
    corners = [(round(x), round(y)) for x, y in outline.corners()]
    return [("M", corners[:1]), ("L", corners[1:]), ("Z", [])]


def _strokes(outline: Hole) -> Iterator[Stroke]:
    """The sides of an outline, of a curve a quarter of its points; of one with very many corners those around it."""
    corners = outline.corners()
    if outline.shape.kind == "ellipse":
        corners = corners[::4]
    if len(corners) > _MOST_CORNERS:
        left, bottom, right, top = outline.around
        corners = [(left, bottom), (right, bottom), (right, top), (left, top)]
    return strokes_along([(round(x), round(y)) for x, y in corners])


def _tries(words: str, layer: Layer, size: int, u: int) -> Iterator[Label]:
    """Where a label may stand in a layer: in its corners, in its middle, in the middles of its sides.

    Names may stand upright; a single letter would be another then (N, Z), and is rather left out.
    """
    left, bottom, right, top = map(round, layer.area)
    for upright in (False, True) if len(words) > 1 else (False,):
        long = text_width(words, size)
        across, up = (size, long) if upright else (long, size)
        near, far = left + across // 2 + u, right - across // 2 - u
        low, high = bottom + up // 2 + u, top - up // 2 - u
        if near > far or low > high:
            continue
        middle, level = (left + right) // 2, (bottom + top) // 2
        for x, y in (
            (near, high), (middle, level), (far, high), (near, low), (far, low),
            (middle, high), (middle, low), (near, level), (far, level),
        ):  # fmt: skip
            aside = (size // 4, 0) if upright else (0, -(size // 4))
            weight = "700" if layer.letter else "400"
            yield Label(words, x + aside[0], y + aside[1], size, middle=True, weight=weight, upright=upright)


def _edge(area: Rectangle, side: Side) -> Rectangle:
    """One edge of an area, as a rectangle without width or height."""
    left, bottom, right, top = area
    return {
        "left": Rectangle(left, bottom, left, top),
        "right": Rectangle(right, bottom, right, top),
        "bottom": Rectangle(left, bottom, right, bottom),
        "top": Rectangle(left, top, right, top),
    }[side]


def _is_under(edge: Rectangle, cover: Rectangle, windows: Sequence[Hole]) -> bool:
    """Whether some of an edge lies inside a cover, and not all of it in one of the windows of that."""
    apart = edge.right <= cover.left or edge.left >= cover.right or edge.top <= cover.bottom or edge.bottom >= cover.top
    return not apart and not any(hole.around.holds(edge) for hole in windows)


def _touch(area: Rectangle, box: Box) -> bool:
    return Box(*map(round, (area.left, area.bottom, area.width, area.height))).overlaps(box)


def _holds(area: Rectangle, box: Box) -> bool:
    return Box(*map(round, (area.left, area.bottom, area.width, area.height))).holds(box)


def _tenths(ticks: int) -> str:
    return str(max(1, ticks * 10 // TICKS_PER_MM))
