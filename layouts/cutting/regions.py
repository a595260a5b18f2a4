"""From rough sheets to cut trees: places, ticks, and one cut at a time."""

from __future__ import annotations

from collections.abc import Sequence

from layouts.cutting.problem import Item, Problem
from layouts.cutting.reduced import Reduced
from layouts.cutting.rough import Laid, Rough, Split, Waste, row, side
from layouts.cutting.tidy import tidied
from layouts.cutting.tree import Cut, Offcut, Region, Taken

__all__ = ["regions"]

# A row of more parts is first cut in the middle: the tree stays shallow, however many strips a sheet gives.
LONGEST_CHAIN = 16


def regions(problem: Problem, small: Reduced, sheets: Sequence[Rough]) -> tuple[Region, ...]:
    """Return the cut trees of a plan, one a sheet, in the ticks of the problem.

    The copies of a kind are handed out to its items in the order of the sheets and their trees.
    Raises: IndexError if the plan has more pieces than are wanted.
    """
    waiting = [[item for item in items for _ in range(item.copies)][::-1] for items in small.items]
    return tuple(_Reader(problem, small, waiting).sheet(sheet) for sheet in sheets)


class _Reader:
    """Reads rough sheets one after the other; `waiting` holds, for each kind, the copies not yet handed out."""

    def __init__(self, problem: Problem, small: Reduced, waiting: list[list[Item]]) -> None:
        self.problem, self.small, self.waiting = problem, small, waiting

    def sheet(self, rough: Rough) -> Region:
        slack = self.problem.slack
        width, height = self.problem.width + slack, self.problem.height + slack
        inner = _in_ticks(rough, self.small.unit_x, self.small.unit_y)
        strip = row("x", [inner, Waste(width - inner.width, inner.height)])
        return self.region(tidied(row("y", [strip, Waste(width, height - inner.height)])), 0, 0)

    def region(self, rough: Rough, x: int, y: int) -> Region:
        width, height = rough.width - self.problem.slack, rough.height - self.problem.slack
        what: Cut | Taken | Offcut = Offcut()
        if isinstance(rough, Laid):
            item = self.waiting[rough.kind].pop()
            what = Taken(item.key, not (item.upright and (width, height) == (item.width, item.height)))
        elif isinstance(rough, Split):
            what = self.cut(rough, x, y)
        return Region(x, y, width, height, what)

    def cut(self, rough: Split, x: int, y: int) -> Cut:
        along, slack = rough.along, self.problem.slack
        half = 1 if len(rough.parts) <= LONGEST_CHAIN else len(rough.parts) // 2
        first, second = row(along, rough.parts[:half]), row(along, rough.parts[half:])
        length = side(first, along)
        at = (x if along == "x" else y) + length - slack
        parts = [self.region(first, x, y)]
        if side(second, along) > slack:  # a rest of no more than that is lost to the cut
            parts.append(self.region(second, x + length, y) if along == "x" else self.region(second, x, y + length))
        return Cut(along, at, tuple(parts))


def _in_ticks(rough: Rough, unit_x: int, unit_y: int) -> Rough:
    width, height = rough.width * unit_x, rough.height * unit_y
    match rough:
        case Split(along=along, parts=parts):
            return Split(width, height, along, tuple(_in_ticks(part, unit_x, unit_y) for part in parts))
        case Laid(kind=kind):
            return Laid(width, height, kind)
        case Waste():
            return Waste(width, height)
