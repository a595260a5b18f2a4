"""From rough sheets to cut trees: places, ticks, and one cut at a time."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from layouts.cutting.problem import Item, Problem
from layouts.cutting.reduced import Reduced
from layouts.cutting.rough import Laid, Rough, Split, Waste, row, side, waste
from layouts.cutting.tidy import tidied
from layouts.cutting.tree import Cut, Offcut, Region, Taken

__all__ = ["regions", "regions_of", "roughs_of"]

# A row of more parts is first cut in the middle: the tree stays shallow, however many strips a sheet gives.
LONGEST_CHAIN = 16


def regions(problem: Problem, small: Reduced, sheets: Sequence[Rough]) -> tuple[Region, ...]:
    """Return the cut trees of a plan, one a sheet, in the ticks of the problem.

    The copies of a kind are handed out to its items in the order of the sheets and their trees.
    Raises: IndexError if the plan has more pieces than are wanted.
    """
    width, height = problem.width + problem.slack, problem.height + problem.slack
    return regions_of(problem, small, [_whole(_in_ticks(sheet, small), width, height) for sheet in sheets])


def regions_of(problem: Problem, small: Reduced, sheets: Sequence[Rough]) -> tuple[Region, ...]:
    """Return the cut trees of a plan whose sheets are whole and in grown ticks: pieces and sheets with their slack.

    Raises: IndexError if the plan has more pieces than are wanted.
    """
    waiting = [[item for item in items for _ in range(item.copies)][::-1] for items in small.items]
    reader = _Reader(problem, waiting)
    return tuple(reader.region(sheet, 0, 0) for sheet in sheets)


def roughs_of(problem: Problem, small: Reduced, sheets: Sequence[Region]) -> list[Rough]:
    """Return the sheets of a plan in grown ticks, as `regions_of` reads them."""
    kinds = {item.key: number for number, items in enumerate(small.items) for item in items}
    return [_rough(sheet, kinds, problem.slack) for sheet in sheets]


class _Reader:
    """Reads rough sheets one after the other; `waiting` holds, for each kind, the copies not yet handed out."""

    def __init__(self, problem: Problem, waiting: list[list[Item]]) -> None:
        self.problem, self.waiting = problem, waiting

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


def _whole(rough: Rough, width: int, height: int) -> Rough:
    strip = row("x", [rough, Waste(width - rough.width, rough.height)])
    return tidied(row("y", [strip, Waste(width, height - rough.height)]))


def _in_ticks(rough: Rough, small: Reduced) -> Rough:
    width, height = rough.width * small.unit_x, rough.height * small.unit_y
    match rough:
        case Split(along=along, parts=parts):
            return Split(width, height, along, tuple(_in_ticks(part, small) for part in parts))
        case Laid(kind=kind):
            return Laid(width, height, kind)
        case Waste():
            return Waste(width, height)


def _rough(region: Region, kinds: Mapping[str, int], slack: int) -> Rough:
    width, height = region.width + slack, region.height + slack
    match region.what:
        case Taken(key=key):
            return Laid(width, height, kinds[key])
        case Offcut():
            return Waste(width, height)
        case Cut(along=along, parts=parts):
            inner = [_rough(part, kinds, slack) for part in parts]
            lost = (width if along == "x" else height) - sum(side(part, along) for part in inner)
            if lost:
                inner.append(waste(along, lost, height if along == "x" else width))
            return row(along, inner)
