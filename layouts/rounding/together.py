"""Many figures on the grid of one step, so that what a reader can add up still adds up (controlled rounding)."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence
from dataclasses import dataclass

from layouts.rounding.effort import Effort
from layouts.rounding.groups import Grid, Group, Shown
from layouts.rounding.relations import Groups, Relation

__all__ = ["MOST_STEPS", "STEPS_A_GROUP", "Rounded", "Rounding"]

# What one group of figures may cost at most, and what all of them may: a hostile document is made of nothing but sums
# that contradict each other. What is left over is rounded figure by figure.
STEPS_A_GROUP = 60_000
MOST_STEPS = 120_000
# The least that rounding a group once more, with figures held down, may cost.
_LEAST_AGAIN = 3_000


@dataclass(frozen=True, slots=True)
class Rounded:
    """Figures as shown, in ticks, and the numbers of the relations that do not hold between them."""

    shown: tuple[int, ...]
    broken: tuple[int, ...]


class Rounding:
    """Figures and the relations between them, to be rounded together; also with some of them held down.

    Each figure is shown as the multiple of the step below or above it, or as itself where it is one. Of all ways in
    which every relation holds, the one is taken in which, group by group, the largest error is least, then the summed
    error; on ties, in document order, each value is shown above, and one that lies just between as the even multiple.
    A group are the figures off the grid that hang together by relations: those on the grid carry nothing over.
    Where a group has no such way, the relations are taken as they are listed, the important ones first, and one that
    contradicts those before it is left out. Where a group is too large to be decided, its equalities are left out, and
    then each of its figures is rounded by itself.
    Source: Cox 1987, JASA 82(398):520-524 (each goes to an adjacent multiple, sums hold, exact multiples stay).
    """

    def __init__(
        self,
        values: Sequence[int],
        step: int,
        relations: Sequence[Relation],
        *,
        positive: Collection[int] = (),
        unprinted: Collection[int] = (),
    ) -> None:
        """`values` and `step` in ticks, the values not below zero; figures that are `positive` are never shown as 0.

        Those that are `unprinted` (they follow from others) keep within one step too, but how far they are off does not
        count: what is printed should be as near as can be.

        Raises: ValueError where a relation does not hold between the exact values.
        """
        wrong = next((one for one in relations if not one.holds(values)), None)
        if wrong is not None:
            raise ValueError(f"{wrong} does not hold between the exact values")
        self._grid = Grid(values, step, frozenset(positive), frozenset(unprinted))
        self._relations = relations
        self._off = {figure for figure, value in enumerate(values) if value % step}
        self._groups = list(self._grouped())
        self._of_figure = {figure: number for number, group in enumerate(self._groups) for figure in group.figures}
        # All of them in document order, so that what one costs changes others always in the same way.
        total = Effort(MOST_STEPS)
        self._known: list[dict[frozenset[int], Shown]] = []
        self._steps: list[int] = []
        for group in self._groups:
            own = Effort(STEPS_A_GROUP, total)
            self._known.append({frozenset(): group.best(frozenset(), own)})
            self._steps.append(max(_LEAST_AGAIN, min(2 * own.spent, STEPS_A_GROUP)))

    def rounded(self, lowered: Collection[int] = ()) -> Rounded:
        """Return all figures as shown; those `lowered` are shown below wherever that is not zero and they must not be.

        >>> panels = [Relation.sum_of(range(7), total=7)]  # 12 in / 7 in sixteenths, by sevenths
        >>> Rounding([192] * 7 + [192 * 7], 7, panels).rounded().shown[:4]
        (196, 196, 196, 189)
        """
        held: dict[int, set[int]] = {}
        for figure in lowered:
            if figure in self._of_figure:
                held.setdefault(self._of_figure[figure], set()).add(figure)
        alone = self._off.difference(self._of_figure)
        shown: Shown = {figure: self._grid.alone(figure, held=figure in lowered) for figure in alone}
        for number in range(len(self._groups)):
            shown |= self._group(number, frozenset(held.get(number, ())))
        whole = tuple(shown.get(at, value) for at, value in enumerate(self._grid.values))
        return Rounded(whole, tuple(n for n, one in enumerate(self._relations) if not one.holds(whole)))

    def may_be_lowered(self, figure: int) -> bool:
        """Whether a figure has a multiple below it that it may be shown as."""
        grid = self._grid
        return figure in self._off and not (figure in grid.positive and grid.values[figure] < grid.step)

    def _group(self, number: int, lowered: frozenset[int]) -> Shown:
        known = self._known[number]
        if lowered not in known:
            known[lowered] = self._groups[number].best(lowered, Effort(self._steps[number]))
        return known[lowered]

    def _grouped(self) -> Iterator[Group]:
        """Yield the figures off the grid that hang together with others, in document order."""
        joined = Groups()
        touching: list[tuple[int, Relation]] = []
        for relation in self._relations:
            free = [figure for _, figure in relation.terms if figure in self._off]
            for figure in free[1:]:
                joined.join(free[0], figure)
            if free:
                touching.append((free[0], relation))
        relations: dict[int, list[Relation]] = {}
        figures: dict[int, set[int]] = {}
        for figure, relation in touching:
            group = joined.of(figure)
            relations.setdefault(group, []).append(relation)
            figures.setdefault(group, set()).update(one for _, one in relation.terms if one in self._off)
        for group in sorted(relations):
            yield Group.of(self._grid, sorted(figures[group]), relations[group])
