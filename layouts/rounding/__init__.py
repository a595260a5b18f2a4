"""Figures on the grid of a printed step: one by itself, or many so that the sums among them still hold."""

from layouts.rounding.relations import Relation
from layouts.rounding.steps import nearest_step, step_up
from layouts.rounding.together import Rounded, Rounding

__all__ = ["Relation", "Rounded", "Rounding", "nearest_step", "step_up"]
