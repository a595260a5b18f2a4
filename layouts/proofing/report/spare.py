"""What there is to spare, in a report: a line or two for each paper, and the kit's weakest point."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from typing import Any

from layouts.document import Kit
from layouts.proofing.report.lines import wrapped
from layouts.proofing.spare_words import spare_sentence, weakest_sentence

__all__ = ["spare_lines", "weakest_lines"]

type Called = Callable[[str], str]


def spare_lines(answer: Mapping[str, Any], letter: Called) -> Iterator[str]:
    """Yield what could be cut again of one paper; nothing where there is no plan."""
    spare = answer.get("spare")
    if spare:
        yield from wrapped(spare_sentence(spare, letter), "  ", "  ")


def weakest_lines(kit: Kit, proof: Mapping[str, Any], letter: Called, name: Called) -> Iterator[str]:
    """Yield what is the kit's weakest point, below an empty line; nothing where there is no plan."""
    sentence = weakest_sentence(kit, proof["papers"], lambda place: _named(letter(place), name(place)))
    if sentence:
        yield ""
        yield from wrapped(sentence)


def _named(letter: str, name: str) -> str:
    return letter if letter.casefold() == name.casefold() else f"{letter} ({name})"
