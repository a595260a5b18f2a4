"""A band around something."""

from __future__ import annotations

from layouts.document.forms import Sleeve
from layouts.shapes.forms.flat import ExactSize, FormPaper, thickness

__all__ = ["flat_parts"]


def flat_parts(form: Sleeve, paper: FormPaper) -> tuple[ExactSize, ...]:
    """Return the one strip, as wide as it goes around: four sides, a thickness and a clearance for each, the overlap.

    Source: the forms table of the kit document.
    """
    width, depth = form.around
    around = 2 * (width + depth) + 4 * form.clearance + form.overlap
    return (ExactSize.of(around.ticks + 4 * thickness(paper.caliper_um), form.length.ticks),)
