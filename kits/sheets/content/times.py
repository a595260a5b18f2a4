"""How long a project takes, in words."""

from __future__ import annotations

from collections.abc import Sequence

from layouts.assembly import PlannedStep

__all__ = ["seconds_words", "time_words"]


def time_words(steps: Sequence[PlannedStep]) -> str:
    """Return the time at work and of waiting of one project as a sentence, nothing if it has no steps.

    Work that is not known is said to be unknown.
    """
    if not steps:
        return ""
    waiting = sum(one.waiting_s for one in steps)
    at_work = f"{seconds_words(sum(one.hands_on_s for one in steps))} at work"
    if not all(one.has_work for one in steps):
        at_work = "Time at work not stated"
    return f"{at_work}, {seconds_words(waiting)} of drying and waiting." if waiting else f"{at_work}."


def seconds_words(seconds: int) -> str:
    """Return a time in hours and minutes, seconds only below a minute.

    >>> seconds_words(4500), seconds_words(40)
    ('1 h 15 min', '40 s')
    """
    if seconds < 60:
        return f"{seconds} s"
    hours, minutes = divmod(-(-seconds // 60), 60)
    return " ".join(f"{n} {unit}" for n, unit in ((hours, "h"), (minutes, "min")) if n)
