"""A piece cut smaller by a few steps all round, where it lies centred and its border may grow."""

from __future__ import annotations

from collections.abc import Iterator

from layouts.document import change_to
from layouts.document.placements import Placement
from layouts.lengths import Length
from layouts.proofing.mends.case import Candidate, Case
from layouts.proofing.mends.mend import Mend, cost

__all__ = ["narrowed"]

# Steps by which a piece is made smaller.
MOST_STEPS = 4


def narrowed(case: Case) -> Iterator[Mend]:
    """Yield for each piece that it is smaller by one printed step all round, then by two …, and its border wider."""
    step, unit = case.step, case.kit.unit
    for steps in range(1, MOST_STEPS + 1):
        by = Length(step.ticks * steps, step.system)
        for one in case.pieces:
            if one.piece.windows or one.piece.shape.kind != "rect" or one.piece.from_ is not None:
                continue
            size = one.piece.size
            width, height = size.width - by - by, size.height - by - by
            borders = list(_borders(one))
            if not borders or min(width.ticks, height.ticks) <= 0:
                continue
            changes = [
                change_to(case.kit, f"{one.place}/size/width", width),
                change_to(case.kit, f"{one.place}/size/height", height),
            ]
            for placement, border in borders:
                place = f"project:{one.project.id}/placement:{placement.id}/border"
                changes.append(change_to(case.kit, place, border + by))
            relief = (size.width.ticks * size.height.ticks - width.ticks * height.ticks) * one.copies
            words = (
                f"Cut {one.name} {width.text(unit)} × {height.text(unit)} {unit}: its border grows by "
                f"{by.text(unit)} {unit} all round."
            )
            yield Mend(tuple(changes), words, cost(border=by.text(unit)), relief)


def _borders(one: Candidate) -> Iterator[tuple[Placement, Length]]:
    """The placements of a piece that claim one border all round, if it is nowhere put without."""
    placed = [placement for placement in one.project.placements if placement.put.piece == one.piece.id]
    borders = [(placement, placement.border) for placement in placed if isinstance(placement.border, Length)]
    if len(borders) == len(placed):
        yield from borders
