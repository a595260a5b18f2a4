"""A small linear program in whole numbers: the prices that make all pieces together worth most.

Every pattern of a sheet may be worth 1 at most. Simplex with integer pivoting (Edmonds; Bareiss 1968, from memory): the
table always holds whole numbers over one common denominator, so nothing is ever rounded and every machine agrees.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

__all__ = ["Prices", "dearest"]

# After so many pivots the rule that cannot go in circles (Bland's) takes over from the one that is quick.
QUICK_PIVOTS = 200


@dataclass(frozen=True, slots=True)
class Prices:
    """Prices as numerators over one denominator, what all pieces are worth, and the steps that it took."""

    of: tuple[int, ...]
    over: int
    worth: int
    steps: int


def dearest(patterns: Sequence[Sequence[int]], wanted: Sequence[int], limits: Sequence[int] = ()) -> Prices:
    """Return the prices, none negative, at which no pattern is worth more than its limit and what is wanted most.

    Limits are 1 each where none are given, and never negative. Every price must be limited by some pattern, or there
    is no dearest (ValueError).

    >>> dearest([[2, 0], [0, 3], [1, 1]], [4, 3])
    Prices(of=(3, 2), over=6, worth=18, steps=24)
    """
    kinds = len(wanted)
    table = [[*pattern, limit] for pattern, limit in zip(patterns, limits or [1] * len(patterns), strict=True)]
    gain = [-number for number in wanted] + [0]
    basic, others = list(range(kinds, kinds + len(table))), list(range(kinds))
    over, pivots = 1, 0
    while True:
        falling = [place for place in range(kinds) if gain[place] < 0]
        if not falling:
            break
        if pivots < QUICK_PIVOTS:
            enters = min(falling, key=lambda place: (gain[place], others[place]))
        else:
            enters = min(falling, key=lambda place: others[place])
        leaves = _leaving(table, basic, enters)
        pivot, row = table[leaves][enters], table[leaves]
        for line in [gain, *(one for number, one in enumerate(table) if number != leaves)]:
            times = line[enters]
            line[:] = [(value * pivot - times * other) // over for value, other in zip(line, row, strict=True)]
            line[enters] = -times
        row[enters] = over
        basic[leaves], others[enters] = others[enters], basic[leaves]
        over = pivot
        pivots += 1
    of = [0] * kinds
    for line, variable in zip(table, basic, strict=True):
        if variable < kinds:
            of[variable] = line[-1]
    return Prices(tuple(of), over, gain[-1], pivots * (len(table) + 1) * (kinds + 1))


def _leaving(table: Sequence[Sequence[int]], basic: Sequence[int], enters: int) -> int:
    """The row that limits the price that rises; among equals the variable that comes first."""
    found = None
    for number, line in enumerate(table):
        if line[enters] <= 0:
            continue
        if found is not None:
            mine, best = line[-1] * table[found][enters], table[found][-1] * line[enters]
            if mine > best or (mine == best and basic[number] > basic[found]):
                continue
        found = number
    if found is None:
        raise ValueError("a kind of piece that stands in no pattern")
    return found
