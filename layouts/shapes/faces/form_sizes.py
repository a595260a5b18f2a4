"""What placements need to know of forms: the sizes of panels, what lies over a fold, and on what a box stands."""

from __future__ import annotations

from collections.abc import Mapping
from contextlib import suppress
from dataclasses import replace
from fractions import Fraction

from layouts.document import Form, Kit, Paper, Project
from layouts.document.forms import Concertina, Scored
from layouts.shapes.forms import FlatSizes
from layouts.shapes.forms.flat import ExactSize, thickness
from layouts.shapes.forms.folded import Crease, Folded, Side, neighbour
from layouts.shapes.not_built import NotBuilt

__all__ = ["FormSizes"]

# Panels of one kit that are folded for placements; a short line may ask for ten thousand.
_MOST_PANELS = 20_000
_SIDES: tuple[Side, ...] = ("left", "right", "top", "bottom")


class FormSizes:
    """The forms of a kit, each worked out once, from the first of its papers; what cannot be is left unknown."""

    __slots__ = ("_flat", "_folded", "_panels", "_panels_left", "_papers")

    def __init__(self, kit: Kit) -> None:
        self._flat = FlatSizes.of(kit)
        self._papers = {paper.id: paper for paper in kit.papers}
        self._panels: dict[tuple[str, str], Mapping[str, ExactSize]] = {}
        self._folded: dict[tuple[str, str], _Unfolded | None] = {}
        self._panels_left = _MOST_PANELS

    def panel(self, project: Project, form: Form, name: str) -> ExactSize | None:
        """Return the size of a panel, as the flat part lies; None where it is not known."""
        key = project.id, form.id
        if key not in self._panels:
            self._panels[key] = self._panels_of(project, form)
        return self._panels[key].get(name)

    def thickness(self, form: Form) -> Fraction:
        """Return the thickness of the thickest of its papers, in ticks; 0 where none is stated."""
        names = (form.paper,) if isinstance(form.paper, str) else form.paper.each
        return thickness(max(self._papers[name].caliper_um or 0 for name in names))

    def beyond(self, project: Project, form: Form, name: str) -> dict[Side, Fraction]:
        """Return how deep the panel over each fold of a panel is, away from the fold; other sides are left out."""
        unfolded = self._unfolded(project, form)
        return {} if unfolded is None else unfolded.beyond(name)

    def footprint(self, project: Project, form: Form) -> tuple[Fraction, Fraction] | None:
        """Return the width and depth on which a box stands, None where that is not known."""
        unfolded = self._unfolded(project, form)
        if unfolded is None or unfolded.folded.faults:
            return None
        return unfolded.folded.size.width, unfolded.folded.size.depth

    def _panels_of(self, project: Project, form: Form) -> Mapping[str, ExactSize]:
        if not isinstance(form, Concertina) and not self._may_fold(form):
            return {}
        try:
            return self._flat.panels(form, project.id, self._paper(form))
        except NotBuilt:
            return {}

    def _unfolded(self, project: Project, form: Form) -> _Unfolded | None:
        key = project.id, form.id
        if key not in self._folded:
            self._folded[key] = None
            if self._may_fold(form):
                with suppress(NotBuilt):
                    self._folded[key] = _Unfolded(self._flat.fold(form, project.id, self._paper(form)))
        return self._folded[key]

    def _may_fold(self, form: Form) -> bool:
        """Whether there is work left to be done for a form, which is then done."""
        panels = form.panels if isinstance(form, Concertina) else len(form.scores) if isinstance(form, Scored) else 1
        if panels > self._panels_left:
            return False
        self._panels_left -= panels
        return True

    def _paper(self, form: Form) -> Paper:
        return self._papers[form.paper if isinstance(form.paper, str) else form.paper.each[0]]


class _Unfolded:
    """A folded form in which the panels over the folds of each panel are found without looking at all of them."""

    __slots__ = ("_creases", "_sheets", "folded")

    def __init__(self, folded: Folded) -> None:
        self.folded = folded
        self._sheets = {area.name: (sheet, area) for sheet in folded.sheets for area in sheet.areas}
        self._creases: dict[str, list[Crease]] = {}
        for sheet in folded.sheets:
            for crease in sheet.creases:
                for name in crease.between:
                    self._creases.setdefault(name, []).append(crease)

    def beyond(self, name: str) -> dict[Side, Fraction]:
        if name not in self._sheets:
            return {}
        sheet, area = self._sheets[name]
        small = replace(sheet, areas=(area,), creases=tuple(self._creases.get(name, ())))
        found: dict[Side, Fraction] = {}
        for side in _SIDES:
            over = neighbour(small, name, side)
            if over is not None and self._sheets[over][1].role == "panel":
                turned = self._sheets[over][1]
                found[side] = turned.width if side in ("left", "right") else turned.height
        return found
