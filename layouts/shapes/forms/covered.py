"""How large what a lid covers is outside, with the layers on its walls, where that is certain."""

from __future__ import annotations

from dataclasses import dataclass, field

from layouts.document import Blank, Form, Kit, Size
from layouts.document.forms import Covered, Lid, Scored, Tray
from layouts.shapes.forms import lid, scored, tray
from layouts.shapes.forms.flat import ExactSize, thickness
from layouts.shapes.forms.layers import Layers
from layouts.shapes.forms.walls import outside_from_scores
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
        return cls(Layers.of(kit))

    def outside(self, form: Lid, project: str, copy: int | None) -> ExactSize | None:
        """Return the outside of what a lid of this project fits, with the layers on its walls, as seen from above
        (ticks); None if it fits nothing. A size that a lid is said to fit is taken as it is.

        `copy` counts from 0 which of the project's copies the lid belongs to, None where they are all alike.
        Raises: NotBuilt where the size is not certain: it is not stated, it is a form whose outside is not worked out,
        or its paper differs from copy to copy.
        """
        return self._covered(form, project, copy, 0)

    def outside_of(self, thing: Covered, project: str, copy: int | None) -> ExactSize:
        """Return the outside of a blank, or of a box of this project, with the layers on its walls (ticks).

        Raises: NotBuilt as `outside` does.
        """
        return self._outside(thing, project, copy, 0)

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
            blank = self.layers.blanks[thing.blank]
            return _widened(_outside_of_blank(blank), self.layers.on_walls_of_blank(blank))
        if thing.form is None:
            raise ValueError("a lid fits a blank or a form")
        form = self.layers.forms[project, thing.form]
        bare = self._outside_of_form(form, project, copy, depth)
        return _widened(bare, self.layers.on_walls_of_form(project, form.id))

    def _outside_of_form(self, form: Form, project: str, copy: int | None, depth: int) -> ExactSize:
        thick = thickness(self._caliper(form, copy))
        if isinstance(form, Tray):
            return outside_from_scores(tray.scores(form, thick), thick)
        if isinstance(form, Lid):
            covered = self._covered(form, project, copy, depth + 1)
            return outside_from_scores(lid.scores(form, thick, covered), thick)
        if isinstance(form, Scored) and form.corners != "keep":
            # Very many lids over one sheet of very many scores read it once.
            key = project, form.id
            layout = self._layouts.get(key) or self._layouts.setdefault(key, scored.read(form))
            if layout.walled and not layout.faults:
                return outside_from_scores(layout.base, thick)
        raise NotBuilt(f"“{form.name}” is no box with four walls ({form.as_}): the size of a lid over it is not known")

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
