"""Tiny cutting lists made by chance from a seed: small enough that every way to cut them can be tried."""

from __future__ import annotations

from random import Random

from layouts.cutting import Item, Problem

__all__ = ["tiny_list"]

# Seven pieces are 127 sets of them.
MOST_PIECES = 7


def tiny_list(seed: int) -> Problem:
    """Return the list with this number: about as much paper as its pieces have area, a little less or more."""
    chance = Random(seed)
    width, height = chance.randint(3, 14), chance.randint(3, 14)
    longest = chance.choice((2, 3, 3, 4, 4)), chance.choice((2, 3, 3, 4, 4))
    items: list[Item] = []
    left = chance.randint(2, MOST_PIECES)
    while left:
        copies = min(left, chance.choice((1, 1, 1, 2, 2, 3)))
        left -= copies
        w, h = chance.randint(1, max(1, width * longest[0] // 4)), chance.randint(1, max(1, height * longest[1] // 4))
        lies = chance.choice(((True, False), (True, False), (True, True), (False, True)))
        items.append(Item(f"P{len(items)}", w, h, copies, *lies))
    slack = chance.choice((0, 0, 0, 1))
    area = sum((item.width + slack) * (item.height + slack) * item.copies for item in items)
    # One sheet fewer than the area needs is short at a glance: rarely asked.
    sheets = -(-area // ((width + slack) * (height + slack))) + chance.choice((-1, 0, 0, 0, 0, 0, 1, 1))
    return Problem(width, height, max(1, sheets), tuple(items), slack)
