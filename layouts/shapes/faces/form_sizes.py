"""What placements need to know of forms: the sizes of panels, what lies over a fold, and on what a box stands."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction

from layouts.document import Form, Kit, Paper, Project
from layouts.document.forms import Concertina, Lid, Scored, Sleeve, Tray
from layouts.shapes.forms import FlatSizes, PanelNames, panel_names
from layouts.shapes.forms.flat import ExactSize, thickness
from layouts.shapes.forms.folded import Side
from layouts.shapes.not_built import NotBuilt

__all__ = ["FormSizes"]

# What forms may cost that are folded for the placements of one kit, in score lines; a fold costs as much as this many.
# What is beyond is not known.
_MOST_SCORES = 10_000
_EACH_FOLD = 32
_SIDES: tuple[Side, ...] = ("left", "right", "top", "bottom")


class FormSizes:
    """The forms of a kit, each worked out once, from the first of its papers; what cannot be is left unknown."""

    __slots__ = ("_flat", "_footprints", "_names", "_panels", "_papers", "_scores_left")

    def __init__(self, kit: Kit) -> None:
        self._flat = FlatSizes.of(kit)
        self._papers = {paper.id: paper for paper in kit.papers}
        self._names: dict[tuple[str, str], PanelNames] = {}
        self._panels: dict[tuple[str, str], Mapping[str, ExactSize]] = {}
        self._footprints: dict[tuple[str, str], tuple[Fraction, Fraction] | None] = {}
        self._scores_left = _MOST_SCORES

    def panel(self, project: Project, form: Form, name: str) -> ExactSize | None:
        """Return the size of a panel, as the flat part lies; None where it is not known."""
        key = project.id, form.id
        if key not in self._panels:
            self._panels[key] = self._panels_of(project, form)
        return self._panels[key].get(name)

    def give(self, form: Form) -> Fraction:
        """Return how far the sizes of a form's panels are uncertain, in ticks.

        That is twice the thickness of its thickest paper where walls stand up or fold over each other, and nothing
        where a form lies flat or no thickness is stated.
        """
        if not isinstance(form, Tray | Lid | Sleeve | Scored):
            return Fraction(0)
        names = (form.paper,) if isinstance(form.paper, str) else form.paper.each
        return 2 * thickness(max(self._papers[name].caliper_um or 0 for name in names))

    def beyond(self, project: Project, form: Form, name: str) -> dict[Side, tuple[str, ExactSize]]:
        """Return name and size of the panel over each fold of a panel, as the flat part lies; other sides are left
        out."""
        key = project.id, form.id
        if key not in self._names:
            self._names[key] = panel_names(form)
        found: dict[Side, tuple[str, ExactSize]] = {}
        for side in _SIDES:
            over = self._names[key].beside(name, side)
            size = self.panel(project, form, over) if over is not None else None
            if over is not None and size is not None:
                found[side] = over, size
        return found

    def footprint(self, project: Project, form: Form) -> tuple[Fraction, Fraction] | None:
        """Return the width and depth on which a box stands, None where that is not known."""
        key = project.id, form.id
        if key not in self._footprints:
            self._footprints[key] = self._footprint_of(project, form)
        return self._footprints[key]

    def _panels_of(self, project: Project, form: Form) -> Mapping[str, ExactSize]:
        # All panels of a concertina are alike: nothing is folded for them.
        if isinstance(form, Concertina) or self._may_fold(form):
            try:
                return self._flat.panels(form, project.id, self._paper(form))
            except NotBuilt:
                return {}
        return {}

    def _footprint_of(self, project: Project, form: Form) -> tuple[Fraction, Fraction] | None:
        if not self._may_fold(form):
            return None
        try:
            folded = self._flat.fold(form, project.id, self._paper(form))
        except NotBuilt:
            return None
        return None if folded.faults else (folded.size.width, folded.size.depth)

    def _may_fold(self, form: Form) -> bool:
        """Whether there is work left to be done for a form, which is then done."""
        cost = _EACH_FOLD + (len(form.scores) if isinstance(form, Scored) else 0)
        self._scores_left -= cost
        return self._scores_left >= 0

    def _paper(self, form: Form) -> Paper:
        return self._papers[form.paper if isinstance(form.paper, str) else form.paper.each[0]]
