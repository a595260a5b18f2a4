"""A flat tag."""

from __future__ import annotations

from fractions import Fraction

from layouts.document.forms import FlatTag
from layouts.shapes.forms.flat import ExactSize, FormPaper, thickness
from layouts.shapes.forms.folded import Area, Fault, FlatSheet, Folded, FoldedSize, Hole, Spot
from layouts.shapes.forms.names import NamedPanels

__all__ = ["faults", "flat_parts", "fold", "names"]


def flat_parts(form: FlatTag, paper: FormPaper) -> tuple[ExactSize, ...]:
    """Return the one part, of the size as given: corners and hole are cut from it."""
    return (ExactSize.exactly(form.size),)


def fold(form: FlatTag, paper: FormPaper) -> Folded:
    """Return the tag: the stated length is cut off both edges at each corner.

    The document does not say where the hole is: in the middle of the width, its own diameter below the top edge, or in
    the very middle of a tag less than four diameters high (common practice, no source).
    """
    size, cut = ExactSize.exactly(form.size), Fraction(form.corner.ticks)
    wrong = faults(form, paper)
    if any(fault.kind == "corner" for fault in wrong):
        cut = Fraction(0)
    holes: tuple[Hole, ...] = ()
    if form.hole is not None:
        diameter = Fraction(form.hole.ticks)
        below = diameter + diameter / 2 if size.height >= 4 * diameter else size.height / 2
        holes = (Hole(Spot(size.width / 2, size.height - below), diameter),)
    corners, waste = _cut_corners(size, cut)
    sheet = FlatSheet(
        None, size.width, size.height, ((*corners, corners[0]),), (), (Area("base", corners), *waste), holes
    )
    flat = FoldedSize(size.width, size.height, thickness(paper.caliper_um))
    return Folded((sheet,), (), flat, faults=wrong)


def faults(form: FlatTag, paper: FormPaper) -> tuple[Fault, ...]:
    """Return why it cannot be cut: corners that meet before they end, a hole as large as the tag."""
    narrow = Fraction(min(form.size.width, form.size.height).ticks)
    found = []
    if 2 * form.corner.ticks > narrow:
        found.append(Fault("corner", "corner", "base", Fraction(form.corner.ticks), narrow / 2))
    if form.hole is not None and form.hole.ticks >= narrow:
        found.append(Fault("hole", "hole", "base", Fraction(form.hole.ticks), narrow))
    return tuple(found)


def names(form: FlatTag) -> NamedPanels:
    """Return the name of the one panel."""
    return NamedPanels("base")


def _cut_corners(size: ExactSize, cut: Fraction) -> tuple[tuple[Spot, ...], tuple[Area, ...]]:
    """The outline anticlockwise from the lower left, and the triangles cut off."""
    zero, right, top = Fraction(0), size.width, size.height
    tips = {
        "left-bottom": (Spot(zero, cut), Spot(zero, zero), Spot(cut, zero)),
        "right-bottom": (Spot(right - cut, zero), Spot(right, zero), Spot(right, cut)),
        "right-top": (Spot(right, top - cut), Spot(right, top), Spot(right - cut, top)),
        "left-top": (Spot(cut, top), Spot(zero, top), Spot(zero, top - cut)),
    }
    if not cut:
        return tuple(tip for _, tip, _ in tips.values()), ()
    spots = [spot for before, _, after in tips.values() for spot in (before, after)]
    # Corners that meet in the middle of a side make one spot of two.
    outline = tuple(spot for index, spot in enumerate(spots) if spot != spots[index - 1])
    return outline, tuple(Area(f"waste-{name}", corners, "waste") for name, corners in tips.items())
