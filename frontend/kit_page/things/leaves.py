"""What a print looks like: both sides of its leaf to scale, each picture turned as its print lies."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from django.utils.html import format_html
from django.utils.safestring import SafeString, mark_safe

from frontend.kit_page.making import Figure
from layouts.document import Kit, Paper
from layouts.document.contents import PrintSide
from layouts.shapes import sheet_size

__all__ = ["leaf_figures"]

# The longer side of the drawing, in its own unit.
_LONG = 1000
# By how much the picture of a print is turned clockwise, by where its top points.
_TURNS = {"up": 0, "right": 90, "down": 180, "left": 270}
_SIDES = ("left", "right", "top", "bottom")
_REPEATS = {
    "any": "the same whichever way it is turned",
    "two-way": "the same after half a turn",
    "one-way": "one way only",
}


def leaf_figures(kit: Kit, paper: Paper, pictures: Mapping[str, str]) -> tuple[Figure, ...]:
    """Return the printed sides of a leaf; `pictures` are addresses of pictures by their side."""
    return tuple(_figures(kit, paper, pictures))


def _figures(kit: Kit, paper: Paper, pictures: Mapping[str, str]) -> Iterator[Figure]:
    size = sheet_size(paper, {pad.id: pad for pad in kit.pads})
    longest = max(size.width.ticks, size.height.ticks)
    across, up = size.width.ticks * _LONG // longest, size.height.ticks * _LONG // longest
    margins = {
        side: getattr(paper.spoilt, side).ticks * _LONG // longest for side in ("left", "right", "top", "bottom")
    }
    for side, printed in (("front", paper.front), ("back", paper.back)):
        if printed is not None:
            drawing = _leaf(side, printed, across, up, margins, pictures.get(side, ""))
            yield Figure(
                drawing,
                f"{side.capitalize()}: {printed.name}, its top points {printed.reads}; {_REPEATS[printed.repeat]}.",
            )
        # The back is the same leaf turned like a page: what is spoilt on the left lies on the right then.
        margins["left"], margins["right"] = margins["right"], margins["left"]


def _leaf(side: str, printed: PrintSide, across: int, up: int, margins: Mapping[str, int], picture: str) -> SafeString:
    turn = _TURNS[printed.reads]
    lying = (up, across) if turn % 180 else (across, up)
    shown = (
        format_html(
            '<image href="{}" x="{}" y="{}" width="{}" height="{}" preserveAspectRatio="xMidYMid slice"/>',
            picture, -lying[0] // 2, -lying[1] // 2, *lying,
        )
        if picture
        else mark_safe('<path d="M0 180V-180M-90 -70 0 -180 90 -70" fill="none" stroke="#17212b" stroke-width="16"/>')
    )  # fmt: skip
    spoilt = mark_safe("".join(_strips(across, up, margins)))
    return format_html(
        '<svg class="leaf" viewBox="-6 -6 {} {}" role="img" aria-label="{} of the print, its top points {}">'
        '<rect x="0" y="0" width="{}" height="{}" fill="#f3f1ea"/>'
        '<g transform="translate({} {}) rotate({})">{}</g>{}'
        '<rect x="0" y="0" width="{}" height="{}" fill="none" stroke="#17212b" stroke-width="8"/></svg>',
        across + 12, up + 12, side, printed.reads, across, up, across // 2, up // 2, turn, shown, spoilt, across, up,
    )  # fmt: skip


def _strips(across: int, up: int, margins: Mapping[str, int]) -> Iterator[str]:
    """The margins that cannot be used, white and crossed out by their inner edge."""
    places = (
        (0, 0, margins["left"], up),
        (across - margins["right"], 0, margins["right"], up),
        (0, 0, across, margins["top"]),
        (0, up - margins["bottom"], across, margins["bottom"]),
    )
    for left, top, width, height in places:
        if width and height:
            yield (
                f'<rect x="{left}" y="{top}" width="{width}" height="{height}" fill="#fff" fill-opacity=".85" '
                'stroke="#17212b" stroke-width="4" stroke-dasharray="16 12"/>'
            )
