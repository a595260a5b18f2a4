"""How large what a lid covers is outside, where that is certain."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from layouts.document import Blank, Form, Kit, Paper, Size
from layouts.document.forms import Covered, Lid, Tray
from layouts.shapes.forms import lid, tray
from layouts.shapes.forms.flat import ExactSize, thickness
from layouts.shapes.forms.walls import outside_from_scores
from layouts.shapes.not_built import NotBuilt

__all__ = ["MOST_NESTED", "Coverable"]

# Lids over lids; a lid that covers itself through others is met here too.
MOST_NESTED = 8


@dataclass(frozen=True, slots=True)
class Coverable:
    """The blanks and forms of a kit, and which of them have something put on them (forms by project id and own id)."""

    blanks: Mapping[str, Blank]
    forms: Mapping[tuple[str, str], Form]
    papers: Mapping[str, Paper]
    laden_blanks: frozenset[str]
    laden_forms: frozenset[tuple[str, str]]

    @classmethod
    def of(cls, kit: Kit) -> Coverable:
        supports = [(project.id, placement.on) for project in kit.projects for placement in project.placements]
        return cls(
            blanks={blank.id: blank for blank in kit.blanks},
            forms={(project.id, form.id): form for project in kit.projects for form in project.forms},
            papers={paper.id: paper for paper in kit.papers},
            laden_blanks=frozenset(on.blank for _, on in supports if on.blank is not None),
            laden_forms=frozenset((project, on.form) for project, on in supports if on.form is not None),
        )

    def outside(self, form: Lid, project: str, copy: int | None) -> ExactSize | None:
        """Return the outside of what a lid of this project fits, as seen from above (ticks); None if it fits nothing.

        `copy` counts from 0 which of the project's copies the lid belongs to, None where they are all alike.
        Raises: NotBuilt where the size is not certain: it is not stated, something is put on the thing (its layers
        would count), it is a form whose outside is not worked out, or its paper differs from copy to copy.
        """
        return self._covered(form, project, copy, 0)

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
            return self._blank(self.blanks[thing.blank])
        if thing.form is None:
            raise ValueError("a lid fits a blank or a form")
        form = self.forms[project, thing.form]
        if (project, form.id) in self.laden_forms:
            raise _laden(form.name)
        if not isinstance(form, Tray | Lid):
            raise NotBuilt(f"“{form.name}” is a {form.as_}: the size of a lid over it is not worked out yet")
        thick = thickness(self._caliper(form, copy))
        if isinstance(form, Tray):
            return outside_from_scores(tray.scores(form, thick), thick)
        return outside_from_scores(lid.scores(form, thick, self._covered(form, project, copy, depth + 1)), thick)

    def _blank(self, blank: Blank) -> ExactSize:
        if blank.outside is None:
            raise NotBuilt(f"“{blank.name}” has no outside stated: the size of a lid over it cannot be worked out")
        if blank.id in self.laden_blanks:
            raise _laden(blank.name)
        return ExactSize.of(blank.outside.width.ticks, blank.outside.depth.ticks)

    def _caliper(self, form: Tray | Lid, copy: int | None) -> int:
        """The paper's thickness in micrometres, 0 where it is not stated."""
        names = (form.paper,) if isinstance(form.paper, str) else form.paper.each
        if copy is not None and len(names) > 1:
            names = (names[copy],)
        calipers = {self.papers[name].caliper_um or 0 for name in names}
        if len(calipers) > 1:
            raise NotBuilt(f"“{form.name}” is made of papers that differ in thickness: no one lid fits all its copies")
        return calipers.pop()


def _laden(name: str) -> NotBuilt:
    return NotBuilt(f"something is put on “{name}”: the size of a lid over its layers is not worked out yet")
