"""How a report is set in lines: their width, what of a document's own words a terminal may see, and counting."""

from __future__ import annotations

import textwrap

__all__ = ["WIDTH", "counted", "shown", "wrapped"]

WIDTH = 88


def shown(text: str) -> str:
    """Return a text on one line and without anything that a terminal would obey.

    Names and keys of a document are somebody else's words: line breaks become spaces, and escapes, directions of
    writing and other signs that print nothing are written out.

    >>> shown("oak\\tleaf \\u202eknahc")
    'oak leaf \\\\u202eknahc'
    """
    if text.isprintable():
        return text
    plain = (" " if one.isspace() else one for one in text)
    return "".join(one if one.isprintable() else one.encode("unicode_escape").decode() for one in plain)


def wrapped(text: str, first: str = "", later: str = "", *, width: int = WIDTH, break_words: bool = False) -> list[str]:
    """Return a text as lines of at most `width` characters; a word that is longer stands out, or is broken.

    No text, no line.
    """
    return textwrap.wrap(
        shown(text),
        width,
        initial_indent=first,
        subsequent_indent=later,
        break_long_words=break_words,
        break_on_hyphens=False,
    )


def counted(number: int, thing: str) -> str:
    """
    >>> counted(1, "sheet"), counted(0, "sheet")
    ('1 sheet', '0 sheets')
    """
    return f"{number} {thing}" if number == 1 else f"{number} {thing}s"
