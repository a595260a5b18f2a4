"""All steps of a kit: after which others each may begin, and how long hands and glue need."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from itertools import chain

from layouts.assembly.precedence import Precedence
from layouts.document import Duration, Kit, Project, Step
from layouts.document.places import step_place

__all__ = ["KitSteps", "PlannedStep", "steps_of"]


@dataclass(frozen=True, slots=True)
class PlannedStep:
    """A step of a project; `after` holds the places of the steps it was said, or is by custom, to come after."""

    place: str
    project: Project
    step: Step
    after: tuple[str, ...]

    @property
    def has_work(self) -> bool:
        return self.step.work is not None

    @property
    def hands_on_s(self) -> int:
        """Seconds of work and of holding by hand for all copies of the project; work that is not stated counts 0."""
        return self.work_s + self.held_s

    @property
    def work_s(self) -> int:
        """Seconds of work for all copies of the project."""
        return _seconds(self.step.work) * self.project.makes

    @property
    def held_s(self) -> int:
        """Seconds of holding by hand for all copies of the project."""
        return self._hold_s * self.project.makes if self.step.held == "by-hand" else 0

    @property
    def clamped_s(self) -> int:
        """Seconds in clamps. Copies stand in their clamps side by side, so that their number makes no difference."""
        return self._hold_s if self.step.held == "clamped" else 0

    @property
    def dry_s(self) -> int:
        """Seconds of drying; copies dry side by side as well."""
        return _seconds(self.step.dry)

    @property
    def active_s(self) -> int:
        """Seconds from its beginning until what comes after it may begin: hands, then clamps."""
        return self.hands_on_s + self.clamped_s

    @property
    def waiting_s(self) -> int:
        return self.dry_s + self.clamped_s

    @property
    def _hold_s(self) -> int:
        return _seconds(self.step.hold)


@dataclass(frozen=True, slots=True)
class KitSteps:
    """The steps of a kit by project, in document order, and what comes before what by `after` (names are places)."""

    by_project: Mapping[str, tuple[PlannedStep, ...]]
    precedence: Precedence

    def __iter__(self) -> Iterator[PlannedStep]:
        return chain.from_iterable(self.by_project.values())

    def circles_within(self, project: str) -> tuple[tuple[str, ...], ...]:
        """Return the circles among the steps of one project. One that crosses projects is a circle of projects."""
        after = {planned.place: planned.after for planned in self.by_project[project]}
        own = {place: [first for first in places if first in after] for place, places in after.items()}
        return Precedence(tuple(after), own).circles


def steps_of(kit: Kit) -> KitSteps:
    """Return the steps of a kit that was read: every `after` leads to a step."""
    by_project = {project.id: tuple(_planned(project)) for project in kit.projects}
    after = {planned.place: planned.after for steps in by_project.values() for planned in steps}
    return KitSteps(by_project, Precedence(tuple(after), after))


def _planned(project: Project) -> Iterator[PlannedStep]:
    """Said: STEP of this project, or PROJECT/STEP. Not said: after the step before it in the list, if there is one."""
    custom: tuple[str, ...] = ()
    for step in project.steps:
        place = step_place(project.id, step.id)
        after = custom if step.after is None else tuple(_said(step.after, project))
        yield PlannedStep(place, project, step, after)
        custom = (place,)


def _said(after: tuple[str, ...], project: Project) -> Iterator[str]:
    for entry in dict.fromkeys(after):
        other, _, step = entry.rpartition("/")
        yield step_place(other or project.id, step)


def _seconds(duration: Duration | None) -> int:
    return 0 if duration is None else duration.seconds
