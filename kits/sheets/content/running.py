"""The text of a step as it is printed: references become letters, names and figures of the plan."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

from kits.sheets.content.measures import Measures
from layouts.assembly import Names, Reference, Target, parse_text
from layouts.document import (
    Blank,
    Duration,
    Element,
    Face,
    FormBase,
    Kit,
    Opening,
    Paper,
    Piece,
    PrintSide,
    Project,
    Supply,
    Window,
)
from layouts.lengths import Length

__all__ = ["Run", "StepText", "duration_words"]

_DETERMINERS = frozenset(
    [
        "a",
        "an",
        "the",
        "this",
        "that",
        "these",
        "those",
        "each",
        "every",
        "both",
        "one",
        "two",
        "three",
        "four",
        "any",
        "your",
        "its",
        "their",
        "no",
    ]
)
_UNITS = {"s": "second", "min": "minute", "h": "hour"}
_NO_BREAK = "\N{NO-BREAK SPACE}"
_IN = re.compile(r" in\b")
_SENTENCE = re.compile(r"[.!?]\s*$")
_LAST_WORD = re.compile(r"([A-Za-z]+)[ -]$")


@dataclass(frozen=True, slots=True)
class Run:
    """A run of text: plain words, the letter of something that is cut, or a figure with its unit."""

    kind: Literal["words", "letter", "measure"]
    text: str


class StepText:
    """Sets the texts of one project's steps."""

    def __init__(self, kit: Kit, project: Project, measures: Measures, names: Names) -> None:
        self._titles = {one.id: one.title for one in kit.projects}
        self._project = project.id
        self._measures = measures
        self._names = names

    def runs(self, text: str) -> tuple[Run, ...]:
        """Return a text as runs, neighbours of one kind joined. What refers to nothing stands as it was written."""
        joined: list[Run] = []
        for run in self._runs(text):
            if joined and joined[-1].kind == run.kind == "words":
                joined[-1] = Run("words", joined[-1].text + run.text)
            elif joined and joined[-1].kind == "measure" and joined[-1].text[-1].isdigit() and _IN.match(run.text):
                # The figure leaves its unit to the writer: no line ends between the two.
                joined.append(Run("words", f"{_NO_BREAK}{run.text[1:]}"))
            else:
                joined.append(run)
        return tuple(joined)

    def _runs(self, text: str) -> Iterator[Run]:
        before = ""
        for part in parse_text(text):
            if isinstance(part, Reference):
                target = self._names.resolve(part, self._project)
                runs = (
                    (Run("words", text[part.start : part.end]),)
                    if target is None
                    else self._of(part, target, before, text)
                )
            else:
                runs = (Run("words", part.text),)
            for run in runs:
                # The letter A is no article.
                before += run.text if run.kind == "words" else "_"
                yield run

    def _of(self, reference: Reference, target: Target, before: str, text: str) -> tuple[Run, ...]:
        if isinstance(target.value, Length):
            measure = self._measures.own(target.value.ticks, self._measures.mark(target.place))
            # “7/8 in from the left”: the writer's own “in” follows, and two of them would stumble.
            follows_in = measure.unit == "in" and _IN.match(text, reference.end) is not None
            return (Run("measure", measure.text if follows_in else measure.with_unit),)
        if isinstance(target.value, int):
            return (Run("words", str(target.value)),)
        elsewhere = ""
        if reference.within in self._titles and reference.within != self._project:
            elsewhere = f" of the {self._titles[reference.within]}"
        thing = target.thing
        if isinstance(thing, Piece):
            return (Run("letter", thing.id), *((Run("words", elsewhere),) if elsewhere else ()))
        if isinstance(thing, Window):
            return (Run("words", f"{_the(before)}window of "), Run("letter", reference.names[0]))
        return (Run("words", f"{_named(thing, before)}{elsewhere}"),)


def duration_words(duration: Duration) -> str:
    """Return a duration in words.

    >>> duration_words(Duration(1, "h")), duration_words(Duration(30, "min"))
    ('1 hour', '30 minutes')
    """
    return f"{duration.amount} {_UNITS[duration.unit]}{'' if duration.amount == 1 else 's'}"


def _named(thing: object, before: str) -> str:
    if isinstance(thing, Paper | PrintSide):
        return thing.name
    if isinstance(thing, FormBase | Blank | Element | Supply):
        return f"{_the(before)}{thing.name}"
    if isinstance(thing, Face):
        return f"{_the(before)}{thing.id}"
    if isinstance(thing, Opening):
        return f"{_the(before)}opening"
    name = getattr(thing, "name", None) or getattr(thing, "id", "")
    return str(name)


def _the(before: str) -> str:
    """“the ”, where no word before it does the same work; capital at the start of a sentence."""
    last = _LAST_WORD.search(before)
    if last and last[1].lower() in _DETERMINERS:
        return ""
    return "The " if not before or _SENTENCE.search(before) else "the "
