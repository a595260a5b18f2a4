"""What could be changed so that a print suffices: for each kind of change the ways that are tried, the cheapest first.

Kinds stand in the order of what they cost the maker of the thing: a print that may lie another way, another print, a
wider border, one fewer, one sheet more. Only pieces that are among the culprits are changed: of a smallest set that
does not fit, something must give.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Any

from layouts.document import Change, Kit, Piece, Project, change_to, paper_place, piece_place
from layouts.document.placements import Placement
from layouts.lengths import Length
from layouts.proofing.plans import PrintAnswer
from layouts.proofing.prints import printed_step

__all__ = ["Mend", "ways_to_mend"]

# Pieces that are tried for each kind of change, prints that one is moved to, and steps by which one is made smaller.
MOST_PIECES = 4
MOST_PAPERS = 2
MOST_STEPS = 4


@dataclass(frozen=True, slots=True)
class Mend:
    """Changes that belong together, in words what they do, and what they cost: sheets more, a wider border …"""

    changes: tuple[Change, ...]
    message: str
    cost: tuple[tuple[str, int | str], ...]

    def as_data(self) -> dict[str, Any]:
        """The mend as it stands in a proof, which holds only such as were proved to fit."""
        changes = [change.as_data() for change in self.changes]
        return {"change": changes, "cost": dict(self.cost), "verdict": "fits", "message": self.message}


@dataclass(frozen=True, slots=True)
class _Culprit:
    project: Project
    piece: Piece
    area: int

    @property
    def place(self) -> str:
        return piece_place(self.project.id, self.piece.id)

    @property
    def name(self) -> str:
        """What people call it: its letter and name."""
        id_, name = self.piece.id, self.piece.name.strip()
        return id_ if not name or name.casefold() == id_.casefold() else f"{id_}, {name},"


def ways_to_mend(kit: Kit, short: PrintAnswer, answers: Sequence[PrintAnswer]) -> tuple[tuple[Mend, ...], ...]:
    """Return the ways of each kind to mend a print that is short, in the order in which they are to be tried.

    Of the last kind there is at most one way, and a plan for it is known.
    """
    pieces = list(_culprits(kit, short))[:MOST_PIECES]
    return (
        tuple(_turned(kit, pieces)),
        tuple(_moved(kit, pieces, short, answers)),
        tuple(_narrowed(kit, pieces)),
        tuple(_fewer(kit, pieces)),
        tuple(_more_sheets(kit, short)),
    )


def _cost(sheets: int = 0, **more: int | str) -> tuple[tuple[str, int | str], ...]:
    return (("sheets", sheets), *more.items())


def _culprits(kit: Kit, short: PrintAnswer) -> Iterator[_Culprit]:
    """The pieces among the culprits, the largest first."""
    if short.culprits is None:
        return
    pieces = {
        piece_place(project.id, piece.id): (project, piece) for project in kit.projects for piece in project.pieces
    }
    wants = {want.place: want for want in short.part.direct}
    found = [
        _Culprit(*pieces[place], wants[place].width * wants[place].height)
        for place, _ in short.culprits.copies
        if place in pieces
    ]
    yield from sorted(found, key=lambda one: -one.area)


def _turned(kit: Kit, pieces: Sequence[_Culprit]) -> Iterator[Mend]:
    """Let the print of a piece read any way, so that it may lie any way."""
    for one in pieces:
        if one.piece.print_reads != "any" and one.piece.size.width != one.piece.size.height:
            change = change_to(kit, f"{one.place}/print_reads", "any")
            words = f"Let {one.name} read any way, so that it may be turned on the sheet."
            yield Mend((change,), words, _cost(turned=one.project.makes * one.piece.count))


def _moved(kit: Kit, pieces: Sequence[_Culprit], short: PrintAnswer, answers: Sequence[PrintAnswer]) -> Iterator[Mend]:
    """Cut a piece from another print, the one with the most paper left first."""
    spare = {answer.part.paper: _spare(answer) for answer in answers if answer.verdict == "fits"}
    fronts = {paper.id: paper for paper in kit.papers}
    for one in pieces:
        if not isinstance(one.piece.paper, str):
            continue
        needed = one.area * one.project.makes * one.piece.count
        own = fronts[one.piece.paper]
        open_to = [
            paper
            for paper, left in sorted(spare.items(), key=lambda pair: -pair[1])
            # Another stock is another thing: card is no mend for printed paper.
            if left >= needed and fronts[paper].grammage == own.grammage and fronts[paper].pad == own.pad
        ]
        for paper in open_to[:MOST_PAPERS]:
            change = change_to(kit, f"{one.place}/paper", paper)
            words = f"Cut {one.name} from {fronts[paper].name}, which has paper left."
            yield Mend((change,), words, _cost(moved=one.project.makes * one.piece.count))


def _spare(answer: PrintAnswer) -> int:
    """The area that is not used of all sheets in the box."""
    part = answer.part
    used = sum(want.width * want.height * len(want.copies) for want in part.direct)
    return part.sheet.usable_width * part.sheet.usable_height * part.sheets - used


def _narrowed(kit: Kit, pieces: Sequence[_Culprit]) -> Iterator[Mend]:
    """Make a piece smaller by one printed step all round, or by two … where it lies centred with a border."""
    step = printed_step(kit)
    for steps in range(1, MOST_STEPS + 1):
        by = Length(step.ticks * steps, step.system)
        for one in pieces:
            if one.piece.windows or one.piece.shape.kind != "rect" or one.piece.from_ is not None:
                continue
            size = one.piece.size
            width, height = size.width - by - by, size.height - by - by
            borders = list(_borders(one))
            if not borders or min(width.ticks, height.ticks) <= 0:
                continue
            changes = [
                change_to(kit, f"{one.place}/size/width", width),
                change_to(kit, f"{one.place}/size/height", height),
            ]
            for placement, border in borders:
                place = f"project:{one.project.id}/placement:{placement.id}/border"
                changes.append(change_to(kit, place, border + by))
            words = (
                f"Cut {one.name} {width.text(kit.unit)} × {height.text(kit.unit)} {kit.unit}: its border grows by "
                f"{by.text(kit.unit)} {kit.unit} all round."
            )
            yield Mend(tuple(changes), words, _cost(border=by.text(kit.unit)))


def _borders(one: _Culprit) -> Iterator[tuple[Placement, Length]]:
    """The placements of a piece that claim one border all round, if it is nowhere put without."""
    placed = [placement for placement in one.project.placements if placement.put.piece == one.piece.id]
    borders = [(placement, placement.border) for placement in placed if isinstance(placement.border, Length)]
    if len(borders) == len(placed):
        yield from borders


def _fewer(kit: Kit, pieces: Sequence[_Culprit]) -> Iterator[Mend]:
    """Cut one copy fewer."""
    for one in reversed(pieces):  # the smallest of them is missed least
        if one.piece.count > 1:
            change = change_to(kit, f"{one.place}/count", one.piece.count - 1)
            words = f"Cut {one.piece.count - 1} of {one.name} instead of {one.piece.count}."
            yield Mend((change,), words, _cost(pieces=one.project.makes))


def _more_sheets(kit: Kit, short: PrintAnswer) -> Iterator[Mend]:
    """Put as many sheets into the box as the best plan takes."""
    if short.at_most is not None:
        change = change_to(kit, f"{paper_place(short.part.paper)}/sheets", short.at_most)
        name = next(paper.name for paper in kit.papers if paper.id == short.part.paper)
        words = f"Put {short.at_most} sheets of {name} into the box instead of {short.part.sheets}."
        yield Mend((change,), words, _cost(sheets=short.at_most - short.part.sheets))
