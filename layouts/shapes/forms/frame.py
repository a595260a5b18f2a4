"""Four strips around an opening."""

from __future__ import annotations

from fractions import Fraction

from layouts.document.forms import Frame
from layouts.shapes.forms.flat import ExactSize, FormPaper, thickness
from layouts.shapes.forms.folded import Area, Fault, FlatSheet, Folded, FoldedSize, Side, Spot
from layouts.shapes.forms.names import NamedPanels

__all__ = ["faults", "flat_parts", "fold", "names"]

_SIDES: tuple[Side, ...] = ("top", "bottom", "left", "right")


def flat_parts(form: Frame, paper: FormPaper) -> tuple[ExactSize, ...]:
    """Return the strips at the top, bottom, left and right, as they lie in the frame.

    Mitred strips are as long as the frame is outside; butted ones let the top and the bottom run through.
    Source: mitres and frames (identity): outside (w + 2f) × (h + 2f), long points equal the outside sides.
    """
    width, height, face = form.opening.width.ticks, form.opening.height.ticks, form.width.ticks
    across = ExactSize.of(width + 2 * face, face)
    upright = ExactSize.of(face, height + 2 * face if form.corner == "mitre" else height)
    return across, across, upright, upright


def fold(form: Frame, paper: FormPaper) -> Folded:
    """Return the four strips; nothing is folded. A mitre takes a triangle off each end, its short side at the opening.

    Source: mitre angle 180° / n, for four sides 45° (identity).
    """
    sheets = tuple(
        _strip(form, number, side, size)
        for number, (side, size) in enumerate(zip(_SIDES, flat_parts(form, paper), strict=True), start=1)
    )
    face = 2 * form.width.ticks
    outside = ExactSize.of(form.opening.width.ticks + face, form.opening.height.ticks + face)
    size = FoldedSize(outside.width, outside.height, thickness(paper.caliper_um))
    return Folded(sheets, (), size)


def faults(form: Frame, paper: FormPaper) -> tuple[Fault, ...]:
    """Return nothing: a mitre ends before it meets the next one, whatever the opening."""
    return ()


def names(form: Frame) -> NamedPanels:
    """Return the names of the strips, in the order in which they are numbered."""
    first, *others = (f"strip-{side}" for side in _SIDES)
    return NamedPanels(first, apart=tuple(others))


def _strip(form: Frame, number: int, side: Side, size: ExactSize) -> FlatSheet:
    corners: tuple[Spot, ...] = _rectangle(size)
    waste: tuple[Area, ...] = ()
    if form.corner == "mitre":
        corners, waste = _mitred(side, size)
    cut = (*corners, corners[0])
    return FlatSheet(number, size.width, size.height, (cut,), (), (Area(f"strip-{side}", corners), *waste))


def _mitred(side: Side, size: ExactSize) -> tuple[tuple[Spot, ...], tuple[Area, ...]]:
    """The trapezium that a strip becomes, and the two triangles cut off it, named by the corners of the frame."""
    low, right, high, left = _rectangle(size)
    face = min(size.width, size.height)
    # Each end of the side at the opening moves in by the width of the strip.
    match side:
        case "top":
            inner_low, inner_right = Spot(face, Fraction(0)), Spot(size.width - face, Fraction(0))
            corners = inner_low, inner_right, high, left
            triangles = {"left": (low, inner_low, left), "right": (inner_right, right, high)}
        case "bottom":
            inner_high, inner_left = Spot(size.width - face, size.height), Spot(face, size.height)
            corners = low, right, inner_high, inner_left
            triangles = {"left": (low, inner_left, left), "right": (right, high, inner_high)}
        case "left":
            inner_right, inner_high = Spot(size.width, face), Spot(size.width, size.height - face)
            corners = low, inner_right, inner_high, left
            triangles = {"bottom": (low, right, inner_right), "top": (inner_high, high, left)}
        case "right":
            inner_low, inner_left = Spot(Fraction(0), face), Spot(Fraction(0), size.height - face)
            corners = inner_low, right, high, inner_left
            triangles = {"bottom": (low, right, inner_low), "top": (inner_left, high, left)}
    return corners, tuple(Area(f"waste-{side}-{end}", spots, "waste") for end, spots in triangles.items())


def _rectangle(size: ExactSize) -> tuple[Spot, Spot, Spot, Spot]:
    zero = Fraction(0)
    return Spot(zero, zero), Spot(size.width, zero), Spot(size.width, size.height), Spot(zero, size.height)
