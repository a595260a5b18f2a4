"""Decorative edges: whether the tool's bite leaves enough of the piece, and whether its pattern comes out whole."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from itertools import permutations
from typing import Literal

from layouts.document import Piece, Tool
from layouts.lengths import Length
from layouts.shapes.cut_sizes import Bites, bites, cut_size, finished_size
from layouts.shapes.forms.folded import Side
from layouts.shapes.windows import resolve

__all__ = ["BittenAway", "BrokenPattern", "bitten_away", "broken_patterns"]

_SIDES: tuple[Side, ...] = ("left", "right", "top", "bottom")
_AXES: tuple[tuple[Literal["width", "height"], Side, Side], ...] = (
    ("width", "left", "right"),
    ("height", "bottom", "top"),
)


@dataclass(frozen=True, slots=True)
class BittenAway:
    """An edge whose tool needs `needed` where only `there` is.

    `nothing-left`: the bites on both ends of an axis take all of the piece. `no-grip`: a punch needs its bite and what
    it grips, across the strip. `window`: the bite reaches a window, which `window` names.
    """

    problem: Literal["nothing-left", "no-grip", "window"]
    where: Literal["left", "right", "top", "bottom", "width", "height"]
    needed: Length
    there: Length
    window: str | None = None


@dataclass(frozen=True, slots=True)
class BrokenPattern:
    """A punched edge that is no whole number of pitches; `shorter` (None if that is nothing) and `longer` would be."""

    side: Side
    tool: Tool
    length: Length
    pitch: Length
    shorter: Length | None
    longer: Length


def bitten_away(piece: Piece, tools: Mapping[str, Tool]) -> Iterator[BittenAway]:
    """Yield what the decorative edges of a piece take that is not there; `tools` by id.

    Scissors bite from the cut edge. A punch bites too, and grips `least_depth` more across the strip. Of two punched
    edges opposite each other the second finds what the first has left; they may be punched in either order. A window is
    measured from the piece's stated size: of a finished piece its margins are what the bite leaves.
    Source: common practice, no source.
    """
    cut, taken = cut_size(piece, tools), bites(piece, tools)
    left_over = finished_size(piece, tools)
    for axis, low, high in _AXES:
        whole: Length = getattr(cut, axis)
        if getattr(left_over, axis).ticks <= 0:
            yield BittenAway("nothing-left", axis, _of(taken, low) + _of(taken, high), whole)
        else:
            yield from _without_grip(piece, tools, taken, whole, (low, high))
    if piece.size_is == "finished":
        return
    for window in piece.windows:
        aperture = resolve(window, piece.size)
        for side in _SIDES:
            bite, margin = _of(taken, side), getattr(aperture, side)
            # A margin that is none is another rule's.
            if bite.ticks > 0 and 0 < margin.ticks <= bite.ticks:
                yield BittenAway("window", side, bite, margin, window.id)


def broken_patterns(piece: Piece, tools: Mapping[str, Tool]) -> Iterator[BrokenPattern]:
    """Yield the punched edges of a piece, of its finished length, that are no whole number of their punch's pitches."""
    size = finished_size(piece, tools)
    for side in _SIDES:
        name = getattr(piece.edges, side)
        tool = tools[name] if name is not None else None
        if tool is None or tool.kind != "punch" or tool.pitch is None:
            continue
        length = size.width if side in ("top", "bottom") else size.height
        whole, rest = divmod(length.ticks, tool.pitch.ticks)
        if length.ticks > 0 and rest:
            shorter = whole * tool.pitch if whole else None
            yield BrokenPattern(side, tool, length, tool.pitch, shorter, (whole + 1) * tool.pitch)


def _without_grip(
    piece: Piece, tools: Mapping[str, Tool], taken: Bites, whole: Length, sides: tuple[Side, Side]
) -> Iterator[BittenAway]:
    """The first edge that cannot be gripped, in the order of making them that comes furthest."""
    worst: list[BittenAway] = []
    for order in permutations(sides):
        there, found = whole, None
        for side in order:
            grip = _grip(piece, tools, side)
            if found is None and grip.ticks > 0 and there < _of(taken, side) + grip:
                found = BittenAway("no-grip", side, _of(taken, side) + grip, there)
            there = there - _of(taken, side)
        if found is None:
            return
        worst.append(found)
    yield min(worst, key=lambda one: (one.needed - one.there, one.where))


def _grip(piece: Piece, tools: Mapping[str, Tool], side: Side) -> Length:
    name = getattr(piece.edges, side)
    return (tools[name].least_depth if name is not None else None) or Length.zero()


def _of(taken: Bites, side: Side) -> Length:
    length: Length = getattr(taken, side)
    return length
