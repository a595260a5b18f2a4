"""Forms as what they are cut from: one construction a module, all of them in the one table below."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from fractions import Fraction
from math import ceil
from typing import Any, NamedTuple

from layouts.document import Form, Kit, Pad, Paper
from layouts.document.forms import Lid
from layouts.lengths import Length, System
from layouts.rounding import step_up
from layouts.shapes.forms import concertina, envelope, frame, lid, pocket, scored, sleeve, tag, tray
from layouts.shapes.forms.covered import Coverable
from layouts.shapes.forms.flat import ExactSize, FlatPart, FormPaper
from layouts.shapes.sheets import size_within_margins

__all__ = ["CONSTRUCTIONS", "MOST_PARTS", "FlatPart", "FlatSizes"]

# The flat parts of one kit that anybody works out: one short line may ask for a strip cut in ten thousand.
MOST_PARTS = 20_000


class Construction(NamedTuple):
    """How a form is laid flat: a function of the form and its paper, for a lid also of the outside of what it fits.

    `stated`: the document itself gives the flat size, which is then not rounded.
    """

    flat_parts: Callable[..., tuple[ExactSize, ...]]
    stated: bool = False


CONSTRUCTIONS: Mapping[str, Construction] = {
    "tray": Construction(tray.flat_parts),
    "lid": Construction(lid.flat_parts),
    "sleeve": Construction(sleeve.flat_parts),
    "concertina": Construction(concertina.flat_parts),
    "pocket": Construction(pocket.flat_parts),
    "frame": Construction(frame.flat_parts),
    "envelope": Construction(envelope.flat_parts),
    "tag": Construction(tag.flat_parts, stated=True),
    "scored": Construction(scored.flat_parts, stated=True),
}


@dataclass(frozen=True, slots=True)
class FlatSizes:
    """The flat parts of the forms of one kit, rounded up to the printed step of its unit."""

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
        made_of = FormPaper(paper.caliper_um or 0, size_within_margins(paper, self.pads))
        more: tuple[Any, ...] = ()
        if isinstance(form, Lid):
            copy = None if isinstance(form.paper, str) else form.paper.each.index(paper.id)
            more = (self.coverable.outside(form, project, copy),)
        sizes = construction.flat_parts(form, made_of, *more)
        step = 1 if construction.stated else self.step
        return tuple(
            FlatPart(number if len(sizes) > 1 else None, self._up(size.width, step), self._up(size.height, step))
            for number, size in enumerate(sizes, start=1)
        )

    def _up(self, exact: Fraction, step: int) -> Length:
        return Length(step_up(ceil(exact), step), self.unit)
