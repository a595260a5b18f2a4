"""A small system: values that are each shown below or above, and whole-number equations between them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

__all__ = ["Choice", "Equation", "Settled", "System", "cost_of", "propagate"]

# One value a choice: 0 below, 1 above, None still open.
type Settled = list[int | None]


@dataclass(frozen=True, slots=True)
class Choice:
    """A value off the grid: its errors in ticks when it is shown below or above, for how many figures it stands, which
    of the two are allowed, and which is preferred where nothing else decides."""

    errors: tuple[int, int]
    figures: int
    allowed: tuple[int, ...]
    preferred: int

    @property
    def in_order(self) -> tuple[int, ...]:
        """What is allowed, the preferred one first."""
        return tuple(sorted(self.allowed, key=lambda option: option != self.preferred))


@dataclass(frozen=True, slots=True)
class Equation:
    """Coefficients, each with the number of its choice; over those shown above they add up to `rest`."""

    terms: tuple[tuple[int, int], ...]
    rest: int


@dataclass(frozen=True, slots=True)
class System:
    """Choices in document order and the equations between them."""

    choices: tuple[Choice, ...]
    equations: tuple[Equation, ...]

    def is_met(self, shown: Sequence[int]) -> bool:
        """Whether a whole choice obeys every bound and every equation, in whole numbers."""
        return all(option in one.allowed for option, one in zip(shown, self.choices, strict=True)) and all(
            sum(times * shown[choice] for times, choice in one.terms) == one.rest for one in self.equations
        )

    def within(self, most: int) -> System | None:
        """Return the system with no error above `most` (ticks), or None where some choice has nothing left."""
        choices = []
        for one in self.choices:
            allowed = tuple(option for option in one.allowed if one.errors[option] <= most)
            if not allowed:
                return None
            choices.append(Choice(one.errors, one.figures, allowed, one.preferred))
        return System(tuple(choices), self.equations)


def cost_of(choices: Sequence[Choice], shown: Sequence[int]) -> int:
    """The summed error, in ticks."""
    return sum(one.figures * one.errors[option] for one, option in zip(choices, shown, strict=True))


def propagate(system: System, settled: Settled, waiting: list[int], touching: Sequence[Sequence[int]]) -> bool:
    """Settle in place what the `waiting` equations (by number) leave no choice about; say whether all can still hold.

    `touching` are, for each choice, the equations that it stands in.
    """
    while waiting:
        equation = system.equations[waiting.pop()]
        low = high = 0
        open_terms = []
        for times, choice in equation.terms:
            option = settled[choice]
            if option is not None:
                low += times * option
                high += times * option
            else:
                open_terms.append((times, choice))
                low += min(times, 0)
                high += max(times, 0)
        if not low <= equation.rest <= high:
            return False
        for times, choice in open_terms:
            # What this one adds to the least and takes from the most of the sum.
            if low + abs(times) > equation.rest:
                settled[choice] = 0 if times > 0 else 1
            elif high - abs(times) < equation.rest:
                settled[choice] = 1 if times > 0 else 0
            else:
                continue
            waiting.extend(touching[choice])
            if settled[choice] not in system.choices[choice].allowed:
                return False
    return True
