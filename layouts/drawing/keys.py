"""What the lines and hatchings of drawings mean, as a drawing of its own: once a sheet is enough."""

from __future__ import annotations

from collections.abc import Collection, Mapping

from layouts.drawing.flat_lines import DrawnCrease, draw_crease
from layouts.drawing.lettering import Label, text_width
from layouts.drawing.scale import TRUE, ScaledDrawing, scaled
from layouts.drawing.svg import GRAPHITE, INK, PAPER, Box, Drawing, Margins
from layouts.lengths import TICKS_PER_MM

__all__ = ["flat_key", "flat_key_words"]

type _Column = tuple[tuple[str, str], ...]

# Side by side, each from the top: a column of five would push the drawings that it explains off the page.
_SURFACES: _Column = (("cut", "cut"), ("tab", "tab: glue goes here"), ("waste", "waste: cut off"))
_SCORES: _Column = (
    ("mountain", "score, fold away from you: mountain, m"),
    ("valley", "score, fold towards you: valley, v"),
)
ALL_KINDS = frozenset(kind for kind, _ in _SURFACES + _SCORES)
# What stands for it in words, for who cannot see it.
_SAID: Mapping[str, str] = {
    "cut": "Solid lines are cut.",
    "mountain": "Dashes with dots are scored and folded away from you, mountain, m.",
    "valley": "Dashes alone are scored and folded towards you, valley, v.",
    "tab": "Dotted areas are tabs for glue.",
    "waste": "Hatched areas are waste.",
}
_NUMBERS = "A number before m or v is the step of folding."

# In lines: a sample is so wide and so high, a row of the key so high, its type so high, and columns so far apart.
_WIDE, _HIGH, _ROW, _TYPE, _APART = 36, 7, 11, 7, 12


def flat_key_words(kinds: Collection[str] = ALL_KINDS) -> str:
    """Return what a key says that explains these kinds of lines and areas."""
    said = [words for kind, words in _SAID.items() if kind in kinds]
    folds = [words for kind, words in _SAID.items() if kind in kinds and kind in dict(_SCORES)]
    return " ".join([*said, *([_NUMBERS] if folds else [])])


def flat_key(*, name: str, line: int, room: int = 0, kinds: Collection[str] = ALL_KINDS) -> ScaledDrawing:
    """Return the key to drawings of flat parts: one column, or two where there is room for them.

    `line` is the thickness of a line on paper, `room` the width on paper, in ticks; `kinds` are what is drawn: nobody
    looks for what does not occur.
    """
    u = line
    surfaces, scores = (tuple(one for one in column if one[0] in kinds) for column in (_SURFACES, _SCORES))
    columns: tuple[_Column, ...] = tuple(column for column in (surfaces, scores) if column)
    if sum(_width(column, u) for column in columns) + _APART * u > room:
        columns = (surfaces[:1] + scores + surfaces[1:],)
    widths = [_width(column, u) for column in columns]
    lefts = [0, widths[0] + _APART * u][: len(columns)]
    width, height = lefts[-1] + widths[-1], _ROW * u * max(map(len, columns))
    drawing = Drawing(
        width,
        height,
        name=name,
        title="What the lines of the drawings mean",
        description=flat_key_words(kinds),
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
