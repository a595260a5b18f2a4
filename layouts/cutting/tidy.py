"""Take the needless cuts out of a rough tree.

Nobody wants to cut waste from waste. A part of pure waste is one part; it stands last in its row; a row within a row
of the same axis is one row; and waste that lies beyond every part of a row is cut off once, before the row is cut.
"""

from __future__ import annotations

from collections.abc import Sequence

from layouts.cutting.rough import Rough, Split, Waste, across, row, side, waste
from layouts.cutting.tree import Along

__all__ = ["in_rows", "tidied"]


def tidied(rough: Rough) -> Rough:
    """Return a tree of the same size with the same pieces and no needless cut.

    >>> from layouts.cutting.rough import Laid
    >>> strips = [row("y", [Laid(2, 3, 0), Waste(2, 1)]), row("y", [Laid(3, 3, 1), Waste(3, 1)])]
    >>> tidied(row("x", strips)).along
    'y'
    """
    if not isinstance(rough, Split):
        return rough
    along, other = rough.along, across(rough.along)
    kept: list[Rough] = []
    for part in rough.parts:
        if part.width > 0 and part.height > 0:
            kept.extend(part for part in _row_of(tidied(part), along) if not isinstance(part, Waste))
    if not kept:
        return Waste(rough.width, rough.height)
    length, depth = side(rough, along), side(rough, other)
    beside = length - sum(side(part, along) for part in kept)
    beyond = min(_waste_at_end(part, other) for part in kept)
    # A single piece in a corner leaves two offcuts: the larger is kept whole.
    if beyond > 0 and (len(kept) > 1 or beyond * length > beside * depth > 0):
        return _waste_first(along, kept, beside, beyond, length, depth)
    return row(along, [*kept, waste(along, beside, depth)] if beside else kept)


def _waste_first(along: Along, kept: Sequence[Rough], beside: int, beyond: int, length: int, depth: int) -> Rough:
    """Cut off what lies `beyond` all parts of a row; what is left `beside` them ends there, too."""
    other = across(along)
    strip = [_shortened(part, other, beyond) for part in kept]
    if beside:
        strip.append(waste(along, beside, depth - beyond))
    parts = [part for part in _row_of(tidied(row(along, strip)), other) if not isinstance(part, Waste)]
    rest = depth - sum(side(part, other) for part in parts)
    return row(other, [*parts, waste(other, rest, length)])


def _row_of(part: Rough, along: Along) -> tuple[Rough, ...]:
    return part.parts if isinstance(part, Split) and part.along == along else (part,)


def _waste_at_end(part: Rough, along: Along) -> int:
    last = _row_of(part, along)[-1]
    return side(last, along) if isinstance(last, Waste) else 0


def _shortened(part: Rough, along: Along, length: int) -> Rough:
    """The part without some of the waste at its end."""
    *others, last = _row_of(part, along)
    rest = side(last, along) - length
    return row(along, [*others, waste(along, rest, side(last, across(along)))] if rest else others)


def in_rows(rough: Rough) -> Rough:
    """The tree with equal parts side by side, so that the trimmer stays as it is set for all of them.

    The longest stand first, waste stays at the end. Without any, what is left last needs no cut of its own: then that
    is a part whose length no other of the row has, if there is one.

    >>> from layouts.cutting.rough import Laid
    >>> [part.width for part in in_rows(row("x", [Laid(width, 1, 0) for width in (3, 2, 4, 2)])).parts]
    [4, 2, 2, 3]
    """
    if not isinstance(rough, Split):
        return rough
    along = rough.along
    groups: dict[int, dict[Rough, list[Rough]]] = {}
    for part in map(in_rows, rough.parts):
        groups.setdefault(0 if isinstance(part, Waste) else side(part, along), {}).setdefault(part, []).append(part)
    rows = [[part for equal in groups[length].values() for part in equal] for length in sorted(groups, reverse=True)]
    if 0 not in groups:
        last = next((group for group in reversed(rows) if len(group) == 1), rows[-1])
        rows = [*(group for group in rows if group is not last), last]
    return row(along, [part for group in rows for part in group])
