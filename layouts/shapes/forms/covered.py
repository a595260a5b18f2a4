"""How large what a lid covers is outside, with the layers on its walls, where that is certain."""

from __future__ import annotations

from dataclasses import dataclass, field
from fractions import Fraction

from layouts.document import Blank, Form, Kit, Size
from layouts.document.forms import Covered, Lid, Scored, Tray
from layouts.shapes.forms import lid, scored, tray
from layouts.shapes.forms.flat import ExactSize, thickness
from layouts.shapes.forms.layers import Layers
from layouts.shapes.forms.walls import inside_from_scores, outside_from_scores
from layouts.shapes.not_built import NotBuilt

__all__ = ["MOST_NESTED", "Coverable"]

# Lids over lids; a lid that covers itself through others is met here too.
MOST_NESTED = 8


@dataclass(frozen=True, slots=True)
class Coverable:
    """What the lids of a kit may cover, and what is put on it."""

    layers: Layers
    _layouts: dict[tuple[str, str], scored.Layout] = field(default_factory=dict, repr=False, compare=False)

    @classmethod
    def of(cls, kit: Kit) -> Coverable:
        return cls(Layers(kit))

    def outside(self, form: Lid, project: str, copy: int | None) -> ExactSize | None:
        """Return the outside of what a lid of this project fits, with the layers on its walls, as seen from above
        (ticks); None if it fits nothing. A size that a lid is said to fit is taken as it is.

        `copy` counts from 0 which of the project's copies the lid belongs to, None where they are all alike.
        Raises: NotBuilt where the size is not certain: it is not stated, it is a form whose outside is not worked out,
        or its paper differs from copy to copy.
        """
        return self._covered(form, project, copy, 0)

    def outside_of_blank(self, name: str) -> ExactSize:
        """Return the outside of a blank with the layers on its walls (ticks). Raises: NotBuilt as `outside` does."""
        blank = self.layers.blanks[name]
        return _widened(_outside_of_blank(blank), self.layers.on_walls_of_blank(blank))

    def outside_of_form(self, project: str, name: str) -> ExactSize:
        """Return the outside of a box with the layers on its walls (ticks). Raises: NotBuilt as `outside` does."""
        return self._outside_of_form(self.layers.forms[project, name], project, None, 0)

    def _covered(self, form: Lid, project: str, copy: int | None, depth: int) -> ExactSize | None:
        if form.fits is None:
            return None
        if isinstance(form.fits, Size):
            return ExactSize.exactly(form.fits)
        if depth == MOST_NESTED:
            raise NotBuilt(f"“{form.name}” covers itself, or more than {MOST_NESTED} lids: its size is not worked out")
        return self._outside(form.fits, project, copy, depth)

    def _outside(self, thing: Covered, project: str, copy: int | None, depth: int) -> ExactSize:
        if thing.blank is not None:
            return self.outside_of_blank(thing.blank)
        if thing.form is None:
            raise ValueError("a lid fits a blank or a form")
        return self._outside_of_form(self.layers.forms[project, thing.form], project, copy, depth)

    def _outside_of_form(self, form: Form, project: str, copy: int | None, depth: int) -> ExactSize:
        thick = thickness(self._caliper(form, copy))
        scores = self._scores(form, project, copy, thick, depth)
        return _widened(outside_from_scores(scores, thick), self.layers.on_walls_of_form(project, form.id))

    def inside_of_form(self, project: str, name: str) -> ExactSize:
        """Return the inside of a box (ticks): what it can go over. Raises: NotBuilt as `outside` does."""
        form = self.layers.forms[project, name]
        thick = thickness(self._caliper(form, None))
        scores = self._scores(form, project, None, thick, 0)
        doubled = (
            self._layout(project, form).doubled
            if isinstance(form, Scored)
            else isinstance(form, Tray | Lid) and form.walls == "double"
        )
        return inside_from_scores(scores, "double" if doubled else "single", thick)

    def _scores(self, form: Form, project: str, copy: int | None, thick: Fraction, depth: int) -> ExactSize:
        """The distances from score to score of a box."""
        if isinstance(form, Tray):
            return tray.scores(form, thick)
        if isinstance(form, Lid):
            return lid.scores(form, thick, self._covered(form, project, copy, depth + 1))
        if isinstance(form, Scored) and form.corners != "keep":
            layout = self._layout(project, form)
            if layout.walled and not layout.faults:
                return layout.base
        raise NotBuilt(f"“{form.name}” is no box with four walls ({form.as_}): the size of a lid over it is not known")

    def _layout(self, project: str, form: Scored) -> scored.Layout:
        """What the scores of a sheet make of it; very many lids over one sheet of very many scores read it once."""
        key = project, form.id
        if key not in self._layouts:
            self._layouts[key] = scored.read(form)
        return self._layouts[key]

    def _caliper(self, form: Form, copy: int | None) -> int:
        """The paper's thickness in micrometres, 0 where it is not stated."""
        names = (form.paper,) if isinstance(form.paper, str) else form.paper.each
        if copy is not None and len(names) > 1:
            names = (names[copy],)
        calipers = {self.layers.papers[name].caliper_um or 0 for name in names}
        if len(calipers) > 1:
            raise NotBuilt(f"“{form.name}” is made of papers that differ in thickness: no one lid fits all its copies")
        return calipers.pop()


def _outside_of_blank(blank: Blank) -> ExactSize:
    if blank.outside is None:
        raise NotBuilt(f"“{blank.name}” has no outside stated: the size of a lid over it cannot be worked out")
    return ExactSize.of(blank.outside.width.ticks, blank.outside.depth.ticks)


def _widened(size: ExactSize, micrometres: tuple[int, int]) -> ExactSize:
    width, depth = map(thickness, micrometres)
    return ExactSize(size.width + width, size.height + depth)
