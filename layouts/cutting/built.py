"""What the enumeration of builds is asked, and how its answer is read. It runs in the child process alone."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any, Literal

from layouts.cutting.bounds import Bound
from layouts.cutting.reduced import Reduced
from layouts.cutting.rough import Laid, Rough, Waste, laid, row
from layouts.cutting.wheel import SolverWrong

__all__ = ["STEPS", "Built", "Stage", "question", "read"]

# Narrow passes, all builds, a wide pass, then in another order (`builds.deciding`).
Stage = Literal["first", "whole", "wide", "other"]

# What a question may take at most, in the child's own steps.
STEPS = 1_000_000_000


@dataclass(frozen=True, slots=True)
class Built:
    """So many sheets at least, with the kind of proof; and a plan, if one was found."""

    low: Bound
    plan: tuple[Rough, ...] | None


def question(small: Reduced, sheets: int, stage: Stage, steps: int = STEPS) -> dict[str, Any]:
    """Ask whether the pieces can be cut from so many sheets."""
    return {
        "task": "builds",
        "sheets": [[small.width, small.height, sheets]],
        "kinds": [[kind.width, kind.height, kind.copies, kind.turns] for kind in small.kinds],
        "stage": stage,
        "steps": steps,
    }


def read(small: Reduced, sheets: int, answer: Mapping[str, Any]) -> Built:
    """Read the child's answer to a question about so many sheets. Raises: SolverWrong."""
    if "failed" in answer:
        return Built(Bound(0, "bound"), None)
    low = Bound(answer.get("at_least", 0), "bound")
    if answer["by"] == "exhausted":
        low = Bound(sheets + 1, "exhausted")
    if answer["by"] != "plan":
        return Built(low, None)
    try:
        plan = tuple(_filled(small, node, small.width, small.height) for _, node in answer["plan"])
    except ValueError as error:
        raise SolverWrong(f"the plan cannot be cut: {error}") from error
    pieces = Counter(piece.kind for sheet in plan for piece in laid(sheet))
    if len(plan) > sheets or pieces != {number: kind.copies for number, kind in enumerate(small.kinds)}:
        raise SolverWrong(f"the plan has other sheets or pieces than were asked for: {len(plan)}, {dict(pieces)}")
    return Built(low, plan)


def _filled(small: Reduced, node: Sequence[Any], width: int, height: int) -> Rough:
    """A build in the lower left corner of a rectangle; the rest is waste. Raises: ValueError where it is too large."""
    if isinstance(node[0], int):
        kind, own_width, own_height = node
        if (own_width, own_height) not in small.kinds[kind].lies:
            raise ValueError(f"kind {kind} is cut {own_width} by {own_height}")
        if own_width > width or own_height > height:
            raise ValueError("a piece larger than what it is cut from")
        strip = row("y", [Laid(own_width, own_height, kind), Waste(own_width, height - own_height)])
        return row("x", [strip, Waste(width - own_width, height)])
    along, *halves = node
    filled: list[Rough] = []
    for half in halves:
        own_width, own_height = _size(half)
        if along == "x":
            filled.append(_filled(small, half, own_width, height))
            width -= own_width
        else:
            filled.append(_filled(small, half, width, own_height))
            height -= own_height
    if min(width, height) < 0:
        raise ValueError("parts larger than what they are cut from")
    return row(along, [*filled, Waste(width, height)])


def _size(node: Sequence[Any]) -> tuple[int, int]:
    if isinstance(node[0], int):
        return node[1], node[2]
    (width, height), (other_width, other_height) = map(_size, node[1:])
    if node[0] == "x":
        return width + other_width, max(height, other_height)
    return max(width, other_width), height + other_height
