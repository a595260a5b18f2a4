"""What could be changed so that a print suffices: for each kind of change the ways that are tried, the cheapest first.

Kinds stand in the order of what they cost the maker of the thing: a print that may lie another way, what comes out of
windows, what is hidden in the middle of a mat, another print, the back of another leaf, a narrower border, a strip
that is pieced, one fewer, one sheet more.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence

from layouts.proofing.mends.case import Case
from layouts.proofing.mends.counts import fewer, more_sheets
from layouts.proofing.mends.cut_outs import from_cut_outs, saving_area
from layouts.proofing.mends.hidden import Hidden
from layouts.proofing.mends.hollowed import hollowed
from layouts.proofing.mends.joined import joined
from layouts.proofing.mends.mend import Mend
from layouts.proofing.mends.moved import from_backs, moved
from layouts.proofing.mends.narrowed import narrowed
from layouts.proofing.mends.sources import other_sources
from layouts.proofing.mends.turned import turned
from layouts.proofing.plans import PrintAnswer
from layouts.proofing.prints import PrintPart

__all__ = ["excess_over", "ways_to_mend", "ways_to_save_a_sheet", "ways_to_save_area", "ways_to_yield"]

type Kind = Callable[[Case], Iterator[Mend]]

_KINDS: tuple[Kind, ...] = (turned, from_cut_outs, hollowed, moved, from_backs, narrowed, joined, fewer)
# Those that leave as much to be cut as there was.
_WITHOUT_RELIEF = (turned, joined)
# Pieces that are changed for each kind.
MOST_PIECES = 4


def ways_to_mend(hidden: Hidden, short: PrintAnswer, answers: Sequence[PrintAnswer]) -> tuple[tuple[Mend, ...], ...]:
    """Return the ways of each kind to mend a print that is short, in the order in which they are to be tried."""
    case = Case(hidden, short, answers, MOST_PIECES)
    excess = excess_over(short.part, short.part.sheets)
    return (*(_ways(kind, case, excess) for kind in _KINDS), tuple(more_sheets(case)))


def ways_to_save_a_sheet(
    hidden: Hidden, fits: PrintAnswer, answers: Sequence[PrintAnswer]
) -> tuple[tuple[Mend, ...], ...]:
    """Return the ways of each kind that might make a print that fits do with a sheet less than its plan takes."""
    excess = excess_over(fits.part, (fits.at_most or 1) - 1)
    case = Case(hidden, fits, answers, MOST_PIECES)
    return tuple(_ways(kind, case, excess) for kind in _KINDS)


def ways_to_save_area(
    hidden: Hidden, fits: PrintAnswer, answers: Sequence[PrintAnswer]
) -> tuple[tuple[Mend, ...], ...]:
    """Return the pieces of a print that could come out of its windows: each stands by itself."""
    return tuple((mend,) for mend in saving_area(Case(hidden, fits, answers, MOST_PIECES)))


def ways_to_yield(
    hidden: Hidden, fits: PrintAnswer, answers: Sequence[PrintAnswer], place: str
) -> tuple[tuple[Mend, ...], ...]:
    """Return the ways of each kind to cut a piece that does not come out of the cut-out that it is to come from."""
    return other_sources(Case(hidden, fits, answers, MOST_PIECES), place)


def excess_over(part: PrintPart, sheets: int) -> int:
    """Return by how much the area of all that is cut from a print is greater than that of some of its sheets, in square
    ticks: no way that gives less relief will do. Negative where the area alone says nothing."""
    area = sum(want.width * want.height * len(want.copies) for want in part.direct)
    return area - part.sheet.usable_width * part.sheet.usable_height * sheets


def _ways(kind: Kind, case: Case, excess: int) -> tuple[Mend, ...]:
    if excess > 0 and kind in _WITHOUT_RELIEF:
        return ()
    return tuple(mend for mend in kind(case) if mend.relief >= excess)
