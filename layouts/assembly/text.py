"""The text of a step: words, and references in braces whose figures the sheet fills in."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal, cast

__all__ = ["Part", "Reference", "ReferenceKind", "StrayBrace", "Words", "parse_text"]

ReferenceKind = Literal["blank", "paper", "supply"]

_ID = r"[A-Za-z0-9][A-Za-z0-9-]*"
_GRAMMAR = re.compile(
    rf"(?:(?P<kind>blank|paper|supply):|(?P<within>{_ID})/)?(?P<names>{_ID}(?:\.[A-Za-z0-9][A-Za-z0-9_-]*)*)"
)


@dataclass(frozen=True, slots=True)
class Words:
    """Words as a reader sees them (doubled braces are single); `start` and `end` count characters of the text."""

    text: str
    start: int
    end: int


@dataclass(frozen=True, slots=True)
class Reference:
    """What stands between two braces; `start` and `end` include them.

    `A.pane.top` has the names A, pane, top; `calendar/H` is `within` calendar; `blank:chest.front` is of a kind.
    A text that is no reference at all has no names.
    """

    text: str
    start: int
    end: int
    kind: ReferenceKind | None
    within: str | None
    names: tuple[str, ...]

    @classmethod
    def read(cls, text: str, start: int = 0) -> Reference:
        """Read what stands between the braces, the first of which is at `start`.

        >>> Reference.read("calendar/H.width").names, Reference.read("front border").names
        (('H', 'width'), ())
        """
        end = start + len(text) + 2
        match = _GRAMMAR.fullmatch(text)
        if match is None:
            return cls(text, start, end, None, None, ())
        kind = cast(ReferenceKind | None, match["kind"])
        return cls(text, start, end, kind, match["within"], tuple(match["names"].split(".")))


@dataclass(frozen=True, slots=True)
class StrayBrace:
    """A brace that neither opens nor closes a reference and is not doubled; it is shown as it stands."""

    text: str
    start: int
    end: int


Part = Words | Reference | StrayBrace

# A doubled brace, a pair that holds no brace, a lone brace, or words: one of these fits at every character.
_TOKEN = re.compile(r"(?P<doubled>\{\{|\}\})|\{(?P<inside>[^{}]*)\}|(?P<lone>[{}])|[^{}]+")


def parse_text(text: str) -> tuple[Part, ...]:
    """Return the parts of a step's text, in order and without gaps. Every text has parts: none is refused.

    >>> [type(part).__name__ + " " + part.text for part in parse_text("Fold {{A}} {A.width} up}.")]
    ['Words Fold {A} ', 'Reference A.width', 'Words  up', 'StrayBrace }', 'Words .']
    """
    return tuple(_joined(text))


def _joined(text: str) -> Iterator[Part]:
    words: list[str] = []
    start = 0
    for token in _TOKEN.finditer(text):
        if token["inside"] is None and token["lone"] is None:
            words.append(token[0][0] if token["doubled"] else token[0])
            continue
        if words:
            yield Words("".join(words), start, token.start())
            words = []
        if token["lone"]:
            yield StrayBrace(token[0], token.start(), token.end())
        else:
            yield Reference.read(token["inside"], token.start())
        start = token.end()
    if words:
        yield Words("".join(words), start, len(text))
