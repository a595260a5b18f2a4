"""A panel with flaps on three sides."""

from __future__ import annotations

from layouts.document.forms import Pocket
from layouts.shapes.forms.flat import ExactSize, FormPaper

__all__ = ["flat_parts"]


def flat_parts(form: Pocket, paper: FormPaper) -> tuple[ExactSize, ...]:
    """Return the one sheet: a flap on each side but the open one.

    Source: the forms table of the kit document.
    """
    width, height, flap = form.panel.width.ticks, form.panel.height.ticks, form.flap.ticks
    across, upright = (2, 1) if form.open in ("top", "bottom") else (1, 2)
    return (ExactSize.of(width + across * flap, height + upright * flap),)
