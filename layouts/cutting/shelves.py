"""The simplest plan there is: shelves across the sheet, the tallest pieces first. Quick for ten thousand pieces.

First fit by decreasing height (Coffman, Garey, Johnson and Tarjan 1980, from memory), with equal copies taken
together: as many as fit into a shelf are placed in one step.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from layouts.cutting.reduced import Kind, Reduced
from layouts.cutting.rough import Laid, Rough, Waste, exchanged, row

__all__ = ["shelf_plan", "shelf_plans"]

# Only the newest shelves and sheets are looked at again, so that the work grows with the number of pieces alone.
OPEN = 48


def shelf_plans(small: Reduced) -> Iterator[list[Rough]]:
    """Yield the four ways to lay shelves: along x or along y, turning pieces lying or standing."""
    upended = [Kind(kind.height, kind.width, kind.copies, kind.turns) for kind in small.kinds]
    for lying in (True, False):
        yield shelf_plan(small.width, small.height, small.kinds, lying)
        yield [exchanged(sheet) for sheet in shelf_plan(small.height, small.width, upended, lying)]


def shelf_plan(width: int, height: int, kinds: Sequence[Kind], lying: bool) -> list[Rough]:
    """Return sheets that hold all pieces on shelves along x. Every kind must fit a sheet in each of its lies."""
    todo = []
    for number, kind in enumerate(kinds):
        lies = sorted(kind.lies, key=lambda lie: lie[1])
        across, up = lies[0] if lying else lies[-1]
        todo.append((up, across, number, kind.copies))
    todo.sort(key=lambda entry: (-entry[0], -entry[1], entry[2]))
    room = _Room(width, height)
    for up, across, number, copies in todo:
        while copies > 0:
            copies -= room.place(Laid(across, up, number), copies)
    return [_sheet(width, height, shelves) for shelves in room.sheets]


class _Shelf:
    __slots__ = ("free", "height", "stacks")

    def __init__(self, width: int, height: int) -> None:
        self.free, self.height = width, height
        self.stacks: list[tuple[Laid, int]] = []  # a piece, and how many stand on one another


class _Room:
    """All sheets begun so far; `place` puts some copies of a piece somewhere and says how many."""

    def __init__(self, width: int, height: int) -> None:
        self.width, self.height = width, height
        self.sheets: list[list[_Shelf]] = []
        self.left: list[int] = []  # height still free above the shelves of each sheet
        self.shelves: list[_Shelf] = []

    def place(self, piece: Laid, copies: int) -> int:
        for shelf in self.shelves[-OPEN:]:  # high enough, all of them: the tallest pieces come first
            if piece.width <= shelf.free:
                return self._stack(shelf, piece, copies)
        for number in range(max(0, len(self.sheets) - OPEN), len(self.sheets)):
            if piece.height <= self.left[number]:
                return self._stack(self._shelf(number, piece.height), piece, copies)
        self.sheets.append([])
        self.left.append(self.height)
        return self._stack(self._shelf(len(self.sheets) - 1, piece.height), piece, copies)

    def _shelf(self, number: int, height: int) -> _Shelf:
        shelf = _Shelf(self.width, height)
        self.sheets[number].append(shelf)
        self.left[number] -= height
        self.shelves.append(shelf)
        return shelf

    def _stack(self, shelf: _Shelf, piece: Laid, copies: int) -> int:
        high = shelf.height // piece.height
        placed = 0
        while placed < copies and piece.width <= shelf.free:
            some = min(high, copies - placed)
            shelf.stacks.append((piece, some))
            shelf.free -= piece.width
            placed += some
        return placed


def _sheet(width: int, height: int, shelves: Sequence[_Shelf]) -> Rough:
    rows: list[Rough] = []
    for shelf in shelves:
        stacks: list[Rough] = []
        for piece, number in shelf.stacks:
            above = Waste(piece.width, shelf.height - piece.height * number)
            stacks.append(row("y", [*[piece] * number, above]))
        rows.append(row("x", [*stacks, Waste(shelf.free, shelf.height)]))
    rows.append(Waste(width, height - sum(shelf.height for shelf in shelves)))
    return row("y", rows)
