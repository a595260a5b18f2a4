"""Which mends work: every way is made in the document, judged by the rules, and proved by plans, before it is shown.

Of each kind the first that does is kept. What is asked follows from the kit and the answers alone, as for the proof
itself, so that it may be asked in the background, side by side, and used again.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence, Set
from dataclasses import dataclass, replace

from layouts.document import Kit, Refused, changed
from layouts.proofing.mends.candidates import Mend, ways_to_mend
from layouts.proofing.plans import PrintAnswer
from layouts.proofing.prints import PrintPart, print_parts

__all__ = ["MendSearch"]

# A kit of more pieces than this is nobody's month: reading it anew for every way would take too long.
MOST_PIECES = 400
# Prints for which mends are looked for, in document order.
MOST_SHORT = 4

type Answers = Mapping[str, PrintAnswer]
type Faults = Set[tuple[str, tuple[str, ...]]]


@dataclass(frozen=True, slots=True)
class _Way:
    """One way made in the document: the prints that differ by it, to be answered."""

    mend: Mend
    parts: tuple[PrintPart, ...]


class MendSearch:
    """Looks for mends of the short prints of a kit.

    `faults` says what the rules that need no plan find in a kit that keeps it from being ready: a way that would bring
    a new fault is none.
    """

    def __init__(self, kit: Kit, parts: Sequence[PrintPart], faults: Callable[[Kit], Faults]) -> None:
        self._kit, self._parts, self._faults = kit, parts, faults
        self._keys = [part.key for part in parts]
        self._own_faults: Faults | None = None
        self._kinds: dict[str, list[list[Mend]]] = {}
        self._made: dict[Mend, _Way | None] = {}

    def open(self, answers: Answers) -> tuple[PrintPart, ...]:
        """Return the parts to be answered next, once all prints are; empty when every kind has its answer."""
        asked: dict[str, PrintPart] = {}
        for short in self._short(answers):
            for ways in self._ways(short, answers):
                found = self._first(short.part.paper, ways, answers)
                if isinstance(found, _Way):
                    asked.update((part.key, part) for part in found.parts if part.key not in answers)
        return tuple(asked.values())

    def found(self, answers: Answers) -> dict[str, tuple[Mend, ...]]:
        """Return the mends of each short print, by its paper, as far as they are answered."""
        return {
            short.part.paper: tuple(
                mend
                for ways in self._ways(short, answers)
                if isinstance(mend := self._first(short.part.paper, ways, answers), Mend)
            )
            for short in self._short(answers)
        }

    def _short(self, answers: Answers) -> list[PrintAnswer]:
        if any(key not in answers for key in self._keys) or _pieces(self._kit) > MOST_PIECES:
            return []
        own = [replace(answers[key], part=part) for key, part in zip(self._keys, self._parts, strict=True)]
        return [one for one in own if one.verdict == "short" and not one.impossible][:MOST_SHORT]

    def _ways(self, short: PrintAnswer, answers: Answers) -> list[list[Mend]]:
        paper = short.part.paper
        if paper not in self._kinds:
            own = [replace(answers[key], part=part) for key, part in zip(self._keys, self._parts, strict=True)]
            self._kinds[paper] = [list(ways) for ways in ways_to_mend(self._kit, short, own)]
        return self._kinds[paper]

    def _first(self, paper: str, ways: Sequence[Mend], answers: Answers) -> Mend | _Way | None:
        """The first way that works, or the way that must be answered before that is known; None if none does."""
        for mend in ways:
            way = self._make(mend)
            if way is None or all(part.paper != paper for part in way.parts):
                continue  # no way, or one that leaves the print as it is
            given = [answers.get(part.key) for part in way.parts]
            if any(answer is None for answer in given):
                if any(answer is not None and answer.verdict != "fits" for answer in given):
                    continue
                return way
            if all(self._is_better(answer, answers) for answer in given if answer is not None):
                return mend
        return None

    def _is_better(self, answer: PrintAnswer, answers: Answers) -> bool:
        """Whether a print suffices, and yields out of its windows whatever it yielded before."""
        known = dict(zip((part.paper for part in self._parts), self._keys, strict=True))
        before = {place for one in answers[known[answer.part.paper]].refused for place in one.pieces}
        return answer.verdict == "fits" and before.issuperset(place for one in answer.refused for place in one.pieces)

    def _make(self, mend: Mend) -> _Way | None:
        """Make a way in the document; None if it is no valid document then, or has a new fault."""
        if mend not in self._made:
            self._made[mend] = self._made_now(mend)
        return self._made[mend]

    def _made_now(self, mend: Mend) -> _Way | None:
        try:
            kit = changed(self._kit, mend.changes)
        except Refused:
            return None
        if self._own_faults is None:
            self._own_faults = self._faults(self._kit)
        if not self._faults(kit) <= self._own_faults:
            return None
        parts = print_parts(kit)
        if len(parts) != len(self._parts):
            return None
        return _Way(
            mend,
            tuple(
                replace(part, tighter=part.sheet, tighter_slack=part.slack, is_quick=True)
                for part, key in zip(parts, self._keys, strict=True)
                if part.key != key
            ),
        )


def _pieces(kit: Kit) -> int:
    return sum(len(project.pieces) + len(project.forms) for project in kit.projects)
