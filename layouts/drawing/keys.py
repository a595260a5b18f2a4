"""What the lines and hatchings of drawings mean, as a drawing of its own: once a sheet is enough."""

from __future__ import annotations

from layouts.drawing.flat_lines import DrawnCrease, draw_crease
from layouts.drawing.lettering import Label, text_width
from layouts.drawing.scale import TRUE, ScaledDrawing, scaled
from layouts.drawing.svg import GRAPHITE, INK, PAPER, Box, Drawing, Margins
from layouts.lengths import TICKS_PER_MM

__all__ = ["FLAT_KEY", "flat_key"]

# In the order in which they stand, from the top.
_MEANINGS = (
    ("cut", "cut"),
    ("mountain", "score, fold away from you: mountain, m"),
    ("valley", "score, fold towards you: valley, v"),
    ("tab", "tab: glue goes here"),
    ("waste", "waste: cut off"),
)
FLAT_KEY = (
    "Solid lines are cut. Dashes with dots are scored and folded away from you, mountain, m; dashes alone are scored "
    "and folded towards you, valley, v. A number before m or v is the step of folding. Dotted areas are tabs for glue; "
    "hatched areas are waste."
)

# In lines: a sample is so wide and so high, a row of the key so high, its type so high.
_WIDE, _HIGH, _ROW, _TYPE = 36, 7, 11, 7


def flat_key(*, name: str, line: int) -> ScaledDrawing:
    """Return the key to drawings of flat parts; `line` is the thickness of a line on paper, in ticks."""
    u = line
    longest = max(text_width(words, _TYPE * u) for _, words in _MEANINGS)
    width, height = (_WIDE + 5) * u + longest, _ROW * u * len(_MEANINGS)
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
    for at, (kind, words) in enumerate(_MEANINGS):
        middle = height - _ROW * u * at - _ROW * u // 2
        sample = Box(0, middle - _HIGH * u // 2, _WIDE * u, _HIGH * u)
        if kind == "cut":
            drawing.line(0, middle, _WIDE * u, middle, stroke=INK, stroke_width=thick)
        elif kind in ("mountain", "valley"):
            sign = Label(kind[0], _WIDE * u // 2, middle - 6 * u // 4, 6 * u, middle=True)
            draw_crease(drawing, DrawnCrease((0, middle), (_WIDE * u, middle), kind, sign), u)
        else:
            drawing.box(sample, fill=PAPER, stroke="none")
            drawing.box(sample, fill=glue if kind == "tab" else waste, stroke=INK, stroke_width="1")
        Label(words, (_WIDE + 5) * u, middle - _TYPE * u // 4, _TYPE * u, weight="400").draw(drawing)
    return scaled(drawing, TRUE)
