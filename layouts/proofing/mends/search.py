"""Which ways work: every way is made in the document, judged by the rules, and proved by plans, before it is shown.

Of each kind the first that does is kept. What is asked follows from the kit and the answers alone, as for the proof
itself, so that it may be asked in the background, side by side, and used again.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence, Set
from dataclasses import dataclass, replace
from fractions import Fraction

from layouts.document import Kit, Refused, change_to, changed, paper_place
from layouts.proofing.mends.as_shown import AsShown
from layouts.proofing.mends.candidates import (
    excess_over,
    ways_to_mend,
    ways_to_save_a_sheet,
    ways_to_save_area,
    ways_to_yield,
)
from layouts.proofing.mends.hidden import Hidden
from layouts.proofing.mends.mend import Mend
from layouts.proofing.plans import PrintAnswer
from layouts.proofing.prints import PrintPart, print_parts

__all__ = ["MendSearch"]

# A kit of more pieces, windows, forms and placements than this is nobody's month: reading it anew for every way, and
# rounding its figures anew for every one that works, would take too long.
MOST_THINGS = 500
# Prints for which mends are looked for, and prints for which paper is to be saved, in document order.
MOST_SHORT = 4
MOST_SPARED = 6
# Pieces for which another source is looked for.
MOST_REFUSED = 6

# What would save a sheet, but use the others up to the last twentieth, is offered where it is seen at a glance: what
# only a search would find there, a slip of the knife would spoil.
_SPARED = Fraction(1, 20)

type Answers = Mapping[str, PrintAnswer]
type Faults = Set[tuple[str, tuple[str, ...]]]


@dataclass(frozen=True, slots=True)
class _Goal:
    """A print, the number of sheets with which it is to suffice, and the ways of each kind that are tried.

    `is_saving`: what works is offered with a sheet less in the box. `place` is that of a piece that is to come out of
    something: the goal is that alone then.
    """

    paper: str
    sheets: int | None
    kinds: Sequence[Sequence[Mend]]
    is_saving: bool = False
    place: str = ""


@dataclass(frozen=True, slots=True)
class _Way:
    """One way made in the document: the kit as it is then, and the prints that differ by it, to be answered."""

    kit: Kit
    parts: tuple[PrintPart, ...]
    as_shown: AsShown


class MendSearch:
    """Looks for mends of the short prints of a kit and of pieces that do not come out of their cut-outs, and for ideas
    that save paper of prints that fit.

    `faults` says what the rules that need no plan find in a kit that keeps it from being ready: a way that would bring
    a new fault is none. `slow_faults` says the same of rules that take longer. Both are asked of ways that fit.
    """

    def __init__(
        self,
        kit: Kit,
        parts: Sequence[PrintPart],
        faults: Callable[[Kit], Faults],
        slow_faults: Callable[[Kit], Faults],
    ) -> None:
        self._kit, self._parts = kit, parts
        self._faults, self._slow_faults = _Compared(kit, faults), _Compared(kit, slow_faults)
        self._hidden = Hidden(kit)
        self._keys = [part.key for part in parts]
        self._known: list[_Goal] | None = None
        self._made: dict[tuple[str, str, int | None], _Way | None] = {}
        self._clean: dict[str, bool] = {}

    def open(self, answers: Answers) -> tuple[PrintPart, ...]:
        """Return the parts to be answered next, once all prints are; empty when every kind has its answer."""
        asked: dict[str, PrintPart] = {}
        for goal in self._goals(answers):
            for ways in goal.kinds:
                found = self._first(goal, ways, answers)
                if isinstance(found, PrintPart):
                    asked[found.key] = found
        return tuple(asked.values())

    def mends(self, answers: Answers) -> dict[str, tuple[Mend, ...]]:
        """Return the mends of each short print, by its paper, and of each piece that does not come out of its cut-out,
        by its place, as far as they are answered."""
        goals = self._goals(answers)
        return self._found([one for one in goals if one.place or not self._fits(one.paper, answers)], answers)

    def ideas(self, answers: Answers) -> dict[str, tuple[Mend, ...]]:
        """Return what would save paper of each print that fits, by its paper, as far as it is answered.

        What saves a sheet comes first; what saves only some of one is left out where the same saves a sheet.
        """
        goals = self._goals(answers)
        return self._found([one for one in goals if not one.place and self._fits(one.paper, answers)], answers)

    def _found(self, goals: Sequence[_Goal], answers: Answers) -> dict[str, tuple[Mend, ...]]:
        found: dict[str, dict[str, Mend]] = {}
        for goal in goals:
            offered = found.setdefault(goal.place or goal.paper, {})
            for ways in goal.kinds:
                mend = self._first(goal, ways, answers)
                if isinstance(mend, Mend) and mend.key not in offered:
                    offered[mend.key] = self._with_a_sheet_less(mend, goal.paper) if goal.is_saving else mend
        return {name: tuple(offered.values()) for name, offered in found.items()}

    def _with_a_sheet_less(self, mend: Mend, paper: str) -> Mend:
        place = f"{paper_place(paper)}/sheets"
        (sheets, name) = next((one.sheets, one.name) for one in self._kit.papers if one.id == paper)
        return mend.and_(
            change_to(self._kit, place, sheets - 1), sheets=-1, words=f"Then a sheet less of {name} will do."
        )

    def _own(self, answers: Answers) -> list[PrintAnswer]:
        return [replace(answers[key], part=part) for key, part in zip(self._keys, self._parts, strict=True)]

    def _fits(self, paper: str, answers: Answers) -> bool:
        return any(one.part.paper == paper and one.verdict == "fits" for one in self._own(answers))

    def _goals(self, answers: Answers) -> list[_Goal]:
        if any(key not in answers for key in self._keys) or _things(self._kit) > MOST_THINGS:
            return []
        if self._known is None:
            own = self._own(answers)
            short = [one for one in own if one.verdict == "short" and not one.impossible]
            fits = [one for one in own if one.verdict == "fits" and one.at_most]
            self._known = [
                _Goal(one.part.paper, None, ways_to_mend(self._hidden, one, own)) for one in short[:MOST_SHORT]
            ]
            for one in fits[:MOST_SPARED]:
                self._known.extend(self._savings(one, own))
            refused = [(one, place) for one in fits for state in one.refused for place in state.pieces]
            for one, place in refused[:MOST_REFUSED]:
                kinds = ways_to_yield(self._hidden, one, own, place)
                self._known.append(_Goal(one.part.paper, None, kinds, place=place))
        return self._known

    def _savings(self, fits: PrintAnswer, own: Sequence[PrintAnswer]) -> Iterator[_Goal]:
        paper, sheets = fits.part.paper, fits.at_most or 0
        if sheets > 1:
            yield _Goal(paper, sheets - 1, ways_to_save_a_sheet(self._hidden, fits, own), is_saving=True)
        yield _Goal(paper, sheets, ways_to_save_area(self._hidden, fits, own))

    def _first(self, goal: _Goal, ways: Sequence[Mend], answers: Answers) -> Mend | PrintPart | None:
        """The first way that works, or what must be answered before that is known; None if none does."""
        for mend in ways:
            way = self._make(mend, goal)
            if way is None:
                continue
            for part in way.parts:
                answer = answers.get(part.key)
                if answer is None:
                    return part
                if not self._is_better(replace(answer, part=part), answers, goal.place):
                    break
            else:
                works = self._is_clean(mend, way) and way.as_shown.works(answers)
                if works:
                    return mend if works is True else works
        return None

    def _is_better(self, answer: PrintAnswer, answers: Answers, wanted: str) -> bool:
        """Whether a print suffices, and yields out of its windows whatever it yielded before, and one piece more."""
        known = dict(zip((part.paper for part in self._parts), self._keys, strict=True))
        before = {place for one in answers[known[answer.part.paper]].refused for place in one.pieces} - {wanted}
        return answer.verdict == "fits" and before.issuperset(place for one in answer.refused for place in one.pieces)

    def _is_clean(self, mend: Mend, way: _Way) -> bool:
        if mend.key not in self._clean:
            self._clean[mend.key] = all(one.has_none_new(way.kit, mend) for one in (self._faults, self._slow_faults))
        return self._clean[mend.key]

    def _make(self, mend: Mend, goal: _Goal) -> _Way | None:
        """Make a way in the document; None if it is no valid document then, or cannot do."""
        key = (mend.key, goal.paper, goal.sheets)
        if key not in self._made:
            self._made[key] = self._made_now(mend, goal)
        return self._made[key]

    def _made_now(self, mend: Mend, goal: _Goal) -> _Way | None:
        try:
            kit = changed(self._kit, mend.changes)
        except Refused:
            return None
        parts = print_parts(kit)
        if len(parts) != len(self._parts):
            return None
        different = [part for part, key in zip(parts, self._keys, strict=True) if part.key != key]
        if all(part.paper != goal.paper for part in different):
            return None  # it leaves the print as it is
        # The print itself first: mostly that is all that must be known.
        different.sort(key=lambda part: part.paper != goal.paper)
        asked = tuple(self._asked(part, goal) for part in different)
        # What the area alone shows to be too much is not asked.
        return (
            None if any(excess_over(part, part.sheets) > 0 for part in asked) else _Way(kit, asked, AsShown(kit, asked))
        )

    @staticmethod
    def _asked(part: PrintPart, goal: _Goal) -> PrintPart:
        sheets = goal.sheets if goal.sheets is not None and part.paper == goal.paper else part.sheets
        asked = replace(part, sheets=sheets, tighter=part.sheet, tighter_slack=part.slack, is_quick=True)
        is_crowded = excess_over(asked, sheets) > -_SPARED * _area_of(asked)
        return replace(asked, is_glance=goal.is_saving and is_crowded)


def _area_of(part: PrintPart) -> int:
    return part.sheet.usable_width * part.sheet.usable_height * part.sheets


class _Compared:
    """What the rules find in a kit, against what they found before."""

    def __init__(self, kit: Kit, faults: Callable[[Kit], Faults]) -> None:
        self._kit, self._faults = kit, faults
        self._own: Faults | None = None

    def has_none_new(self, kit: Kit, mend: Mend) -> bool:
        """Whether a kit in which a mend was made has no fault that it had not before; what a new thing shares with the
        one that it stands behind is none: a strip that no step cuts is still none when it is two."""
        if self._own is None:
            self._own = self._faults(self._kit)
        first = {
            change.at: f"{change.at.rpartition(':')[0]}:{change.behind}" for change in mend.changes if change.behind
        }
        return {(rule, tuple(first.get(place, place) for place in at)) for rule, at in self._faults(kit)} <= self._own


def _things(kit: Kit) -> int:
    windows = sum(len(piece.windows) for project in kit.projects for piece in project.pieces)
    return windows + sum(len(one.pieces) + len(one.forms) + len(one.placements) for one in kit.projects)
