"""What the tests of cutting share: plans written as the proof prints them, and a judge's view of a problem."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from typing import Any

from layouts.cutting import Cut, Item, Problem, Region, Sheet, Taken, Wanted, verify_plan


def problem(
    width: int, height: int, sheets: int, pieces: Sequence[tuple[int, ...]], *, turn: bool = False, slack: int = 0
) -> Problem:
    """A problem from lists of (width, height, copies) or (width, height, copies, may turn)."""
    items = tuple(
        Item(f"P{number:02}", w, h, copies, True, bool(turns[0]) if turns else turn)
        for number, (w, h, copies, *turns) in enumerate(pieces)
    )
    return Problem(width, height, sheets, items, slack)


def printed(sheets: Sequence[Region]) -> list[dict[str, Any]]:
    """The plan in the form of the proof, copies counted in the order in which they are met."""
    counted: Counter[str] = Counter()
    return [{"sheet": number, "tree": _node(sheet, counted)} for number, sheet in enumerate(sheets, start=1)]


def _node(region: Region, counted: Counter[str]) -> dict[str, Any]:
    node: dict[str, Any] = {"x": region.x, "y": region.y, "width": region.width, "height": region.height}
    if isinstance(region.what, Cut):
        node["cut"] = {"along": region.what.along, "at": region.what.at}
        node["parts"] = [_node(part, counted) for part in region.what.parts]
    elif isinstance(region.what, Taken):
        counted[region.what.key] += 1
        turn = 90 if region.what.sideways else 0
        node |= {"piece": region.what.key, "copy": counted[region.what.key], "turn": turn}
    else:
        node["offcut"] = True
    return node


def faults(asked: Problem, sheets: Sequence[Region], supply: int | None = None) -> tuple[str, ...]:
    """What the independent judge has against a plan for a problem."""
    sheet = Sheet(
        asked.width,
        asked.height,
        0,
        0,
        asked.width,
        asked.height,
        asked.slack,
        asked.sheets if supply is None else supply,
    )
    wanted = {
        item.key: Wanted(
            item.width,
            item.height,
            frozenset(range(1, item.copies + 1)),
            frozenset([0] * item.upright + [90] * item.sideways),
        )
        for item in asked.items
    }
    return verify_plan(printed(sheets), sheet, wanted)


def cuts_through_waste(region: Region) -> int:
    """How many cuts have nothing but offcuts behind them."""
    if not isinstance(region.what, Cut):
        return 0
    inner = sum(cuts_through_waste(part) for part in region.what.parts)
    return inner + (not any(_holds_a_piece(part) for part in region.what.parts))


def _holds_a_piece(region: Region) -> bool:
    if isinstance(region.what, Cut):
        return any(_holds_a_piece(part) for part in region.what.parts)
    return isinstance(region.what, Taken)
