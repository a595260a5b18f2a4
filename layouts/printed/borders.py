"""Sums of placements: the border on one side, the thing, and the border on the other against what it is put on."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from layouts.document import Form, Kit, Piece, Placement, Project
from layouts.document.forms import Concertina
from layouts.document.placements import BorderSides, Copy
from layouts.document.places import form_place, piece_place
from layouts.lengths import Length
from layouts.printed.sums import PrintedSum, Summed
from layouts.shapes.cut_sizes import bites

__all__ = ["border_sums"]

_AXES = (("width", "left", "right"), ("height", "bottom", "top"))


def border_sums(kit: Kit) -> Iterator[Summed]:
    """Yield both axes of every placement of which the distances on both sides are stated, as position or as border.

    Whether they are true is judged elsewhere: here only what is exactly true counts.
    """
    sizes = _Sizes(kit)
    for project in kit.projects:
        for placement in project.placements:
            thing, support = _thing(placement, project, sizes), _support(placement, project, sizes)
            if thing and support:
                yield from _of(placement, f"project:{project.id}/placement:{placement.id}", thing, support)


def _of(placement: Placement, place: str, thing: Mapping[str, str], support: Mapping[str, str]) -> Iterator[Summed]:
    positions: list[tuple[str, Placement | Copy]] = [(place, placement)]
    if placement.copies != "each":
        positions = [(f"{place}/copies/{number}", copy) for number, copy in enumerate(placement.copies, start=1)]
    for at, position in positions:
        turned = position.turn in (90, 270)
        for axis, low, high in _AXES:
            first, second = (_distance(placement, place, position, at, side) for side in (low, high))
            if not first or not second:
                continue
            across = axis if not turned else {"width": "height", "height": "width"}[axis]
            borders = ((2, first),) if first == second else ((1, first), (1, second))
            yield Summed(PrintedSum((*borders, (1, thing[across])), support[axis], first))


def _distance(placement: Placement, place: str, position: Placement | Copy, at: str, side: str) -> str:
    """The place of the stated distance on one side: where it is put, or the border that is claimed."""
    if getattr(position, side) is not None:
        return f"{at}/{side}"
    if isinstance(placement.border, Length):
        return f"{place}/border"
    if isinstance(placement.border, BorderSides) and getattr(placement.border, side) is not None:
        return f"{place}/border/{side}"
    return ""


def _thing(placement: Placement, project: Project, sizes: _Sizes) -> Mapping[str, str]:
    """Where the width and the height of what is put stand; empty where they are no figures."""
    put = placement.put
    if put.piece is not None:
        return sizes.of_piece(project, put.piece)
    if put.element is not None:
        sheet, _, element = put.element.partition("/")
        return _both(f"embellishment:{sheet}/element:{element}/size")
    return {}


def _support(placement: Placement, project: Project, sizes: _Sizes) -> Mapping[str, str]:
    on = placement.on
    if on.blank is not None:
        return _both(f"blank:{on.blank}/face:{on.face}/size")
    if on.piece is not None:
        return sizes.of_piece(project, on.piece)
    if on.form is None:
        return {}
    place = form_place(project.id, on.form)
    is_strip = isinstance(sizes.made[project.id, on.form], Concertina)
    return _both(f"{place}/panel" if is_strip else f"{place}/panel:{on.panel}")


class _Sizes:
    """Which size of a piece is seen: what is left of one that is cut and then bitten."""

    def __init__(self, kit: Kit) -> None:
        self.made: dict[tuple[str, str], Piece | Form] = {
            (project.id, one.id): one for project in kit.projects for one in (*project.pieces, *project.forms)
        }
        self._tools = {tool.id: tool for tool in kit.tools}

    def of_piece(self, project: Project, name: str) -> Mapping[str, str]:
        piece, place = self.made[project.id, name], piece_place(project.id, name)
        if not isinstance(piece, Piece) or piece.size_is == "finished":
            return _both(f"{place}/size")
        taken = bites(piece, self._tools)
        return {
            "width": f"{place}/{'finished' if taken.left + taken.right else 'size'}/width",
            "height": f"{place}/{'finished' if taken.bottom + taken.top else 'size'}/height",
        }


def _both(size: str) -> Mapping[str, str]:
    return {axis: f"{size}/{axis}" for axis in ("width", "height")}
