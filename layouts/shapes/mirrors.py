"""Pieces and their mirror images, left and right exchanged."""

from __future__ import annotations

from collections import Counter
from typing import Literal

from layouts.document import Piece, Shape
from layouts.shapes.outlines import corners_of
from layouts.shapes.windows import resolve

__all__ = ["Difference", "is_handed", "mirror_differences"]

Difference = Literal["size", "shape", "windows", "edges"]


def mirror_differences(piece: Piece, original: Piece) -> tuple[Difference, ...]:
    """Return in what a piece is not the mirror image of another; nothing where it is.

    >>> from layouts.document import Size
    >>> panel = Piece(id="A", name="panel", size=Size.of("6", "4"))
    >>> mirror_differences(Piece(id="B", name="other", size=Size.of("6", "5")), panel)
    ('size',)
    """
    found: list[Difference] = []
    if (piece.size, piece.size_is) != (original.size, original.size_is):
        found.append("size")
    width = original.size.width.ticks
    if _outline(piece.shape, piece.size.width.ticks) != _outline(original.shape, width, mirrored=True):
        found.append("shape")
    if _windows(piece) != _windows(original, mirrored=True):
        found.append("windows")
    mine, other = piece.edges, original.edges
    if (mine.left, mine.right, mine.top, mine.bottom) != (other.right, other.left, other.top, other.bottom):
        found.append("edges")
    return tuple(found)


def is_handed(piece: Piece) -> bool:
    """Whether a piece differs from its own mirror image, so that left and right ones are two different pieces."""
    return bool(mirror_differences(piece, piece))


_Outline = tuple[str, int, int, tuple[tuple[int, int], ...]]


def _outline(shape: Shape, width: int, *, mirrored: bool = False) -> _Outline:
    """An outline in a form in which two that are equal are the same value; polygons may start and run anyhow."""
    rise, radius = (length.ticks if length is not None else 0 for length in (shape.rise, shape.radius))
    corners = corners_of(shape)
    if mirrored:
        corners = tuple((width - x, y) for x, y in corners)
    return shape.kind, rise, radius, _from_first(corners)


def _from_first(corners: tuple[tuple[int, int], ...]) -> tuple[tuple[int, int], ...]:
    """The same corners from the lowest of the leftmost on, in the direction of its smaller neighbour."""
    if not corners:
        return ()
    start = corners.index(min(corners))
    forwards = (*corners[start:], *corners[:start])
    backwards = (forwards[0], *reversed(forwards[1:]))
    return min(forwards, backwards)


def _windows(piece: Piece, *, mirrored: bool = False) -> Counter[tuple[int, int, int, int, _Outline]]:
    """The windows of a piece by where they lie, whatever their ids."""
    found: Counter[tuple[int, int, int, int, _Outline]] = Counter()
    for window in piece.windows:
        aperture = resolve(window, piece.size)
        width, height = aperture.width.ticks, aperture.height.ticks
        left = aperture.right if mirrored else aperture.left
        shape = _outline(window.shape, width, mirrored=mirrored)
        found[left.ticks, aperture.bottom.ticks, width, height, shape] += 1
    return found
