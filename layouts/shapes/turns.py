"""Print direction: in which turns a piece may lie on its sheet or in a cut-out, and which side then shows.

Turns are 0, 90, 180, 270, anticlockwise, measured on the side that shows. Directions are angles: up 0, left 90, down
180, right 270. A piece that lies turned by T has its own up at T, so a print that reads towards R on the sheet reads
towards R - T on the piece; it must read towards `print_reads`: T = R - print_reads.

A leaf turned like a page exchanges left and right and keeps up: what points to T as one side is seen points to -T as
the other is seen. The finished piece is turned over like a page as well, so its own up stays its up.
"""

from __future__ import annotations

from typing import Literal

from layouts.document import Paper, PrintSide
from layouts.document.values import PrintReads

__all__ = ["AskedSide", "Showing", "missing_side", "turn_on_sheet", "turns_in_cut_out", "turns_on_sheet"]

Showing = Literal["front", "back"]
AskedSide = Literal["front", "back", "either", "both"]

_ANGLES = {"up": 0, "left": 90, "down": 180, "right": 270}
_ALL = (0, 90, 180, 270)


def missing_side(paper: Paper, side: AskedSide) -> Showing | None:
    """Return the side that is asked for and that the paper lacks; `either` is content with the front."""
    return "back" if paper.back is None and side in ("back", "both") else None


def turns_on_sheet(paper: Paper, side: AskedSide, print_reads: PrintReads) -> dict[int, Showing]:
    """Return the turns in which a piece may lie on a sheet of this paper, rising, each with the side that shows.

    `either` takes the front where both would do. With `both`, the turn is measured on the front: T must be right there
    and -T on the back, which is seen once the leaf is turned like a page.
    Empty where the paper lacks the side, and for `both` where no turn is right on both sides.

    >>> oak = Paper.model_validate({"id": "oak", "name": "Oak", "size": ["8", "8"], "sheets": 1,
    ...     "front": {"name": "Oak", "reads": "left", "repeat": "one-way"}})
    >>> turns_on_sheet(oak, "front", "up")
    {90: 'front'}
    """
    found: dict[int, Showing] = {}
    for showing, turns in _right_turns(paper, side, print_reads).items():
        for turn in turns:
            found.setdefault(turn, showing)
    return dict(sorted(found.items()))


def turns_in_cut_out(
    paper: Paper, side: AskedSide, print_reads: PrintReads, host_side: Showing, host_turn: int
) -> dict[int, Showing]:
    """Return the turns in which a piece may lie in a cut-out, rising, each with the side that shows.

    The cut-out is of `paper` and is seen as its finished piece, the host; the host lies on its sheet turned by
    `host_turn`, measured on the side `host_side` that it shows. Where the host itself came from a cut-out, `host_turn`
    is its `turn_on_sheet`. A piece that shows the other side is turned with the cut-out like a page.
    """
    found: dict[int, Showing] = {}
    for showing, turns in _right_turns(paper, side, print_reads).items():
        for turn in _ALL:
            if turn_on_sheet(host_side, host_turn, showing, turn) in turns:
                found.setdefault(turn, showing)
    return dict(sorted(found.items()))


def turn_on_sheet(host_side: Showing, host_turn: int, side: Showing, turn: int) -> int:
    """Return the turn on the sheet, measured on `side`, of a piece that shows `side` and lies by `turn` in a cut-out.

    The cut-out's up lies at `host_turn` as the host's side is seen, so at -host_turn as the other side is seen.

    >>> turn_on_sheet("front", 90, "front", 90), turn_on_sheet("front", 90, "back", 90)
    (180, 0)
    """
    up = host_turn if side == host_side else -host_turn
    return (up + turn) % 360


def _right_turns(paper: Paper, side: AskedSide, print_reads: PrintReads) -> dict[Showing, frozenset[int]]:
    """The turns on the sheet that are right for each side that may show, the front first."""
    front = _turns(paper.front, print_reads)
    back = _turns(paper.back, print_reads) if paper.back is not None else frozenset()
    if side == "both":
        return {"front": frozenset(turn for turn in front if -turn % 360 in back)}
    wanted: dict[Showing, frozenset[int]] = {}
    if side != "back":
        wanted["front"] = front
    if side != "front":
        wanted["back"] = back
    return wanted


def _turns(side: PrintSide, print_reads: PrintReads) -> frozenset[int]:
    """The turns that bring one side's print to read as asked, measured on that side."""
    if side.repeat == "any" or print_reads == "any":
        return frozenset(_ALL)
    turn = (_ANGLES[side.reads] - _ANGLES[print_reads]) % 360
    return frozenset({turn, (turn + 180) % 360} if side.repeat == "two-way" else {turn})
