"""The paper that is left between the windows of a piece and its edges, and between one window and the next."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction
from math import isqrt

from layouts.document import Piece, Tool
from layouts.shapes.crossing import outlines_meet
from layouts.shapes.cut_sizes import finished_size
from layouts.shapes.faces import Hole
from layouts.shapes.faces.rectangles import Rectangle
from layouts.shapes.faces.surfaces import windows_of
from layouts.shapes.faces.sweep import Upright, meetings
from layouts.shapes.forms.folded import Side
from layouts.shapes.not_built import NotBuilt

__all__ = ["LEAST_RIM", "BetweenWindows", "EdgeRim", "Looks", "edge_rims", "rims_between"]

# Paper that is narrower between a window and an edge tears while it is cut, or later: 3 mm, in ticks.
# Source: common practice, no source; the usual border of 1/8 in is just above it.
LEAST_RIM = 960


@dataclass(slots=True)
class Looks:
    """How many windows close to each other are still looked at in one kit, and how many pairs of them that are no
    rectangles are compared exactly; what is beyond is not judged."""

    pairs: int = 5_000
    exact: int = 40


@dataclass(frozen=True, slots=True)
class EdgeRim:
    """What is left between a window and an edge of its finished piece (ticks)."""

    window: Hole
    side: Side
    rim: Fraction


@dataclass(frozen=True, slots=True)
class BetweenWindows:
    """What is left between two windows (whole ticks, rounded down); `common` is what both cut out, if they meet.

    Windows that only touch have nothing in common and no rim.
    """

    first: Hole
    second: Hole
    rim: int
    common: Rectangle | None

    @property
    def meet(self) -> bool:
        return self.rim == 0


def edge_rims(piece: Piece, place: str, tools: Mapping[str, Tool]) -> Iterator[EdgeRim]:
    """Yield the four rims of every window of a piece, from the edge as it is when decorative edges are made.

    Measured between the rectangles around window and piece; a rim of zero or less is no rim.
    """
    size = finished_size(piece, tools)
    for window in windows_of(piece, place, tools):
        around = window.around
        yield EdgeRim(window, "left", around.left)
        yield EdgeRim(window, "right", size.width.ticks - around.right)
        yield EdgeRim(window, "top", size.height.ticks - around.top)
        yield EdgeRim(window, "bottom", around.bottom)


def rims_between(
    piece: Piece, place: str, tools: Mapping[str, Tool], looks: Looks, least: int = LEAST_RIM
) -> Iterator[BetweenWindows]:
    """Yield windows of a piece that meet, or between which less than `least` ticks are left.

    Rectangles are measured exactly, across the corner where they lie aslant. Windows of other shapes meet where their
    outlines do (curves by 65 points a quarter); what is left between those that do not is not measured.
    """
    windows = windows_of(piece, place, tools)
    grown = [Upright(_grown(window.around, least), ("window",), ("window",)) for window in windows]
    pairs = meetings(grown, looks.pairs) if len(grown) > 1 else []
    looks.pairs -= len(pairs)
    for at, other in pairs:
        first, second = windows[at], windows[other]
        across = _gap(first.around.left, first.around.right, second.around.left, second.around.right)
        up = _gap(first.around.bottom, first.around.top, second.around.bottom, second.around.top)
        rim = isqrt(int(across * across + up * up))
        if across == up == 0 and not (first.is_rectangle and second.is_rectangle):
            looks.exact -= 1
            if looks.exact < 0 or not _meet(first, second):
                continue
        if rim < least:
            yield BetweenWindows(first, second, rim, first.around.common(second.around))


def _meet(first: Hole, second: Hole) -> bool:
    try:
        return outlines_meet(first.corners(), second.corners())
    except NotBuilt:
        return False


def _grown(area: Rectangle, by: int) -> Rectangle:
    """A rectangle with half of what must be left around it, and a tick more so that those that touch are met."""
    half = Fraction(by + 1, 2)
    return Rectangle(area.left - half, area.bottom - half, area.right + half, area.top + half)


def _gap(low: Fraction, high: Fraction, other_low: Fraction, other_high: Fraction) -> Fraction:
    return max(other_low - high, low - other_high, Fraction(0))
