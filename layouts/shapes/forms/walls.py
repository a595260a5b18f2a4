"""Boxes with a base and four walls, trays and lids alike: from scores to the flat part, and to inside and outside."""

from __future__ import annotations

from fractions import Fraction

from layouts.document import Size
from layouts.document.forms import Lid, Tray
from layouts.shapes.forms.flat import ExactSize
from layouts.shapes.not_built import NotBuilt

__all__ = ["flat_from_scores", "inside_from_scores", "outside_from_scores", "scores_around", "scores_within"]


def scores_around(inside: ExactSize, walls: str, thick: Fraction) -> ExactSize:
    """Return the distances from score to score that leave this size inside (ticks).

    A score line is the middle of the wall that folds there: half a thickness beyond the inside on each side, and one
    thickness more where the wall is doubled.
    Source: the forms table of the kit document; FEFCO/ESBO measure from crease centre to crease centre.
    """
    more = _within(walls) * thick
    return ExactSize(inside.width + more, inside.height + more)


def inside_from_scores(scores: ExactSize, walls: str, thick: Fraction) -> ExactSize:
    """Return the size inside (ticks), the other way about."""
    less = _within(walls) * thick
    return ExactSize(scores.width - less, scores.height - less)


def _within(walls: str) -> int:
    return 3 if walls == "double" else 1


def scores_within(name: str, outside: Size, walls: str, thick: Fraction) -> ExactSize:
    """Return the distances from score to score of a box of this size outside (ticks): half a thickness within.

    Raises: NotBuilt for a box no larger than its walls are thick.
    """
    exact = ExactSize.exactly(outside)
    scores = ExactSize(exact.width - thick, exact.height - thick)
    inside = inside_from_scores(scores, walls, thick)
    if min(inside.width, inside.height) <= 0:
        size = f"{outside.width} × {outside.height}"
        raise NotBuilt(f"“{name}” is {size} outside, no more than its walls are thick: nothing can be folded")
    return scores


def outside_from_scores(scores: ExactSize, thick: Fraction) -> ExactSize:
    """Return the size outside, single or double walled (ticks): half a thickness beyond each score."""
    return ExactSize(scores.width + thick, scores.height + thick)


def flat_from_scores(form: Tray | Lid, scores: ExactSize) -> ExactSize:
    """Return the flat part: on each side of the base the wall, what turns in, and the flange (ticks)."""
    more = 2 * (form.depth + form.turned_in + form.flange).ticks
    return ExactSize(scores.width + more, scores.height + more)
