"""Figures that hang together: the best way to show them, with as many of their relations as can hold."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import NamedTuple

from layouts.rounding.effort import Effort, Exhausted
from layouts.rounding.program import any_way, solve_program
from layouts.rounding.relations import Groups, Relation
from layouts.rounding.remainders import by_largest_remainder, is_chain
from layouts.rounding.search import first_way, search
from layouts.rounding.steps import nearest_step
from layouts.rounding.system import Choice, Equation, System

__all__ = ["Grid", "Group", "Shown"]

# Figures by their numbers, each as it is shown, in ticks.
type Shown = dict[int, int]

# The share of the steps that our own search has before the solver is asked.
_OWN_SHARE = 3


class _Row(NamedTuple):
    """A relation within one group: over the figures that are shown above, `terms` add up to `rest`.

    `pair` are the two figures that an equality joins.
    """

    terms: tuple[tuple[int, int], ...]
    rest: int
    pair: tuple[int, int] | None


@dataclass(frozen=True, slots=True)
class Grid:
    """All figures and the step of their grid, in ticks.

    `positive` ones are never shown as nothing; how far `unprinted` ones are off does not count.
    """

    values: Sequence[int]
    step: int
    positive: frozenset[int]
    unprinted: frozenset[int]

    def alone(self, figure: int, *, held: bool) -> int:
        """Return a figure as it is shown by itself, perhaps held down."""
        value = self.values[figure]
        below = value // self.step * self.step
        if not below and figure in self.positive:
            return self.step
        return below if held else nearest_step(value, self.step)

    def choice(self, alike: Sequence[int], lowered: frozenset[int]) -> Choice | None:
        """Return the choice for equal figures, or None where one is held down and another must not be."""
        below, rest = divmod(self.values[alike[0]], self.step)
        allowed = {0, 1}
        if not below and self.positive.intersection(alike):
            allowed.discard(0)
        elif lowered.intersection(alike):
            allowed.discard(1)
        tied = 2 * rest == self.step
        preferred = below % 2 if tied else 1
        printed = sum(figure not in self.unprinted for figure in alike)
        errors = (rest, self.step - rest) if printed else (0, 0)
        return Choice(errors, printed, tuple(sorted(allowed)), preferred) if allowed else None


@dataclass(frozen=True, slots=True)
class Group:
    """Figures off the grid, in document order, and the relations between them, the important ones first."""

    grid: Grid
    figures: tuple[int, ...]
    rows: tuple[_Row, ...]

    @classmethod
    def of(cls, grid: Grid, figures: Sequence[int], relations: Sequence[Relation]) -> Group:
        within = set(figures)
        rows = []
        for relation in relations:
            terms = tuple((times, figure) for times, figure in relation.terms if figure in within)
            rest = -sum(times * (grid.values[figure] // grid.step) for times, figure in relation.terms)
            pair = (terms[0][1], terms[1][1]) if relation.is_equality and len(terms) == 2 else None
            rows.append(_Row(terms, rest, pair))
        return cls(grid, tuple(figures), tuple(rows))

    def best(self, lowered: frozenset[int], effort: Effort) -> Shown:
        """Return the figures as shown, some of them held down; each of up to three ways has a third of the effort."""
        sums = [row for row in self.rows if row.pair is None]
        equal = [row for row in self.rows if row.pair is not None]
        steps = effort.left // 3
        try:
            found = self._together([*sums, *equal], lowered, Effort(steps, effort))
            if found is not None:
                return found
        except Exhausted:
            return self._without(equal, sums, lowered, steps, effort)
        return self._as_many_as_hold([*sums, *equal], lowered, Effort(steps, effort))

    def _without(
        self,
        equal: Sequence[_Row],
        sums: Sequence[_Row],
        lowered: frozenset[int],
        steps: int,
        effort: Effort,
    ) -> Shown:
        """What is too much with its equalities may be decided without them; else each figure is rounded by itself."""
        if equal and sums:
            try:
                found = self._together(sums, lowered, Effort(steps, effort))
                return self._as_many_as_hold(sums, lowered, Effort(steps, effort)) if found is None else found
            except Exhausted:
                pass
        return self._alone(lowered)

    def _as_many_as_hold(self, relations: Sequence[_Row], lowered: frozenset[int], effort: Effort) -> Shown:
        """Take the relations in order, and leave out each that contradicts those before it."""
        kept: list[_Row] = []
        waiting = list(relations)
        last = Effort(effort.left // 3, effort)
        halving = Effort(effort.left - last.left, effort)
        some: Shown = self._alone(lowered)
        low = 0
        try:
            while waiting:
                # The most of them that can hold with those kept, found by halving.
                low, high = 0, len(waiting)
                while low < high:
                    middle = (low + high + 1) // 2
                    found = self._together([*kept, *waiting[:middle]], lowered, halving, any_will_do=True)
                    if found is None:
                        high = middle - 1
                    else:
                        low, some = middle, found
                kept += waiting[:low]
                del waiting[: low + 1]
        except Exhausted:
            kept += waiting[:low]
        try:
            return self._together(kept, lowered, last) or some
        except Exhausted:
            return some

    def _together(
        self, relations: Sequence[_Row], lowered: frozenset[int], effort: Effort, *, any_will_do: bool = False
    ) -> Shown | None:
        """Return the best way in which all of these relations hold, or any, or None. Raises: Exhausted."""
        # To write the equations down is work as well, and halving a long list of relations does it again and again.
        if len(relations) > 1:
            effort.spend(len(self.figures) + sum(len(one.terms) for one in relations))
        grid = self.grid
        shown: Shown = {}
        for system, classes in self._systems(relations, lowered):
            found = None if system is None else _decided(system, effort, any_will_do=any_will_do)
            if found is None:
                return None
            for option, members in zip(found, classes, strict=True):
                shown |= {figure: (grid.values[figure] // grid.step + option) * grid.step for figure in members}
        return shown

    def _systems(
        self, relations: Sequence[_Row], lowered: frozenset[int]
    ) -> Iterator[tuple[System | None, list[list[int]]]]:
        """Yield what hangs together by these relations: a system, and the figures of each choice in it.

        Figures that are equal are one choice. None in place of a system that can be seen not to hold.
        """
        same, joined = Groups(), Groups()
        for row in relations:
            if row.pair is not None:
                same.join(*row.pair)
        sums: list[tuple[dict[int, int], int]] = []
        for row in relations:
            if row.pair is not None:
                continue
            terms: dict[int, int] = {}
            for times, figure in row.terms:
                one = same.of(figure)
                terms[one] = terms.get(one, 0) + times
            terms = {figure: times for figure, times in terms.items() if times}
            if terms or row.rest:
                sums.append((terms, row.rest))
            first = next(iter(terms), -1)
            for figure in terms:
                joined.join(first, figure)
        classes: dict[int, list[int]] = {}
        for figure in self.figures:
            classes.setdefault(same.of(figure), []).append(figure)
        parts: dict[int, list[int]] = {}
        for first in classes:
            parts.setdefault(joined.of(first), []).append(first)
        of_part: dict[int, list[tuple[dict[int, int], int]]] = {}
        for terms, rest in sums:
            if not terms:
                yield None, []
                return
            of_part.setdefault(joined.of(next(iter(terms))), []).append((terms, rest))
        for part, members in parts.items():
            number = {first: at for at, first in enumerate(members)}
            choices = [self.grid.choice(classes[first], lowered) for first in members]
            equations = [
                Equation(tuple((times, number[figure]) for figure, times in terms.items()), rest)
                for terms, rest in of_part.get(part, ())
            ]
            whole = [one for one in choices if one is not None]
            system = System(tuple(whole), tuple(equations)) if len(whole) == len(choices) else None
            yield system, [classes[first] for first in members]

    def _alone(self, lowered: frozenset[int]) -> Shown:
        return {figure: self.grid.alone(figure, held=figure in lowered) for figure in self.figures}


def _decided(system: System, effort: Effort, *, any_will_do: bool) -> tuple[int, ...] | None:
    """The best choice for one system, or any, or None where there is none. Raises: Exhausted."""
    if not system.equations:
        return tuple(min(one.in_order, key=one.errors.__getitem__) for one in system.choices)
    if is_chain(system):
        return by_largest_remainder(system)
    own, asked = (first_way, any_way) if any_will_do else (search, solve_program)
    try:
        return own(system, Effort(effort.left // _OWN_SHARE, effort))
    except Exhausted:
        return asked(system, effort)
