"""In which order to make the cuts of one sheet, and how the trimmer is set for each.

A cut tree says which cuts there are, not their order among parts that lie side by side. Here the order keeps the
trimmer's setting where it can, and else takes the longest cut first: a long edge is easiest to lay against the fence
while the part is large. Settings are measured from the left edge of the part in hand, or from its lower edge.

It reads trees in the form in which proofs hold them.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any, Literal

__all__ = ["CutStep", "Outcome", "Rectangle", "cuts_of"]

Node = Mapping[str, Any]


@dataclass(frozen=True, slots=True)
class Rectangle:
    """Where something lies on its sheet, in ticks from the lower left, front up."""

    x: int
    y: int
    width: int
    height: int


@dataclass(frozen=True, slots=True)
class Outcome:
    """What one side of a cut is: a piece (`place`, `copy`), a part that further cuts divide, or an offcut.

    `keep` are the windows of the piece whose cut-outs others come from.
    """

    kind: Literal["piece", "part", "offcut"]
    area: Rectangle
    place: str = ""
    copy: int = 0
    turn: int = 0
    keep: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class CutStep:
    """One cut. `along` "x" is an upright line at `at`, "y" a level one; `setting` its distance from the part's edge.

    `turned` says that the part in hand has to be given a quarter turn after the cut before. `outcomes` are left then
    right, or lower then upper; one only where what lies beyond is lost with the cut.
    """

    number: int
    part: Rectangle
    along: Literal["x", "y"]
    at: int
    setting: int
    length: int
    turned: bool
    outcomes: tuple[Outcome, ...]


def cuts_of(tree: Node) -> tuple[CutStep, ...]:
    """Return the cuts of a sheet in the order of making, numbered from 1.

    Of the cuts that can be made now, one with the setting (and the direction) of the last is taken; else the longest;
    of equals the lowest, then the leftmost. A tree that is one piece needs no cut.

    >>> sheet = {"x": 0, "y": 0, "width": 8, "height": 8, "cut": {"along": "x", "at": 5}, "parts": [
    ...     {"x": 0, "y": 0, "width": 5, "height": 8, "piece": "project:p/piece:A", "copy": 1, "turn": 0},
    ...     {"x": 5, "y": 0, "width": 3, "height": 8, "offcut": True}]}
    >>> [(cut.number, cut.setting, [side.kind for side in cut.outcomes]) for cut in cuts_of(sheet)]
    [(1, 5, ['piece', 'offcut'])]
    """
    steps: list[CutStep] = []
    ready = [tree] if "cut" in tree else []
    while ready:
        node = min(ready, key=lambda one: _rank(one, steps[-1] if steps else None))
        ready.remove(node)
        steps.append(_step(node, steps))
        ready.extend(part for part in node["parts"] if "cut" in part)
    return tuple(steps)


def _rank(node: Node, last: CutStep | None) -> tuple[bool, int, int, int]:
    same = last is not None and (node["cut"]["along"], _setting(node)) == (last.along, last.setting)
    return not same, -_length(node), node["y"], node["x"]


def _step(node: Node, before: list[CutStep]) -> CutStep:
    along = node["cut"]["along"]
    return CutStep(
        number=len(before) + 1,
        part=_area(node),
        along=along,
        at=node["cut"]["at"],
        setting=_setting(node),
        length=_length(node),
        turned=bool(before) and before[-1].along != along,
        outcomes=tuple(_outcomes(node)),
    )


def _outcomes(node: Node) -> Iterator[Outcome]:
    for part in node["parts"]:
        if "piece" in part:
            keep = tuple(part.get("cut_outs", {}))
            yield Outcome("piece", _area(part), part["piece"], part["copy"], part["turn"], keep)
        else:
            yield Outcome("part" if "cut" in part else "offcut", _area(part))


def _setting(node: Node) -> int:
    cut = node["cut"]
    return int(cut["at"] - node["x" if cut["along"] == "x" else "y"])


def _length(node: Node) -> int:
    return int(node["height"] if node["cut"]["along"] == "x" else node["width"])


def _area(node: Node) -> Rectangle:
    return Rectangle(node["x"], node["y"], node["width"], node["height"])
