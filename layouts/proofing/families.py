"""Pieces that come out of other pieces: in which lies each may be on the sheet, and what every kept window yields."""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import chain
from typing import Literal

from layouts.cutting import Answer, Item, Problem, Region, taken
from layouts.proofing.prints import KeptWindow, PrintPart, Want

__all__ = [
    "MOST_NESTED",
    "CutOutAnswer",
    "CutOutState",
    "Family",
    "Lies",
    "Solve",
    "free_lies",
    "item_of",
    "lies_within",
]

Solve = Callable[[Problem], Answer]
CutOutState = Literal["planned", "too-small", "overdrawn", "undecided", "no-host"]

# How a want may lie on a sheet: upright (False, its width along x), sideways (True), or both.
type Lies = tuple[bool, ...]

# Cut-outs out of cut-outs; plans nest as deep, and nobody cuts a piece out of the sixteenth frame of a frame.
MOST_NESTED = 16


@dataclass(frozen=True, slots=True)
class CutOutAnswer:
    """What one kept window yields of the pieces (places) named."""

    host: str
    window: KeptWindow
    state: CutOutState
    pieces: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class _Kept:
    """A kept window: its host, and what is to come out of it."""

    host: Want
    window: KeptWindow
    guests: tuple[Want, ...]

    @property
    def key(self) -> tuple[str, str]:
        return self.host.place, self.window.id


def free_lies(want: Want) -> Lies:
    """Return the lies in which a want reads right on a sheet, whatever comes out of it."""
    return tuple(sorted({turn in (90, 270) for turn, _ in want.turns}))


def lies_within(want: Want, width: int, height: int, lies: Collection[bool]) -> Lies:
    """Return those of some lies in which a want fits an area (ticks)."""
    return tuple(
        lie
        for lie in lies
        if (want.height if lie else want.width) <= width and (want.width if lie else want.height) <= height
    )


def item_of(want: Want, lies: Collection[bool]) -> Item:
    """Return a want as an item of a cutting problem, to be laid in one of these lies."""
    return Item(want.place, want.width, want.height, len(want.copies), upright=False in lies, sideways=True in lies)


