"""Counts: one copy of a piece fewer, or more sheets in the box."""

from __future__ import annotations

from collections.abc import Iterator

from layouts.document import change_to, paper_place
from layouts.proofing.mends.case import Case
from layouts.proofing.mends.mend import Mend, cost

__all__ = ["fewer", "more_sheets"]


def fewer(case: Case) -> Iterator[Mend]:
    """Yield for each piece of several copies that one copy less is cut."""
    for one in reversed(case.pieces):  # the smallest of them is missed least
        if one.piece.count > 1:
            change = change_to(case.kit, f"{one.place}/count", one.piece.count - 1)
            words = f"Cut {one.piece.count - 1} of {one.name} instead of {one.piece.count}."
            yield Mend((change,), words, cost(pieces=one.project.makes), one.area * one.project.makes)


def more_sheets(case: Case) -> Iterator[Mend]:
    """Yield that the box holds as many sheets as the best plan takes, which is known to do exactly; then one more, with
    which it does as printed where it would not otherwise."""
    part, most = case.answer.part, case.answer.at_most
    for sheets in (most, most + 1) if most is not None and most > part.sheets else ():
        change = change_to(case.kit, f"{paper_place(part.paper)}/sheets", sheets)
        held = f"{sheets} {'sheet' if sheets == 1 else 'sheets'}"
        words = f"Put {held} of {case.paper.name} into the box instead of {part.sheets}."
        yield Mend((change,), words, cost(sheets=sheets - part.sheets))
