"""In which order to make the cuts of one sheet, and how the trimmer is set for each.

A setting is the distance of the cut from the edge of the part in hand that lies at the fence. What lies between fence
and blade is measured and held: always something kept, never waste. The order has the fewest settings, then the fewest
quarter turns; of equals, long cuts are early, for a long edge is easiest to lay against the fence while the part is
large, and strips too narrow to be held are late.
"""

from __future__ import annotations

from layouts.cutting.sequence.bounds import settings_needed
from layouts.cutting.sequence.exact import searched
from layouts.cutting.sequence.greedy import cost_of, greedy
from layouts.cutting.sequence.slivers import without_slivers
from layouts.cutting.sequence.steps import CutStep, Edge, Outcome, Rectangle, Sequence, Taken
from layouts.cutting.sequence.strips import Node, parts_of
from layouts.cutting.sequence.told import steps_told
from layouts.cutting.sequence.ways import Sheet

__all__ = [
    "CutStep",
    "Edge",
    "Outcome",
    "Rectangle",
    "Sequence",
    "Taken",
    "cuts_of",
    "sequence_of",
    "without_slivers",
]

# Sheets with more cuts are not searched through; others as far as so many looks at an open part go (a few tenths of a
# second).
_CUTS = 60
_STEPS = 60_000


def sequence_of(tree: Node, *, from_behind: bool = False, narrowest: int | None = None) -> Sequence:
    """Return the cuts of a sheet, numbered in the order of making; `from_behind`: the tree is turned over.

    `narrowest` is the width of the narrowest strip that the trimmer holds, in ticks; what is narrower is cut off from
    the side of the rest. Cuts that run the same way through the same part come off its ends one after another,
    whichever the tree makes first. A tree that is one piece needs no cut.

    >>> sheet = {"x": 0, "y": 0, "width": 8, "height": 8, "cut": {"along": "x", "at": 5}, "parts": [
    ...     {"x": 0, "y": 0, "width": 5, "height": 8, "piece": "project:p/piece:A", "copy": 1, "turn": 0},
    ...     {"x": 5, "y": 0, "width": 3, "height": 8, "offcut": True}]}
    >>> sequence = sequence_of(sheet)
    >>> [(cut.number, cut.setting, cut.edge, [side.kind for side in cut.outcomes]) for cut in sequence.steps]
    [(1, 5, 'left', ['piece', 'offcut'])]
    >>> sequence.settings, sequence.is_fewest
    (1, True)
    """
    sheet = Sheet(parts_of(tree), from_behind=from_behind, narrowest=narrowest)
    steps = _STEPS if sheet.cuts <= _CUTS else 0
    found = searched(sheet, steps)
    bounds = [found.at_least]
    ways = found.ways
    if ways is None:
        # The fewest settings at least, be there a turn more than need be.
        found = searched(sheet, steps, turning=False)
        bounds.append(found.at_least)
        ways = min((way for way in (found.ways, greedy(sheet)) if way is not None), key=cost_of)
    unheld, settings, turns = cost_of(ways)
    proven = [bound[1] for bound in bounds if bound[0] == unheld]
    return Sequence(steps_told(sheet, ways), settings, turns, max([settings_needed(sheet), *proven]))


def cuts_of(tree: Node, *, from_behind: bool = False) -> tuple[CutStep, ...]:
    """Return the steps of `sequence_of` for a trimmer that holds everything."""
    return sequence_of(tree, from_behind=from_behind).steps
