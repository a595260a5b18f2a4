"""Pieces that come out of other pieces: in which lies each may be on the sheet, and what every kept window yields."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from typing import Literal

from layouts.cutting import Answer, Item, Problem
from layouts.proofing.prints import KeptWindow, PrintPart, Want

__all__ = ["CutOutAnswer", "CutOutState", "Family", "Solve", "item_of", "lies_of", "lies_within"]

Solve = Callable[[Problem], Answer]
CutOutState = Literal["planned", "too-small", "overdrawn", "undecided", "no-host"]
_STATES: dict[str, CutOutState] = {"fits": "planned", "short": "overdrawn", "unknown": "undecided"}


@dataclass(frozen=True, slots=True)
class CutOutAnswer:
    """What one kept window yields of the pieces (places) named; `answer` holds the cut trees where it is planned."""

    host: str
    window: KeptWindow
    state: CutOutState
    pieces: tuple[str, ...]
    answer: Answer | None = None


def lies_of(want: Want) -> tuple[bool, ...]:
    """Return the lies a want may have on a sheet: upright (False), sideways (True), or both."""
    return tuple(sorted({turn in (90, 270) for turn, _ in want.turns}))


def lies_within(want: Want, width: int, height: int, lies: Sequence[bool]) -> bool:
    """Whether a want fits an area (ticks) in one of these lies."""
    return any(
        (want.height if lie else want.width) <= width and (want.width if lie else want.height) <= height for lie in lies
    )


def item_of(want: Want, lies: Sequence[bool]) -> Item:
    """Return a want as an item of a cutting problem, to be laid in one of these lies."""
    return Item(want.place, want.width, want.height, len(want.copies), upright=False in lies, sideways=True in lies)


class Family:
    """All wants of one print, and what comes out of which.

    A piece in a cut-out lies on the sheet as its host does and by its own turn more. Where a host may lie both ways
    and what comes out of it may not, `settle` lays the host the first way in which its windows yield all that is asked
    of them; `settled` says whether that was done anywhere.
    """

    def __init__(self, part: PrintPart, solve: Solve, *, settle: bool) -> None:
        self._part = part
        self._solve = solve
        self.wants = {want.place: want for want in part.wants}
        self.lies = {want.place: lies_of(want) for want in part.wants}
        self.settled = False
        if settle:
            for host in reversed(part.wants):  # guests stand behind their hosts: the innermost are settled first
                self._settle(host)
        self.cut_outs: dict[tuple[str, str], CutOutAnswer] = {}
        self.refused = tuple(self._judge())

    def is_bound(self, host: str, window: str) -> bool:
        """Whether something that comes out of this window may not lie both ways, so that the host's lie matters."""
        return any(len(self.lies[guest.place]) < 2 for guest in self._guests(host, window))

    def _guests(self, host: str, window: str) -> tuple[Want, ...]:
        return tuple(want for want in self._part.wants if want.host == (host, window))

    def _settle(self, host: Want) -> None:
        if len(self.lies[host.place]) < 2 or not any(self.is_bound(host.place, window.id) for window in host.windows):
            return
        for sideways in (False, True):
            if all(self._yields_all(host, window, sideways) for window in host.windows):
                self.lies[host.place] = (sideways,)
                self.settled = True
                return

    def _yields_all(self, host: Want, window: KeptWindow, sideways: bool) -> bool:
        guests = self._guests(host.place, window.id)
        fitting, answer = self._cut(host, window, sideways)
        return len(fitting) == len(guests) and (answer is None or answer.verdict == "fits")

    def _judge(self) -> Iterator[CutOutAnswer]:
        """Answer for every kept window; yield what is not planned."""
        planned = {want.place for want in self._part.direct}
        for host in self._part.wants:
            for window in host.windows:
                guests = self._guests(host.place, window.id)
                if host.place not in planned:
                    yield CutOutAnswer(host.place, window, "no-host", tuple(guest.place for guest in guests))
                    continue
                fitting, answer = self._cut(host, window, self.lies[host.place][0])
                small = tuple(guest.place for guest in guests if guest not in fitting)
                if small:
                    yield CutOutAnswer(host.place, window, "too-small", small)
                if answer is None:
                    continue
                places = tuple(guest.place for guest in fitting)
                one = CutOutAnswer(host.place, window, _STATES[answer.verdict], places, answer)
                self.cut_outs[host.place, window.id] = one
                if one.state == "planned":
                    planned.update(places)
                else:
                    yield one

    def _cut(self, host: Want, window: KeptWindow, host_sideways: bool) -> tuple[tuple[Want, ...], Answer | None]:
        """Return the guests that singly fit a window, and the answer for them all where there are any."""
        lies = {
            guest: [lie != host_sideways for lie in self.lies[guest.place]]
            for guest in self._guests(host.place, window.id)
        }
        fitting = tuple(guest for guest in lies if lies_within(guest, window.width, window.height, lies[guest]))
        if not fitting:
            return (), None
        items = tuple(item_of(guest, lies[guest]) for guest in fitting)
        return fitting, self._solve(Problem(window.width, window.height, len(host.copies), items, self._part.slack))
