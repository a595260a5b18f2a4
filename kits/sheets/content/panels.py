"""How large the panels of a flat part are as its drawing shows them: what lies between scores and cuts adds up."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from fractions import Fraction
from itertools import accumulate, pairwise

from layouts.drawing.fold_words import said
from layouts.drawing.spans import shown_spans
from layouts.shapes.forms import Area, FlatSheet

__all__ = ["panel_words", "shown_areas"]

# Areas that are told: a strip may be folded ten thousand times.
_MOST_AREAS = 240


def shown_areas(sheet: FlatSheet, size: tuple[int, int], step: int) -> Iterator[tuple[Area, tuple[int, int]]]:
    """Yield the panels and tabs of a flat part with width and height as shown, in ticks; waste is left out.

    `size` is that of the part as it is printed, `step` the printed step.
    """
    across, up = (_shown_spots(sheet, axis, size[axis], step) for axis in (0, 1))
    for area in sheet.areas[:_MOST_AREAS]:
        if area.role != "waste":
            right, top = area.left + area.width, area.bottom + area.height
            yield area, (across[right] - across[area.left], up[top] - up[area.bottom])


def panel_words(
    areas: Sequence[tuple[Area, tuple[int, int]]], figure: Callable[[int], str]
) -> tuple[tuple[str, str], ...]:
    """Return names in words with the size that they share, panels before tabs, in the order of the form."""
    alike: dict[tuple[str, tuple[int, int]], list[str]] = {}
    for area, size in sorted(areas, key=lambda one: one[0].role != "panel"):
        alike.setdefault((area.role, size), []).append(area.name)
    return tuple((said(names), " × ".join(map(figure, size))) for (_, size), names in alike.items())


def _shown_spots(sheet: FlatSheet, axis: int, whole: int, step: int) -> Mapping[Fraction, int]:
    """Where along one axis each edge, cut and score lies as shown, in ticks."""
    end = sheet.height if axis else sheet.width
    scored = {one.start[axis] for one in sheet.creases if one.start[axis] == one.end[axis]}
    cut = {spot[axis] for line in sheet.cuts for spot in line}
    edges = {spot[axis] for area in sheet.areas[:_MOST_AREAS] for spot in area.corners}
    spots = sorted({Fraction(0), *scored, *cut, end})
    spans = shown_spans([after - before for before, after in pairwise(spots)], whole, step)
    found = dict(zip(spots, accumulate(spans, initial=0), strict=True))
    # What ends between two lines (a corner cut off aslant) is shown where it is.
    return found | {edge: round(edge / step) * step for edge in edges if edge not in found}
