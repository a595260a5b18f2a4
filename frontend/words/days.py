"""How far off a day is, in words."""

from __future__ import annotations

from datetime import date

from frontend.words.numbers import counted

__all__ = ["how_far", "post_words", "print_words"]


def print_words(day: date, today: date) -> str:
    """Return when a kit prints.

    >>> print_words(date(2027, 5, 13), date(2027, 5, 1)), print_words(date(2027, 4, 30), date(2027, 5, 1))
    ('prints in 12 days', 'print day is past')
    """
    return "print day is past" if day < today else f"prints {how_far(day, today)}"


def post_words(day: date, today: date) -> str:
    """Return when a kit is posted.

    >>> post_words(date(2027, 5, 2), date(2027, 5, 1)), post_words(date(2027, 4, 30), date(2027, 5, 1))
    ('is posted tomorrow', 'post day is past')
    """
    return "post day is past" if day < today else f"is posted {how_far(day, today)}"


def how_far(day: date, today: date) -> str:
    """Return how far off a day is that is not past.

    >>> today = date(2027, 5, 1)
    >>> how_far(today, today), how_far(date(2027, 5, 2), today), how_far(date(2027, 5, 3), today)
    ('today', 'tomorrow', 'in 2 days')
    """
    left = (day - today).days
    return {0: "today", 1: "tomorrow"}.get(left, f"in {counted(left, 'day')}")
