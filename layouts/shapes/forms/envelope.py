"""A sheet folded around what it holds."""

from __future__ import annotations

from layouts.document.forms import Envelope
from layouts.shapes.forms.flat import ExactSize, FormPaper

__all__ = ["flat_parts"]


def flat_parts(form: Envelope, paper: FormPaper) -> tuple[ExactSize, ...]:
    """Return the one sheet: the contents with their clearance, and the flaps.

    Source: the forms table of the kit document.
    """
    width, height = (side + 2 * form.clearance for side in form.holds)
    return (ExactSize.of((width + 2 * form.side_flap).ticks, (height + form.bottom_flap + form.top_flap).ticks),)
