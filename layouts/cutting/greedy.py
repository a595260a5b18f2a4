"""A quick plan of our own: one sheet after the other is filled, the largest pieces first.

A space is a rectangle of paper still free. Into a corner of it goes a strip of equal pieces, and two cuts turn what is
left into two spaces. Recipes differ in which piece comes first and in which of the two cuts is made first; they are
tried one after another until the plan cannot be improved or the steps are used up. A filled sheet is repeated for as
long as its pieces last, so ten thousand equal copies cost no more than a few.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from itertools import product
from operator import mul

from layouts.cutting.reduced import Kind, Reduced
from layouts.cutting.rough import Laid, Rough, Waste, laid, row
from layouts.cutting.shelves import shelf_plans
from layouts.cutting.tree import Along

__all__ = ["MOST_COPIES", "greedy_plan"]

# Beyond this many copies no plan is tried: it would be longer than anything a person cuts.
MOST_COPIES = 10_000
# A step looks at one kind of piece for one space. Few where the solver stands by, more where it may not be asked.
STEPS = 12_000
STEPS_ALONE = 1_500_000
# A space so many cuts deep is left over: trees must stay shallow enough to be read by anybody.
DEEPEST = 40


@dataclass(frozen=True, slots=True)
class _Recipe:
    order: Callable[[Kind], tuple[int, ...]]
    first_cut: Callable[[int, int, int, int], Along]
    snug: bool


# Which piece comes first: the order of kinds, by falling value.
ORDERS: tuple[Callable[[Kind], tuple[int, ...]], ...] = (
    lambda kind: (kind.width * kind.height, max(kind.width, kind.height)),
    lambda kind: (max(kind.width, kind.height), kind.width * kind.height),
    lambda kind: (kind.width + kind.height, kind.width * kind.height),
    lambda kind: (min(kind.width, kind.height), kind.width * kind.height),
    lambda kind: (kind.width, kind.height),
    lambda kind: (kind.height, kind.width),
)

# Which cut comes first, from the space (w, h) and the piece (a, b) in its corner: "x" leaves the right space whole.
FIRST_CUTS: tuple[Callable[[int, int, int, int], Along], ...] = (
    lambda w, h, a, b: "x" if w - a >= h - b else "y",
    lambda w, h, a, b: "x" if (w - a) * h >= w * (h - b) else "y",
    lambda w, h, a, b: "x" if w - a < h - b else "y",
    lambda w, h, a, b: "x",
    lambda w, h, a, b: "y",
)

RECIPES = tuple(
    _Recipe(order, first_cut, snug) for snug, order, first_cut in product((True, False), ORDERS, FIRST_CUTS)
)


class _OutOfSteps(Exception):
    """The plan in hand is given up; those before it stand."""


class _Steps:
    __slots__ = ("left",)

    def __init__(self, left: int) -> None:
        self.left = left

    def spend(self, number: int) -> None:
        self.left -= number
        if self.left < 0:
            raise _OutOfSteps


def greedy_plan(small: Reduced, enough: int, alone: bool) -> list[Rough]:
    """Return the plan with the fewest sheets that the recipes find, looking no further than `enough` sheets.

    `alone`: no solver will follow, so more steps are worth while. Always finds a plan.
    """
    best: list[Rough] | None = None
    for plan in shelf_plans(small):
        if best is None or len(plan) < len(best):
            best = plan
        if len(best) <= enough:
            return best
    assert best is not None
    steps = _Steps(STEPS_ALONE if alone else STEPS)
    try:
        for recipe in RECIPES:
            best = _filled(small, recipe, steps, len(best) - 1) or best
            if len(best) <= enough:
                break
    except _OutOfSteps:
        pass
    return best


def _filled(small: Reduced, recipe: _Recipe, steps: _Steps, most: int) -> list[Rough] | None:
    """A plan of so many sheets at most; None as soon as what is left has more area than the sheets still to come."""
    order = sorted(range(len(small.kinds)), key=lambda n: (recipe.order(small.kinds[n]), -n), reverse=True)
    left = [kind.copies for kind in small.kinds]
    areas = [kind.width * kind.height for kind in small.kinds]
    of_sheet, open_to = small.width * small.height, sum(map(mul, areas, left))
    sheets: list[Rough] = []
    while order:
        if open_to > (most - len(sheets)) * of_sheet:
            return None
        steps.spend(len(order) // 8)  # for going through the order afterwards
        sheet = _Sheet(small.kinds, left, order, recipe, steps).fill(small.width, small.height)
        used: dict[int, int] = {}
        for piece in laid(sheet):
            used[piece.kind] = used.get(piece.kind, 0) + 1
        # `left` has already paid for the first of them.
        again = min(left[n] // number for n, number in used.items())
        for n, number in used.items():
            left[n] -= again * number
            open_to -= (again + 1) * number * areas[n]
        sheets.extend([sheet] * (again + 1))
        order = [n for n in order if left[n]]
    return sheets if len(sheets) <= most else None


class _Sheet:
    """One sheet being filled; takes its pieces out of `left`."""

    def __init__(
        self, kinds: Sequence[Kind], left: list[int], order: Sequence[int], recipe: _Recipe, steps: _Steps
    ) -> None:
        self.kinds, self.left, self.order, self.recipe, self.steps = kinds, left, order, recipe, steps

    def fill(self, width: int, height: int, depth: int = 0) -> Rough:
        """Fill a space and return its tree. The smaller of two spaces is filled first: it is the harder to use."""
        found = self._choose(width, height) if width and height and depth < DEEPEST else None
        if found is None:
            return Waste(width, height)
        piece, along = found, self.recipe.first_cut(width, height, found.width, found.height)
        self.left[piece.kind] -= 1
        strip = [piece]
        if along == "x":
            number = self._more(piece, (height - piece.height) // piece.height)
            strip += [piece] * number
            near, far = (piece.width, height - piece.height * (number + 1)), (width - piece.width, height)
        else:
            number = self._more(piece, (width - piece.width) // piece.width)
            strip += [piece] * number
            near, far = (width - piece.width * (number + 1), piece.height), (width, height - piece.height)
        if near[0] * near[1] <= far[0] * far[1]:
            inner = self.fill(*near, depth + 1)
            outer = self.fill(*far, depth + 1)
        else:
            outer = self.fill(*far, depth + 1)
            inner = self.fill(*near, depth + 1)
        return row(along, [row("y" if along == "x" else "x", [*strip, inner]), outer])

    def _more(self, piece: Laid, room: int) -> int:
        """How many further copies go into the same strip; taken out of what is left."""
        number = min(room, self.left[piece.kind])
        self.left[piece.kind] -= number
        return number

    def _choose(self, width: int, height: int) -> Laid | None:
        """The piece for a space: the first in order that fits, or, if snug, the first with the most sides in common."""
        best, best_sides = None, -1
        self.steps.spend(1)
        for n in self.order:
            if not self.left[n]:
                continue
            self.steps.spend(1)
            for across, up in self.kinds[n].lies:
                if across <= width and up <= height:
                    sides = (across == width) + (up == height)
                    if sides > best_sides:
                        best, best_sides = Laid(across, up, n), sides
            if best is not None and (not self.recipe.snug or best_sides == 2):
                break
        return best
