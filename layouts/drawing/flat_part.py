"""A flat part of a form, to scale: cut lines solid, score lines broken, panels named, tabs and waste marked."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import accumulate, pairwise
from math import ceil

from layouts.drawing.crowd import Crowd
from layouts.drawing.dimensions import Chain, Dimensions, Segment
from layouts.drawing.flat_lines import DrawnCrease, cut_strokes, draw_crease, drawn_creases, hole_box, point
from layouts.drawing.flat_names import area_names
from layouts.drawing.fold_words import fold_words, said
from layouts.drawing.lettering import Label
from layouts.drawing.scale import ScaledDrawing, largest_scale, scaled
from layouts.drawing.spans import chain_of, shown_spans
from layouts.drawing.svg import GRAPHITE, INK, PAPER, USED, Box, Drawing
from layouts.lengths import TICKS_PER_MM, System
from layouts.rounding import step_up
from layouts.shapes.forms import Area, Crease, FlatSheet, Folded, Spot

__all__ = ["FlatDrawing", "flat_drawings"]

type Figure = Callable[[int], str]

# Areas that are drawn, measures in one row, and figures in one sentence: a strip may be folded ten thousand times.
_MOST_AREAS, _MOST_MEASURES, _MOST_SAID = 240, 24, 12


@dataclass(frozen=True, slots=True)
class FlatDrawing:
    """A drawing of one flat part, or of several that are alike.

    `numbers` are those of the parts that it shows, none where the form is one part. `words` say the same as the drawing
    for who cannot see it; `beside` are sentences to stand beside it: where to score, what is not drawn.
    """

    numbers: tuple[int, ...]
    drawing: ScaledDrawing
    words: str
    beside: tuple[str, ...]


def flat_drawings(
    folded: Folded,
    figure: Figure,
    *,
    name: str,
    title: str,
    unit: System,
    room: tuple[int, int],
    line: int,
    step: int,
    sizes: Sequence[tuple[int, int]] = (),
) -> tuple[FlatDrawing, ...]:
    """Return the drawings of all flat parts of a form, outside up, each as large as a simple scale allows.

    Parts that are alike are drawn once. `figure` turns ticks into the text that the sheet shows; `step` is its printed
    step, in ticks. `sizes` are the flat sizes that it prints, part by part; without them each is rounded up to the
    step. What is rounded up belongs to what lies off the step itself: walls are shown as deep as they are stated.
    `room` is the width and height on paper for a part itself, `line` the thickness of a line there, in ticks. `title`
    says what the form is, `name` starts the ids.
    """
    in_order = {crease: number for number, one in enumerate(folded.steps, start=1) for crease in one.creases}
    steps = in_order if len(set(in_order.values())) > 1 else {}
    groups: dict[tuple[tuple[object, ...], tuple[int, int]], list[int]] = {}
    for at, sheet in enumerate(folded.sheets):
        size = sizes[at] if at < len(sizes) else _rounded_up(sheet, step)
        groups.setdefault((_looks(sheet), size), []).append(at)
    found = []
    for (_, size), alike in groups.items():
        sheets = [folded.sheets[at] for at in alike]
        numbers = tuple(sheet.number for sheet in sheets if sheet.number is not None)
        part = _Part(sheets[0], size, figure, unit, step)
        sentences = (*_alike(numbers), *part.beside(), *_grain(folded, first=alike[0] == 0))
        called = f"parts {said(map(str, numbers))}" if len(numbers) > 1 else f"part {numbers[0]}" if numbers else "flat"
        heading = f"{title}, {called}, {figure(part.size[0])} by {figure(part.size[1])} {unit}, its outside up."
        words = " ".join((heading, *sentences, *fold_words(folded)))
        drawn, left_out = part.drawn(f"{name}-{numbers[0]}" if numbers else name, heading, words, steps, room, line)
        found.append(FlatDrawing(numbers, drawn, words, (*sentences, *left_out)))
    return tuple(found)


def _looks(sheet: FlatSheet) -> tuple[object, ...]:
    """What makes two parts alike: all but their numbers and names."""
    creases = tuple((one.start, one.end, one.fold) for one in sheet.creases)
    return sheet.width, sheet.height, sheet.cuts, creases, sheet.holes


def _rounded_up(sheet: FlatSheet, step: int) -> tuple[int, int]:
    return step_up(ceil(sheet.width), step), step_up(ceil(sheet.height), step)


def _alike(numbers: Sequence[int]) -> Iterator[str]:
    if len(numbers) > 1:
        yield f"Parts {said(map(str, numbers))} are alike; the names are those of part {numbers[0]}."


def _grain(folded: Folded, *, first: bool) -> Iterator[str]:
    if first and folded.grain is not None:
        yield f"The grain best runs {'up and down' if folded.grain == 'up' else 'from side to side'} as drawn."


@dataclass(frozen=True, slots=True)
class _Part:
    """One flat part, and its size as it is printed."""

    sheet: FlatSheet
    size: tuple[int, int]
    figure: Figure
    unit: System
    step: int

    def beside(self) -> Iterator[str]:
        """Where to score, measured from one edge as on a scoring board; and the holes, which no dimension shows."""
        for axis, edge in ((0, "left"), (1, "bottom")):
            at = self._scores(axis)
            if at:
                figures = ", ".join(map(self.figure, at[:_MOST_SAID]))
                more = f" … and {len(at) - _MOST_SAID:,} more" if len(at) > _MOST_SAID else ""
                yield f"Score from the {edge} at {figures}{more}."
        for hole in self.sheet.holes:
            below = round(self.sheet.height - hole.middle.y)
            yield (
                f"The hole is {self.figure(round(hole.diameter))} across; its middle lies in the middle of the width, "
                f"{self.figure(below)} below the top."
            )

    def drawn(
        self, name: str, title: str, words: str, steps: Mapping[Crease, int], room: tuple[int, int], line: int
    ) -> tuple[ScaledDrawing, tuple[str, ...]]:
        """Return the drawing, and sentences about what is not in it."""
        sheet = self.sheet
        whole = Box(0, 0, max(1, round(sheet.width)), max(1, round(sheet.height)))
        scale = largest_scale(whole.width, whole.height, room)
        u = scale.drawn(line)
        dimensions = Dimensions(whole, u, self.figure)
        dimensions.above(Chain((Segment(0, whole.width, self.size[0]),)))
        dimensions.left(Chain((Segment(0, whole.height, self.size[1]),)))
        across, more_across = self._chain(0)
        up, more_up = self._chain(1)
        dimensions.below(across)
        dimensions.right(up)

        crowd = Crowd(cut_strokes(sheet), map(hole_box, sheet.holes))
        creases, not_drawn = drawn_creases(sheet, steps, crowd, u)
        names = list(area_names(sheet.areas[:_MOST_AREAS], crowd, u))
        drawing = Drawing(
            whole.width, whole.height, name=name, title=title, description=words, margins=dimensions.margins()
        )
        self._draw(drawing, whole, creases, names, u)
        written = [label.box for _, label in names] + [one.sign.box for one in creases if one.sign is not None]
        dimensions.draw(drawing, written)
        counts = ((not_drawn, "folds"), (more_across + more_up, "measures"))
        return scaled(drawing, scale), tuple(f"… and {more:,} more {what}, not drawn." for more, what in counts if more)

    def _draw(
        self,
        drawing: Drawing,
        whole: Box,
        creases: Sequence[DrawnCrease],
        names: Sequence[tuple[Area, Label]],
        u: int,
    ) -> None:
        sheet, areas = self.sheet, self.sheet.areas[:_MOST_AREAS]
        thin, thick = _tenths(u // 4), _tenths(u * 5 // 4)
        outline = list(map(point, sheet.cuts[0]))
        drawing.path(_closed(outline), fill=USED, stroke="none")
        if any(area.role == "tab" for area in areas):
            glue = drawing.hatching(apart=3 * u, stroke=GRAPHITE, width=u * 2 // 5, texture="dots", called="tabs")
            for area in areas:
                if area.role == "tab":
                    drawing.path(_closed(_corners(area)), fill=PAPER, stroke="none")
                    drawing.path(_closed(_corners(area)), fill=glue, stroke="none")
        if any(area.role == "waste" for area in areas):
            waste = drawing.hatching(apart=4 * u, stroke=GRAPHITE, width=u // 3, called="waste")
            for area in areas:
                if area.role == "waste":
                    drawing.path(_closed(_corners(area)), fill=waste, stroke="none")
            drawing.box(whole, fill="none", stroke=INK, stroke_width=thin)
        for area, label in names:
            if area.role == "tab":
                drawing.box(label.box, fill=PAPER)
            label.draw(drawing)
        for hole in sheet.holes:
            x, y = point(hole.middle)
            drawing.circle(x, y, round(hole.diameter / 2), fill=PAPER, stroke=INK, stroke_width=thick)
        for crease in creases:
            draw_crease(drawing, crease, u)
        drawing.path(_closed(outline), fill="none", stroke=INK, stroke_width=thick, stroke_linejoin="round")
        for line in sheet.cuts[1:]:
            (x1, y1), *_, (x2, y2) = map(point, line)
            drawing.line(x1, y1, x2, y2, stroke=INK, stroke_width=thick)

    def _chain(self, axis: int) -> tuple[Chain, int]:
        """The measures along one axis between all that is cut or scored there; none where that is the whole alone."""
        spots = self._spots(axis)
        return chain_of(spots, self.size[axis], self.step, _MOST_MEASURES) if len(spots) > 2 else (Chain(()), 0)

    def _scores(self, axis: int) -> list[int]:
        """How far the scores across one axis lie from its beginning, as they are shown."""
        scores = self._scored(axis)
        spots = self._spots(axis)
        spans = shown_spans([after - before for before, after in pairwise(spots)], self.size[axis], self.step)
        return [at for spot, at in zip(spots[1:], accumulate(spans), strict=True) if spot in scores]

    def _spots(self, axis: int) -> list[Fraction]:
        """Where along one axis something is cut or scored across it, rising."""
        cut = {spot[axis] for line in self.sheet.cuts for spot in line}
        return sorted({Fraction(0), *self._scored(axis), *cut, self._whole(axis)})

    def _scored(self, axis: int) -> set[Fraction]:
        return {one.start[axis] for one in self.sheet.creases if one.start[axis] == one.end[axis]}

    def _whole(self, axis: int) -> Fraction:
        return self.sheet.height if axis else self.sheet.width


def _corners(area: Area) -> list[tuple[int, int]]:
    return [point(Spot(*spot)) for spot in area.corners]


def _closed(points: Sequence[tuple[int, int]]) -> list[tuple[str, list[tuple[int, int]]]]:
    return [("M", list(points[:1])), ("L", list(points[1:])), ("Z", [])]


def _tenths(ticks: int) -> str:
    """A thickness in tenths of a millimetre, one at least."""
    return str(max(1, ticks * 10 // TICKS_PER_MM))
