"""Pieces packed as tightly as the cuts between them allow, and where the paper that they leave is best cut off.

A block is a cut tree without its waste: the pieces, and in which order they lie side by side. Laid into the corner of a
larger rectangle it leaves paper beyond it on both axes, which may be cut off before the block is cut, or later and then
together with what lies beyond one of its parts. `spread` takes the way in which most use is left.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from operator import itemgetter

from layouts.cutting.rough import Laid, Rough, Waste, across, row
from layouts.cutting.tree import Along

__all__ = ["Block", "Spread", "block_of", "joined", "turned"]

# What an offcut of this width and height is worth.
type Worth = Callable[[int, int], int]


@dataclass(frozen=True, slots=True, eq=False)
class Block:
    """One piece, or parts side by side along an axis with their lower left corners on one line.

    `area` is that of its pieces alone; `sign` is equal for blocks of equal pieces in equal order. Made by `of` and
    `joined`.
    """

    width: int
    height: int
    area: int
    sign: tuple[object, ...]
    piece: Laid | None
    along: Along = "x"
    parts: tuple[Block, ...] = ()

    @classmethod
    def of(cls, piece: Laid) -> Block:
        width, height = piece.width, piece.height
        return cls(width, height, width * height, (width, height, piece.kind), piece)


def joined(along: Along, parts: Sequence[Block]) -> Block:
    """Put blocks side by side; rows of the same axis become one row, and a single block stays as it is.

    >>> joined("x", [Block.of(Laid(2, 3, 0)), Block.of(Laid(4, 1, 1))]).height
    3
    """
    if len(parts) == 1:
        return parts[0]
    flat = tuple(one for part in parts for one in (part.parts if part.parts and part.along == along else (part,)))
    widths, heights = [part.width for part in flat], [part.height for part in flat]
    width, height = (sum(widths), max(heights)) if along == "x" else (max(widths), sum(heights))
    sign = (along, *(part.sign for part in flat))
    return Block(width, height, sum(part.area for part in flat), sign, None, along, flat)


def turned(block: Block) -> Block:
    """The block with its axes exchanged, and every piece in it turned by a quarter."""
    if block.piece is not None:
        return Block.of(Laid(block.height, block.width, block.piece.kind))
    return joined(across(block.along), [turned(part) for part in block.parts])


def block_of(rough: Rough) -> Block | None:
    """Return the pieces of a rough tree without its waste; None if there are none."""
    if isinstance(rough, Laid):
        return Block.of(rough)
    if isinstance(rough, Waste):
        return None
    parts = [block for part in rough.parts if (block := block_of(part)) is not None]
    return joined(rough.along, parts) if parts else None


@dataclass(frozen=True, slots=True)
class _Way:
    """How a block is cut from a larger rectangle.

    `off` is the axis on which all that is beyond the block is cut off first. Without it the block is divided at once,
    and the part numbered `wider` gets what is beyond the block on its own axis.
    """

    off: Along | None
    wider: int | None = None


class Spread:
    """The best ways to cut off what blocks leave of rectangles; `offcut` says what one is worth.

    All ways are looked at to cut what is beyond off the whole, or off one of its parts, or one of theirs.
    """

    def __init__(self, offcut: Worth) -> None:
        self.offcut = offcut
        self._known: dict[tuple[Block, int, int], tuple[int, _Way]] = {}

    def worth(self, block: Block, width: int, height: int) -> int:
        """The most that the offcuts can be worth when a block is cut from a rectangle that holds it."""
        return self._best(block, width, height)[0]

    def rough(self, block: Block, width: int, height: int) -> Rough:
        """The tree of the rectangle whose offcuts are worth that."""
        way = self._best(block, width, height)[1]
        if way.off == "x":
            return row("x", [self.rough(block, block.width, height), Waste(width - block.width, height)])
        if way.off == "y":
            return row("y", [self.rough(block, width, block.height), Waste(width, height - block.height)])
        if block.piece is not None:
            return block.piece
        rooms = _rooms(block, width, height, way.wider)
        return row(block.along, [self.rough(part, *room) for part, room in zip(block.parts, rooms, strict=True)])

    def _best(self, block: Block, width: int, height: int) -> tuple[int, _Way]:
        key = (block, width, height)
        if key not in self._known:
            # Of equal ways the first: it makes the longest cuts.
            self._known[key] = max(self._ways(block, width, height), key=itemgetter(0))
        return self._known[key]

    def _ways(self, block: Block, width: int, height: int) -> Iterator[tuple[int, _Way]]:
        beside, above = width - block.width, height - block.height
        if beside:
            yield self.offcut(beside, height) + self.worth(block, block.width, height), _Way("x")
        if above:
            yield self.offcut(width, above) + self.worth(block, width, block.height), _Way("y")
        if block.piece is not None:
            if not beside and not above:
                yield 0, _Way(None)
            return
        own = [
            self.worth(part, *room) for part, room in zip(block.parts, _rooms(block, width, height, None), strict=True)
        ]
        if not (beside if block.along == "x" else above):
            yield sum(own), _Way(None)
            return
        for number, part in enumerate(block.parts):
            wider = self.worth(part, *_rooms(block, width, height, number)[number])
            yield sum(own) - own[number] + wider, _Way(None, number)


def _rooms(block: Block, width: int, height: int, wider: int | None) -> list[tuple[int, int]]:
    """The rectangles of the parts of a block that is divided at once; one of them gets what is beyond."""
    if block.along == "x":
        beyond = width - block.width
        return [(part.width + (beyond if n == wider else 0), height) for n, part in enumerate(block.parts)]
    beyond = height - block.height
    return [(width, part.height + (beyond if n == wider else 0)) for n, part in enumerate(block.parts)]
