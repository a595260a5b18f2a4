"""A sheet divided, before anybody reads it: sizes without places, splits with any number of parts."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from layouts.cutting.tree import Along

__all__ = ["Laid", "Rough", "Split", "Waste", "across", "exchanged", "laid", "row", "side", "waste"]


@dataclass(frozen=True, slots=True)
class Laid:
    """A piece of the kind with this number, in one of its lies."""

    width: int
    height: int
    kind: int


@dataclass(frozen=True, slots=True)
class Waste:
    """What no piece is cut from."""

    width: int
    height: int


@dataclass(frozen=True, slots=True)
class Split:
    """Parts side by side along an axis, which fill the split exactly; made by `row`."""

    width: int
    height: int
    along: Along
    parts: tuple[Rough, ...]


type Rough = Laid | Waste | Split


def across(along: Along) -> Along:
    """The other axis."""
    return "y" if along == "x" else "x"


def side(part: Rough, along: Along) -> int:
    """The length of a part on an axis."""
    return part.width if along == "x" else part.height


def waste(along: Along, length: int, other: int) -> Waste:
    """Waste of this length on the axis, and that on the other."""
    return Waste(length, other) if along == "x" else Waste(other, length)


def row(along: Along, parts: Sequence[Rough]) -> Rough:
    """Put parts side by side; a single one stays as it is. Raises: ValueError if they do not make a rectangle.

    >>> row("x", [Laid(2, 3, 0), Waste(1, 3)]).width
    3
    """
    if len(parts) == 1:
        return parts[0]
    # Plans are tried by the thousand and thrown away: one plain loop takes half the time of a sum and a search.
    length = 0
    if along == "x":
        other = parts[0].height
        for part in parts:
            if part.height != other:
                raise ValueError("parts of different heights beside each other")
            length += part.width
        return Split(length, other, along, tuple(parts))
    other = parts[0].width
    for part in parts:
        if part.width != other:
            raise ValueError("parts of different widths above each other")
        length += part.height
    return Split(other, length, along, tuple(parts))


def laid(rough: Rough) -> Iterator[Laid]:
    """Yield the pieces of a rough tree, in its order."""
    waiting = [rough]
    while waiting:
        part = waiting.pop()
        if isinstance(part, Split):
            waiting.extend(reversed(part.parts))
        elif isinstance(part, Laid):
            yield part


def exchanged(rough: Rough) -> Rough:
    """The tree with its axes exchanged."""
    match rough:
        case Split(width, height, along, parts):
            return Split(height, width, across(along), tuple(exchanged(part) for part in parts))
        case Laid(width, height, kind):
            return Laid(height, width, kind)
        case Waste(width, height):
            return Waste(height, width)
