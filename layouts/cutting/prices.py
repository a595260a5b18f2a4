"""A proof by prices: at these prices all pieces are worth more than the sheets could ever be made into.

Prices are looked for by generating columns (Gilmore and Gomory 1961): a linear program prices the pieces so that no
known pattern is worth more than a sheet, the plates answer with the pattern that is worth most at these prices, and so
on. Any prices prove something, so the search may stop anywhere; all of it is in whole numbers.
"""

from __future__ import annotations

from collections.abc import Sequence
from operator import mul

from layouts.cutting.bounds import Bound
from layouts.cutting.plates import Plates
from layouts.cutting.reduced import Reduced
from layouts.cutting.simplex import Prices, dearest

__all__ = ["priced"]

# Pairs of plates looked at; a step of the linear program, with its longer numbers, counts for several.
STEPS = 20_000_000
STEPS_OF_PROGRAM = 4
MOST_KINDS = 60
# Prices are rounded down to so many bits: sums of them stay numbers that are quick to add.
BITS = 28


def priced(small: Reduced, sheets: int) -> Bound:
    """Look for prices that prove more than `sheets`, and return the best bound met on the way."""
    wanted = [kind.copies for kind in small.kinds]
    if len(wanted) > MOST_KINDS:
        return Bound(0, "bound")
    try:
        plates = Plates(small, STEPS)
    except ValueError:
        return Bound(0, "bound")
    patterns = [_alone(small, number) for number in range(len(wanted))]
    left = STEPS
    best, best_worth = [kind.width * kind.height for kind in small.kinds], 0
    prices, ideal, is_mixed, found = best, None, True, 0
    while (left := left - plates.steps) >= 0:
        worth = plates.value(prices)
        total = sum(map(mul, prices, wanted))
        found = max(found, -(-total // worth))
        if found > sheets:
            break
        if not best_worth or total * best_worth > sum(map(mul, best, wanted)) * worth:
            best, best_worth = prices, worth
        pattern = plates.pattern()
        is_new = pattern not in patterns
        if is_new:
            patterns.append(pattern)
        elif not is_mixed:
            break  # the program's own prices, and nothing to add: there are no better ones
        if ideal is None or is_new:
            ideal = dearest(patterns, wanted)
            left -= ideal.steps * STEPS_OF_PROGRAM
            if ideal.worth <= sheets * ideal.over:
                break  # no prices prove enough
        # Half way to the best prices so far the patterns found are better; where they are known, all the way it is.
        is_mixed = is_new
        prices = _rounded(_mixed(ideal, best, best_worth) if is_mixed else ideal.of)
    return Bound(found, "bound")


def _alone(small: Reduced, number: int) -> list[int]:
    """The pattern of a sheet with a grid of one kind alone."""
    pattern = [0] * len(small.kinds)
    pattern[number] = max((small.width // across) * (small.height // up) for across, up in small.kinds[number].lies)
    return pattern


def _mixed(ideal: Prices, best: Sequence[int], best_worth: int) -> list[int]:
    return [price * best_worth + other * ideal.over for price, other in zip(ideal.of, best, strict=True)]


def _rounded(prices: Sequence[int]) -> list[int]:
    most = max(prices)
    return [(price << BITS) // most for price in prices]
