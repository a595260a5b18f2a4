"""A panel with flaps on three sides."""

from __future__ import annotations

from fractions import Fraction

from layouts.document.forms import Pocket
from layouts.shapes.forms.cross import SIDES, Strip, cross
from layouts.shapes.forms.flat import ExactSize, FormPaper, thickness
from layouts.shapes.forms.folded import Fault, Folded, FoldedSize, FoldStep
from layouts.shapes.forms.grain import grain_along_folds
from layouts.shapes.forms.names import NamedPanels

__all__ = ["faults", "flat_parts", "fold", "names"]


def flat_parts(form: Pocket, paper: FormPaper) -> tuple[ExactSize, ...]:
    """Return the one sheet: a flap on each side but the open one.

    Source: the forms table of the kit document.
    """
    width, height, flap = form.panel.width.ticks, form.panel.height.ticks, form.flap.ticks
    across, upright = (2, 1) if form.open in ("top", "bottom") else (1, 2)
    return (ExactSize.of(width + across * flap, height + upright * flap),)


def fold(form: Pocket, paper: FormPaper) -> Folded:
    """Return the pocket with its flaps folded behind the panel, where they are glued to what it is put on."""
    panel, flap = ExactSize.exactly(form.panel), Fraction(form.flap.ticks)
    arms = {side: [Strip(f"flap-{side}", flap, turn=180, role="tab")] for side in SIDES if side != form.open}
    sheet = cross(panel, arms, "cut")
    # Two layers where a flap lies, three in a corner where two flaps meet: the usual case is told.
    size = FoldedSize(panel.width, panel.height, 2 * thickness(paper.caliper_um))
    return Folded((sheet,), (FoldStep(sheet.creases),), size, grain_along_folds(sheet.creases), faults(form, paper))


def faults(form: Pocket, paper: FormPaper) -> tuple[Fault, ...]:
    """Return why it cannot be folded: a flap sticks out on the other side of the panel. Told once for both sides."""
    flap = form.flap.ticks
    sides = {"left": form.panel.width.ticks, "right": form.panel.width.ticks}
    sides |= {"bottom": form.panel.height.ticks, "top": form.panel.height.ticks}
    found = {
        limit: Fault("flap", f"flap-{side}", "base", Fraction(flap), Fraction(limit))
        for side, limit in sides.items()
        if side != form.open and flap > limit
    }
    return tuple(found.values())


def names(form: Pocket) -> NamedPanels:
    """Return the name of the one panel; the flaps are tabs."""
    return NamedPanels("base")
