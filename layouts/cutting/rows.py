"""The lengths that rows of pieces can have: where cuts need to be looked for, and where a sheet might as well end.

Any plan can be pushed to the left and down until every part is as long as some row of pieces (Herz 1972, "normal
patterns", from memory). A set of lengths is one whole number: bit n says that n is among them.
"""

from __future__ import annotations

from collections.abc import Iterable

__all__ = ["lengths", "reachable"]

# Beyond these sizes nothing is gained that would be worth the work.
LONGEST = 1 << 18
MOST_SHIFTS = 4096


def reachable(room: int, pieces: Iterable[tuple[set[int], int]]) -> int | None:
    """Return the lengths of all rows within `room`, each piece at most as often as there are copies of it.

    `pieces` are the sides that a kind can turn along the row, and its copies. A turning piece counts with both of its
    sides, so that there are more lengths than rows, never fewer. None if there is too much to look at.

    >>> bin(reachable(10, [({4}, 2), ({3}, 1)]) or 0)  # 0, 3, 4, 7, 8
    '0b110011001'
    """
    rows = [(side, copies) for sides, copies in pieces for side in sorted(sides)]
    if room > LONGEST or sum(copies.bit_length() for _, copies in rows) > MOST_SHIFTS:
        return None
    within = (1 << (room + 1)) - 1
    reached = 1
    for side, copies in rows:
        left, lot = min(copies, room // side), 1
        while left > 0:  # 1, 2, 4 … copies at a time reach every number of them
            some = min(lot, left)
            reached |= (reached << (side * some)) & within
            left -= some
            lot *= 2
    return reached


def lengths(reached: int) -> list[int]:
    """The lengths in a set, shortest first."""
    return [length for length, bit in enumerate(reversed(f"{reached:b}")) if bit == "1"]
