"""What must hold between figures, and which figures hang together by it."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

__all__ = ["Groups", "Relation"]


@dataclass(frozen=True, slots=True)
class Relation:
    """A sum that comes to nothing: `terms` are whole coefficients, each with the number of its figure.

    >>> Relation.sum_of((0, 1, 2), total=3).terms, Relation.equal(4, 7).terms
    (((1, 0), (1, 1), (1, 2), (-1, 3)), ((1, 4), (-1, 7)))
    """

    terms: tuple[tuple[int, int], ...]

    @classmethod
    def sum_of(cls, parts: Iterable[int], *, total: int) -> Relation:
        """The figures `parts` add up to the figure `total`; one that is a part several times counts as often."""
        counted: dict[int, int] = {}
        for part in parts:
            counted[part] = counted.get(part, 0) + 1
        counted[total] = counted.get(total, 0) - 1
        return cls(tuple((times, figure) for figure, times in counted.items() if times))

    @classmethod
    def equal(cls, first: int, second: int) -> Relation:
        return cls(((1, first), (-1, second)))

    @property
    def is_equality(self) -> bool:
        return len(self.terms) == 2 and {times for times, _ in self.terms} == {1, -1}

    def holds(self, values: Sequence[int]) -> bool:
        return sum(times * values[figure] for times, figure in self.terms) == 0


class Groups:
    """Numbers joined into groups; the least number of a group stands for it. Who was never joined is alone."""

    def __init__(self) -> None:
        self._parent: dict[int, int] = {}

    def of(self, number: int) -> int:
        parent = self._parent
        while (above := parent.get(number, number)) != number:
            parent[number] = parent.get(above, above)
            number = parent[number]
        return number

    def join(self, first: int, second: int) -> None:
        one, other = sorted((self.of(first), self.of(second)))
        if one != other:
            self._parent[other] = one
