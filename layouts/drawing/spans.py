"""Measures in one line that add up as they are shown: what lies on the printed step stays, the rest shares."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from itertools import groupby, pairwise
from math import floor

from layouts.drawing.dimensions import Chain, Segment

__all__ = ["chain_of", "shown_spans"]

# So many equal measures side by side, or more, are told as one.
_ALIKE = 4


def shown_spans(spans: Sequence[Fraction], total: int, step: int) -> list[int]:
    """Return exact spans (ticks) as multiples of a step that add up to `total`, which is one itself.

    A span on the step stays as it is, so that what is stated is shown as it is stated. The others are rounded down, and
    what is missing goes to those that lost most, the first first; beyond that to the longest span of all.
    Source: largest remainders (Hamilton 1790, from memory).

    >>> shown_spans([Fraction(320), Fraction(1001), Fraction(320)], 1920, 320)
    [320, 1280, 320]
    """
    shown = [floor(span / step) * step for span in spans]
    uneven = [at for at, span in enumerate(spans) if span % step]
    uneven.sort(key=lambda at: (shown[at] - spans[at], at))
    left = total - sum(shown)
    for at in uneven:
        if left >= step:
            shown[at] += step
            left -= step
    if left and spans:
        longest = max(range(len(spans)), key=lambda at: (bool(spans[at] % step), spans[at], -at))
        shown[longest] += left
    return shown


def chain_of(spots: Sequence[Fraction], total: int, step: int, most: int) -> tuple[Chain, int]:
    """Return the chain of dimensions from spot to spot (rising, ticks), and how many measures it leaves out.

    `total` is the whole as it is shown. Equal neighbours are told as one measure and its number; a chain has no more
    than `most` segments.
    """
    shown = shown_spans([after - before for before, after in pairwise(spots)], total, step)
    ends = [round(spot) for spot in spots]
    segments: list[Segment] = []
    at = 0
    for measure, alike in groupby(shown):
        count = len(list(alike))
        each = count if count >= _ALIKE else 1
        for first in range(at, at + count, each):
            segments.append(Segment(ends[first], ends[first + each], measure, each))
        at += count
    kept = [segment for segment in segments if segment.measure and segment.start < segment.end]
    return Chain(tuple(kept[:most])), sum(segment.times for segment in kept[most:])
