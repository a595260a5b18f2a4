"""A flat tag."""

from __future__ import annotations

from layouts.document.forms import FlatTag
from layouts.shapes.forms.flat import ExactSize, FormPaper

__all__ = ["flat_parts"]


def flat_parts(form: FlatTag, paper: FormPaper) -> tuple[ExactSize, ...]:
    """Return the one part, of the size as given: corners and hole are cut from it."""
    return (ExactSize.exactly(form.size),)
