"""The independent judge of finished plans. It shares no code with anything that makes them.

It reads the plan as the proof prints it (plain JSON values) and knows only what paper can do: every cut runs from
edge to edge of its part, both parts are there with the slack between them, and what is called a piece has its size,
its turn, its place and its number. A plan with a fault is a defect of this software, never an answer.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

__all__ = ["CutOut", "Sheet", "Wanted", "verify_plan"]

# x, y, width, height
type _Place = tuple[int, int, int, int]


@dataclass(frozen=True, slots=True)
class Sheet:
    """The paper. Units: ticks, from the lower left corner.

    `width` x `height` is the sheet less its undersize, the root of every tree. Pieces stay between `usable_left` and
    `usable_right`, `usable_bottom` and `usable_top` (coordinates, not margins). `slack` is lost between two parts of
    a cut; `supply` is the number of sheets there are.
    """

    width: int
    height: int
    usable_left: int
    usable_bottom: int
    usable_right: int
    usable_top: int
    slack: int
    supply: int


@dataclass(frozen=True, slots=True)
class CutOut:
    """What one copy of a piece offers of a window: a rectangle with a lower left corner of 0, 0, and what may be taken
    from it. The pieces are wanted of all copies of the cut-out together."""

    width: int
    height: int
    pieces: Mapping[str, Wanted]


@dataclass(frozen=True, slots=True)
class Wanted:
    """A piece or flat part: its size when upright, in ticks; the copy numbers that this paper must give, each exactly
    once; the turns (0, 90, 180, 270) in which it may lie; and, by window, the cut-outs that others come from."""

    width: int
    height: int
    copies: frozenset[int]
    turns: frozenset[int]
    cut_outs: Mapping[str, CutOut] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class _Frame:
    """What a tree is cut from: its name in faults, its size, the box its pieces stay in, and what may be taken."""

    name: str
    width: int
    height: int
    box: tuple[int, int, int, int]
    pieces: Mapping[str, Wanted]


def verify_plan(plan: Sequence[Mapping[str, Any]], sheet: Sheet, wanted: Mapping[str, Wanted]) -> tuple[str, ...]:
    """Return the faults of a plan, `[{"sheet": 1, "tree": NODE}, …]`; an empty tuple says that it can be cut.

    `wanted` holds, by place, everything that must come from this paper's sheets; what comes from cut-outs stands in
    the `cut_outs` of the piece that they are cut from, to any depth.
    """
    return tuple(_Judge(sheet, wanted).faults(plan))


class _Judge:
    def __init__(self, sheet: Sheet, wanted: Mapping[str, Wanted]) -> None:
        self.sheet, self.wanted = sheet, wanted
        self.came: Counter[tuple[str, int]] = Counter()
        self.trees: list[tuple[object, _Frame]] = []

    def faults(self, plan: Sequence[Mapping[str, Any]]) -> Iterator[str]:
        sheet = self.sheet
        box = (sheet.usable_left, sheet.usable_bottom, sheet.usable_right, sheet.usable_top)
        if len(plan) > sheet.supply:
            yield f"{len(plan)} sheets are cut, {sheet.supply} are there"
        for number, entry in enumerate(plan, start=1):
            if entry.get("sheet") != number:
                yield f"sheet {number} is numbered {entry.get('sheet')!r}"
            before = self.came.total()
            self.trees = [(entry.get("tree"), _Frame(f"sheet {number}", sheet.width, sheet.height, box, self.wanted))]
            while self.trees:  # a piece adds the trees of its cut-outs
                yield from self.tree(*self.trees.pop())
            if self.came.total() == before:
                yield f"sheet {number}: nothing is cut from it"
        asked = {(place, copy) for place, piece in _all(self.wanted) for copy in piece.copies}
        for place, copy in sorted(asked - set(self.came)):
            yield f"{place} copy {copy}: not cut"
        for (place, copy), times in sorted(self.came.items()):
            if (place, copy) not in asked:
                yield f"{place} copy {copy}: cut, but nobody asked for it"
            elif times > 1:
                yield f"{place} copy {copy}: cut {times} times"

    def tree(self, root: object, frame: _Frame) -> Iterator[str]:
        if _place_of(root) != (0, 0, frame.width, frame.height):
            yield f"{frame.name}: the tree starts from {_place_of(root)}, not from 0, 0, {frame.width} x {frame.height}"
        waiting = [root]
        while waiting:
            node = waiting.pop()
            place = _place_of(node)
            if not isinstance(node, dict) or place is None:
                yield f"{frame.name}: a part without a place or a size"
                continue
            if min(place[2:]) < 1:
                yield f"{frame.name}: an empty part at {place[0]}, {place[1]}"
            kinds = [name for name in ("cut", "piece", "offcut") if name in node]
            if kinds == ["cut"]:
                yield from self.cut(node, place, frame)
                if isinstance(node.get("parts"), list):
                    waiting.extend(reversed(node["parts"]))
            elif kinds == ["piece"]:
                yield from self.piece(node, place, frame)
            elif kinds != ["offcut"] or node["offcut"] is not True or "parts" in node:
                yield f"{frame.name}: the part at {place[0]}, {place[1]} is not one of cut, piece and offcut"

    def cut(self, node: Mapping[str, Any], place: _Place, frame: _Frame) -> Iterator[str]:
        x, y, width, height = place
        cut, parts = node["cut"], node.get("parts")
        where = f"{frame.name}: the cut of the part at {x}, {y}"
        if not (isinstance(cut, dict) and cut.get("along") in ("x", "y") and type(cut.get("at")) is int):
            yield f"{where} is no cut along x or y at a place"
            return
        if not (isinstance(parts, list) and len(parts) in (1, 2)):
            yield f"{where} has neither one part nor two"
            return
        at, slack = cut["at"], self.sheet.slack
        if cut["along"] == "x":
            rest = x + width - at
            expected = [(x, y, at - x, height), (at + slack, y, rest - slack, height)]
        else:
            rest = y + height - at
            expected = [(x, y, width, at - y), (x, at + slack, width, rest - slack)]
        if len(parts) == 1 and not 0 < rest <= slack:
            yield f"{where} has one part and {rest} beyond it, where only up to {slack} may be lost"
        if [_place_of(part) for part in parts] != expected[: len(parts)]:
            yield f"{where} does not divide it from edge to edge"

    def piece(self, node: Mapping[str, Any], place: _Place, frame: _Frame) -> Iterator[str]:
        name, copy, turn = node["piece"], node.get("copy"), node.get("turn")
        where = f"{frame.name}: {name} copy {copy}"
        if "parts" in node:
            yield f"{where} is a piece and has parts"
        if type(copy) is not int or type(name) is not str:
            yield f"{where} has no name or number"
            return
        self.came[name, copy] += 1
        piece = frame.pieces.get(name)
        if piece is None:
            yield f"{where} is not to be cut here"
            return
        x, y, width, height = place
        left, bottom, right, top = frame.box
        if not (left <= x and x + width <= right and bottom <= y and y + height <= top):
            yield f"{where} lies beyond the usable paper"
        if type(turn) is not int or turn not in piece.turns:
            yield f"{where} is turned by {turn!r}, which it may not be"
        size = (piece.height, piece.width) if turn in (90, 270) else (piece.width, piece.height)
        if (width, height) != size:
            yield f"{where} is cut {width} x {height}, wanted {size[0]} x {size[1]}"
        cut_outs = node.get("cut_outs", {})
        for window, root in cut_outs.items() if isinstance(cut_outs, dict) else [(cut_outs, None)]:
            offer = piece.cut_outs.get(window) if isinstance(window, str) else None
            if offer is None:
                yield f"{where} has no cut-out {window!r}"
                continue
            if offer.width > piece.width or offer.height > piece.height:
                yield f"{where}: the cut-out {window} is larger than its piece"
            box = (0, 0, offer.width, offer.height)
            inner = _Frame(f"{where}, cut-out {window}", offer.width, offer.height, box, offer.pieces)
            self.trees.append((root, inner))


def _all(wanted: Mapping[str, Wanted]) -> Iterator[tuple[str, Wanted]]:
    """Every piece wanted of the paper, and of the cut-outs of its pieces, and of theirs."""
    waiting = [wanted]
    while waiting:
        for place, piece in waiting.pop().items():
            yield place, piece
            waiting.extend(offer.pieces for offer in piece.cut_outs.values())


def _place_of(node: object) -> _Place | None:
    """x, y, width and height of a part; None if it is no part."""
    if not isinstance(node, dict):
        return None
    x, y, width, height = (node.get(name) for name in ("x", "y", "width", "height"))
    # true is an int to Python, and no length.
    if type(x) is int and type(y) is int and type(width) is int and type(height) is int:
        return x, y, width, height
    return None
