"""A sheet folded around what it holds."""

from __future__ import annotations

from fractions import Fraction

from layouts.document.forms import Envelope
from layouts.shapes.forms.cross import SIDES, Strip, cross
from layouts.shapes.forms.flat import ExactSize, FormPaper, thickness
from layouts.shapes.forms.folded import Fault, Folded, FoldedSize, FoldStep, Glued
from layouts.shapes.forms.grain import grain_along_folds
from layouts.shapes.forms.names import NamedPanels

__all__ = ["faults", "flat_parts", "fold", "names"]


def flat_parts(form: Envelope, paper: FormPaper) -> tuple[ExactSize, ...]:
    """Return the one sheet: the contents with their clearance, and the flaps.

    Source: the forms table of the kit document.
    """
    base = _base(form)
    more = 2 * form.side_flap.ticks, (form.bottom_flap + form.top_flap).ticks
    return (ExactSize(base.width + more[0], base.height + more[1]),)


def fold(form: Envelope, paper: FormPaper) -> Folded:
    """Return the envelope: sides in, the bottom over them and glued to them, the top last, to be closed later."""
    base = _base(form)
    deep = {
        "bottom": form.bottom_flap.ticks,
        "top": form.top_flap.ticks,
        "left": form.side_flap.ticks,
        "right": form.side_flap.ticks,
    }
    sheet = cross(base, {side: [Strip(f"flap-{side}", Fraction(deep[side]), turn=180)] for side in SIDES}, "cut")
    bottom, top, left, right = sheet.creases
    steps = (
        FoldStep((left, right)),
        FoldStep(
            (bottom,), (Glued("flap-bottom", "flap-left", "outside"), Glued("flap-bottom", "flap-right", "outside"))
        ),
        FoldStep((top,)),
    )
    size = FoldedSize(base.width, base.height, 3 * thickness(paper.caliper_um))
    return Folded((sheet,), steps, size, grain_along_folds(sheet.creases), faults(form, paper))


def faults(form: Envelope, paper: FormPaper) -> tuple[Fault, ...]:
    """Return why it cannot be folded: side flaps wider than the envelope, or a bottom flap that closes its mouth.

    Side flaps that meet or overlap are fine, and nobody knows what a long top flap is for.
    """
    base = _base(form)
    limits = (("flap-left", form.side_flap, base.width), ("flap-bottom", form.bottom_flap, base.height))
    return tuple(
        Fault("flap", name, "base", Fraction(flap.ticks), limit) for name, flap, limit in limits if flap.ticks > limit
    )


def names(form: Envelope) -> NamedPanels:
    """Return the names of the panel and of its flaps."""
    return NamedPanels("base", {side: (f"flap-{side}",) for side in SIDES})


def _base(form: Envelope) -> ExactSize:
    width, height = (side + 2 * form.clearance for side in form.holds)
    return ExactSize.of(width.ticks, height.ticks)
