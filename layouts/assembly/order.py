"""In which order to make the projects of a kit, and why."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise
from typing import Any, Literal

from layouts.assembly.naming import made_place
from layouts.assembly.precedence import Precedence
from layouts.assembly.steps import KitSteps
from layouts.document import Kit

__all__ = ["Because", "Order", "order_of"]


@dataclass(frozen=True, slots=True)
class Because:
    """Why one project comes before another. `cut-out` and `after` are musts, `drying` is advice.

    `at` is the piece that comes from the cut-out, the step that comes after, or the step whose waiting can be used.
    """

    first: str
    then: str
    reason: Literal["cut-out", "after", "drying"]
    at: str

    def as_data(self) -> dict[str, str]:
        return {"first": self.first, "then": self.then, "reason": self.reason, "at": self.at}


@dataclass(frozen=True, slots=True)
class Order:
    """The ids of the projects in the order of making, or None where musts go round in `circles` (ids as well)."""

    projects: tuple[str, ...] | None
    because: tuple[Because, ...]
    circles: tuple[tuple[str, ...], ...]

    def as_data(self) -> dict[str, Any]:
        """Return the member `order` of a proof."""
        return {
            "projects": None if self.projects is None else list(self.projects),
            "because": [because.as_data() for because in self.because],
        }


def order_of(kit: Kit, steps: KitSteps) -> Order:
    """Return the order of the projects.

    A project whose kept cut-out feeds another, or one of whose steps another waits for, must come first. Where
    nothing must, the project with the longest waiting comes first (the next can be made meanwhile), then document
    order. Musts are listed in document order of the pieces and steps that make them, then the advice.
    """
    musts = tuple(_musts(kit, steps))
    before: dict[str, list[str]] = {project.id: [] for project in kit.projects}
    for must in musts:
        before[must.then].append(must.first)
    precedence = Precedence(tuple(before), before)
    circles = precedence.circles
    if circles:
        return Order(None, musts, circles)
    waiting = {project: sum(planned.waiting_s for planned in own) for project, own in steps.by_project.items()}
    projects = precedence.in_turn_by(lambda project: -waiting[project])
    advice = [
        Because(first, then, "drying", _longest_wait(steps, first))
        for first, then in pairwise(projects)
        if waiting[first] and not precedence.precedes(first, then)
    ]
    return Order(projects, (*musts, *advice), ())


def _musts(kit: Kit, steps: KitSteps) -> Iterator[Because]:
    """One for each piece from another project's cut-out, and for each step and project that it waits for."""
    home = {planned.place: project for project, own in steps.by_project.items() for planned in own}
    for project in kit.projects:
        for piece in project.pieces:
            source = piece.from_.partition("/")[0] if piece.from_ else project.id
            if source != project.id:
                yield Because(source, project.id, "cut-out", made_place(project.id, piece))
        for planned in steps.by_project[project.id]:
            for first in dict.fromkeys(home[place] for place in planned.after):
                if first != project.id:
                    yield Because(first, project.id, "after", planned.place)


def _longest_wait(steps: KitSteps, project: str) -> str:
    return max(steps.by_project[project], key=lambda planned: planned.waiting_s).place
