"""Days as a calendar program reads them: the small part of RFC 5545 that whole days need."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import UTC, date, datetime

__all__ = ["Day", "calendar_bytes"]

# RFC 5545, 3.1: so many octets a line, without its end.
_LONGEST_LINE = 75
# RFC 5545, 3.3.11.
_ESCAPED = {"\\": "\\\\", ";": "\\;", ",": "\\,", "\n": "\\n"}


@dataclass(frozen=True, slots=True)
class Day:
    """One day on which something happens. `uid` never changes, `version` and `stamp` do with what is said of it."""

    uid: str
    day: date
    summary: str
    url: str
    stamp: datetime
    version: int = 0


def calendar_bytes(days: Iterable[Day], *, name: str) -> bytes:
    """Return a calendar of whole days.

    Source: RFC 5545 (lines end with CR LF and are folded at 75 octets, never inside a character); the name of the
    calendar is RFC 7986.
    """
    lines = [
        "BEGIN:VCALENDAR",
        "VERSION:2.0",
        "PRODID:-//Kitproof//Months//EN",
        "CALSCALE:GREGORIAN",
        f"NAME:{_text(name)}",
        *(line for one in days for line in _event(one)),
        "END:VCALENDAR",
    ]
    return b"".join(_folded(line) for line in lines)


def _event(one: Day) -> Iterator[str]:
    yield "BEGIN:VEVENT"
    yield f"UID:{one.uid}"
    yield f"DTSTAMP:{one.stamp.astimezone(UTC):%Y%m%dT%H%M%SZ}"
    yield f"SEQUENCE:{one.version}"
    # Without an end it takes the whole day (3.6.1). The year is written by hand: %Y has no noughts in front everywhere.
    yield f"DTSTART;VALUE=DATE:{one.day.year:04}{one.day:%m%d}"
    yield f"SUMMARY:{_text(one.summary)}"
    yield f"URL:{one.url}"
    # Nobody is busy all day because a kit goes to print.
    yield "TRANSP:TRANSPARENT"
    yield "END:VEVENT"


def _text(words: str) -> str:
    """Return words as a TEXT value. Control characters are left out: a line holds none, whatever a title has."""
    plain = words.replace("\r\n", "\n").replace("\r", "\n")
    return "".join(_ESCAPED.get(letter, letter) for letter in plain if letter == "\n" or letter.isprintable())


def _folded(line: str) -> bytes:
    parts, part, room = [], b"", _LONGEST_LINE
    for letter in line:
        octets = letter.encode()
        if len(part) + len(octets) > room:
            parts.append(part)
            # What goes on begins with a space, which counts.
            part, room = b"", _LONGEST_LINE - 1
        part += octets
    return b"\r\n ".join([*parts, part]) + b"\r\n"
