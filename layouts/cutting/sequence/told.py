"""From an order of ways to the steps that a person makes."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from layouts.cutting.sequence.steps import CutStep, Edge, Outcome, Rectangle, Taken
from layouts.cutting.sequence.strips import Axis, Node, Part
from layouts.cutting.sequence.ways import Left, Sheet, Way, quarters

__all__ = ["steps_told"]


def steps_told(sheet: Sheet, ways: tuple[Way, ...]) -> tuple[CutStep, ...]:
    """Return the steps, numbered from 1, each knowing what it takes in hand and what becomes of what comes off."""
    steps: list[CutStep] = []
    came_from: dict[Left, Taken] = {}
    setting: int | None = None
    edge: Edge | None = None
    for number, way in enumerate(ways, start=1):
        taken = came_from.get(way.left)
        if taken is not None:
            steps[taken.cut - 1] = _with_next(steps[taken.cut - 1], taken.side, number)
        step = _step(sheet, way, number, taken)
        steps.append(replace(step, is_same_setting=way.setting == setting, turns=quarters(edge, way.edge)))
        for side, left in _sides(sheet, way):
            if left is not None:
                came_from[left] = Taken(number, side)
        setting, edge = way.turned
    return tuple(steps)


def _step(sheet: Sheet, way: Way, number: int, taken: Taken | None) -> CutStep:
    left_number, first, last = way.left
    part = sheet.parts[left_number]
    return CutStep(
        number=number,
        taken=taken,
        part=_area(part, first, last),
        along=part.along,
        at=way.at,
        edge=way.edge,
        setting=way.setting,
        length=part.length,
        outcomes=tuple(_outcomes(part, way)),
        over_rest=way.over_rest,
        is_held=way.is_held,
    )


@dataclass(frozen=True, slots=True)
class _Side:
    """One side of a cut: its strips."""

    side: Edge
    first: int
    last: int


def _both(part: Part, way: Way) -> tuple[_Side, _Side]:
    _, first, last = way.left
    middle = first if way.end == "low" else last - 1
    low, high = _names(part.along)
    return _Side(low, first, middle), _Side(high, middle + 1, last)


def _names(along: Axis) -> tuple[Edge, Edge]:
    return ("left", "right") if along == "x" else ("bottom", "top")


def _sides(sheet: Sheet, way: Way) -> Iterator[tuple[Edge, Left | None]]:
    """What is left to be cut at each side of a cut."""
    number = way.left[0]
    part = sheet.parts[number]
    for one in _both(part, way):
        if one.first < one.last:
            yield one.side, (number, one.first, one.last)
        else:
            own = part.strips[one.first].part
            yield one.side, None if own is None else (own, 0, len(sheet.parts[own].strips) - 1)


def _outcomes(part: Part, way: Way) -> Iterator[Outcome]:
    for one in _both(part, way):
        area = _area(part, one.first, one.last)
        node = part.strips[one.first].node
        if one.first < one.last:
            yield Outcome("part", one.side, area)
        elif node is not None:
            yield _outcome(node, one.side, area)


def _outcome(node: Node, side: Edge, area: Rectangle) -> Outcome:
    if "piece" not in node:
        return Outcome("part" if "cut" in node else "offcut", side, area)
    keep = tuple(node.get("cut_outs", {}))
    return Outcome("piece", side, area, node["piece"], node["copy"], node.get("side") == "back", keep)


def _with_next(step: CutStep, side: Edge, number: int) -> CutStep:
    outcomes = (replace(one, next_cut=number) if one.side == side else one for one in step.outcomes)
    return replace(step, outcomes=tuple(outcomes))


def _area(part: Part, first: int, last: int) -> Rectangle:
    low, high = part.strips[first].low, part.strips[last].high
    node = part.node
    if part.along == "x":
        return Rectangle(low, node["y"], high - low, node["height"])
    return Rectangle(node["x"], low, node["width"], high - low)
