"""Things over openings: paper that nothing carries there, and the rim of an opening that shows through a window."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction

from layouts.shapes.faces.holes import Corner, Hole, area_of, clipped
from layouts.shapes.faces.lying import Lying
from layouts.shapes.faces.rectangles import Rectangle
from layouts.shapes.faces.sweep import Upright, meetings
from layouts.shapes.forms.folded import Side

__all__ = ["MOST_CORNERS", "MOST_WINDOWS", "Rim", "Unsupported", "rims_in", "seen_over_openings", "unsupported_in"]

# Corners of curved and many-cornered holes, and windows over openings, that are looked at for one kit; what is left
# then is not judged.
MOST_CORNERS = 40_000
MOST_WINDOWS = 100_000

# Things over openings of one support that are looked at.
_MOST_MEETINGS = 40_000
# Openings of one support that are tried one by one: that is quicker than to look for those near a thing.
_FEW_HOLES = 8
# Parts into which an opening falls behind several windows; more of them are no good case that anybody meant.
_MOST_PARTS = 64


@dataclass(frozen=True, slots=True)
class Unsupported:
    """Paper over an opening, without anything below it (ticks).

    `over` is what the thing covers of the rectangle around the opening; `reach` is how far its paper stands out over
    the opening from each edge, up to the window that is seen through (`window`, if there is one): 0 where it does not,
    or reaches right across.
    """

    lying: Lying
    opening: Hole
    over: Rectangle
    window: Hole | None
    reach: dict[Side, Fraction]


@dataclass(frozen=True, slots=True)
class Rim:
    """How much of the support shows around an opening, through a window that is as large or larger (ticks)."""

    lying: Lying
    opening: Hole
    window: Hole
    shows: dict[Side, Fraction]


def seen_over_openings(lying: Sequence[Lying]) -> Iterator[Unsupported | Rim]:
    """Yield what lies over openings of faces and windows of pieces with nothing below, and the rims that show there.

    Nothing is wrong where a window of the thing is as large as the opening or larger: then the rim of the opening shows
    by what the window is larger, measured between the rectangles around both. What lies behind an opening is held by
    its rim: only what lies within the opening altogether is held by nothing. A window of a piece may be covered by what
    rests on the piece all round it: what another layer hides need not be paper (common practice, no source).
    Straight-sided openings that bulge nowhere inwards are judged exactly, curved ones by 65 points of each quarter.
    """
    windows_left, corners_left = MOST_WINDOWS, MOST_CORNERS
    for one, opening, over in _over(lying):
        behind = one.placement.layer == "behind"
        if behind and (one.rectangle is None or not opening.around.holds(one.rectangle)):
            continue
        windows_left -= len(one.thing.windows)
        windows = one.windows_near(over) if windows_left >= 0 else ()
        corners_left -= sum(_corners_of(hole) for hole in (opening, *windows))
        if windows_left < 0 or corners_left < 0:
            return
        around = opening.around
        wide = next((window for window in windows if window.around.holds(around)), None)
        if wide is not None and not behind:
            yield Rim(one, opening, wide, _shows(wide.around, around))
        if not one.surface.is_face and _rests_all_round(one.rectangle or over, around):
            continue
        rest = _corners_within(opening, over)
        if not rest or any(_same(window, opening) or window.encloses(rest) for window in windows):
            continue
        if not _open_between(over, opening, windows):
            seen = max(windows, key=lambda window: _shared(window.around, around), default=None)
            yield Unsupported(one, opening, over, seen, _reach(one.rectangle or over, around, seen))


def unsupported_in(lying: Sequence[Lying]) -> tuple[Unsupported, ...]:
    """Return what lies over openings with nothing below (see `seen_over_openings`)."""
    return tuple(one for one in seen_over_openings(lying) if isinstance(one, Unsupported))


def rims_in(lying: Sequence[Lying]) -> tuple[Rim, ...]:
    """Return the rims of openings that show through a window (see `seen_over_openings`)."""
    return tuple(one for one in seen_over_openings(lying) if isinstance(one, Rim))


def _over(lying: Sequence[Lying]) -> Iterator[tuple[Lying, Hole, Rectangle]]:
    """Each thing with each opening of its support, and what it covers of the rectangle around that."""
    groups: dict[str, list[Lying]] = {}
    for one in lying:
        if one.surface.holes and one.rectangle is not None:
            groups.setdefault(one.surface.place, []).append(one)
    for group in groups.values():
        holes = group[0].surface.holes
        areas = [Upright(one.rectangle, ("thing",), ("hole",)) for one in group if one.rectangle is not None]
        openings = [Upright(hole.around, ("hole",), ("thing",)) for hole in holes]
        few = len(holes) <= _FEW_HOLES
        pairs = (
            ((at, len(group) + hole) for at in range(len(group)) for hole in range(len(holes)))
            if few
            else meetings([*areas, *openings], _MOST_MEETINGS)
        )
        for at, hole in pairs:
            opening = holes[hole - len(group)]
            over = areas[at].area.common(opening.around)
            if over is not None:
                yield group[at], opening, over


def _rests_all_round(area: Rectangle, around: Rectangle) -> bool:
    return (
        area.left < around.left and area.bottom < around.bottom and area.right > around.right and area.top > around.top
    )


def _shows(window: Rectangle, around: Rectangle) -> dict[Side, Fraction]:
    """How much of a support shows on each side of an opening, between its rectangle and the window's around it."""
    return {
        "left": around.left - window.left,
        "right": window.right - around.right,
        "top": window.top - around.top,
        "bottom": around.bottom - window.bottom,
    }


