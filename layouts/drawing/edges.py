"""The decorative edges of a piece: teeth along the sides that a tool finishes, and the same in words."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping

from layouts.document import Piece, Tool
from layouts.drawing.crowd import Point
from layouts.shapes.forms import Side

__all__ = ["edge_lines", "edge_words"]

_SIDES: tuple[Side, ...] = ("left", "right", "top", "bottom")

# In lines: how deep and how far apart teeth are drawn at least; how many of them one side has at most.
_DEEP, _APART, _MOST = 2, 4, 120


def edge_lines(piece: Piece, tools: Mapping[str, Tool], u: int) -> Iterator[list[Point]]:
    """Yield a line of teeth for every side that a tool finishes, in ticks from the lower left; `u` is a line's width.

    On a piece whose size is the finished one the teeth reach its edge, on another the depth of the bite within: there
    the edge will be. A punch has teeth as far apart as its pattern repeats, scissors have them as they can be seen.
    """
    width, height = piece.size.width.ticks, piece.size.height.ticks
    for side, tool in _finished(piece, tools):
        bite = tool.bite.ticks if tool.bite is not None else 0
        level = side in ("top", "bottom")
        long, across = (width, height) if level else (height, width)
        outer = 0 if piece.size_is == "finished" else bite
        inner = outer + max(_DEEP * u, min(bite, 2 * _DEEP * u))
        if inner >= across:
            continue  # nothing would be left: a finding says so
        pitch = tool.pitch.ticks if tool.pitch is not None else _APART * u
        pitch = max(pitch, _APART * u, -(-long // _MOST))
        along = [*range(0, long, max(1, pitch // 2)), long]
        teeth = [(at, inner if number % 2 else outer) for number, at in enumerate(along)]
        far = side in ("top", "right")
        yield [_turned(at, across - deep if far else deep, level=level) for at, deep in teeth]


def edge_words(piece: Piece, tools: Mapping[str, Tool], figure: Callable[[int], str]) -> Iterator[str]:
    """Yield a sentence for every tool that finishes sides of a piece."""
    sides: dict[str, list[Side]] = {}
    for side, tool in _finished(piece, tools):
        sides.setdefault(tool.id, []).append(side)
    for name, finished in sides.items():
        tool = tools[name]
        called = tool.name or tool.kind.replace("-", " ")
        told = " and ".join(filter(None, [", ".join(finished[:-1]), finished[-1]]))
        many = "edges are" if len(finished) > 1 else "edge is"
        taken = "" if tool.bite is None else f", which takes {figure(tool.bite.ticks)}"
        yield f"The {told} {many} made with the {called}{taken}."


def _finished(piece: Piece, tools: Mapping[str, Tool]) -> Iterator[tuple[Side, Tool]]:
    for side in _SIDES:
        name = getattr(piece.edges, side)
        if name is not None and name in tools:
            yield side, tools[name]


def _turned(along: int, across: int, *, level: bool) -> Point:
    return (along, across) if level else (across, along)
