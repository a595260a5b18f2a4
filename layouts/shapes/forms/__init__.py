"""Forms as what they are cut from and what they are folded to: one construction a module."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction
from math import ceil
from typing import Any

from layouts.document import Form, Kit, Pad, Paper
from layouts.document.forms import Concertina, Lid
from layouts.lengths import Length, System
from layouts.rounding import step_up
from layouts.shapes.forms.constructions import CONSTRUCTIONS
from layouts.shapes.forms.covered import Coverable
from layouts.shapes.forms.flat import ExactSize, FlatPart, FormPaper
from layouts.shapes.forms.folded import Area, Crease, Fault, FlatSheet, Folded, FoldStep, Glued, Hole, Side, Spot
from layouts.shapes.forms.names import ONLY_PANEL, PanelNames
from layouts.shapes.sheets import size_within_margins

__all__ = [
    "CONSTRUCTIONS",
    "MOST_PARTS",
    "Area",
    "Coverable",
    "Crease",
    "ExactSize",
    "Fault",
    "FlatPart",
    "FlatSheet",
    "FlatSizes",
    "FoldStep",
    "Folded",
    "Glued",
    "Hole",
    "PanelNames",
    "Side",
    "Spot",
    "panel_names",
]

# The flat parts of one kit that anybody works out: one short line may ask for a strip cut in ten thousand.
MOST_PARTS = 20_000


def panel_names(form: Form) -> PanelNames:
    """Return what the panels of a form are called (see `layouts.shapes.forms.names`), whatever its paper.

    Make it once a form: a scored sheet may have very many scores.
    """
    return CONSTRUCTIONS[form.as_].names(form)


@dataclass(frozen=True, slots=True)
class FlatSizes:
    """The forms of one kit, flat and folded; flat sizes rounded up to the printed step of its unit."""

    step: int
    unit: System
    pads: Mapping[str, Pad]
    coverable: Coverable

    @classmethod
    def of(cls, kit: Kit) -> FlatSizes:
        step = kit.printed.in_ if kit.unit == "in" else kit.printed.mm
        return cls(step.ticks, kit.unit, {pad.id: pad for pad in kit.pads}, Coverable.of(kit))

    def parts(self, form: Form, project: str, paper: Paper) -> tuple[FlatPart, ...]:
        """Return what a form of this project (by id) is cut as from this paper, in the order of its parts.

        Only these final sizes are rounded, up and once, so that nothing is too small; a size that the document states
        stays as it is.
        Raises: NotBuilt where a size depends on what is not worked out yet.
        """
        construction = CONSTRUCTIONS[form.as_]
        sizes = construction.flat_parts(form, *self._made_of(form, project, paper))
        step = 1 if construction.stated else self.step
        return tuple(
            FlatPart(number if len(sizes) > 1 else None, self._up(size.width, step), self._up(size.height, step))
            for number, size in enumerate(sizes, start=1)
        )

    def fold(self, form: Form, project: str, paper: Paper) -> Folded:
        """Return a form of this project (by id) cut from this paper, exact, folded, and with what is wrong with it.

        Its sheets are those of `parts` before they are rounded. Costs as much as the form has panels.
        Raises: NotBuilt as `parts` does.
        """
        return CONSTRUCTIONS[form.as_].fold(form, *self._made_of(form, project, paper))

    def faults(self, form: Form, project: str, paper: Paper) -> tuple[Fault, ...]:
        """Return the faults of `fold`, without folding: cheap for ten thousand panels. Raises: NotBuilt as `parts`."""
        return CONSTRUCTIONS[form.as_].faults(form, *self._made_of(form, project, paper))

    def panels(self, form: Form, project: str, paper: Paper) -> Mapping[str, ExactSize]:
        """Return the panels of a form by name, as large as they are from score to score, as the flat part lies with
        its outside up (a panel cut at a slant: the rectangle around it). Cheap for ten thousand alike.

        Raises: NotBuilt as `parts` does.
        """
        if isinstance(form, Concertina):
            return _Alike(panel_names(form), ExactSize.exactly(form.panel), form.panels)
        areas = [area for sheet in self.fold(form, project, paper).sheets for area in sheet.areas]
        sizes = {area.name: ExactSize(area.width, area.height) for area in areas if area.role == "panel"}
        return sizes | {ONLY_PANEL: sizes["base"]} if sizes.keys() == {"base"} else sizes

    def _made_of(self, form: Form, project: str, paper: Paper) -> tuple[Any, ...]:
        """What a construction needs to know besides the form."""
        made_of = FormPaper(paper.caliper_um or 0, size_within_margins(paper, self.pads))
        if not isinstance(form, Lid):
            return (made_of,)
        copy = None if isinstance(form.paper, str) else form.paper.each.index(paper.id)
        return made_of, self.coverable.outside(form, project, copy)

    def _up(self, exact: Fraction, step: int) -> Length:
        return Length(step_up(ceil(exact), step), self.unit)


@dataclass(frozen=True, slots=True)
class _Alike(Mapping[str, ExactSize]):
    """Panels that are all of one size."""

    names: PanelNames
    size: ExactSize
    count: int

    def __getitem__(self, name: str) -> ExactSize:
        if name not in self.names:
            raise KeyError(name)
        return self.size

    def __iter__(self) -> Iterator[str]:
        return iter(self.names)

    def __len__(self) -> int:
        return self.count
