"""The names of panels and tabs on a flat part, where they fit, lying or upright."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from layouts.drawing.crowd import Crowd
from layouts.drawing.fold_words import plain
from layouts.drawing.lettering import Label, text_width
from layouts.shapes.forms import Area

__all__ = ["area_names"]

# The height of a name, in lines; where in an area its middle is tried, in hundredths of width and height.
_SIZE = 7
_MIDDLES = ((50, 50), (50, 25), (50, 75), (28, 50), (72, 50), (28, 25), (72, 75))


def area_names(areas: Iterable[Area], crowd: Crowd, u: int) -> Iterator[tuple[Area, Label]]:
    """Yield the areas that have room for their name, with it; `crowd` holds what is drawn, and gets the names.

    Waste has no name: nobody looks for it. `u` is the thickness of a line, in ticks.
    """
    for area in areas:
        if area.role == "waste":
            continue
        label = next((label for label in _tries(area, u) if crowd.is_free(label.box, u)), None)
        if label is not None:
            crowd.add(label.box)
            yield area, label


def _tries(area: Area, u: int) -> Iterator[Label]:
    left, bottom = round(area.left), round(area.bottom)
    width, height = round(area.width), round(area.height)
    for words in _words(area):
        long, size = text_width(words, _SIZE * u), _SIZE * u
        for upright in (False, True):
            across, up = (size, long) if upright else (long, size)
            if across > width or up > height:
                continue
            for share_x, share_y in _MIDDLES:
                x, y = left + width * share_x // 100, bottom + height * share_y // 100
                # The middle of the letters, not of their baseline, lies there.
                aside = (size // 4, 0) if upright else (0, -(size // 4))
                yield Label(words, x + aside[0], y + aside[1], size, middle=True, weight="600", upright=upright)


def _words(area: Area) -> Iterator[str]:
    """The whole name first, then what is enough where there is little room."""
    yield plain(area.name)
    kind, _, number = area.name.partition("-")
    if kind in ("flange", "flap", "tab"):
        yield kind
    elif kind == "panel" and number.isdigit():
        yield number
