"""One sum whose figures stand in no other: the largest remainders are shown above."""

from __future__ import annotations

from collections.abc import Sequence

from layouts.rounding.system import Choice, System

__all__ = ["by_largest_remainder", "is_chain"]


def is_chain(system: System) -> bool:
    """Whether this is one sum in which each value stands once, for one figure, and is free to go either way."""
    return (
        len(system.equations) == 1
        and all(times in (1, -1) for times, _ in system.equations[0].terms)
        and all(one.figures == 1 and len(one.allowed) == 2 for one in system.choices)
    )


def by_largest_remainder(system: System) -> tuple[int, ...] | None:
    """Return the best choice for a chain, or None where its sum cannot be reached.

    A part with the larger remainder loses more when it is shown below, so the largest are shown above until the sum is
    met; the total counts by what it lacks. That makes the largest error least and the summed error least at once.
    Source: the method of largest remainders (Hamilton 1790); first listed on ties, unless the value lies just between
    and prefers the even one.
    """
    equation = system.equations[0]
    # "Raised": a part above, a total below. Then all coefficients are one.
    needed = equation.rest + sum(times < 0 for times, _ in equation.terms)
    if not 0 <= needed <= len(equation.terms):
        return None
    raised_by = {choice: int(times > 0) for times, choice in equation.terms}
    order = sorted(raised_by, key=lambda choice: -_loss(system.choices[choice], raised_by[choice]))
    raised = set(order[:needed])
    if 0 < needed < len(order):
        edge = _loss(system.choices[order[needed - 1]], raised_by[order[needed - 1]])
        tied = sorted(choice for choice in raised_by if _loss(system.choices[choice], raised_by[choice]) == edge)
        places = sum(choice in raised for choice in tied)
        raised.difference_update(tied)
        raised.update(_preferred(system.choices, raised_by, tied, places))
    return tuple(raised_by[at] if at in raised else 1 - raised_by[at] for at in range(len(system.choices)))


def _loss(choice: Choice, raised: int) -> int:
    """The error in ticks when the value is not raised."""
    return choice.errors[1 - raised]


def _preferred(choices: Sequence[Choice], raised_by: dict[int, int], tied: Sequence[int], places: int) -> list[int]:
    """Which of equally good ones are raised: in document order, each as it prefers while that is possible."""
    raised: list[int] = []
    for at, choice in enumerate(tied):
        left = len(tied) - at
        wanted = places - len(raised)
        if wanted == left or (wanted and choices[choice].preferred == raised_by[choice]):
            raised.append(choice)
    return raised
