"""Lines that end at the same word on every machine.

Where a line may end is decided by a library of the system, by the rules of the Unicode version that it knows. These
changed for a few rare neighbours (Unicode 15.1 and 16, annex 14, rules LB 13, 15 and 20). There the text is told by a
word joiner (U+2060) that a line does not end. It has no width, no ink, and is not in the text that is read out of the
PDF. Seen: with it Pango 1.50 and 1.56 agree about all pairs of signs, letters and figures with and without a space.
"""

from __future__ import annotations

import re
from typing import Any

__all__ = ["JOINER", "join", "join_words"]

JOINER = "\u2060"
OPENING = r"(\[{‚„"
QUOTES = "\"'«»‹›“”‘’"
NEVER = re.compile(
    "|".join(
        [
            # in front of a point that a figure follows, and between the two: ".5", "A:7"
            r"(?<=\s)(?=[,.:;⁄]\d)",
            r"(?<![\d\s][,.:;⁄])(?<=[,.:;⁄])(?=\d)|(?<=\s[,.:;⁄])(?=\d)",
            # behind a hyphen that begins a word: "-wards"
            r"(?<=[\s\u2011]-)(?=\S)|(?<=\A-)(?=\S)",
            # between a quotation and the brackets behind it
            rf"(?<=[{QUOTES}]\s)(?=[{OPENING}])",
            # at a space on the inner side of a quotation mark
            r"(?<=\s)(?=[»›”’](?:[\s!\"'),./:;?\]}»›”’⁄\u2011«‹“‘]|\Z))",
            rf"(?<=[\s{OPENING}{QUOTES}\u2011][«‹“‘]\s)(?=[^ \n])|(?<=\A[«‹“‘]\s)(?=[^ \n])",
        ]
    )
)
# As far back as the rules look.
BACK = 2
# Elements that a line runs through.
WITHIN_LINES = frozenset(["a", "abbr", "b", "cite", "code", "em", "i", "kbd", "mark", "q", "s", "small", "span"])
WITHIN_LINES |= {"strong", "sub", "sup", "time", "u", "var"}


def join(text: str, before: str = "") -> str:
    """Return the text with a word joiner wherever versions of the rules differ. `before` is what stands before it.

    >>> join('"Fold" (once), A:7').replace(JOINER, "|")
    '"Fold" |(once), A:|7'
    """
    whole = before + text
    places = [found.start() for found in NEVER.finditer(whole, len(before))]
    ends = zip([len(before), *places], [*places, len(whole)], strict=True)
    return JOINER.join(whole[start:end] for start, end in ends)


def join_words(root: Any) -> None:
    """Join what belongs together in all the text of a page, drawings apart: their lines do not end."""
    before = ""
    waiting = [(root, False)]
    while waiting:
        element, left = waiting.pop()
        if element.tag not in WITHIN_LINES:
            before = ""
        if not left:
            waiting.append((element, True))
            if isinstance(element.tag, str) and "}" not in element.tag and element.tag not in ("style", "title"):
                if element.text:
                    element.text, before = join(element.text, before), (before + element.text)[-BACK:]
                waiting += [(kid, False) for kid in reversed(list(element))]
        elif element.tail:
            element.tail, before = join(element.tail, before), (before + element.tail)[-BACK:]
