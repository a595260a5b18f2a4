"""Which way the grain should run."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Literal

from layouts.shapes.forms.folded import Crease

__all__ = ["grain_along_folds"]


def grain_along_folds(creases: Sequence[Crease]) -> Literal["up", "sideways"] | None:
    """Return how the grain should run on a flat part: along the longer of its folds, taken together; None on a tie.

    Source: common practice, no source (paper folds cleanly along its grain, and card cracks across it).
    """
    upright = sum(crease.length for crease in creases if crease.upright)
    level = sum(crease.length for crease in creases if not crease.upright)
    if upright == level:
        return None
    return "up" if upright > level else "sideways"
