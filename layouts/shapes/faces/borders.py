"""The borders that are left around a thing: which are claimed, which are not as claimed, and which look uneven."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from layouts.lengths import Length
from layouts.shapes.faces.lying import Along, Lying
from layouts.shapes.forms.folded import Side

__all__ = ["WrongBorder", "claimed_borders", "uneven_borders", "wrong_borders"]

_AXES: tuple[tuple[Literal["across", "up"], Side, Side], ...] = (("across", "left", "right"), ("up", "bottom", "top"))


@dataclass(frozen=True, slots=True)
class WrongBorder:
    """A claimed border that is not the true one (ticks; a negative border overhangs).

    `side` is a side, or `across` or `up` where the thing has no position on that axis: then both numbers are of the two
    borders together, which size alone decides; with only one of them claimed, `true` is the most it can be.
    """

    side: Literal["left", "right", "top", "bottom", "across", "up"]
    claimed: Fraction
    true: Fraction


def claimed_borders(lying: Lying) -> dict[Side, Length]:
    """Return the border that is claimed on each side. A claim for all sides leaves out the wrapped ones."""
    border = lying.placement.border
    if border is None:
        return {}
    sides: tuple[Side, ...] = ("left", "right", "top", "bottom")
    if isinstance(border, Length):
        return {side: border for side in sides if side not in lying.placement.wraps}
    found = {side: getattr(border, side) for side in sides}
    return {side: length for side, length in found.items() if length is not None}


def wrong_borders(lying: Lying) -> tuple[WrongBorder, ...]:
    """Return the claims that are not true, exactly; on a panel of a form beyond what its thickness makes uncertain."""
    if lying.placement.border is None:
        return ()
    claims, borders, give = claimed_borders(lying), lying.borders, lying.surface.give
    found = []
    for axis, low, high in _AXES:
        along: Along = getattr(lying, axis)
        known = [side for side in (low, high) if side in claims and borders[side] is not None]
        for side in known:
            claim, true = Fraction(claims[side].ticks), borders[side]
            if true is not None and abs(true - claim) > give:
                found.append(WrongBorder(side, claim, true))
        spare = along.spare
        if known or spare is None:
            continue
        stated = [claims[side].ticks for side in (low, high) if side in claims]
        total = Fraction(sum(stated))
        if (len(stated) == 2 and abs(total - spare) > 2 * give) or (len(stated) == 1 and total > spare + 2 * give):
            found.append(WrongBorder(axis, total, spare))
    return tuple(found)


def uneven_borders(lying: Lying, least: int) -> dict[Side, Fraction] | None:
    """Return the four borders of what looks like a mat set unevenly, None for everything else.

    That is a piece or a form that covers at least half of its support, lies within it, and leaves borders of which the
    narrowest is more than half the widest: much wider ones are an arrangement, not a border. They differ by `least`
    ticks or more, which can be measured. Borders claimed side by side, and unequal, are meant.
    Source: common practice, no source (a layer glued on a panel leaves an even border).
    """
    area, width, height = lying.rectangle, lying.surface.width, lying.surface.height
    if lying.thing.kind not in ("piece", "form") or area is None or width is None or height is None:
        return None
    if 2 * area.area < width * height:
        return None
    borders: dict[Side, Fraction] = {side: border for side, border in lying.borders.items() if border is not None}
    narrowest, *_, widest = sorted(borders.values())
    if narrowest * 2 <= widest or widest - narrowest < max(Fraction(least), 2 * lying.surface.give):
        return None
    return None if len(set(claimed_borders(lying).values())) > 1 else borders
