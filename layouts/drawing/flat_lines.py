"""The lines of a flat part: cuts, creases broken for their signs, and which of ten thousand creases are drawn."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from itertools import pairwise

from layouts.drawing.crowd import Crowd, Point, Stroke
from layouts.drawing.lettering import Label
from layouts.drawing.svg import INK, Box, Drawing
from layouts.lengths import TICKS_PER_MM
from layouts.shapes.forms import Crease, FlatSheet, Hole, Spot

__all__ = [
    "DASHES",
    "DrawnCrease",
    "crease_strokes",
    "cut_strokes",
    "draw_crease",
    "drawn_creases",
    "hole_box",
    "point",
]

# Dashes and gaps in lines: a mountain is a dash and a dot, a valley dashes alone. Known without colour.
DASHES: Mapping[str, tuple[int, ...]] = {"mountain": (9, 3, 2, 3), "valley": (5, 3)}
SIGNS: Mapping[str, str] = {"mountain": "m", "valley": "v"}

# Creases that are drawn; how near, in lines, two of them may lie; the height of a sign, in lines.
_MOST, _NEAR, _SIGN = 200, 2, 6
# Where along a crease its sign is tried, in hundredths of its length: the middle is left to the names of panels.
_ALONG = (22, 78, 35, 65, 50, 12, 88)


@dataclass(frozen=True, slots=True)
class DrawnCrease:
    """A crease on the drawing (ticks), and the sign in it: m or v, behind the number of its step; there may be none."""

    start: Point
    end: Point
    fold: str
    sign: Label | None = None


def point(spot: Spot) -> Point:
    return round(spot.x), round(spot.y)


def cut_strokes(sheet: FlatSheet) -> Iterator[Stroke]:
    """Yield every straight cut of a flat part."""
    for line in sheet.cuts:
        yield from pairwise(map(point, line))


def hole_box(hole: Hole) -> Box:
    """Return the square around a hole."""
    across = round(hole.diameter)
    x, y = point(hole.middle)
    return Box(x - across // 2, y - across // 2, across, across)


def drawn_creases(sheet: FlatSheet, steps: Mapping[Crease, int], crowd: Crowd, u: int) -> tuple[list[DrawnCrease], int]:
    """Return the creases that are drawn, with their signs, and how many are not.

    Left out are those so near to another that nobody could tell them apart, and all beyond the first few hundred. `u`
    is the thickness of a line; `crowd` holds all that signs keep clear of, and gets the signs.
    """
    kept: list[Crease] = []
    seen: set[tuple[object, ...]] = set()
    for crease in sheet.creases:
        (x1, y1), (x2, y2) = point(crease.start), point(crease.end)
        line, ends = (x1, (y1, y2)) if crease.upright else (y1, (x1, x2))
        key = (crease.upright, line // (_NEAR * u), ends)
        if key not in seen and len(kept) < _MOST:
            seen.add(key)
            kept.append(crease)
    for crease in kept:
        crowd.draw(point(crease.start), point(crease.end))
    found = [_with_sign(crease, steps.get(crease), crowd, u) for crease in kept]
    return found, len(sheet.creases) - len(kept)


def crease_strokes(crease: DrawnCrease, u: int) -> Iterator[Stroke]:
    """Yield what is left of a crease beside its sign."""
    start, end, sign = crease.start, crease.end, crease.sign
    if sign is None:
        yield start, end
        return
    axis = 0 if start[1] == end[1] else 1
    low, high = sorted((start, end))
    gap = u // 2
    box = sign.box
    near, far = ((box.x - gap, box.x + box.width + gap), (box.y - gap, box.y + box.height + gap))[axis]
    before, after = ((near, low[1]), (far, low[1])) if axis == 0 else ((low[0], near), (low[0], far))
    yield low, before
    yield after, high


def draw_crease(drawing: Drawing, crease: DrawnCrease, u: int) -> None:
    dashes = " ".join(_tenths(part * u) for part in DASHES[crease.fold])
    for (x1, y1), (x2, y2) in crease_strokes(crease, u):
        drawing.line(x1, y1, x2, y2, stroke=INK, stroke_width=_tenths(u * 3 // 4), stroke_dasharray=dashes)
    if crease.sign is not None:
        crease.sign.draw(drawing)


def _with_sign(crease: Crease, step: int | None, crowd: Crowd, u: int) -> DrawnCrease:
    start, end = point(crease.start), point(crease.end)
    words = f"{step or ''}{SIGNS[crease.fold]}"
    for share in _ALONG:
        x = start[0] + (end[0] - start[0]) * share // 100
        y = start[1] + (end[1] - start[1]) * share // 100
        sign = Label(words, x, y - _SIGN * u // 4, _SIGN * u, middle=True)
        if _breaks(sign.box, (start, end), u) and crowd.is_free(sign.box, u, except_for=(start, end)):
            crowd.add(sign.box)
            return DrawnCrease(start, end, crease.fold, sign)
    return DrawnCrease(start, end, crease.fold)


def _breaks(box: Box, stroke: Stroke, u: int) -> bool:
    """Whether a sign leaves enough of its line on both sides to be known by its dashes."""
    low, high = sorted(stroke)
    if low[1] == high[1]:
        return low[0] + 9 * u <= box.x and box.x + box.width <= high[0] - 9 * u
    return low[1] + 9 * u <= box.y and box.y + box.height <= high[1] - 9 * u


def _tenths(ticks: int) -> str:
    return str(max(1, ticks * 10 // TICKS_PER_MM))
