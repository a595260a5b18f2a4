"""Outlines as steps of a path."""

from __future__ import annotations

from layouts.document import Shape
from layouts.drawing.svg import Box

__all__ = ["outline_path"]

Step = tuple[str, list[tuple[int, int]]]


def outline_path(shape: Shape, box: Box) -> list[Step]:
    """Return the outline of a shape in its bounding box (ticks), anticlockwise from the lower left.

    An arch's rise is at most its height, a corner's radius at most half the shorter side. Curves go by quarters: drawn
    in one stroke, half an ellipse comes out almost two hundredths too wide at its shoulders.
    """
    left, bottom, right, top = box.x, box.y, box.x + box.width, box.y + box.height
    middle, level = left + box.width // 2, bottom + box.height // 2
    if shape.kind == "ellipse":
        radii = (box.width // 2, box.height // 2)
        ends = ((middle, bottom), (right, level), (middle, top), (left, level))
        return [("M", [(left, level)]), *(("A", [radii, end]) for end in ends), ("Z", [])]
    if shape.kind == "arch" and shape.rise is not None:
        spring = top - min(shape.rise.ticks, box.height)
        radii = (box.width // 2, top - spring)
        return [
            ("M", [(left, bottom)]),
            ("L", [(right, bottom), (right, spring)]),
            ("A", [radii, (middle, top)]),
            ("A", [radii, (left, spring)]),
            ("Z", []),
        ]
    if shape.kind == "rounded" and shape.radius is not None:
        r = min(shape.radius.ticks, box.width // 2, box.height // 2)
        return [
            ("M", [(left + r, bottom)]),
            ("L", [(right - r, bottom)]),
            ("A", [(r, r), (right, bottom + r)]),
            ("L", [(right, top - r)]),
            ("A", [(r, r), (right - r, top)]),
            ("L", [(left + r, top)]),
            ("A", [(r, r), (left, top - r)]),
            ("L", [(left, bottom + r)]),
            ("A", [(r, r), (left + r, bottom)]),
            ("Z", []),
        ]
    if shape.kind == "polygon" and shape.points is not None:
        corners = [(left + point.width.ticks, bottom + point.height.ticks) for point in shape.points]
        return [("M", corners[:1]), ("L", corners[1:]), ("Z", [])]
    return [("M", [(left, bottom)]), ("L", [(right, bottom), (right, top), (left, top)]), ("Z", [])]
