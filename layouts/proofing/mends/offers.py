"""What comes out of windows and feeds nothing yet: which piece could come out of which of them."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from layouts.document import Change, Piece, Project, Window, change_to
from layouts.proofing.families import free_lies
from layouts.proofing.mends.case import Candidate, Case
from layouts.proofing.prints import Want
from layouts.shapes import NotBuilt, cut_out

__all__ = ["Offer", "cut_from", "offered_windows"]


@dataclass(frozen=True, slots=True)
class Offer:
    """The rectangle that a window of a piece offers in each of its copies, in ticks; `changes` make it a kept one.

    `guests` are the places of what comes out of it already.
    """

    project: Project
    piece: Piece
    host: Want
    window: str
    width: int
    height: int
    changes: tuple[Change, ...] = ()
    guests: tuple[str, ...] = ()
    is_new: bool = False

    @property
    def source(self) -> str:
        """As the `from` of a piece names it."""
        return f"{self.project.id}/{self.piece.id}/{self.window}"

    @property
    def area(self) -> int:
        """Of all its cut-outs, in square ticks."""
        return self.width * self.height * len(self.host.copies)

    def yields(self, want: Want, slack: int) -> bool:
        """Whether all copies of a piece come out of it, laid in rows and columns in a lie in which its print is right.

        This is no plan: rows and columns are what anybody would cut, and a plan is asked for afterwards.
        """
        most = max(
            (self._in_each(want, lie != host, slack) for host in free_lies(self.host) for lie in free_lies(want)),
            default=0,
        )
        return want.place != self.host.place and most * len(self.host.copies) >= len(want.copies)

    def _in_each(self, want: Want, sideways: bool, slack: int) -> int:
        width, height = (want.height, want.width) if sideways else (want.width, want.height)
        return ((self.width + slack) // (width + slack)) * ((self.height + slack) // (height + slack))


def offered_windows(case: Case) -> Iterator[Offer]:
    """Yield the windows of all pieces of a print, in document order, whose cut-outs feed one piece or none."""
    feeding: dict[str, list[str]] = {}
    for place, (_, piece) in case.made.items():
        if piece.from_ is not None:
            feeding.setdefault(piece.from_, []).append(place)
    for want in case.answer.part.wants:
        if want.place not in case.made:
            continue
        project, piece = case.made[want.place]
        if len(want.copies) != project.makes * piece.count:
            continue  # some of its copies are cut from another print
        for window in piece.windows:
            guests = tuple(feeding.get(f"{project.id}/{piece.id}/{window.id}", ()))
            size = _cut_out(window, piece)
            if size is None or len(guests) > 1 or (guests and window.cut_out == "waste"):
                continue
            kept = () if window.cut_out == "kept" else (_keeping(case, want.place, window),)
            yield Offer(project, piece, want, window.id, *size, kept, guests)


def cut_from(case: Case, one: Candidate, offer: Offer) -> tuple[Change, ...]:
    """Return the changes by which a piece comes out of a window: of its source, then of the window."""
    own = [change_to(case.kit, f"{one.place}/from", offer.source)]
    if one.piece.paper is not None:
        own.append(change_to(case.kit, f"{one.place}/paper", None))
    return (*own, *offer.changes)


def _keeping(case: Case, place: str, window: Window) -> Change:
    return change_to(case.kit, f"{place}/window:{window.id}/cut_out", "kept")


def _cut_out(window: Window, piece: Piece) -> tuple[int, int] | None:
    try:
        size = cut_out(window, piece.size)
    except NotBuilt:
        return None
    return None if size is None else (size.width.ticks, size.height.ticks)
