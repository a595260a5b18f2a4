"""Which project, or which of its steps, comes before another, and whether the timetable takes projects in turns."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from functools import reduce
from itertools import groupby
from operator import or_
from typing import Any

from kits.sheets.content.cut_outs import lost_pieces
from layouts.assembly import KitSteps, OnePerson
from layouts.document import Kit, Project, piece_place

__all__ = ["are_in_turns", "order_words"]

# Steps that are named of two projects: a reader does not keep more of them in mind.
_MOST = 4


def are_in_turns(timetable: OnePerson | None, projects: Sequence[str] | None) -> bool:
    """Whether one person who follows the timetable makes the projects otherwise than one after the other in this order.

    Without a timetable, or an order, nothing contradicts it.
    """
    if timetable is None or not timetable.bars or projects is None:
        return False
    made = [project for project, _ in groupby(map(_project, timetable.order))]
    return made != [project for project in projects if project in made]


def order_words(
    kit: Kit, proof: Mapping[str, Any], project: Project, steps: KitSteps, timetable: OnePerson | None
) -> Iterator[str]:
    """Yield what of this project must be done before what of others, and the other way round, as sentences.

    Steps are named by their numbers, as the timetable names them: whoever follows it, or makes one project after the
    other, finds them true. That glue dries meanwhile is advice, and is left to the timetable where there is one.
    """
    in_turns = are_in_turns(timetable, proof["order"]["projects"])
    words = _Words(kit, project, steps)
    lost = lost_pieces(proof)
    told: dict[tuple[str, str], dict[str, Mapping[str, str]]] = {}
    for one in proof["order"]["because"]:
        is_true = one["at"] not in lost and not (in_turns and one["reason"] == "drying")
        if project.id in (one["first"], one["then"]) and is_true:
            told.setdefault((one["first"], one["then"]), {}).setdefault(words.sentence(one), one)
    for sentences in told.values():
        if len(sentences) <= _MOST:
            yield from sentences
        elif in_turns:
            yield words.many(next(iter(sentences.values())))
        else:
            yield from dict.fromkeys(map(words.whole, sentences.values()))
    if in_turns:
        yield "“What to make when” in the cut guide takes the projects in turns."
    if proof["order"]["projects"] is None:
        yield "The projects of this kit wait for each other in a circle: ask before you begin."


class _Words:
    """The reasons of an order as they are told on the sheet of one project."""

    def __init__(self, kit: Kit, project: Project, steps: KitSteps) -> None:
        self._here = project.id
        self._steps = steps
        self._titles = {one.id: one.title for one in kit.projects}
        self._numbers = {
            one.place: number for own in steps.by_project.values() for number, one in enumerate(own, start=1)
        }
        self._planned = {one.place: one for one in steps}
        self._cut_by: dict[str, list[str]] = {}
        for one in steps:
            for name in dict.fromkeys(one.step.cut):
                self._cut_by.setdefault(piece_place(one.project.id, name), []).append(one.place)
        self._all = {
            name: reduce(or_, (steps.precedence.bit(one.place) for one in own), 0)
            for name, own in steps.by_project.items()
        }
        self._hosts = {
            piece_place(one.id, piece.id): (piece.id, piece.from_.split("/")[1])
            for one in kit.projects
            for piece in one.pieces
            if piece.from_ is not None
        }

    def sentence(self, one: Mapping[str, str]) -> str:
        """Return what one reason of the proof says: which steps wait for which, where steps say so."""
        first, then, at = one["first"], one["then"], one["at"]
        if one["reason"] == "after":
            waiting = self._planned.get(at)
            musts = [] if waiting is None else [place for place in waiting.after if _project(place) == first]
            if musts:
                return f"{self._before(first, musts, then, at)}."
        elif one["reason"] == "cut-out" and at in self._hosts:
            guest, host = self._hosts[at]
            cut_host, cut_guest = (self._cut_by.get(place, []) for place in (piece_place(first, host), at))
            if cut_host and cut_guest:
                whose = "" if then == self._here else "its "
                before = self._before(first, cut_host[-1:], then, cut_guest[0])
                return f"{before}: {whose}{guest} comes out of a window of {host}."
        return self.whole(one)

    def whole(self, one: Mapping[str, str]) -> str:
        """Return what is known of the projects only: no step is said to cut what must be cut, or glue dries."""
        reasons = {
            "cut-out": "{thing} of the {then} comes out of a window of it",
            "after": "a step of the {then} comes after a step of it",
            "drying": "while it dries, the {then} can be made",
        }
        then = self._titles[one["then"]]
        # “Make this one first” beside “make that one first” would leave a reader with two that are first.
        turn = "first" if one["then"] == self._here else f"before the {then}"
        why = reasons[one["reason"]].format(thing=one["at"].rpartition(":")[2], then=then)
        return f"Make the {self._titles[one['first']]} {turn}: {why}."

    def many(self, one: Mapping[str, str]) -> str:
        """Return that more steps wait for others than can be told."""
        first, then = self._titles[one["first"]], self._titles[one["then"]]
        return f"Many steps of the {then} wait for steps of the {first}: keep to the timetable in the cut guide."

    def _before(self, first: str, musts: Sequence[str], then: str, waiting: str) -> str:
        precedence = self._steps.precedence
        late = f"step {self._numbers[waiting]}{'' if then == self._here else f' of the {self._titles[then]}'}"
        done = reduce(or_, (precedence.bit(place) | precedence.before(place) for place in musts))
        if not self._all[first] & ~done:
            return f"Finish {'this' if first == self._here else f'the {self._titles[first]}'} before {late}"
        numbers = [str(number) for number in sorted(self._numbers[place] for place in musts)]
        steps = f"step{'s' if len(numbers) > 1 else ''} {_and(numbers)}"
        return f"Do {steps}{'' if first == self._here else f' of the {self._titles[first]}'} before {late}"


def _project(place: str) -> str:
    return place.partition("/")[0].removeprefix("project:")


def _and(names: Sequence[str]) -> str:
    return " and ".join([", ".join(names[:-1]), names[-1]] if len(names) > 1 else names)
