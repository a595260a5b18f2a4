"""A sheet given by its score lines."""

from __future__ import annotations

from layouts.document.forms import Scored
from layouts.shapes.forms.flat import ExactSize, FormPaper

__all__ = ["flat_parts"]


def flat_parts(form: Scored, paper: FormPaper) -> tuple[ExactSize, ...]:
    """Return the one part, of the size as given: scores and corners do not change it."""
    return (ExactSize.exactly(form.size),)