def _corners_of(hole: Hole) -> int:
    """How many corners an outline is judged by."""
    if hole.is_rectangle:
        return 0
    return 260 if hole.shape.points is None else len(hole.shape.points)


def _corners_within(opening: Hole, over: Rectangle) -> list[Corner]:
    """The corners of what a thing covers of an opening; none where that is nothing."""
    if opening.is_rectangle:
        left, bottom, right, top = over
        return [(left, bottom), (right, bottom), (right, top), (left, top)]
    rest = clipped(opening.corners(), over)
    return rest if area_of(rest) > 0 else []


def _same(window: Hole, opening: Hole) -> bool:
    return (window.around, window.shape, window.turn) == (opening.around, opening.shape, opening.turn)


def _open_between(over: Rectangle, opening: Hole, windows: Iterable[Hole]) -> bool:
    """Whether several rectangular windows together leave no paper over a rectangular opening."""
    if not opening.is_rectangle:
        return False
    rest = [over]
    for window in windows:
        if window.is_rectangle:
            rest = [part for one in rest for part in _without(one, window.around)]
            if len(rest) > _MOST_PARTS:
                return False
    return not rest


def _without(area: Rectangle, hole: Rectangle) -> Iterator[Rectangle]:
    """What is left of an area around a hole, as rectangles that do not overlap."""
    common = area.common(hole)
    if common is None:
        yield area
        return
    if area.left < common.left:
        yield Rectangle(area.left, area.bottom, common.left, area.top)
    if common.right < area.right:
        yield Rectangle(common.right, area.bottom, area.right, area.top)
    if area.bottom < common.bottom:
        yield Rectangle(common.left, area.bottom, common.right, common.bottom)
    if common.top < area.top:
        yield Rectangle(common.left, common.top, common.right, area.top)


def _reach(area: Rectangle, around: Rectangle, seen: Hole | None) -> dict[Side, Fraction]:
    """How far paper stands out over an opening from each of its edges.

    What reaches from one edge to the other, without a window between, stands out from neither.
    """
    over = area.common(around)
    zero = Fraction(0)
    if over is None:
        return {"left": zero, "right": zero, "top": zero, "bottom": zero}
    inner = seen.around.common(around) if seen is not None else None
    low = {"left": area.left <= around.left, "bottom": area.bottom <= around.bottom}
    high = {"right": area.right >= around.right, "top": area.top >= around.top}
    if inner is not None:
        return {
            "left": inner.left - around.left if low["left"] else zero,
            "right": around.right - inner.right if high["right"] else zero,
            "top": around.top - inner.top if high["top"] else zero,
            "bottom": inner.bottom - around.bottom if low["bottom"] else zero,
        }
    return {
        "left": over.width if low["left"] and not high["right"] else zero,
        "right": over.width if high["right"] and not low["left"] else zero,
        "top": over.height if high["top"] and not low["bottom"] else zero,
        "bottom": over.height if low["bottom"] and not high["top"] else zero,
    }


def _shared(one: Rectangle, other: Rectangle) -> Fraction:
    common = one.common(other)
    return common.area if common is not None else Fraction(0)
