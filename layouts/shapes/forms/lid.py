"""A tray turned over something: given like a tray, or by what it fits."""

from __future__ import annotations

from fractions import Fraction

from layouts.document.forms import Lid
from layouts.shapes.forms.boxes import box_faults, fold_box, names_around, walled_arms
from layouts.shapes.forms.flat import ExactSize, FormPaper, thickness
from layouts.shapes.forms.folded import Fault, Folded
from layouts.shapes.forms.names import NamedPanels
from layouts.shapes.forms.walls import flat_from_scores, scores_around, scores_within

__all__ = ["faults", "flat_parts", "fold", "names", "scores"]


def flat_parts(form: Lid, paper: FormPaper, covered: ExactSize | None) -> tuple[ExactSize, ...]:
    """Return the one sheet a lid is folded from; `covered` as for `scores`. Raises: NotBuilt."""
    return (flat_from_scores(form, scores(form, thickness(paper.caliper_um), covered)),)


def fold(form: Lid, paper: FormPaper, covered: ExactSize | None) -> Folded:
    """Return the lid folded; `covered` as for `scores`. Raises: NotBuilt."""
    thick = thickness(paper.caliper_um)
    return fold_box(form, scores(form, thick, covered), thick)


def faults(form: Lid, paper: FormPaper, covered: ExactSize | None) -> tuple[Fault, ...]:
    """Return why the lid cannot be folded as it is given; `covered` as for `scores`. Raises: NotBuilt."""
    return box_faults(form, scores(form, thickness(paper.caliper_um), covered))


def names(form: Lid) -> NamedPanels:
    """Return the names of the base and of the strips around it."""
    return names_around(walled_arms(form))


def scores(form: Lid, thick: Fraction, covered: ExactSize | None) -> ExactSize:
    """Return the distances from score to score (ticks); `covered` is the outside of what the lid fits, if it does.

    Source: the forms table; inside of the lid ≥ outside of the tray plus clearance (identity).
    Raises: NotBuilt.
    """
    if covered is not None:
        room = 2 * form.clearance.ticks
        return scores_around(ExactSize(covered.width + room, covered.height + room), form.walls, thick)
    if form.inside is not None:
        return scores_around(ExactSize.exactly(form.inside), form.walls, thick)
    if form.outside is None:
        raise ValueError("a lid has an inside, an outside or something that it fits")
    return scores_within(form.name, form.outside, form.walls, thick)
