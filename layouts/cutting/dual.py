"""Dual feasible functions: ways to count lengths anew so that what fits in a row still fits.

Each function is given as its values on the sides asked for, with the value of the whole room. Whatever stands in one
row within the room, its values add up to no more than the room's value; so the products over both axes bound what one
sheet can hold (Fekete and Schepers 2001; Carlier, Clautiaux and Moukrim 2007; all from memory, proved in the tests by
trying every row). Integers only.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

__all__ = ["Count", "counts"]

# So many functions an axis are tried at most; the pairs of both axes are what costs.
MOST_COUNTS = 80


@dataclass(frozen=True, slots=True)
class Count:
    """What a function makes of each side asked for, in their order, and of the whole room."""

    sides: tuple[int, ...]
    room: int


def counts(room: int, sides: Sequence[int], numbers: Sequence[int]) -> list[Count]:
    """Return the functions worth trying on an axis, without repeats, the plain length first.

    `sides` are the lengths that can stand on the axis, `numbers` how often each can at most (a piece that turns is
    counted with both of its sides, which only weakens the third family).

    >>> counts(10, [6, 5, 4], [1, 1, 1])[1]
    Count(sides=(1, 0, 0), room=1)
    """
    # Between these places none of the functions changes its mind about a side.
    places = {side if 2 * side <= room else room - side + 1 for side in sides}
    thresholds = sorted(k for k in places if 0 < 2 * k <= room)
    parts = {room // n + more for n in range(2, 9) for more in (0, 1)}
    divisors = sorted(k for k in places | parts if 0 < 2 * k <= room)
    found: dict[Count, None] = {Count(tuple(sides), room): None}
    for count in _families(room, sides, numbers, thresholds, divisors):
        if any(count.sides):
            found.setdefault(count)
        if len(found) >= MOST_COUNTS:
            break
    return list(found)


def _families(
    room: int, sides: Sequence[int], numbers: Sequence[int], thresholds: Sequence[int], divisors: Sequence[int]
) -> Iterator[Count]:
    # Only one of two sides beyond the half can stand in a row.
    yield Count(tuple(int(2 * side > room) for side in sides), 1)
    for k in divisors:
        yield Count(tuple(_steps(room, k, side) for side in sides), 2 * (room // k))
    for k in thresholds:
        yield Count(tuple(room if side > room - k else side if side >= k else 0 for side in sides), room)
    for k in thresholds:
        between = [
            (side, number) for side, number in zip(sides, numbers, strict=True) if k <= side and 2 * side <= room
        ]
        small = sorted(side for side, number in between for _ in range(min(number, room // side)))
        whole = _most(small, room)
        if whole:
            yield Count(tuple(_beside(small, room, k, side, whole) for side in sides), whole)


def _steps(room: int, k: int, side: int) -> int:
    """Twice the number of k's in the side; a side beyond the half counts what it leaves no room for."""
    if 2 * side > room:
        return 2 * (room // k - (room - side) // k)
    if 2 * side == room:
        return room // k
    return 2 * (side // k)


def _beside(small: Sequence[int], room: int, k: int, side: int, whole: int) -> int:
    """One for each side between k and the half; a longer one counts as many of those as it leaves no room for."""
    if 2 * side > room:
        return whole - _most(small, room - side)
    return int(side >= k)


def _most(small: Iterable[int], room: int) -> int:
    """How many of these lengths, shortest first, stand in the room."""
    number = 0
    for side in small:
        room -= side
        if room < 0:
            break
        number += 1
    return number
