"""What lies on a face in layers: what is put on it, and what is put on that in its turn."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import chain, islice

from layouts.document import Piece, Shape
from layouts.shapes.faces import Hole, Lying, Rectangle, Surface

__all__ = ["MOST_WINDOWS", "Layer", "Stack", "stacks_of"]

# Layers of one face that are drawn, those that are counted, and how often something lies on something.
MOST_LAYERS = 24
_MOST_COUNTED = 2_000
_DEEPEST = 6

# Copies of one face that look different, and windows of one thing, that are drawn.
_MOST_COPIES = 12
MOST_WINDOWS = 24

_RECT = Shape.by_default()


@dataclass(frozen=True, slots=True)
class Layer:
    """One thing where it lies on the face (ticks from its lower left), and the rectangle that it is put on.

    `level` counts from the face outwards: 1 is next to it, 2 lies on something of 1; behind the face it is -1, -2.
    """

    lying: Lying
    area: Rectangle
    on: Rectangle
    turn: int
    windows: tuple[Hole, ...]
    level: int

    @property
    def letter(self) -> str:
        """The letter of a piece or form, nothing for what is called by its name."""
        return self.lying.thing.name.partition(" (")[0] if self.lying.thing.kind in ("piece", "form") else ""

    @property
    def outline(self) -> Hole:
        """Its outline, as a hole of that shape would be."""
        made = self.lying.thing.made
        shape = made.shape if isinstance(made, Piece) else _RECT
        return Hole("", "", self.area, shape, self.turn)


@dataclass(frozen=True, slots=True)
class Stack:
    """One face and its layers, the lowest first.

    `copies` are those of the face that look alike, none where every copy does. `unplaced` are things of which nobody
    has said where on it they go; `more` is how many layers are left out, the least number of them if not `counted`;
    `unlike` is how many copies are left out of the drawings because so many look different.
    """

    surface: Surface
    copies: tuple[int, ...]
    layers: tuple[Layer, ...]
    unplaced: tuple[Lying, ...]
    more: int
    counted: bool = True
    unlike: int = 0

    @property
    def around(self) -> Rectangle:
        """The rectangle around the face and all that overhangs it."""
        face = Rectangle(
            Fraction(0), Fraction(0), self.surface.width or Fraction(0), self.surface.height or Fraction(0)
        )
        areas = [face, *(layer.area for layer in self.layers)]
        return Rectangle(
            min(one.left for one in areas),
            min(one.bottom for one in areas),
            max(one.right for one in areas),
            max(one.top for one in areas),
        )


def stacks_of(lying: Sequence[Lying]) -> Iterator[Stack]:
    """Yield a stack for each face, panel and piece that carries something and is carried by nothing itself.

    What is put on a piece shows on the face that the piece is put on. Of several copies of such a piece the first that
    is put anywhere is its copy 1. Faces of unknown size are left out, and so are things on more than six others.
    """
    on: dict[tuple[str, str | None], list[Lying]] = {}
    for one in lying:
        on.setdefault((one.surface.place, one.surface.project), []).append(one)
    put = {one.thing.place for one in lying if one.rectangle is not None}
    times: Counter[str] = Counter()
    copy_of: dict[int, int] = {}
    for one in lying:
        times[one.thing.place] += 1
        copy_of[id(one)] = times[one.thing.place]
    everything = _Everything(on, copy_of)
    for (place, _), here in on.items():
        surface = here[0].surface
        if place in put or surface.width is None or surface.height is None:
            continue
        common = [at for at, one in enumerate(here) if one.on_copy is None]
        by_copy: dict[int, list[int]] = {}
        for at, one in enumerate(here):
            if one.on_copy is not None:
                by_copy.setdefault(one.on_copy, []).append(at)
        alike: dict[tuple[object, ...], list[int]] = {}
        for copy, own in sorted(by_copy.items()):
            looks = tuple((here[at].placement.id, here[at].rectangle, here[at].turn) for at in own)
            alike.setdefault(looks, []).append(copy)
        groups = list(alike.values())
        unlike = sum(map(len, groups[_MOST_COPIES:]))
        for copies in groups[:_MOST_COPIES] or [[]]:
            own = sorted([*common, *by_copy.get(copies[0], ())]) if copies else common
            shown = tuple(copies) if len(groups) > 1 else ()
            yield everything.stack(surface, [here[at] for at in own], shown, unlike)


class _Everything:
    """All placements of a kit by what they are put on; `copy_of` says for each which copy of the thing it puts."""

    def __init__(self, on: Mapping[tuple[str, str | None], Sequence[Lying]], copy_of: Mapping[int, int]) -> None:
        self._on = on
        self._copy_of = copy_of

    def stack(self, surface: Surface, own: Sequence[Lying], copies: tuple[int, ...], unlike: int) -> Stack:
        zero = Fraction(0)
        face = Rectangle(zero, zero, surface.width or zero, surface.height or zero)
        behind = [one for one in own if one.placement.layer == "behind" and one.rectangle is not None]
        over = [one for one in own if one.placement.layer == "over" and one.rectangle is not None]
        found, low = (
            list(
                islice(chain.from_iterable(self._with_what_it_carries(one, face, 0, 0) for one in some), _MOST_COUNTED)
            )
            for some in (over, behind)
        )
        kept_over, kept_low = found[:MOST_LAYERS], low[: max(0, MOST_LAYERS - len(found))]
        more = len(found) + len(low) - len(kept_over) - len(kept_low)
        layers = (
            *(_at(one, -level) for one, level in reversed(_levels(kept_low))),
            *(_at(one, level) for one, level in _levels(kept_over)),
        )
        unplaced = tuple(one for one in own if one.rectangle is None)
        more += max(0, len(unplaced) - MOST_LAYERS)
        counted = max(len(found), len(low)) < _MOST_COUNTED
        return Stack(surface, copies, layers, unplaced[:MOST_LAYERS], more, counted, unlike)

    def _carried(self, some: Sequence[Lying], face: Rectangle) -> list[Layer]:
        every = chain.from_iterable(self._with_what_it_carries(one, face, 0, 0) for one in some)
        return list(islice(every, _MOST_COUNTED))

    def _with_what_it_carries(self, one: Lying, on: Rectangle, turn: int, deep: int) -> Iterator[Layer]:
        """Yield a thing, and whatever lies on it; `on` is what it is put on, which lies turned."""
        if one.rectangle is None:
            return
        whole = on.height if turn in (90, 270) else on.width, on.width if turn in (90, 270) else on.height
        placed = Hole("", "", one.rectangle, _RECT).turned(turn, *whole).around.moved(on.left, on.bottom)
        turned = (one.turn + turn) % 360
        size = one.thing.width or Fraction(0), one.thing.height or Fraction(0)
        windows = tuple(
            hole.turned(turn, *size).moved(placed.left, placed.bottom) for hole in one.thing.windows[:MOST_WINDOWS]
        )
        yield Layer(one, placed, on, turned, windows, 0)
        if deep == _DEEPEST or one.thing.kind not in ("piece", "form"):
            return
        for upper in self._on.get((one.thing.place, one.project.id), ()):
            if upper.on_copy in (None, self._copy_of[id(one)]) and upper.placement.layer == "over":
                yield from self._with_what_it_carries(upper, placed, turned, deep + 1)


def _at(layer: Layer, level: int) -> Layer:
    return Layer(layer.lying, layer.area, layer.on, layer.turn, layer.windows, level)


def _levels(layers: Sequence[Layer]) -> list[tuple[Layer, int]]:
    """Give every layer the lowest level on which it lies over all below that it has something in common with."""
    found: list[tuple[Layer, int]] = []
    for layer in layers:
        below = (level for other, level in found if other.area.common(layer.area) is not None)
        found.append((layer, max(below, default=0) + 1))
    return found
