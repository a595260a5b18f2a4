"""An open tray with single or double walls."""

from __future__ import annotations

from fractions import Fraction

from layouts.document.forms import Tray
from layouts.shapes.forms.boxes import box_faults, fold_box, names_around, walled_arms
from layouts.shapes.forms.flat import ExactSize, FormPaper, thickness
from layouts.shapes.forms.folded import Fault, Folded
from layouts.shapes.forms.names import NamedPanels
from layouts.shapes.forms.walls import flat_from_scores, scores_around, scores_within

__all__ = ["faults", "flat_parts", "fold", "names", "scores"]


def flat_parts(form: Tray, paper: FormPaper) -> tuple[ExactSize, ...]:
    """Return the one sheet a tray is folded from. Raises: NotBuilt."""
    return (flat_from_scores(form, scores(form, thickness(paper.caliper_um))),)


def fold(form: Tray, paper: FormPaper) -> Folded:
    """Return the tray folded. Raises: NotBuilt."""
    thick = thickness(paper.caliper_um)
    return fold_box(form, scores(form, thick), thick)


def faults(form: Tray, paper: FormPaper) -> tuple[Fault, ...]:
    """Return why the tray cannot be folded as it is given. Raises: NotBuilt."""
    return box_faults(form, scores(form, thickness(paper.caliper_um)))


def names(form: Tray) -> NamedPanels:
    """Return the names of the base and of the strips around it."""
    return names_around(walled_arms(form))


def scores(form: Tray, thick: Fraction) -> ExactSize:
    """Return the distances from score to score (ticks). Raises: NotBuilt."""
    if form.inside is not None:
        return scores_around(ExactSize.exactly(form.inside), form.walls, thick)
    if form.outside is None:
        raise ValueError("a tray has an inside or an outside")
    return scores_within(form.name, form.outside, form.walls, thick)
