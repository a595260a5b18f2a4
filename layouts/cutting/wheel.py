"""What the packingsolver wheel is asked, and how its answer is read. It runs in the child process alone."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any, Literal

from layouts.cutting.reduced import Reduced
from layouts.cutting.rough import Laid, Rough, Waste, laid, row
from layouts.errors import KitproofError

__all__ = ["Found", "SolverWrong", "Way", "found", "question"]

Way = Literal[
    "tree",
    "spaces",
    "more-spaces",
    "spaces-28",
    "spaces-48",
    "sheets",
    "values",
    "stages",
    "stage-values",
    "level",
    "level-again",
    "upright",
    "upright-again",
    "columns",
]

# The nodes of a plan: parent, left, right, bottom, top, kind.
type _Node = Sequence[int]


class SolverWrong(KitproofError):
    """The solver answered with a plan that is none. A defect, never an answer."""

    code = "solver-wrong"


@dataclass(frozen=True, slots=True)
class Found:
    """So many sheets at least, proven; and a plan, if one was found."""

    at_least: int
    plan: tuple[Rough, ...] | None


def question(small: Reduced, sheets: int, queue: int, way: Way = "tree") -> dict[str, Any]:
    """Ask for a plan on so many sheets; the child says what the ways are.

    The work of a question is kinds x copies x queue: a tree search remembers the `queue` most promising beginnings at
    each step, and for the other ways it is the queue of a tree search that takes as long.
    """
    kinds = [[kind.width, kind.height, kind.copies, kind.turns] for kind in small.kinds]
    return {
        "task": "packingsolver",
        "width": small.width,
        "height": small.height,
        "sheets": sheets,
        "kinds": kinds,
        "way": way,
        "queue": queue,
    }


def found(small: Reduced, answer: dict[str, Any]) -> Found:
    """Read the child's answer; a question that the library failed on found nothing. Raises: SolverWrong."""
    if "failed" in answer:
        return Found(0, None)
    if answer["plan"] is None:
        return Found(answer["at_least"], None)
    try:
        plan = tuple(sheet for copies, nodes in answer["plan"] for sheet in [_sheet(small, nodes)] * copies)
    except ValueError as error:
        raise SolverWrong(f"the solver's plan cannot be cut: {error}") from error
    pieces = Counter(piece.kind for sheet in plan for piece in laid(sheet))
    if pieces != {number: kind.copies for number, kind in enumerate(small.kinds)}:
        raise SolverWrong(f"the solver's plan has other pieces than were asked for: {dict(pieces)}")
    return Found(answer["at_least"], plan)


def _sheet(small: Reduced, nodes: Sequence[_Node]) -> Rough:
    children: dict[int, list[int]] = {}
    for number, node in enumerate(nodes):
        children.setdefault(node[0], []).append(number)
    (root,) = children[-1]
    if tuple(nodes[root][1:5]) != (0, small.width, 0, small.height):
        raise ValueError(f"a sheet of {nodes[root]}")
    return _part(small, nodes, children, root)


def _part(small: Reduced, nodes: Sequence[_Node], children: dict[int, list[int]], number: int) -> Rough:
    _, left, right, bottom, top, kind = nodes[number]
    inner = sorted(children.get(number, ()), key=lambda child: (nodes[child][1], nodes[child][3]))
    if not inner:
        if kind < 0:
            return Waste(right - left, top - bottom)
        if (right - left, top - bottom) not in small.kinds[kind].lies:
            raise ValueError(f"kind {kind} is cut {right - left} by {top - bottom}")
        return Laid(right - left, top - bottom, kind)
    # The kind of an inner node means nothing (the root's is the number of its sheet).
    on_x = all(nodes[child][3:5] == nodes[number][3:5] for child in inner)
    low, high = (1, 2) if on_x else (3, 4)
    ends = [nodes[number][low], *(nodes[child][high] for child in inner)]
    starts = [*(nodes[child][low] for child in inner), nodes[number][high]]
    if starts != ends:
        raise ValueError(f"parts from {starts} to {ends}")
    return row("x" if on_x else "y", [_part(small, nodes, children, child) for child in inner])
