"""What of a thing reaches beyond the edges of its support."""

from __future__ import annotations

from fractions import Fraction
from typing import Literal

from layouts.shapes.faces.lying import Along, Lying
from layouts.shapes.forms.folded import Side

__all__ = ["Reach", "overhang"]

Reach = Literal["left", "right", "top", "bottom", "across", "up"]

_AXES: tuple[tuple[Literal["across", "up"], Side, Side], ...] = (("across", "left", "right"), ("up", "bottom", "top"))


def overhang(lying: Lying) -> dict[Reach, Fraction]:
    """Return by how much a thing reaches beyond each edge of its support, in ticks, where it does.

    `across` and `up`: the thing is longer than its support and has no position on that axis, so that it overhangs by
    this much on both sides together. On a side that it wraps, what turns over is held against the panel beyond that
    fold; where nobody knows what lies there, it is not judged. Outlines are the rectangles around thing and support.
    """
    found: dict[Reach, Fraction] = {}
    give, wraps = lying.surface.give, lying.placement.wraps
    for axis, low, high in _AXES:
        along: Along = getattr(lying, axis)
        beyond = {low: _beyond(along.low, along.high, along), high: _beyond(along.high, along.low, along)}
        for side, more in beyond.items():
            if side in wraps:
                over = lying.beyond.get(side)
                if over is None or more is None:
                    continue
                more -= over.width if side in ("left", "right") else over.height
            if more is not None and more > give:
                found[side] = more
        if along.low is None and along.high is None and not {low, high} & set(wraps):
            spare = along.spare
            if spare is not None and -spare > 2 * give:
                found[axis] = -spare
    return found


def _beyond(border: Fraction | None, opposite: Fraction | None, along: Along) -> Fraction | None:
    """How far the thing reaches beyond one edge; of one without a size at least how far its other edge does."""
    if border is not None:
        return -border
    if opposite is not None and along.whole is not None:
        return opposite - along.whole
    return None
