"""When each step of a kit is done, as bars: hands, holding, clamps and drying, and the longest chain underlined."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence
from dataclasses import dataclass

from layouts.assembly import Bar
from layouts.document import Kit
from layouts.document.places import step_place
from layouts.drawing.lanes import Lane, Task, lanes_of
from layouts.drawing.lettering import Label, text_width
from layouts.drawing.scale import TRUE, ScaledDrawing, scaled
from layouts.drawing.svg import INK, PAPER, Box, Drawing, Margins, Texture
from layouts.lengths import TICKS_PER_MM

__all__ = ["ScheduleDrawing", "schedule_drawing"]

# In lines: a lane with its bar and the gap below it, a title with its gaps, the type, the key's samples.
_BAR, _LANE, _TITLE, _TYPE, _SAMPLE = 8, 12, 11, 7, 16
# Projects that are drawn, lanes of one project, and steps told in words.
_MOST_PROJECTS, _MOST_LANES, _MOST_STEPS = 30, 12, 40

_MEANINGS = {"work": "hands at work", "hold": "held by hand", "clamp": "in clamps", "dry": "drying"}
_TEXTURES: dict[str, Texture] = {"hold": "rising", "clamp": "crossed", "dry": "dots"}
_LONGEST, _WHY = "the longest chain", ": what delays it delays the kit"

# Seconds between two marks of the clock.
_MARKS = (60, 120, 300, 600, 900, 1800, 3600, 7200, 10800, 21600, 43200, 86400, 172800, 604800, 1209600, 2592000)


@dataclass(frozen=True, slots=True)
class ScheduleDrawing:
    """The drawing, the same in words for who cannot see it, and sentences about what is not drawn."""

    drawing: ScaledDrawing
    words: str
    beside: tuple[str, ...]


def schedule_drawing(
    kit: Kit,
    bars: Sequence[Bar],
    critical: Collection[str],
    *,
    name: str,
    title: str,
    width: int,
    line: int,
) -> ScheduleDrawing:
    """Return the bars of a schedule (of `schedule_of` or `one_person`), projects as rows in document order.

    `critical` are the places of the longest chain. `width` is that of the drawing on paper, in ticks; `line` the
    thickness of a line there: on a phone the same lettering on less width makes more lanes, not smaller type. Steps
    carry their number within their project. `name` starts the ids.
    """
    time = _Time(width - 2 * line, line, max((bar.end_s for bar in bars), default=1))
    projects = list(_projects(kit, bars, time))
    left_out = sum(more for *_, more in projects)
    left_out += sum(len(lane) for _, lanes, _ in projects[_MOST_PROJECTS:] for lane in lanes)
    projects = projects[:_MOST_PROJECTS]
    beside = (f"… and {left_out:,} more steps, not drawn.",) if left_out else ()
    words = " ".join((title, *_words(projects, critical), *beside))
    chart = _Chart(projects, set(critical), time)
    return ScheduleDrawing(scaled(chart.drawn(name, title, words), TRUE), words, beside)


type _Project = tuple[str, list[Lane], int]


@dataclass(frozen=True, slots=True)
class _Time:
    """How seconds lie on a drawing of this width (ticks) with lines of this thickness, up to the end of all."""

    width: int
    u: int
    end_s: int

    @property
    def plot(self) -> int:
        """How wide the time is drawn: numbers stand behind the last bars, and the last mark around their end."""
        return self.width - 2 * text_width("00:00", _TYPE * self.u)

    def x(self, seconds: int) -> int:
        return self.plot * seconds // max(1, self.end_s)

    def behind(self, task: Task) -> int:
        """Where the number of a task begins that stands behind its bars."""
        return max(self.x(task.end_s), self.x(task.start_s) + self.u) + self.u

    def number_width(self, task: Task) -> int:
        return text_width(str(task.number), (_TYPE - 1) * self.u)

    def has_room(self, task: Task, bar: Bar) -> bool:
        """Whether the number of a task fits on one of its bars."""
        return self.number_width(task) + 2 * self.u <= self.x(bar.end_s) - self.x(bar.start_s)

    def until(self, task: Task) -> int:
        """The second up to which a task and its number take up a lane."""
        if any(self.has_room(task, bar) for bar in task.bars):
            return task.end_s
        end = self.behind(task) + self.number_width(task) + 2 * self.u
        return -(-end * self.end_s // max(1, self.plot))


def _projects(kit: Kit, bars: Sequence[Bar], time: _Time) -> Iterator[_Project]:
    """Each project's title, its lanes, and how many of its steps have no lane."""
    by_step: dict[str, list[Bar]] = {}
    for bar in bars:
        by_step.setdefault(bar.place, []).append(bar)
    for project in kit.projects:
        tasks = [
            Task(place, number, tuple(by_step[place]))
            for number, step in enumerate(project.steps, start=1)
            if (place := step_place(project.id, step.id)) in by_step
        ]
        lanes, more = lanes_of(tasks, _MOST_LANES, time.until)
        if lanes:
            yield project.title, lanes, more


