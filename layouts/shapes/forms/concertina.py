"""A strip folded to and fro, in several strips where it is longer than its paper."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction
from itertools import chain

from layouts.document.forms import Concertina
from layouts.shapes.forms.cross import Strip, cross
from layouts.shapes.forms.flat import ExactSize, FormPaper, thickness
from layouts.shapes.forms.folded import Fault, FlatSheet, Fold, Folded, FoldedSize, FoldStep, Glued
from layouts.shapes.forms.grain import grain_along_folds
from layouts.shapes.forms.names import NumberedPanels

__all__ = ["faults", "flat_parts", "fold", "names"]


def flat_parts(form: Concertina, paper: FormPaper) -> tuple[ExactSize, ...]:
    """Return the strips from the first panel on, each as wide as its panels go on and as high as a panel.

    A strip longer than the longer usable side of the paper, on which it may lie turned, ends at a fold; all but the
    last carry a join tab. A concertina of which not one panel and its tab fit stays one strip: cutting says too big.
    Lengths are judged before they are rounded.
    Source: accordion folds (identity): S = 12, p = 3, g = 1/2 gives 3 + 4 panels.
    """
    panel, join = form.panel.width.ticks, form.join.ticks
    counts = tuple(_panels_of_strips(form, paper))
    tabs = (join,) * (len(counts) - 1) + (0,)
    return tuple(
        ExactSize.of(count * panel + tab, form.panel.height.ticks) for count, tab in zip(counts, tabs, strict=True)
    )


def fold(form: Concertina, paper: FormPaper) -> Folded:
    """Return the strips with their folds in turn. A join tab is folded with the fold at which its strip ends, and is
    glued behind the first panel of the next strip."""
    counts = tuple(_panels_of_strips(form, paper))
    sheets, glued, first = [], [], 1
    for number, count in enumerate(counts, start=1):
        last = number == len(counts)
        sheet = _strip(form, first, count, None if last else number)
        sheets.append(sheet if len(counts) == 1 else replace(sheet, number=number))
        first += count
        if not last:
            glued.append(Glued(f"tab-{number}", f"panel-{first}"))
    steps = [FoldStep(tuple(chain.from_iterable(sheet.creases for sheet in sheets)))]
    if glued:
        steps.append(FoldStep(glued=tuple(glued)))
    layers = form.panels + len(glued)
    panel = ExactSize.exactly(form.panel)
    size = FoldedSize(panel.width, panel.height, layers * thickness(paper.caliper_um))
    return Folded(tuple(sheets), tuple(steps), size, grain_along_folds(sheets[0].creases), faults(form, paper))


def faults(form: Concertina, paper: FormPaper) -> tuple[Fault, ...]:
    """Return why it cannot be folded: a join tab is longer than a panel. One strip has no tab."""
    first = next(_panels_of_strips(form, paper))
    if form.join <= form.panel.width or first == form.panels:
        return ()
    return (Fault("flap", "tab-1", f"panel-{first + 1}", Fraction(form.join.ticks), Fraction(form.panel.width.ticks)),)


def names(form: Concertina) -> NumberedPanels:
    """Return the names of the panels, from the left."""
    return NumberedPanels(form.panels)


def _panels_of_strips(form: Concertina, paper: FormPaper) -> Iterator[int]:
    """How many panels each strip carries."""
    panel, panels = form.panel.width.ticks, form.panels
    longest = max(paper.usable.width, paper.usable.height).ticks
    full = (longest - form.join.ticks) // panel
    if full > 0:
        while panels * panel > longest:
            yield full
            panels -= full
    yield panels


def _strip(form: Concertina, first: int, count: int, tab: int | None) -> FlatSheet:
    wide = Fraction(form.panel.width.ticks)
    right = [
        Strip(f"panel-{number}", wide, _nth_fold(form, number - 1), 180) for number in range(first + 1, first + count)
    ]
    if tab is not None:
        right.append(Strip(f"tab-{tab}", Fraction(form.join.ticks), _nth_fold(form, first + count - 1), 180, "tab"))
    return cross(ExactSize.exactly(form.panel), {"right": right}, "cut", f"panel-{first}")


def _nth_fold(form: Concertina, number: int) -> Fold:
    """How the fold behind this panel (from 1) folds."""
    other: Fold = "valley" if form.first_fold == "mountain" else "mountain"
    return form.first_fold if number % 2 else other
