"""The whole kit made by one pair of hands: which step when, what then dries or is clamped until when, and how long."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass

from kits.sheets.content.room import Room
from kits.sheets.content.times import seconds_words
from layouts.assembly import Bar, KitSteps, OnePerson, one_person
from layouts.document import Kit, step_place
from layouts.drawing import ScheduleDrawing, schedule_drawing

__all__ = ["KitSchedule", "ScheduleRow", "kit_schedule"]

# Rows that anybody reads.
_MOST_ROWS = 200


@dataclass(frozen=True, slots=True)
class ScheduleRow:
    """One step: when it begins on the clock of the kit, which it is, how long hands are at it, and what follows."""

    begins: str
    step: str
    takes: str
    then: str


@dataclass(frozen=True, slots=True)
class KitSchedule:
    """The steps as bars (None where there are more than a page holds) and as rows in the order of their beginning, and
    what holds for all of them in sentences."""

    drawn: ScheduleDrawing | None
    rows: tuple[ScheduleRow, ...]
    more: int
    words: tuple[str, ...]


def kit_schedule(
    kit: Kit,
    steps: KitSteps,
    critical: Collection[str],
    *,
    width: int,
    line: int,
    name: str = "schedule",
    room: Room | None = None,
) -> KitSchedule | None:
    """Return how one person best makes a kit, None where no step takes any time, or where steps go in a circle.

    `critical` are the places of the longest chain, as the proof has it; `width` is that of the drawing on paper, and
    `line` the thickness of a line there, in ticks; `name` starts the ids. More bars than a page of this `room` holds
    are not drawn.
    """
    plan = one_person(kit, steps)
    if plan is None or not plan.bars:
        return None
    names = {
        step_place(project.id, step.id): f"{project.title} {number}"
        for project in kit.projects
        for number, step in enumerate(project.steps, start=1)
    }
    by_step: dict[str, list[Bar]] = {}
    for bar in plan.bars:
        by_step.setdefault(bar.place, []).append(bar)
    exact = any(bar.start_s % 60 or bar.end_s % 60 for bar in plan.bars)
    timed = [place for place in plan.order if place in by_step]
    rows = tuple(_row(names[place], by_step[place], exact=exact) for place in timed[:_MOST_ROWS])
    words = tuple(_words(plan, stated=all(one.has_work for one in steps)))
    title = "What one pair of hands makes when."
    drawn = schedule_drawing(kit, plan.bars, critical, name=name, title=title, width=width, line=line)
    held = room is None or room.holds(drawn.drawing)
    return KitSchedule(drawn if held else None, rows, max(0, len(timed) - _MOST_ROWS), words)


def _row(name: str, bars: Sequence[Bar], *, exact: bool) -> ScheduleRow:
    hands = sum(bar.end_s - bar.start_s for bar in bars if bar.kind in ("work", "hold"))
    then = [
        f"{'clamped' if bar.kind == 'clamp' else 'dries'} until {_clock(bar.end_s, exact=exact)}"
        for bar in bars
        if bar.kind in ("clamp", "dry")
    ]
    takes = seconds_words(hands) if hands else "–"
    return ScheduleRow(_clock(bars[0].start_s, exact=exact), name, takes, ", ".join(then))


def _words(plan: OnePerson, *, stated: bool) -> list[str]:
    told = [f"One person has everything made and dry in {seconds_words(plan.length_s)}."]
    if plan.waited_s:
        told.append(f"For {seconds_words(plan.waited_s)} of that there is nothing to do but wait.")
    told.append("Numbers after a project are those of its steps; hours and minutes count from the beginning.")
    if not stated:
        told.append("A step that does not say how long it takes counts as none.")
    return told


def _clock(seconds: int, *, exact: bool) -> str:
    """Hours and minutes, seconds too where any time of the kit has some.

    >>> _clock(3900, exact=False), _clock(65, exact=True)
    ('1:05', '0:01:05')
    """
    minutes, rest = divmod(seconds, 60)
    hours, minutes = divmod(minutes, 60)
    return f"{hours}:{minutes:02}:{rest:02}" if exact else f"{hours}:{minutes:02}"
