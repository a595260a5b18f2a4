"""Names of what is too small to hold its own: beside it, with a line that leads to it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction
from itertools import product

from layouts.drawing.crowd import Crowd, Stroke, crosses
from layouts.drawing.lettering import Label, text_width
from layouts.drawing.stacks import Layer
from layouts.drawing.svg import Box
from layouts.shapes.faces import Hole, Rectangle

__all__ = ["names_beside", "seen_spot"]

# Places across and up a face where a name may stand, and lines of the drawing that are looked at for all names.
_PLACES = 14
_MOST_LOOKS = 400_000


def names_beside(
    things: Sequence[tuple[Layer, str, tuple[int, int]]], within: Box, crowd: Crowd, named: Sequence[Label], u: int
) -> Iterator[tuple[Label, Stroke]]:
    """Yield a name and its line for each thing for which there is room on the face, the nearest room first.

    Each thing comes with its words and a spot of it that is seen. `crowd` holds all that is drawn, `named` the words in
    it; `u` is the thickness of a line. A line crosses edges, as leaders do, but no words and no other leader.
    """
    boxes = [label.box for label in named]
    drawn: list[Stroke] = []
    left = _MOST_LOOKS
    for layer, words, (x, y) in things:
        size = 8 * u if layer.letter else 6 * u
        wide = text_width(words, size)
        free_x, free_y = within.width - wide - 4 * u, within.height - size - 4 * u
        if free_x <= 0 or free_y <= 0:
            continue
        spots = [
            (
                within.x + 2 * u + wide // 2 + free_x * across // _PLACES,
                within.y + 2 * u + size + free_y * up // _PLACES,
            )
            for across, up in product(range(_PLACES + 1), repeat=2)
        ]
        for at_x, at_y in sorted(spots, key=lambda spot: ((spot[0] - x) ** 2 + (spot[1] - y) ** 2, spot)):
            label = Label(words, at_x, at_y - size // 4, size, middle=True, weight="700" if layer.letter else "400")
            line = _line(label.box, (x, y), u)
            left -= crowd.size
            if left < 0:
                return
            if line is None or not within.holds(label.box) or not crowd.is_free(label.box, u):
                continue
            if any(crosses(box, *line) for box in boxes) or any(_cross(line, other) for other in drawn):
                continue
            crowd.add(label.box)
            crowd.draw(*line)
            boxes.append(label.box)
            drawn.append(line)
            yield label, line
            break


def seen_spot(layer: Layer, over: Sequence[Layer], holes: Sequence[Hole], face: Box) -> tuple[int, int] | None:
    """Return a spot of a thing on the face that nothing covers; what lies behind is seen in an opening.

    None where none of 25 spots of it is seen, as of a thing that lies wholly under another.
    """
    area = layer.area
    for up, across in product((4, 2, 6, 1, 7), repeat=2):
        x, y = area.left + area.width * across / 8, area.bottom + area.height * up / 8
        if not (face.x < x < face.x + face.width and face.y < y < face.y + face.height):
            continue
        if any(_is_in(hole.around, x, y) for hole in layer.windows) or not layer.outline.encloses([(x, y)]):
            continue
        if any(_covers(other, x, y) for other in over):
            continue
        if layer.level > 0 or any(hole.encloses([(x, y)]) for hole in holes):
            return round(x), round(y)
    return None


def _line(box: Box, to: tuple[int, int], u: int) -> Stroke | None:
    """From a little beyond the nearest point of a box to a spot; None where the spot is as near as that."""
    x = min(max(to[0], box.x - u), box.x + box.width + u)
    y = min(max(to[1], box.y - u), box.y + box.height + u)
    return None if abs(x - to[0]) + abs(y - to[1]) < 2 * u else ((x, y), to)


def _covers(layer: Layer, x: Fraction, y: Fraction) -> bool:
    return _is_in(layer.outline.around, x, y) and not any(hole.encloses([(x, y)]) for hole in layer.windows)


def _is_in(area: Rectangle, x: Fraction, y: Fraction) -> bool:
    return area.left <= x <= area.right and area.bottom <= y <= area.top


def _cross(one: Stroke, other: Stroke) -> bool:
    (a, b), (c, d) = one, other
    return _side(a, b, c) * _side(a, b, d) <= 0 and _side(c, d, a) * _side(c, d, b) <= 0


def _side(a: tuple[int, int], b: tuple[int, int], c: tuple[int, int]) -> int:
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])
