"""Counts and shares in words."""

from __future__ import annotations

__all__ = ["counted", "duration", "listed", "percent"]


def counted(number: int, thing: str, things: str = "") -> str:
    """Return a number with its thing.

    >>> counted(1, "sheet"), counted(2, "sheet"), counted(0, "piece of card", "pieces of card")
    ('1 sheet', '2 sheets', '0 pieces of card')
    """
    return f"{number} {thing if number == 1 else things or thing + 's'}"


def listed(words: list[str]) -> str:
    """Return words as a list in a sentence.

    >>> listed([]), listed(["A"]), listed(["A", "B"]), listed(["A", "B", "C"])
    ('', 'A', 'A and B', 'A, B and C')
    """
    return " and ".join([", ".join(words[:-1]), words[-1]] if len(words) > 1 else words)


def percent(part: int, whole: int) -> str:
    """Return a share in whole percent, rounded down: what is nearly full is never called full.

    >>> percent(999, 1000), percent(1, 3), percent(0, 0)
    ('99 %', '33 %', '0 %')
    """
    return f"{part * 100 // whole if whole else 0} %"


def duration(seconds: int) -> str:
    """Return a time in hours, minutes and seconds, without those that are nought.

    >>> duration(5400), duration(60), duration(0)
    ('1 h 30 min', '1 min', 'none')
    """
    hours, rest = divmod(seconds, 3600)
    minutes, rest = divmod(rest, 60)
    parts = [f"{number} {unit}" for number, unit in ((hours, "h"), (minutes, "min"), (rest, "s")) if number]
    return " ".join(parts) or "none"
