"""Keeps one part running: starts it again when it dies, sooner or later by how long it lived."""

from __future__ import annotations

import signal
from collections import deque
from collections.abc import Callable, Sequence
from dataclasses import dataclass

from config.supervisor.child import Child
from config.supervisor.lines import Lines
from layouts.errors import CannotStart

__all__ = ["Keeper", "Part", "pause"]

# Whoever lived that long is past its start: the next death is a new story.
_SETTLED_SECONDS = 10.0
_LONGEST_PAUSE = 30.0
_TRIES = 3
_LAST_LINES = 15
# How a part ends that somebody else ended: no sign that it cannot start.
_FROM_OUTSIDE = (-signal.SIGKILL, -signal.SIGTERM)


@dataclass(frozen=True, slots=True)
class Part:
    """What is to be run: its name for people, its command line, and the numbers of the sockets that it inherits."""

    name: str
    command: Sequence[str]
    sockets: Sequence[int] = ()


def pause(deaths: int) -> float:
    """Return how many seconds to wait before the next start, after so many early deaths in a row.

    >>> [pause(deaths) for deaths in (0, 1, 2, 3, 4, 7)]
    [0.0, 0.5, 1.0, 2.0, 4.0, 30.0]
    """
    return min(_LONGEST_PAUSE, 2.0 ** (deaths - 2)) if deaths else 0.0


class Keeper:
    """One part and its process. Times are seconds of a clock that never goes back."""

    def __init__(self, part: Part, lines: Lines, opened: Callable[[Child], None], closing: Callable[[Child], None]):
        self.part = part
        self.child: Child | None = None
        self.due: float | None = None
        self._lines, self._opened, self._closing = lines, opened, closing
        self._last: deque[str] = deque(maxlen=_LAST_LINES)
        self._started = 0.0
        self._early_deaths = 0
        self._failures = 0
        self._settled = False

    def start(self, now: float) -> None:
        self._last.clear()
        self._started, self.due = now, None
        self.child = Child(self.part.command, take=self._take, sockets=self.part.sockets)
        self._opened(self.child)

    def settle(self) -> None:
        """It has shown that it works: from now on it is started again for ever."""
        self._settled = True

    def look(self, now: float) -> None:
        """Notice a death, and start it again when it is time. Raises: CannotStart if it never gets past its start."""
        if self.child is not None:
            status = self.gone()
            if status is not None:
                self._after_death(status, now)
        if self.due is not None and now >= self.due:
            self.start(now)

    def gone(self) -> int | None:
        """Return the status of its process if it has ended, and forget the process."""
        if self.child is None:
            return None
        status = self.child.ended()
        if status is not None:
            self._closing(self.child)
            self.child.output.close()
            self.child = None
        return status

    def last_lines(self) -> str:
        return "".join(f"\n    {line}" for line in self._last)

    def _after_death(self, status: int, now: float) -> None:
        if now - self._started >= _SETTLED_SECONDS:
            self._settled = True
            self._early_deaths = 0
        else:
            self._early_deaths += 1
        self._failures += status not in _FROM_OUTSIDE
        name, how = self.part.name, _how(status)
        if self._failures >= _TRIES and not self._settled:
            raise CannotStart(f"the {name} does not start: it {how}, {self._failures} times.{self.last_lines()}")
        wait = pause(self._early_deaths)
        self.due = now + wait
        if self._early_deaths < _TRIES:
            self._lines.complain(f"The {name} {how}; it is started again.")
        else:
            self._lines.complain(
                f"The {name} {how}, {self._early_deaths} times in a row soon after its start; "
                f"the next try is in {wait:g} s. Its last lines:{self.last_lines()}"
            )

    def _take(self, line: str) -> None:
        self._last.append(line)
        self._lines.take(self.part.name, line)


def _how(status: int) -> str:
    return f"was ended by {signal.Signals(-status).name}" if status < 0 else f"ended with status {status}"
