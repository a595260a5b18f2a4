"""Another leaf: a piece cut from another print, or from a leaf that shows the same print on its other side."""

from __future__ import annotations

from collections.abc import Iterator

from layouts.document import Paper, change_to
from layouts.proofing.mends.case import Candidate, Case
from layouts.proofing.mends.mend import Mend, cost
from layouts.proofing.plans import PrintAnswer
from layouts.shapes import AskedSide

__all__ = ["from_backs", "moved"]

# Prints that one piece is moved to.
MOST_PAPERS = 2


def moved(case: Case) -> Iterator[Mend]:
    """Yield for each piece that it is cut from another print: one that shows the same first, then by paper left."""
    for one in case.pieces:
        wanted = _shown_by(case.paper, one.piece.side)
        papers = sorted(_with_room(case, one), key=lambda paper: wanted.isdisjoint(_shown_by(paper, one.piece.side)))
        for paper in papers[:MOST_PAPERS]:
            change = change_to(case.kit, f"{one.place}/paper", paper.id)
            words = f"Cut {one.name} from {paper.name}, which has paper left."
            yield Mend((change,), words, cost(moved=one.copies), one.area * one.copies)


def from_backs(case: Case) -> Iterator[Mend]:
    """Yield for each piece the leaves that show the print it is to show on their other side, by that side's name."""
    for one in case.pieces:
        wanted = _shown_by(case.paper, one.piece.side)
        other: dict[AskedSide, AskedSide] = {"front": "back", "back": "front"}
        side = other.get(one.piece.side)
        if side is None:
            continue
        papers = [paper for paper in _with_room(case, one) if not wanted.isdisjoint(_shown_by(paper, side))]
        for paper in papers[:MOST_PAPERS]:
            changes = (
                change_to(case.kit, f"{one.place}/paper", paper.id),
                change_to(case.kit, f"{one.place}/side", side),
            )
            name = (paper.back if side == "back" and paper.back is not None else paper.front).name.strip()
            words = f"Cut {one.name} from the {side} of {paper.name}, which shows {name} as well and has paper left."
            yield Mend(changes, words, cost(moved=one.copies), one.area * one.copies)


def _shown_by(paper: Paper, side: AskedSide) -> frozenset[str]:
    """The names of the sides that a piece may show; none where it shows both at once."""
    front = [paper.front.name] if side in ("front", "either") else []
    back = [paper.back.name] if side in ("back", "either") and paper.back is not None else []
    return frozenset(name.strip().casefold() for name in (*front, *back))


def _with_room(case: Case, one: Candidate) -> list[Paper]:
    """The other prints of the same stock that have enough paper left for a piece, those with the most of it first."""
    if not isinstance(one.piece.paper, str):
        return []
    papers = {paper.id: paper for paper in case.kit.papers}
    own = papers[one.piece.paper]
    spare = {answer.part.paper: _spare(answer) for answer in case.answers if answer.verdict == "fits"}
    return [
        papers[paper]
        for paper, left in sorted(spare.items(), key=lambda pair: -pair[1])
        # Another stock is another thing: card is no mend for printed paper.
        if paper != own.id
        and left >= one.area * one.copies
        and papers[paper].grammage == own.grammage
        and papers[paper].pad == own.pad
    ]


def _spare(answer: PrintAnswer) -> int:
    """The area that is not used of all sheets in the box."""
    part = answer.part
    used = sum(want.width * want.height * len(want.copies) for want in part.direct)
    return part.sheet.usable_width * part.sheet.usable_height * part.sheets - used
