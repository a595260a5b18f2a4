"""The layers of a face one above the other, seen at a slant, in the order in which they are put."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from fractions import Fraction

from layouts.document import Shape
from layouts.drawing.crowd import Crowd, Stroke, strokes_along
from layouts.drawing.lettering import Label, text_width
from layouts.drawing.scale import ScaledDrawing, largest_scale, scaled
from layouts.drawing.stacks import MOST_WINDOWS, Layer, Stack
from layouts.drawing.svg import GRAPHITE, INK, PAPER, USED, Box, Drawing, Margins
from layouts.lengths import TICKS_PER_MM
from layouts.shapes.faces import Hole, Rectangle

__all__ = ["exploded_drawing"]

type Point = tuple[int, int]

# How far what lies further up moves right and up, in hundredths; in lines the gap between two layers, the type
# and its rows.
_ASIDE, _UP = 40, 35
_GAP, _TYPE, _ROW = 9, 7, 9
_MOST_NAMES, _LONGEST = 4, 36


def exploded_drawing(
    stack: Stack, *, name: str, face: str, words: str, room: tuple[int, int], line: int
) -> ScaledDrawing:
    """Return the layers, the lowest at the bottom, each level with the names of what lies on it at the right.

    `face` is what the lowest level is called, `room` is for one level. Dashes lead from the corners of each thing down
    to the level on which it is put.
    """
    plates = _Plates(stack, face)
    scale = largest_scale(plates.width, plates.deep, room)
    u = scale.drawn(line)
    return scaled(plates.drawn(name, words, u), scale)


class _Plates:
    def __init__(self, stack: Stack, called: str) -> None:
        self._stack, self._called = stack, called
        self._around = stack.around
        zero = Fraction(0)
        self._face = Rectangle(zero, zero, stack.surface.width or zero, stack.surface.height or zero)
        self._levels = sorted({0, *(layer.level for layer in stack.layers)})
        self.deep = max(1, round(self._around.height) * _UP // 100)
        self.width = max(1, round(self._around.width) + round(self._around.height) * _ASIDE // 100)

    def drawn(self, name: str, words: str, u: int) -> Drawing:
        names = [self._names(level) for level in self._levels]
        most = max(map(len, names))
        pitch = max(self.deep, most * _ROW * u) + _GAP * u
        longest = max(text_width(one, _TYPE * u) for level in names for one in level)
        height = pitch * (len(self._levels) - 1) + max(self.deep, most * _ROW * u)
        drawing = Drawing(
            self.width + 8 * u + longest,
            height,
            name=name,
            title=f"{self._called}, layer by layer.",
            description=words,
            margins=Margins.of(2 * u),
        )
        thin = _tenths(u * 3 // 4)
        for at, level in enumerate(self._levels):
            base = at * pitch + max(0, most * _ROW * u - self.deep) // 2
            dashes = f"{_tenths(2 * u)} {_tenths(2 * u)}"
            for (x1, y1), (x2, y2) in self._guides(at, base, pitch):
                drawing.line(x1, y1, x2, y2, stroke=GRAPHITE, stroke_width=_tenths(u // 3), stroke_dasharray=dashes)
            if level == 0:
                face = Hole("", "", self._face, Shape.by_default())
                self._draw(drawing, face, self._stack.surface.holes[:MOST_WINDOWS], PAPER, base, _tenths(u * 5 // 4))
            for layer in self._on(level):
                self._draw(drawing, layer.outline, layer.windows, USED, base, thin)
            middle = base + self.deep // 2
            near_x, near_y = self._right_of(level, base)
            leader = (near_x + u, near_y), (self.width + 4 * u, middle)
            drawing.line(*leader[0], *leader[1], stroke=INK, stroke_width=_tenths(u // 2))
            guides = (*self._guides(at, base, pitch), *self._guides(at + 1, base + pitch, pitch))
            for letter in self._letters(level, base, u, (leader, *guides)):
                letter.draw(drawing)
            weight = "700" if level == 0 else "400"
            top = middle + (len(names[at]) - 1) * _ROW * u // 2
            if len(names[at]) > 1:
                self._bracket(drawing, top + _TYPE * u // 2, top - (len(names[at]) - 1) * _ROW * u - _TYPE * u // 2, u)
            for row, words_ in enumerate(names[at]):
                baseline = top - row * _ROW * u - _TYPE * u // 4
                Label(words_, self.width + 6 * u, baseline, _TYPE * u, weight=weight).draw(drawing)
        return drawing

    def _bracket(self, drawing: Drawing, high: int, low: int, u: int) -> None:
        """A bracket around the names of a level, on which its line ends: that leads to all of them."""
        x = self.width + 4 * u
        for start, end in (((x, low), (x, high)), ((x, low), (x + u, low)), ((x, high), (x + u, high))):
            drawing.line(*start, *end, stroke=INK, stroke_width=_tenths(u // 2))

    def _on(self, level: int) -> Iterator[Layer]:
        return (layer for layer in self._stack.layers if layer.level == level)

    def _guides(self, at: int, base: int, pitch: int) -> Iterator[Stroke]:
        """The lines from the lower corners of what lies on a level (by its number from below) to the level below."""
        if 0 < at < len(self._levels):
            for layer in self._on(self._levels[at]):
                for corner in ((layer.area.left, layer.area.bottom), (layer.area.right, layer.area.bottom)):
                    yield self._point(corner, base - pitch), self._point(corner, base)

    def _right_of(self, level: int, base: int) -> Point:
        """The middle of the right side of what lies furthest to the right on a level."""
        areas = [layer.area for layer in self._on(level)] if level else [self._face]
        ends = [self._point((area.right, (area.bottom + area.top) / 2), base) for area in areas]
        return max(ends)

    def _letters(self, level: int, base: int, u: int, lines: Sequence[Stroke]) -> Iterator[Label]:
        """The letters of pieces and forms on their plates, where they cross neither these lines nor an edge."""
        outlines = [one for layer in self._on(level) for one in (layer.outline, *layer.windows)]
        corners = [[self._point(corner, base) for corner in outline.corners()] for outline in outlines]
        crowd = Crowd((*lines, *(stroke for line in corners for stroke in strokes_along(line))))
        for layer in self._on(level):
            if not layer.letter:
                continue
            area, size = layer.area, _TYPE * u
            for share in (50, 25, 75, 12):
                spot = (area.left + area.width * share / 100, (area.bottom + area.top) / 2)
                x, y = self._point(spot, base)
                label = Label(layer.letter, x, y - size // 4, size, middle=True)
                on_paper = self._holds(area, base, label) and not any(
                    self._meets(hole.around, base, label) for hole in layer.windows
                )
                if on_paper and crowd.is_free(label.box, u // 2):
                    crowd.add(label.box)
                    yield label
                    break

    def _holds(self, area: Rectangle, base: int, label: Label) -> bool:
        """Whether the middle of a label lies on an area; that it crosses no edge is looked at elsewhere."""
        low, high = self._point((area.left, area.bottom), base)[1], self._point((area.left, area.top), base)[1]
        return low < label.box.y and label.box.y + label.box.height < high

    def _meets(self, area: Rectangle, base: int, label: Label) -> bool:
        corners = ((area.left, area.bottom), (area.right, area.bottom), (area.right, area.top), (area.left, area.top))
        spots = [self._point(corner, base) for corner in corners]
        left, right = min(x for x, _ in spots), max(x for x, _ in spots)
        low, high = min(y for _, y in spots), max(y for _, y in spots)
        return Box(left, low, right - left, high - low).overlaps(label.box)

    def _names(self, level: int) -> list[str]:
        """What lies on one level, a line for each, with how often it lies there."""
        if level == 0:
            return [_short(self._called)]
        counted = Counter(layer.lying.thing.name for layer in self._on(level))
        names = [_short(f"{count} × {called}" if count > 1 else called) for called, count in counted.items()]
        more = len(names) - _MOST_NAMES
        return [*names[:_MOST_NAMES], f"… and {more} more"] if more > 0 else names

    def _draw(
        self, drawing: Drawing, outline: Hole, windows: Sequence[Hole], fill: str, base: int, thickness: str
    ) -> None:
        steps = [step for one in (outline, *windows) for step in self._path(one, base)]
        drawing.path(steps, fill=fill, fill_rule="evenodd", stroke=INK, stroke_width=thickness, stroke_linejoin="round")

    def _path(self, outline: Hole, base: int) -> list[tuple[str, list[Point]]]:
        corners = outline.corners()
        # Of an oval an eighth of the points is smooth enough; other outlines have corners that must stay.
        every = 8 if outline.shape.kind == "ellipse" else 1
        points = [self._point(corner, base) for corner in corners[::every]]
        return [("M", points[:1]), ("L", points[1:]), ("Z", [])]

    def _point(self, spot: tuple[Fraction, Fraction], base: int) -> Point:
        x, y = round(spot[0] - self._around.left), round(spot[1] - self._around.bottom)
        return x + y * _ASIDE // 100, base + y * _UP // 100


def _short(words: str) -> str:
    return words if len(words) <= _LONGEST else f"{words[: _LONGEST - 1]}…"


def _tenths(ticks: int) -> str:
    return str(max(1, ticks * 10 // TICKS_PER_MM))
