"""What of a piece nobody sees, because another piece lies on it wherever it is put."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from functools import cached_property

from layouts.document import Kit, Piece
from layouts.lengths import Length
from layouts.shapes.faces import Lying, Rectangle, lying_in

__all__ = ["HIDING", "Hidden", "is_plain"]

# By how much a layer must hide what is cut beneath it, on every side.
# Source: common practice, no source (a join or an edge that is hidden by less shows at the first slip).
HIDING = Length.of("1/4 in")


class Hidden:
    """Which pieces lie on which, in one kit. Only rectangular pieces without windows, and without decorative edges,
    hide anything: what is drawn as a rectangle around a shape may show what lies below."""

    def __init__(self, kit: Kit) -> None:
        self.kit = kit

    @cached_property
    def _lying(self) -> tuple[Lying, ...]:
        return lying_in(self.kit)

    @cached_property
    def _on(self) -> dict[str, list[Lying]]:
        """What lies on each support, by its place."""
        found: dict[str, list[Lying]] = {}
        for one in self._lying:
            found.setdefault(one.surface.place, []).append(one)
        return found

    @cached_property
    def _put(self) -> dict[str, list[Lying]]:
        """Where each piece lies, by its place."""
        found: dict[str, list[Lying]] = {}
        for one in self._lying:
            if one.thing.kind == "piece":
                found.setdefault(one.thing.place, []).append(one)
        return found

    def put(self, place: str) -> Lying | None:
        """Where a piece lies, if it is put once, over its support and on every copy of that alike, and is known to."""
        found = self._put.get(place, [])
        if len(found) != 1 or found[0].rectangle is None or not _is_everywhere(found[0]):
            return None
        return found[0]

    def is_support(self, place: str) -> bool:
        return place in self._on

    def covers_over(self, one: Lying) -> Iterator[tuple[Lying, Rectangle]]:
        """Yield the later layers that lie over a thing, and what each covers of its rectangle on their support."""
        layers = self._on[one.surface.place]
        above = next(at for at, other in enumerate(layers, start=1) if other is one)
        for other in layers[above:]:
            if other.project.id == one.project.id and _hides(other) and other.rectangle and one.rectangle:
                common = other.rectangle.common(one.rectangle)
                if common is not None:
                    yield other, common

    def of_piece(self, place: str) -> Iterator[Rectangle]:
        """Yield what is hidden of every copy of a piece, from its lower left: by what is put on it, and by what is put
        over it where it lies."""
        for other in self._on.get(place, ()):
            if _hides(other) and other.rectangle is not None and other.surface.width and other.surface.height:
                whole = Rectangle(Fraction(0), Fraction(0), other.surface.width, other.surface.height)
                common = other.rectangle.common(whole)
                if common is not None:
                    yield common
        lies = self.put(place)
        if lies is not None and lies.rectangle is not None and lies.turn == 0:
            for _, common in self.covers_over(lies):
                yield common.moved(-lies.rectangle.left, -lies.rectangle.bottom)


def _is_everywhere(one: Lying) -> bool:
    return one.on_copy is None and one.placement.layer == "over" and not one.placement.wraps


def _hides(one: Lying) -> bool:
    made = one.thing.made
    return _is_everywhere(one) and isinstance(made, Piece) and is_plain(made)


def is_plain(piece: Piece) -> bool:
    """Whether a piece is a rectangle with straight edges and no opening."""
    edges = piece.edges
    straight = not any((edges.left, edges.right, edges.top, edges.bottom))
    return piece.shape.kind == "rect" and straight and not piece.windows