def _words(projects: Sequence[_Project], critical: Collection[str]) -> Iterator[str]:
    told = 0
    for title, lanes, _ in projects:
        tasks = sorted((task for lane in lanes for task in lane), key=lambda task: task.number)
        steps = []
        for task in tasks[: max(0, _MOST_STEPS - told)]:
            kinds = ", ".join(
                f"{_MEANINGS[bar.kind]} {_clock(bar.start_s)} to {_clock(bar.end_s)}" for bar in task.bars
            )
            steps.append(f"step {task.number}{' (longest chain)' if task.place in critical else ''}: {kinds}")
        told += len(steps)
        if steps:
            yield f"{title}: {'; '.join(steps)}."


class _Chart:
    def __init__(self, projects: Sequence[_Project], critical: set[str], time: _Time) -> None:
        self._projects = projects
        self._critical = critical
        self._time = time
        self._width, self._u, self._end_s = time.width, time.u, time.end_s
        self._x = time.x

    def drawn(self, name: str, title: str, words: str) -> Drawing:
        u = self._u
        key = list(self._key())
        key_rows = 1 + max(row for *_, row in key)
        lanes = sum(len(lanes) for _, lanes, _ in self._projects)
        axis = key_rows * _LANE * u + 2 * u
        height = axis + _LANE * u + lanes * _LANE * u + len(self._projects) * _TITLE * u
        drawing = Drawing(self._width, height, name=name, title=title, description=words, margins=Margins.of(u))
        fills = {"work": INK} | {
            kind: drawing.hatching(
                apart=(3 if texture == "dots" else 2) * u,
                stroke=INK,
                width=u * 2 // 5,
                texture=texture,
                called=kind,
            )
            for kind, texture in _TEXTURES.items()
        }
        top = height
        for heading, rows, _ in self._projects:
            Label(self._fitting(heading), 0, top - (_TITLE - 3) * u, _TYPE * u, weight="600").draw(drawing)
            top -= _TITLE * u
            for lane in rows:
                self._lane(drawing, lane, top - _BAR * u, fills)
                top -= _LANE * u
        self._clock(drawing, axis + _LANE * u)
        for kind, meaning, x, row in key:
            self._sample(drawing, kind, meaning, x, (key_rows - 1 - row) * _LANE * u + 2 * u, fills)
        return drawing

    def _lane(self, drawing: Drawing, lane: Lane, low: int, fills: dict[str, str]) -> None:
        u = self._u
        for at, task in enumerate(lane):
            for bar in task.bars:
                start, end = self._x(bar.start_s), self._x(bar.end_s)
                box = Box(start, low, max(end - start, u), _BAR * u)
                drawing.box(box, fill=PAPER)
                # Steps that follow each other at once are told apart by a white line between their bars.
                edge = PAPER if bar.kind == "work" else INK
                drawing.box(box, fill=fills[bar.kind], stroke=edge, stroke_width=_tenths(u // 2))
            following = lane[at + 1].start_s if at + 1 < len(lane) else None
            free = self._x(following) if following is not None else self._width
            self._number(drawing, task, low, free)
            if task.place in self._critical:
                start, end = self._x(task.start_s), max(self._x(task.end_s), self._x(task.start_s) + u)
                drawing.box(Box(start, low - 2 * u, end - start, u), fill=INK)

    def _number(self, drawing: Drawing, task: Task, low: int, free: int) -> None:
        """The step's number on its work, on white in another of its bars, or behind its last bar."""
        u, size = self._u, (_TYPE - 1) * self._u
        words, wide = str(task.number), self._time.number_width(task)
        baseline = low + (_BAR * u - size) // 2 + size // 4
        for bar in task.bars:
            if self._time.has_room(task, bar):
                middle = (self._x(bar.start_s) + self._x(bar.end_s)) // 2
                label = Label(words, middle, baseline, size, middle=True, fill=PAPER)
                if bar.kind != "work":
                    label = Label(words, middle, baseline, size, middle=True)
                    drawing.box(Box(label.box.x - u // 2, low + u, wide + u, (_BAR - 2) * u), fill=PAPER)
                label.draw(drawing)
                return
        behind = self._time.behind(task)
        if behind + wide + u <= free:
            Label(words, behind, baseline, size).draw(drawing)

    def _clock(self, drawing: Drawing, level: int) -> None:
        """The line of time below the lanes, with hours and minutes, or days."""
        u = self._u
        # The first mark stands to the right of its line, half its width nearer to the second.
        widest = "".join("0" if sign.isdigit() else sign for sign in _clock(self._end_s))
        longest = text_width(widest, _TYPE * u) * 3 // 2 + 3 * u
        apart = next((mark for mark in _MARKS if self._x(mark) >= longest), _MARKS[-1])
        while self._x(apart) < longest:
            apart *= 2
        drawing.line(0, level, self._x(self._end_s), level, stroke=INK, stroke_width=_tenths(u // 2))
        for mark in range(0, self._end_s + 1, apart):
            x = self._x(mark)
            drawing.line(x, level, x, level - 2 * u, stroke=INK, stroke_width=_tenths(u // 2))
            words = _clock(mark)
            anchor = x if mark == 0 else x - text_width(words, _TYPE * u) // 2
            Label(words, anchor, level - 9 * u, _TYPE * u, weight="400").draw(drawing)

    def _key(self) -> Iterator[tuple[str, str, int, int]]:
        """What is explained, with its meaning, how far from the left, and in which row of the key."""
        used = {bar.kind for _, lanes, _ in self._projects for lane in lanes for task in lane for bar in task.bars}
        meanings: list[tuple[str, str]] = [(kind, meaning) for kind, meaning in _MEANINGS.items() if kind in used]
        u, x, row = self._u, 0, 0
        fits = (_SAMPLE + 2) * u + text_width(_LONGEST + _WHY, _TYPE * u) <= self._width
        meanings.append(("critical", _LONGEST + _WHY if fits else _LONGEST))
        for kind, meaning in meanings:
            wide = (_SAMPLE + 8) * u + text_width(meaning, _TYPE * u)
            if x and x + wide > self._width:
                x, row = 0, row + 1
            yield kind, meaning, x, row
            x += wide

    def _sample(self, drawing: Drawing, kind: str, meaning: str, x: int, low: int, fills: dict[str, str]) -> None:
        u = self._u
        if kind == "critical":
            drawing.box(Box(x, low + _BAR * u // 2 - u // 2, _SAMPLE * u, u), fill=INK)
        else:
            box = Box(x, low, _SAMPLE * u, _BAR * u)
            drawing.box(box, fill=fills[kind], stroke=INK, stroke_width=_tenths(u // 2))
        Label(meaning, x + (_SAMPLE + 2) * u, low + 2 * u, _TYPE * u, weight="400").draw(drawing)

    def _fitting(self, words: str) -> str:
        """A title as far as it fits."""
        if text_width(words, _TYPE * self._u) <= self._width:
            return words
        while words and text_width(f"{words}…", _TYPE * self._u) > self._width:
            words = words[:-1]
        return f"{words}…"


def _clock(seconds: int) -> str:
    """A time since the beginning: hours and minutes, days where there are many.

    >>> _clock(0), _clock(5400), _clock(172800)
    ('0:00', '1:30', '2 d 0:00')
    """
    minutes = seconds // 60
    days, rest = divmod(minutes, 1440)
    hours = f"{rest // 60}:{rest % 60:02d}"
    return f"{days:,} d {hours}" if days else hours


def _tenths(ticks: int) -> str:
    return str(max(1, ticks * 10 // TICKS_PER_MM))
