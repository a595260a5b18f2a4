"""Proofs that a list is short, checked again by code that shares nothing with what found them.

There are two kinds. Prices: if all pieces wanted are worth more than can ever be made of all sheets, the list is short;
here the worth of a sheet is worked out again, cut by cut. Exhausted: every build that could be part of a plan was
looked at; here they are all made again, more of them: each whole length is a line, one price alone keeps them few, and
a build is never left out because the same pieces fill a smaller box.

Plain Python in whole numbers, slow and short. Sheets are (width, height, copies), kinds (width, height, copies, may
turn), as a question about builds has them; prices are those of its answer, one for each kind. No price is trusted: bad
ones prove nothing, or make the second way long.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Callable, Mapping, Sequence
from itertools import product
from operator import add, itemgetter
from typing import Any

__all__ = ["has_no_plan", "is_proof", "prices_prove_short"]

type Kinds = Sequence[tuple[int, int, int, bool]]
type Sheets = Sequence[tuple[int, int, int]]
type Rows = list[list[int]]
type Taking = Callable[[list[int]], tuple[int, ...]]
# Pieces as a number with a field for each kind, and the box they fill.
type Build = tuple[int, int, int]

# Less than anything is worth, however much is added.
NEVER = -(1 << 80)


def is_proof(question: Mapping[str, Any], answer: Mapping[str, Any], most: int) -> bool | None:
    """Whether an answer that a list is short is one; None where that takes more than `most` pairs.

    Question and answer are those of `layouts.cutting.builds.deciding`. Where the answer names a part of the pieces that
    is short by itself, it must be a part.
    """
    sheets, kinds = question["sheets"], [(w, h, copies, bool(turns)) for w, h, copies, turns in question["kinds"]]
    if answer["by"] == "too-big":
        lies = [{(w, h), (h, w)} if turns else {(w, h)} for w, h, _, turns in kinds]
        return any(all(w > a or h > b for w, h in some for a, b, _ in sheets) for some in lies)
    copies = answer.get("copies", [kind[2] for kind in kinds])
    if any(not 0 <= number <= kind[2] for number, kind in zip(copies, kinds, strict=True)):
        return False
    kinds = [_as_it_fits(kind, sheets) for kind in kinds]
    part = [(w, h, number, turns) for (w, h, _, turns), number in zip(kinds, copies, strict=True) if number]
    prices = [price for price, number in zip(answer["prices"], copies, strict=True) if number]
    if answer["by"] == "prices":
        return prices_prove_short(sheets, part, prices)
    return answer["by"] == "exhausted" and has_no_plan(sheets, part, prices, most)


def _as_it_fits(kind: tuple[int, int, int, bool], sheets: Sheets) -> tuple[int, int, int, bool]:
    """A kind that lies one way only where it fits no other way: its other side is no length of any row then."""
    width, height, copies, turns = kind
    upright, sideways = (
        any(w <= wide and h <= high for wide, high, _ in sheets) for w, h in ((width, height), (height, width))
    )
    if not turns or upright == sideways:
        return kind
    return (width, height, copies, False) if upright else (height, width, copies, False)


def prices_prove_short(sheets: Sheets, kinds: Kinds, prices: Sequence[int]) -> bool:
    """Whether at these prices all pieces are worth more than can be made of all sheets, with copies without limit.

    Parts are as long as rows of pieces (Herz 1972), each copy in a row once: without that a sheet may be worth more.

    >>> prices_prove_short([(10, 10, 2)], [(6, 6, 3, False)], [1])
    True
    >>> prices_prove_short([(10, 10, 2)], [(6, 6, 2, False)], [1])
    False
    """
    if len(prices) != len(kinds) or min(prices) < 0:
        return False
    on_x, on_y = (
        _rows(max(sheet[axis] for sheet in sheets), [({kind[axis], kind[axis ^ kind[3]]}, kind[2]) for kind in kinds])
        for axis in (0, 1)
    )
    worth, _ = _worths(on_x, on_y, kinds, prices)
    of_sheets = sum(
        worth[bisect_right(on_x, width) - 1][bisect_right(on_y, height) - 1] * copies
        for width, height, copies in sheets
    )
    return of_sheets < sum(price * kind[2] for price, kind in zip(prices, kinds, strict=True))


def has_no_plan(sheets: Sheets, kinds: Kinds, prices: Sequence[int], most: int) -> bool | None:
    """Whether no plan cuts all pieces from the sheets; None where more than `most` pairs would have to be looked at.

    >>> pinwheel = [(2, 1, 2, False), (1, 2, 2, False), (1, 1, 1, False)]
    >>> has_no_plan([(3, 3, 1)], pinwheel, [2, 2, 1], 10_000)
    True
    >>> has_no_plan([(3, 3, 1)], [(1, 1, 9, False)], [1], 10_000)
    False
    """
    builds = _Builds(sheets, kinds, prices)
    if not builds.make(most):
        return None
    return builds.leave_something(sheets, most)


def _rows(room: int, sides: Sequence[tuple[set[int], int]]) -> list[int]:
    """All lengths up to `room` that pieces side by side can have, each copy with one of its sides."""
    found = {0}
    for lengths, copies in sides:
        for _ in range(copies):
            more = {a + b for a in found for b in lengths if a + b <= room} - found
            if not more:
                break
            found |= more
    return sorted(found)


def _worths(on_x: Sequence[int], on_y: Sequence[int], kinds: Kinds, prices: Sequence[int]) -> tuple[Rows, Rows]:
    """The worth of plates by their lines, as rows of one width and again as rows of one height."""
    across, up = _halves(on_x), _halves(on_y)
    wide: Rows = [[0] * len(on_y) for _ in on_x]
    high: Rows = [[0] * len(on_x) for _ in on_y]
    lies = [
        (*lie, price)
        for (width, height, _, turns), price in zip(kinds, prices, strict=True)
        for lie in ([(width, height), (height, width)] if turns else [(width, height)])
    ]
    for i, width in enumerate(on_x):
        for j, height in enumerate(on_y):
            best = max((price for w, h, price in lies if w <= width and h <= height), default=0)
            for row, halves in ((high[j], across[i]), (wide[i], up[j])):
                if halves is not None:
                    best = max(best, *map(add, halves[0](row), halves[1](row)))
            wide[i][j] = high[j][i] = best
    return wide, high


def _halves(lines: Sequence[int]) -> list[tuple[Taking, Taking] | None]:
    """For each line what takes, of a row, both parts at each cut; the longer part only as long as the line below it."""
    found: list[tuple[Taking, Taking] | None] = []
    for length in lines:
        cuts = range(1, bisect_right(lines, length // 2))
        rests = [bisect_right(lines, length - lines[cut]) - 1 for cut in cuts]
        # A getter of one thing gives no tuple: the part that is nothing beside all of it is added to every list.
        found.append((itemgetter(0, *cuts), itemgetter(0, *rests)) if rests else None)
    return found


class _Builds:
    """All builds that could be part of a plan, judged by one price a kind on all whole lengths."""

    def __init__(self, sheets: Sheets, kinds: Kinds, prices: Sequence[int]) -> None:
        self._width, self._height = max(sheet[0] for sheet in sheets), max(sheet[1] for sheet in sheets)
        self._kinds, self._prices = kinds, prices
        # A field a kind, with a bit to spare that is set when what is lacking to all copies is added to too many.
        self._shifts, shift = list[int](), 0
        self._everything = self._lacking = self._guards = 0
        for _, _, copies, _ in kinds:
            bits = copies.bit_length()
            self._shifts.append(shift)
            self._everything |= copies << shift
            self._lacking |= ((1 << bits) - 1 - copies) << shift
            self._guards |= 1 << shift + bits
            shift += bits + 1
        self._bars = self._least(sheets)
        self._made: list[Build] = []
        self._worth: dict[int, int] = {}

    def make(self, most: int) -> bool:
        """Join until nothing is new; False where that takes more than so many pairs."""
        seen: set[Build] = set()
        for number, (width, height, _, turns) in enumerate(self._kinds):
            self._worth[1 << self._shifts[number]] = self._prices[number]
            for w, h in {(width, height), (height, width)} if turns else {(width, height)}:
                self._take(seen, (1 << self._shifts[number], w, h))
        at = 0
        while at < len(self._made):
            most -= 2 * (at + 1)
            if most < 0:
                return False
            pieces, width, height = self._made[at]
            for others, w, h in self._made[: at + 1]:
                together = pieces + others
                if together not in self._worth:
                    if not self._is_wanted(together):
                        continue
                    self._worth[together] = self._worth[pieces] + self._worth[others]
                self._take(seen, (together, width + w, max(height, h)))
                self._take(seen, (together, max(width, w), height + h))
            at += 1
        return True

    def _take(self, seen: set[Build], build: Build) -> None:
        pieces, width, height = build
        if width > self._width or height > self._height or build in seen:
            return
        if self._worth[pieces] >= self._bars[width][height]:
            seen.add(build)
            self._made.append(build)

    def _is_wanted(self, pieces: int) -> bool:
        return not pieces + self._lacking & self._guards

    def _least(self, sheets: Sheets) -> Rows:
        """What a build in a box must be worth: all pieces, less the most that can be made of everything outside it."""
        on_x, on_y = range(self._width + 1), range(self._height + 1)
        wide, high = _worths(on_x, on_y, self._kinds, self._prices)
        of_sheets = sum(wide[width][height] * copies for width, height, copies in sheets)
        pieces = sum(price * kind[2] for price, kind in zip(self._prices, self._kinds, strict=True))
        outside = [[NEVER] * len(on_y) for _ in on_x]
        turned = [[NEVER] * len(on_x) for _ in on_y]
        whole = {(width, height): of_sheets - wide[width][height] for width, height, _ in sheets}
        for i, j in product(reversed(on_x), reversed(on_y)):
            # Cut off a plate that is longer by 1, 2, …, whose other part is so long; or a sheet of its own.
            best = (
                max(
                    whole.get((i, j), NEVER),
                    *map(add, turned[j][i + 1 :], high[j][1:]),
                    *map(add, outside[i][j + 1 :], wide[i][1:]),
                )
                if i < self._width or j < self._height
                else whole.get((i, j), NEVER)
            )
            outside[i][j] = turned[j][i] = best
        return [[pieces - made for made in row] for row in outside]

    def leave_something(self, sheets: Sheets, most: int) -> bool | None:
        """Whether no choice of a build, or none, for each sheet is all pieces; None beyond so many choices."""
        reached = {0}
        for width, height, copies in sheets:
            filling = {0} | {pieces for pieces, w, h in self._made if w <= width and h <= height}
            for _ in range(copies):
                if self._everything in reached:
                    return False
                most -= len(reached) * len(filling)
                if most < 0:
                    return None
                reached = {both for taken in reached for more in filling if self._is_wanted(both := taken + more)}
        return self._everything not in reached
