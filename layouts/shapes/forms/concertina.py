"""A strip folded to and fro, in several strips where it is longer than its paper."""

from __future__ import annotations

from collections.abc import Iterator

from layouts.document.forms import Concertina
from layouts.shapes.forms.flat import ExactSize, FormPaper

__all__ = ["flat_parts"]


def flat_parts(form: Concertina, paper: FormPaper) -> tuple[ExactSize, ...]:
    """Return the strips from the first panel on, each as wide as its panels go on and as high as a panel.

    A strip longer than the longer usable side of the paper, on which it may lie turned, ends at a fold; all but the
    last carry a join tab. A concertina of which not one panel and its tab fit stays one strip: cutting says too big.
    Lengths are judged before they are rounded.
    Source: accordion folds (identity): S = 12, p = 3, g = 1/2 gives 3 + 4 panels.
    """
    longest = max(paper.usable.width, paper.usable.height).ticks
    lengths = _strips(form.panel.width.ticks, form.panels, form.join.ticks, longest)
    return tuple(ExactSize.of(length, form.panel.height.ticks) for length in lengths)


def _strips(panel: int, panels: int, join: int, longest: int) -> Iterator[int]:
    full = (longest - join) // panel
    if full > 0:
        while panels * panel > longest:
            yield full * panel + join
            panels -= full
    yield panels * panel
