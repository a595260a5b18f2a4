"""Four strips around an opening."""

from __future__ import annotations

from layouts.document.forms import Frame
from layouts.shapes.forms.flat import ExactSize, FormPaper

__all__ = ["flat_parts"]


def flat_parts(form: Frame, paper: FormPaper) -> tuple[ExactSize, ...]:
    """Return the strips at the top, bottom, left and right, as they lie in the frame.

    Mitred strips are as long as the frame is outside; butted ones let the top and the bottom run through.
    Source: mitres and frames (identity): outside (w + 2f) × (h + 2f), long points equal the outside sides.
    """
    width, height, face = form.opening.width.ticks, form.opening.height.ticks, form.width.ticks
    across = ExactSize.of(width + 2 * face, face)
    upright = ExactSize.of(face, height + 2 * face if form.corner == "mitre" else height)
    return across, across, upright, upright
