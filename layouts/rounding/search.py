"""The best choice for a small system, by trying: exact, in whole numbers, without a library."""

from __future__ import annotations

from collections.abc import Callable

from layouts.rounding.effort import Effort
from layouts.rounding.system import Settled, System, cost_of, propagate

__all__ = ["Feasible", "first_way", "search", "within_least_error"]

# Whether a system can be met at all.
type Feasible = Callable[[System], bool]


def search(system: System, effort: Effort) -> tuple[int, ...] | None:
    """Return the best choice, or None where there is none. Raises: Exhausted.

    Best: the largest error least, then the summed error least, then in document order each value as it prefers.
    """
    least = within_least_error(system, lambda one: first_way(one, effort) is not None)
    return None if least is None else _Search(least, effort).cheapest()


def first_way(system: System, effort: Effort) -> tuple[int, ...] | None:
    """Return any choice, or None where there is none. Raises: Exhausted."""
    return _Search(system, effort).first()


def within_least_error(system: System, feasible: Feasible) -> System | None:
    """Return the system with only the errors up to the least that it can be met with, or None: it cannot be met."""
    # No choice can be better than its own best.
    least = max(min(one.errors[option] for option in one.allowed) for one in system.choices)
    errors = sorted(
        {error for one in system.choices for option in one.allowed if (error := one.errors[option]) >= least}
    )
    low, high = 0, len(errors) - 1
    if not feasible(system):
        return None
    while low < high:
        middle = (low + high) // 2
        tried = system.within(errors[middle])
        if tried is not None and feasible(tried):
            high = middle
        else:
            low = middle + 1
    return system.within(errors[low])


class _Search:
    """Depth first, in document order and what is preferred first: of equally cheap choices the first found is best."""

    def __init__(self, system: System, effort: Effort) -> None:
        self._system = system
        self._effort = effort
        self._touching: list[list[int]] = [[] for _ in system.choices]
        for number, equation in enumerate(system.equations):
            for _, choice in equation.terms:
                self._touching[choice].append(number)
        self._best: tuple[int, tuple[int, ...]] | None = None

    def first(self) -> tuple[int, ...] | None:
        self._try(self._start(), list(range(len(self._system.equations))), any_will_do=True)
        return None if self._best is None else self._best[1]

    def cheapest(self) -> tuple[int, ...] | None:
        self._try(self._start(), list(range(len(self._system.equations))), any_will_do=False)
        return None if self._best is None else self._best[1]

    def _start(self) -> Settled:
        return [one.allowed[0] if len(one.allowed) == 1 else None for one in self._system.choices]

    def _try(self, settled: Settled, waiting: list[int], *, any_will_do: bool) -> None:
        self._effort.spend(1 + sum(len(self._system.equations[number].terms) for number in waiting))
        if not propagate(self._system, settled, waiting, self._touching):
            return
        if self._best is not None and (any_will_do or self._least_cost(settled) >= self._best[0]):
            return
        choices = self._system.choices
        at = next((at for at, option in enumerate(settled) if option is None), None)
        if at is None:
            shown = tuple(option for option in settled if option is not None)
            self._best = cost_of(choices, shown), shown
            return
        for option in choices[at].in_order:
            further = settled.copy()
            further[at] = option
            self._try(further, self._touching[at].copy(), any_will_do=any_will_do)

    def _least_cost(self, settled: Settled) -> int:
        return sum(
            one.figures * (min(one.errors[option] for option in one.allowed) if chosen is None else one.errors[chosen])
            for one, chosen in zip(self._system.choices, settled, strict=True)
        )
