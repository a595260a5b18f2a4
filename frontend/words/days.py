"""How far off a day is, in words."""

from __future__ import annotations

from datetime import date

from frontend.words.numbers import counted

__all__ = ["how_far", "post_words", "print_words"]


def print_words(day: date, today: date) -> str:
    """Return when a kit prints. Nothing says whether it did: of a day that is past it is said what was planned.

    >>> print_words(date(2027, 5, 13), date(2027, 5, 1)), print_words(date(2027, 4, 28), date(2027, 5, 1))
    ('prints in 12 days', 'was to print 3 days ago')
    """
    return f"{'was to print' if day < today else 'prints'} {how_far(day, today)}"


def post_words(day: date, today: date) -> str:
    """Return when a kit is posted.

    >>> post_words(date(2027, 5, 2), date(2027, 5, 1)), post_words(date(2027, 4, 30), date(2027, 5, 1))
    ('is posted tomorrow', 'was to be posted yesterday')
    """
    return f"{'was to be posted' if day < today else 'is posted'} {how_far(day, today)}"


def how_far(day: date, today: date) -> str:
    """Return how far off a day is, or how long ago.

    >>> today = date(2027, 5, 3)
    >>> [how_far(date(2027, 5, number), today) for number in range(1, 6)]
    ['2 days ago', 'yesterday', 'today', 'tomorrow', 'in 2 days']
    """
    left = (day - today).days
    if left < -1:
        return f"{counted(-left, 'day')} ago"
    return {-1: "yesterday", 0: "today", 1: "tomorrow"}.get(left, f"in {counted(left, 'day')}")
