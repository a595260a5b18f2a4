"""Which project, or which of its steps, comes before another, and whether the timetable takes projects in turns."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from functools import reduce
from itertools import groupby
from operator import or_
from typing import Any

from kits.sheets.content.cut_outs import lost_pieces
from layouts.assembly import KitSteps, OnePerson
from layouts.document import Kit, piece_place

__all__ = ["Turns", "are_in_turns"]

type Because = Mapping[str, str]

# Steps that are named of two projects: a reader does not keep more of them in mind.
_MOST = 4

_REASONS = {
    "cut-out": "{thing} of the {then} comes out of a window of it",
    "after": "a step of the {then} comes after a step of it",
    "drying": "while it dries, the {then} can be made",
}


def are_in_turns(timetable: OnePerson | None, projects: Sequence[str] | None) -> bool:
    """Whether one person who follows the timetable makes the projects otherwise than one after the other in this order.

    Without a timetable, or an order, nothing contradicts it.
    """
    if timetable is None or not timetable.bars or projects is None:
        return False
    made = [project for project, _ in groupby(map(_project, timetable.order))]
    with_steps = set(made)
    return made != [project for project in projects if project in with_steps]


class Turns:
    """What of a kit must be done before what of other projects, told on the sheet of each.

    Steps are named by their numbers, as the timetable names them: whoever follows it, or makes one project after the
    other, finds them true. That glue dries meanwhile is advice, and is left to the timetable where there is one.
    """

    def __init__(self, kit: Kit, proof: Mapping[str, Any], steps: KitSteps, timetable: OnePerson | None) -> None:
        order = proof["order"]
        self._in_circle = order["projects"] is None
        self._in_turns = are_in_turns(timetable, order["projects"])
        self._precedence = steps.precedence
        self._titles = {one.id: one.title for one in kit.projects}
        self._numbers = {
            one.place: number for own in steps.by_project.values() for number, one in enumerate(own, start=1)
        }
        self._planned = {one.place: one for one in steps}
        self._all = {
            name: reduce(or_, (steps.precedence.bit(one.place) for one in own), 0)
            for name, own in steps.by_project.items()
        }
        self._cut_by: dict[str, list[str]] = {}
        for one in steps:
            for name in dict.fromkeys(one.step.cut):
                self._cut_by.setdefault(piece_place(one.project.id, name), []).append(one.place)
        self._hosts = {
            piece_place(project.id, piece.id): (piece.id, piece.from_.split("/")[1])
            for project in kit.projects
            for piece in project.pieces
            if piece.from_ is not None
        }
        lost = lost_pieces(proof)
        self._because: dict[str, dict[tuple[str, str], list[Because]]] = {}
        for because in order["because"]:
            if because["at"] in lost or (self._in_turns and because["reason"] == "drying"):
                continue
            pair = because["first"], because["then"]
            for project in pair:
                self._because.setdefault(project, {}).setdefault(pair, []).append(because)

    def words(self, project: str) -> Iterator[str]:
        """Yield what stands on the sheet of a project, sentence by sentence."""
        for reasons in self._because.get(project, {}).values():
            sentences = dict.fromkeys(self._sentence(one, project) for one in reasons)
            if len(sentences) <= _MOST:
                yield from sentences
            elif self._in_turns:
                first, then = self._titles[reasons[0]["first"]], self._titles[reasons[0]["then"]]
                yield f"Many steps of the {then} wait for steps of the {first}: keep to “What to make when”."
            else:
                yield from dict.fromkeys(self._whole(one, project) for one in reasons)
        if self._in_turns:
            yield "“What to make when” in the cut guide takes projects in turns."
        if self._in_circle:
            yield "The projects of this kit wait for each other in a circle: ask before you begin."

    def _sentence(self, one: Because, here: str) -> str:
        """What one reason of the proof says: which steps wait for which, where steps say so."""
        first, then, at = one["first"], one["then"], one["at"]
        if one["reason"] == "after":
            waiting = self._planned.get(at)
            musts = [] if waiting is None else [place for place in waiting.after if _project(place) == first]
            if musts:
                return f"{self._before(first, musts, then, at, here)}."
        elif one["reason"] == "cut-out" and at in self._hosts:
            guest, host = self._hosts[at]
            cut_host, cut_guest = (self._cut_by.get(place, []) for place in (piece_place(first, host), at))
            if cut_host and cut_guest:
                whose = "" if then == here else "its "
                before = self._before(first, cut_host[-1:], then, cut_guest[0], here)
                return f"{before}: {whose}{guest} comes out of a window of {host}."
        return self._whole(one, here)

    def _whole(self, one: Because, here: str) -> str:
        """What is known of the projects only: no step is said to cut what must be cut, or glue dries."""
        then = self._titles[one["then"]]
        # “Make this one first” beside “make that one first” would leave a reader with two that are first.
        turn = "first" if one["then"] == here else f"before the {then}"
        why = _REASONS[one["reason"]].format(thing=one["at"].rpartition(":")[2], then=then)
        return f"Make the {self._titles[one['first']]} {turn}: {why}."

    def _before(self, first: str, musts: Sequence[str], then: str, waiting: str, here: str) -> str:
        late = f"step {self._numbers[waiting]}{'' if then == here else f' of the {self._titles[then]}'}"
        done = reduce(or_, (self._precedence.bit(place) | self._precedence.before(place) for place in musts))
        if not self._all[first] & ~done:
            return f"Finish {'this' if first == here else f'the {self._titles[first]}'} before {late}"
        numbers = [str(number) for number in sorted(self._numbers[place] for place in musts)]
        steps = f"step{'s' if len(numbers) > 1 else ''} {_and(numbers)}"
        return f"Do {steps}{'' if first == here else f' of the {self._titles[first]}'} before {late}"


def _project(place: str) -> str:
    return place.partition("/")[0].removeprefix("project:")


def _and(names: Sequence[str]) -> str:
    return " and ".join([", ".join(names[:-1]), names[-1]] if len(names) > 1 else names)