class Family:
    """All wants of one print, and what comes out of which.

    A piece in a cut-out lies on the sheet as its host does, or turned from that by a quarter. So the lie of a host
    decides what its windows yield, unless what comes out of them may lie both ways.

    `possible` are the lies in which each want reads right and fits what it is cut from. `lies` are those of them in
    which its windows yield all that is asked of them, as far as any do; `refused` is what no lie makes a plan for.
    `tree` gives the cut trees of a planned window.
    """

    def __init__(self, part: PrintPart, solve: Solve) -> None:
        self._part = part
        self._solve = solve
        self._answers: dict[Problem, Answer] = {}
        self.wants = {want.place: want for want in part.wants}
        guests: dict[tuple[str, str], list[Want]] = {}
        for want in part.wants:
            if want.host is not None:
                guests.setdefault(want.host, []).append(want)
        self._kept = {
            host.place: [_Kept(host, window, tuple(guests.get((host.place, window.id), ()))) for window in host.windows]
            for host in part.wants
        }
        self._depth: dict[str, int] = {}
        self.possible = self._possible_lies()
        self.lies = dict(self.possible)
        self._yielding: dict[tuple[str, str], dict[bool, Answer]] = {}
        for host in reversed(part.wants):  # guests stand behind their hosts: the innermost are judged first
            self._choose_lies(host)
        self._planned: set[tuple[str, str]] = set()
        self.refused = tuple(self._judge())

    def tree(self, host: str, window: str, number: int, lies: Sequence[bool]) -> Region | None:
        """Return how the cut-out of a host's copy is cut, or None where it yields nothing.

        `number` counts from 0 the copies that lie on the sheets so far, `lies` are theirs, this copy's last.
        Raises: LookupError where the copies lie in a way that the window has no plan for.
        """
        key = (host, window)
        if key not in self._planned:
            return None
        answers = self._yielding[key]
        if len(set(lies)) > 1 and not _interchangeable(answers):
            raise LookupError(key)
        sheets = answers[lies[-1]].sheets
        return sheets[number] if number < len(sheets) else None

    def give_up(self, windows: Collection[tuple[str, str]]) -> None:
        """Leave these windows (host and id) undecided, planned as they were."""
        self._planned.difference_update(windows)
        given_up = [kept for kept in chain.from_iterable(self._kept.values()) if kept.key in windows]
        self.refused += tuple(
            CutOutAnswer(kept.host.place, kept.window, "undecided", self._fitting(kept)) for kept in given_up
        )

    def _possible_lies(self) -> dict[str, Lies]:
        """The lies in which each want fits what it is cut from, in some possible lie of its host; hosts come first."""
        possible: dict[str, Lies] = {}
        sheet = self._part.sheet
        windows = {(host.place, window.id): window for host in self._part.wants for window in host.windows}
        for want in self._part.wants:
            free = free_lies(want)
            if want.host is None:
                self._depth[want.place] = 0
                # A piece that fits no sheet is told of by itself; what comes out of it is judged all the same.
                possible[want.place] = lies_within(want, sheet.usable_width, sheet.usable_height, free) or free
                continue
            host, _ = want.host
            self._depth[want.place] = self._depth[host] + 1
            window = windows.get(want.host)
            possible[want.place] = tuple(
                lie for lie in free if window and any(_fits(want, window, lie, host_lie) for host_lie in possible[host])
            )
        return possible

    def _choose_lies(self, host: Want) -> None:
        """Keep the lies of a host in which its windows yield all that can come out of them singly.

        Copies may lie both ways only where it makes no difference which of them lies how.
        """
        yielding = [
            {lie: answer for lie in self.possible[host.place] if (answer := self._cut(kept, lie)).verdict == "fits"}
            for kept in self._kept[host.place]
        ]
        for kept, answers in zip(self._kept[host.place], yielding, strict=True):
            self._yielding[kept.key] = answers
        good: Lies = self.possible[host.place]
        for answers in yielding:
            # A window that yields in no lie has no say; of two that need different lies, the first has it.
            good = tuple(lie for lie in good if lie in answers) or good
        if len(good) > 1 and not all(map(_interchangeable, yielding)):
            good = good[:1]
        self.lies[host.place] = good

    def _judge(self) -> Iterator[CutOutAnswer]:
        """Answer for every kept window, outermost first; yield what is not planned."""
        known = {kept.key for windows in self._kept.values() for kept in windows}
        there = {want.place for want in self._part.direct if self.possible[want.place]}
        # What comes out of these is not asked: nobody knows whether they are there.
        open_ = {want.place for want in self._part.wants if want.host is not None and want.host not in known}
        for host in self._part.wants:
            for kept in self._kept[host.place]:
                places = tuple(guest.place for guest in kept.guests)
                if host.place in open_:
                    open_.update(places)
                    continue
                if host.place not in there:
                    yield CutOutAnswer(host.place, kept.window, "no-host", places)
                    continue
                small = tuple(guest.place for guest in kept.guests if not self.possible[guest.place])
                if small:
                    yield CutOutAnswer(host.place, kept.window, "too-small", small)
                rest = self._fitting(kept)
                if not rest:
                    continue
                state = self._state(kept)
                if state == "planned":
                    self._planned.add(kept.key)
                    there.update(rest)
                    continue
                if state == "undecided":
                    open_.update(rest)
                yield CutOutAnswer(host.place, kept.window, state, rest)

    def _fitting(self, kept: _Kept) -> tuple[str, ...]:
        """What singly fits a window."""
        return tuple(guest.place for guest in kept.guests if self.possible[guest.place])

    def _state(self, kept: _Kept) -> CutOutState:
        if self._depth[kept.host.place] >= MOST_NESTED:
            return "undecided"
        if set(self.lies[kept.host.place]) <= set(self._yielding[kept.key]):
            return "planned"
        # The wishes of what comes out of the guests in turn are no part of the proof, and several hosts may lie both
        # ways at once: the proof lets every guest lie as it could in any of them.
        lies = self.possible[kept.host.place]
        groups: list[Lies] = [(lie,) for lie in lies] if len(kept.host.copies) == 1 else [lies]
        if all(self._answer(self._problem(kept, group, self.possible)).verdict == "short" for group in groups):
            return "overdrawn"
        return "undecided"

    def _cut(self, kept: _Kept, host_lie: bool) -> Answer:
        """The answer for one window whose hosts all lie in one way."""
        return self._answer(self._problem(kept, (host_lie,), self.lies))

    def _problem(self, kept: _Kept, host_lies: Lies, lies: Mapping[str, Lies]) -> Problem:
        """What is asked of a window, of all guests that fit it singly in some lie, their hosts in one of these lies."""
        items = [
            item_of(guest, {lie != host_lie for lie in lies[guest.place] for host_lie in host_lies})
            for guest in kept.guests
            if lies[guest.place]
        ]
        return Problem(kept.window.width, kept.window.height, len(kept.host.copies), tuple(items), self._part.slack)

    def _answer(self, problem: Problem) -> Answer:
        if problem not in self._answers:
            self._answers[problem] = self._solve(problem)
        return self._answers[problem]


def _fits(guest: Want, window: KeptWindow, lie: bool, host_lie: bool) -> bool:
    return bool(lies_within(guest, window.width, window.height, (lie != host_lie,)))


def _interchangeable(answers: Mapping[bool, Answer]) -> bool:
    """Whether each cut-out yields the same pieces whichever way its host lies, so that hosts may lie both ways."""
    first, *others = [
        [sorted(piece.key for _, piece in taken(sheet)) for sheet in answer.sheets] for answer in answers.values()
    ] or [[]]
    return all(other == first for other in others)
