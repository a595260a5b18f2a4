"""Which way the grain should run."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from typing import Literal

from layouts.shapes.forms.folded import Crease

__all__ = ["grain_along_folds"]


def grain_along_folds(creases: Sequence[Crease]) -> Literal["up", "sideways"] | None:
    """Return how the grain should run on a flat part: along its longest fold; None where folds both ways are as long.

    Source: common practice, no source (paper folds cleanly along its grain, and card cracks across it).
    """
    upright = max((crease.length for crease in creases if crease.upright), default=Fraction(0))
    level = max((crease.length for crease in creases if not crease.upright), default=Fraction(0))
    if upright == level:
        return None
    return "up" if upright > level else "sideways"
