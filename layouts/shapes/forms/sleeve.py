"""A band around something."""

from __future__ import annotations

from fractions import Fraction

from layouts.document.forms import Sleeve
from layouts.shapes.forms.cross import Strip, cross
from layouts.shapes.forms.flat import ExactSize, FormPaper, thickness
from layouts.shapes.forms.folded import Fault, Folded, FoldedSize, FoldStep, Glued
from layouts.shapes.forms.grain import grain_along_folds
from layouts.shapes.forms.names import NamedPanels

__all__ = ["faults", "flat_parts", "fold", "names"]


def flat_parts(form: Sleeve, paper: FormPaper) -> tuple[ExactSize, ...]:
    """Return the one strip, as wide as it goes around: four sides, a thickness and a clearance for each, the overlap.

    Source: the forms table of the kit document.
    """
    wide, deep = _panels(form, paper)
    return (ExactSize.of(2 * (wide + deep) + form.overlap.ticks, form.length.ticks),)


def fold(form: Sleeve, paper: FormPaper) -> Folded:
    """Return the strip with its four scores; the overlap is glued behind the first panel."""
    wide, deep = _panels(form, paper)
    overlap, length = Fraction(form.overlap.ticks), Fraction(form.length.ticks)
    right = [Strip("panel-2", deep), Strip("panel-3", wide), Strip("panel-4", deep), Strip("tab", overlap, role="tab")]
    sheet = cross(ExactSize(wide, length), {"right": right}, "cut", "panel-1")
    thick = thickness(paper.caliper_um)
    size = FoldedSize(wide + thick, deep + thick, length)
    steps = (FoldStep(sheet.creases, (Glued("tab", "panel-1"),)),)
    return Folded((sheet,), steps, size, grain_along_folds(sheet.creases), faults(form, paper))


def faults(form: Sleeve, paper: FormPaper) -> tuple[Fault, ...]:
    """Return why it cannot be folded: the overlap goes around the next corner."""
    wide, _ = _panels(form, paper)
    overlap = Fraction(form.overlap.ticks)
    return (Fault("flap", "tab", "panel-1", overlap, wide),) if overlap > wide else ()


def names(form: Sleeve) -> NamedPanels:
    """Return the names of the four panels, from the left: across the width, the depth, the width, the depth."""
    return NamedPanels("panel-1", {"right": ("panel-2", "panel-3", "panel-4")})


def _panels(form: Sleeve, paper: FormPaper) -> tuple[Fraction, Fraction]:
    """The panels across the width and the depth of what is held, from score to score (ticks)."""
    more = form.clearance.ticks + thickness(paper.caliper_um)
    width, depth = form.around
    return width.ticks + more, depth.ticks + more
