"""Pieces laid anew, on a sheet or shared out between two, so that what is left is worth more.

A sheet is taken apart into its pieces or, where these are too many, into blocks that stay as they are. All their boxes
are looked at (`boxes`), for two sheets with every share of the parts between them. A box in the corner of a sheet
leaves two offcuts, and what these are worth ranks it; the best few are laid with all the care there is (`Spread`).
Nothing is changed that is not then worth more, so however little is looked at, no plan gets worse.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import combinations, product

from layouts.cutting.blocks import Block, Spread, turned
from layouts.cutting.boxes import Boxes, Room, work

__all__ = ["Sheets", "gathered"]

# Steps for one plan, each a pair of boxes; a thousand were seen to take 1 ms.
STEPS = 6_000
# A sheet, or two, is taken apart as far as there are no more pairs of sets to look at than this.
MOST_WORK = 600
# So many shares that rank best are laid, on one sheet in so many ways.
MOST_SHARES = 3
MOST_LAID = 6
# What it takes to lay one, in steps for each of its parts.
STEPS_PER_PART = 10

type Counts = tuple[int, ...]


@dataclass(frozen=True, slots=True)
class Sheets:
    """What all sheets have in common: their size, which kinds of pieces may turn, what offcuts are worth, and how
    much offcuts of so much area can be worth at most.

    Units: grown ticks, as everywhere where slack is part of the pieces.
    """

    width: int
    height: int
    turns: Mapping[int, bool]
    spread: Spread
    bound: Callable[[int], int]

    @property
    def area(self) -> int:
        return self.width * self.height

    def worth(self, block: Block) -> int:
        """What is left of a sheet is worth when a block is cut from it."""
        return self.spread.worth(block, self.width, self.height)

    def rank(self, width: int, height: int) -> int:
        """What is left of a sheet beyond a box is worth, cut off in the better of two ways."""
        worth, beside, above = self.spread.offcut, self.width - width, self.height - height
        return max(
            worth(beside, self.height) + worth(width, above),
            worth(self.width, above) + worth(beside, height),
        )

    def lies(self, block: Block) -> list[Block]:
        """The ways in which a block may lie as a whole."""
        return [block, turned(block)] if self._may_turn(block) else [block]

    def _may_turn(self, block: Block) -> bool:
        if block.piece is not None:
            return self.turns[block.piece.kind] and block.width != block.height
        return all(self._may_turn(part) for part in block.parts)


def gathered(sheets: Sheets, plan: Sequence[Block]) -> list[Block]:
    """Return the blocks of as many sheets, with the same pieces, whose leftovers are worth no less in all."""
    gathering = _Gathering(sheets, list(plan))
    numbers = range(len(plan))
    for number in numbers:
        gathering.lay_anew(number)
    again = True
    while again:
        again = False
        # The emptiest sheet first, with the fullest first.
        order = sorted(numbers, key=lambda n: (gathering.plan[n].area, n))
        for one, other in combinations(order, 2):
            again = gathering.share_out(one, other) or again
    return gathering.plan


class _Gathering:
    def __init__(self, sheets: Sheets, plan: list[Block]) -> None:
        self._sheets, self.plan, self._left = sheets, plan, STEPS
        self._vain: set[tuple[object, object]] = set()

    def lay_anew(self, number: int) -> None:
        """Lay what is on one sheet in a way that leaves more, if there is one."""
        self._improve([number])

    def share_out(self, one: int, other: int) -> bool:
        """Share what is on two sheets out in a way that leaves more; whether there is one."""
        return self._improve([one, other])

    def _improve(self, numbers: list[int]) -> bool:
        blocks = [self.plan[number] for number in numbers]
        signs = (blocks[0].sign, blocks[-1].sign)
        now = sum(map(self._sheets.worth, blocks))
        if self._left <= 0 or signs in self._vain:
            return False
        free = self._sheets.area * len(blocks) - sum(block.area for block in blocks)
        if self._sheets.bound(free) <= now:
            return False
        found = _Division(self._sheets, blocks, self._most_waste(free, now))
        best, worth = found.best(now, self._left)
        self._left -= found.steps
        if worth <= now:
            self._vain.add(signs)
            return False
        for number, block in zip(numbers, best, strict=True):
            self.plan[number] = block
        return True

    def _most_waste(self, free: int, now: int) -> int:
        """More waste within the blocks than this leaves too little for what is to be worth more than now."""
        bound = self._sheets.bound
        least, most = 0, free // 2
        if bound(free - most) + bound(most) > now:
            return free
        while least + 1 < most:
            middle = (least + most) // 2
            if bound(free - middle) + bound(middle) > now:
                least = middle
            else:
                most = middle
        return least


class _Division:
    """One or two sheets taken apart, and all that can be made of their parts."""

    def __init__(self, sheets: Sheets, blocks: Sequence[Block], most_waste: int) -> None:
        self._sheets, self._number = sheets, len(blocks)
        groups = _grouped(_parts(blocks))
        self._kinds = [sheets.lies(parts[0]) for parts in groups]
        self._copies = tuple(len(parts) for parts in groups)
        self._areas = [parts[0].area for parts in groups]
        room = Room(sheets.width, sheets.height, most_waste, sheets.spread.offcut)
        self._boxes = Boxes(self._kinds, self._copies, room)
        self._ranks: dict[Counts, list[tuple[int, int]]] = {}
        self.steps = 0

    def best(self, now: int, steps: int) -> tuple[list[Block], int]:
        """Return the blocks whose leftovers are worth most, and what; none where they are worth no more than now."""
        ranked: list[tuple[int, tuple[Counts, ...]]] = []
        least = now
        for bound, shares in self._shares():
            if bound <= least or self.steps + self._boxes.steps > steps:
                break
            ranks = [rank[0][0] for counts in shares if (rank := self._ranked(counts))]
            if len(ranks) == len(shares):
                ranked.append((sum(ranks), shares))
                least = max(least, sum(ranks))
        ranked.sort(key=lambda one: -one[0])
        best, worth = [], now
        for _, shares in ranked[:MOST_SHARES]:
            blocks = [self._laid(counts) for counts in shares]
            value = sum(map(self._sheets.worth, blocks))
            if value > worth:
                best, worth = blocks, value
        self.steps += self._boxes.steps
        return best, worth

    def _shares(self) -> Iterator[tuple[int, tuple[Counts, ...]]]:
        """The ways to share the parts out, with what each may leave at most, the most first."""
        sheets = self._sheets
        whole = sum(area * number for area, number in zip(self._areas, self._copies, strict=True))
        if self._number == 1:
            yield sheets.bound(sheets.area - whole), (self._copies,)
            return
        shares = []
        for counts in product(*(range(number + 1) for number in self._copies)):
            self.steps += 1
            area = sum(area * number for area, number in zip(self._areas, counts, strict=True))
            # The emptier sheet stands first; each has something.
            if 0 < area <= whole - area <= sheets.area:
                rest = tuple(number - some for number, some in zip(self._copies, counts, strict=True))
                bound = sheets.bound(sheets.area - area) + sheets.bound(sheets.area - whole + area)
                shares.append((bound, (counts, rest)))
        yield from sorted(shares, key=lambda share: -share[0])

    def _ranked(self, counts: Counts) -> list[tuple[int, int]]:
        """What the boxes of some parts leave, as far as it is seen at once, and their numbers; the best first."""
        if counts not in self._ranks:
            sizes = enumerate(self._boxes.sizes(counts))
            ranks = [(self._sheets.rank(width, height) + inner, number) for number, (width, height, inner) in sizes]
            self._ranks[counts] = sorted(ranks, key=lambda rank: -rank[0])
        return self._ranks[counts]

    def _laid(self, counts: Counts) -> Block:
        """The best block of some parts."""
        first = self._ranked(counts)[: MOST_LAID // self._number]
        self.steps += STEPS_PER_PART * sum(counts) * len(first)
        return max((self._boxes.block(counts, number) for _, number in first), key=self._sheets.worth)


def _parts(blocks: Sequence[Block]) -> list[Block]:
    """Take blocks apart, those that waste most first, as far as the work allows."""
    parts = list(blocks)
    fixed: list[Block] = []
    while True:
        open_to = [part for part in parts if part.parts and all(part is not one for one in fixed)]
        if not open_to:
            return parts
        first = max(open_to, key=lambda part: (part.width * part.height - part.area, part.area))
        apart = [one for part in parts for one in (part.parts if part is first else (part,))]
        if work([len(group) for group in _grouped(apart)]) <= MOST_WORK:
            parts = apart
        else:
            fixed.append(first)


def _grouped(parts: Sequence[Block]) -> list[list[Block]]:
    """Equal parts together; pieces of a kind are equal however they lie."""
    groups: dict[object, list[Block]] = {}
    for part in parts:
        groups.setdefault(part.sign if part.piece is None else part.piece.kind, []).append(part)
    return list(groups.values())
