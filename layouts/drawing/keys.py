"""What the lines and hatchings of drawings mean, as a drawing of its own: once a sheet is enough."""

from __future__ import annotations

from layouts.drawing.flat_lines import DrawnCrease, draw_crease
from layouts.drawing.lettering import Label, text_width
from layouts.drawing.scale import TRUE, ScaledDrawing, scaled
from layouts.drawing.svg import GRAPHITE, INK, PAPER, Box, Drawing, Margins
from layouts.lengths import TICKS_PER_MM

__all__ = ["FLAT_KEY", "flat_key"]

type _Column = tuple[tuple[str, str], ...]

# Side by side, each from the top: a column of five would push the drawings that it explains off the page.
_SURFACES: _Column = (("cut", "cut"), ("tab", "tab: glue goes here"), ("waste", "waste: cut off"))
_SCORES: _Column = (
    ("mountain", "score, fold away from you: mountain, m"),
    ("valley", "score, fold towards you: valley, v"),
)
FLAT_KEY = (
    "Solid lines are cut. Dashes with dots are scored and folded away from you, mountain, m; dashes alone are scored "
    "and folded towards you, valley, v. A number before m or v is the step of folding. Dotted areas are tabs for glue; "
    "hatched areas are waste."
)

# In lines: a sample is so wide and so high, a row of the key so high, its type so high, and columns so far apart.
_WIDE, _HIGH, _ROW, _TYPE, _APART = 36, 7, 11, 7, 12


def flat_key(*, name: str, line: int, room: int = 0) -> ScaledDrawing:
    """Return the key to drawings of flat parts: one column, or two where there is room for them.

    `line` is the thickness of a line on paper, `room` the width on paper, in ticks.
    """
    u = line
    columns: tuple[_Column, ...] = (_SURFACES, _SCORES)
    if sum(_width(column, u) for column in columns) + _APART * u > room:
        columns = (_SURFACES[:1] + _SCORES + _SURFACES[1:],)
    widths = [_width(column, u) for column in columns]
    lefts = [0, widths[0] + _APART * u][: len(columns)]
    width, height = lefts[-1] + widths[-1], _ROW * u * max(map(len, columns))
    drawing = Drawing(
        width,
        height,
        name=name,
        title="What the lines of the drawings mean",
        description=FLAT_KEY,
        margins=Margins.of(u),
    )
    thick = str(max(1, u * 25 // 2 // TICKS_PER_MM))
    glue = drawing.hatching(apart=3 * u, stroke=GRAPHITE, width=u * 2 // 5, texture="dots", called="tabs")
    waste = drawing.hatching(apart=4 * u, stroke=GRAPHITE, width=u // 3, called="waste")
    for left, column in zip(lefts, columns, strict=True):
        for at, (kind, words) in enumerate(column):
            middle = height - _ROW * u * at - _ROW * u // 2
            sample = Box(left, middle - _HIGH * u // 2, _WIDE * u, _HIGH * u)
            end = left + _WIDE * u
            if kind == "cut":
                drawing.line(left, middle, end, middle, stroke=INK, stroke_width=thick)
            elif kind in ("mountain", "valley"):
                sign = Label(kind[0], left + _WIDE * u // 2, middle - 6 * u // 4, 6 * u, middle=True)
                draw_crease(drawing, DrawnCrease((left, middle), (end, middle), kind, sign), u)
            else:
                drawing.box(sample, fill=PAPER, stroke="none")
                drawing.box(sample, fill=glue if kind == "tab" else waste, stroke=INK, stroke_width="1")
            Label(words, end + 5 * u, middle - _TYPE * u // 4, _TYPE * u, weight="400").draw(drawing)
    return scaled(drawing, TRUE)


def _width(column: _Column, u: int) -> int:
    return (_WIDE + 5) * u + max(text_width(words, _TYPE * u) for _, words in column)
