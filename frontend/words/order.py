"""In which order to make the projects, why, and how long it takes: as sentences."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from frontend.words.numbers import duration, listed
from layouts.document import Kit

__all__ = ["OrderWords", "order_words"]

_WHY = {
    "cut-out": "{thing} comes out of a window of it",
    "after": "step {thing} comes after a step of it",
    "drying": "while its step {thing} dries, the next can be made",
}


@dataclass(frozen=True, slots=True)
class OrderWords:
    """`projects` are titles in the order to make them in, empty on a circle; `sentence` says the same in words."""

    sentence: str
    projects: tuple[str, ...]
    because: tuple[str, ...]
    time: str


def order_words(kit: Kit, proof: Mapping[str, Any]) -> OrderWords:
    titles = {project.id: project.title for project in kit.projects}
    order = proof["order"]
    because = tuple(_because(one, titles) for one in order["because"])
    time = _time(proof["time"])
    if order["projects"] is None:
        return OrderWords(
            "The projects wait for each other in a circle: there is no order to make them in.", (), because, time
        )
    made = tuple(titles.get(one, one) for one in order["projects"])
    if not made:
        return OrderWords("There is nothing to make yet.", (), because, time)
    if len(made) == 1:
        return OrderWords(f"There is one project: {made[0]}.", made, because, time)
    return OrderWords(f"Make {listed([made[0], *(f'then {title}' for title in made[1:])])}.", made, because, time)


def _because(one: Mapping[str, str], titles: Mapping[str, str]) -> str:
    first, then = (titles.get(one[side], one[side]) for side in ("first", "then"))
    return f"{first} before {then}: {_WHY[one['reason']].format(thing=one['at'].rpartition(':')[2])}."


def _time(time: Mapping[str, Any]) -> str:
    hands = time["hands_on_s"]
    at_work = (
        "Time at work unknown: a step does not say how long it takes."
        if hands is None
        else f"At work {duration(hands)}."
    )
    return f"{at_work} Waiting {duration(time['waiting_s'])}."
