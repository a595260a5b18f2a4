"""Small kits in millimetres in which pieces are put on a board with a front of 70 × 50 mm. One mm is 320 ticks."""

from __future__ import annotations

from typing import Any

from layouts.document import Kit
from layouts.shapes.faces import Lying, lying_in
from tests.unit.proofing.small_prints import MM, kit_of, piece, project

__all__ = ["BOARD", "board", "in_mm", "mm", "one_on_board", "put", "put_on_board"]

BOARD = {"blank": "board", "face": "front"}


def board(**face: Any) -> dict[str, Any]:
    """A board with one face; an opening and the like may be given."""
    return {"id": "board", "name": "board", "faces": [{"id": "front", "size": ["70", "50"], **face}]}


def put(id_: str, what: str, **more: Any) -> dict[str, Any]:
    return {"id": id_, "put": {"piece": what}, "on": BOARD, **more}


def put_on_board(*placements: Any, pieces: Any = (), face: Any = None, **more: Any) -> Kit:
    """A kit of one project that puts its pieces on the board; without any it has A, 30 × 20 mm."""
    blanks = more.pop("blanks", [board(**(face or {}))])
    made = pieces or [piece("A", "30", "20")]
    return kit_of(project(*made, placements=list(placements)), blanks=blanks, **more)


def one_on_board(
    size: tuple[str, str] = ("30", "20"), face: Any = None, of_piece: Any = None, **placement: Any
) -> Lying:
    """Piece A of this size, put on the board once."""
    (lying,) = lying_in(
        put_on_board(put("it", "A", **placement), pieces=[piece("A", *size, **(of_piece or {}))], face=face)
    )
    return lying


def mm(ticks: Any) -> Any:
    """A measure in millimetres, None where it is not known."""
    return None if ticks is None else ticks / MM


def in_mm(measures: Any) -> Any:
    """The measures of several sides in millimetres."""
    return {side: mm(ticks) for side, ticks in measures.items()}
