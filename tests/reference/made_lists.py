"""Cutting lists made by chance from a seed, such as a kit has: sheets are cut at random, and some are then spoilt.

A list whose pieces come out of such cuts fits; of one in which some piece was made larger afterwards nobody knows.
"""

from __future__ import annotations

from random import Random

from layouts.cutting import Item, Problem

__all__ = ["made_list"]

type Box = tuple[int, int]

# Sheets of 6, 8 and 12 in, in eighths or sixteenths.
SIDES = (48, 64, 96, 128, 192)


def made_list(seed: int) -> tuple[Problem, bool]:
    """Return the list with this number, and whether it fits by the way it was made."""
    chance = Random(seed)
    width = height = chance.choice(SIDES)
    if chance.random() < 0.2:
        height = height * 3 // 2
    sheets = chance.randint(1, 3)
    wanted = chance.randint(5, 35)
    boxes = [(width, height)] * sheets
    while len(boxes) < wanted:
        boxes.sort()
        # Mostly a large one of those there are.
        parts = _cut(chance, boxes.pop(chance.randrange(len(boxes) * 2 // 3, len(boxes))))
        boxes += parts
        if len(parts) == 1:
            wanted -= 1
    left_out = chance.choice((0, 0, 1, 1, 2, 3))
    chance.shuffle(boxes)
    pieces = boxes[: max(1, len(boxes) - left_out)]
    is_spoilt = chance.random() < 0.4
    if is_spoilt:
        at = chance.randrange(len(pieces))
        w, h = pieces[at]
        pieces[at] = (min(width, w + chance.randint(1, 3)), h)
    turning = chance.random()
    counted: dict[tuple[Box, bool], int] = {}
    for box in pieces:
        kind = (box, chance.random() < turning)
        counted[kind] = counted.get(kind, 0) + 1
    items = tuple(
        Item(f"P{number}", w, h, copies, True, turns)
        for number, (((w, h), turns), copies) in enumerate(counted.items())
    )
    return Problem(width, height, sheets, items), not is_spoilt


def _cut(chance: Random, box: Box) -> list[Box]:
    """A box cut in two, at half of it now and then; one too small to be cut stays."""
    width, height = box
    if max(box) < 8:
        return [box]
    along_x = width > height if chance.random() < 0.8 else width >= 8
    side = width if along_x else height
    if side < 8:
        return [box]
    at = side // 2 if chance.random() < 0.3 else chance.randint(4, side - 4)
    return [(at, height), (width - at, height)] if along_x else [(width, at), (width, height - at)]
