"""The sheets of a kit on its page: what can be made, what is being made, and what is there to be downloaded."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import Any

from frontend.kit_page.checks import Check, Shown
from frontend.words.numbers import counted
from kits.sheets.models import RenderRun
from kits.sheets.options import SheetOptions
from layouts.models import JobState

__all__ = ["CHOICES", "Choice", "SheetFile", "SheetPicture", "SheetSet", "Sheets", "sheets_part", "sheets_token"]

# Sheets that nobody has begun to make so long after they were asked for have nobody to make them.
_NOBODY_COMES = timedelta(seconds=20)
# What stands in the address of a question: the newest runs tell whether there is anything new.
_MOST_TOLD = 8


@dataclass(frozen=True, slots=True)
class Choice:
    """One thing to choose about sheets: the field's name, its label, and its values with their words."""

    name: str
    label: str
    words: Mapping[str, str]
    chosen: str = ""


CHOICES = (
    Choice("page", "Page", {"letter": "Letter", "a4": "A4"}),
    Choice("unit", "Measures", {"in": "inches", "mm": "millimetres"}),
    Choice("print", "Print", {"normal": "normal", "large": "large"}),
    Choice("cut", "Cut with", {"trimmer": "a trimmer", "scissors": "scissors"}),
)


@dataclass(frozen=True, slots=True)
class SheetPicture:
    number: int
    alt: str


@dataclass(frozen=True, slots=True)
class SheetFile:
    """One PDF; `number` is its place among the files of its run, from 1."""

    number: int
    title: str
    size: str
    pictures: tuple[SheetPicture, ...]


@dataclass(frozen=True, slots=True)
class SheetSet:
    """The sheets of one document in one setting. `outdated`: the draft, or how sheets are set, has moved on since."""

    run: RenderRun
    title: str
    sentence: str
    outdated: bool
    files: tuple[SheetFile, ...]

    @property
    def is_open(self) -> bool:
        return self.run.is_open

    @property
    def is_done(self) -> bool:
        return self.run.state == JobState.DONE

    @property
    def can_be_tried_again(self) -> bool:
        return not self.outdated and self.run.state in (JobState.FAILED, JobState.CANCELLED)

    @property
    def done(self) -> int:
        return int(self.run.progress.get("done", 0))

    @property
    def all(self) -> int:
        return int(self.run.progress.get("files", 0))

    @property
    def chosen(self) -> tuple[tuple[str, str], ...]:
        return tuple((choice.name, getattr(self.run, choice.name)) for choice in CHOICES)


@dataclass(frozen=True, slots=True)
class Sheets:
    """`can_be_made`: there is a proof of the draft as it is; else `why_not` says what is missing."""

    choices: tuple[Choice, ...]
    can_be_made: bool
    why_not: str
    sets: tuple[SheetSet, ...]
    token: str

    @property
    def is_open(self) -> bool:
        return any(one.is_open for one in self.sets)

    @property
    def said(self) -> str:
        """One sentence for who does not see the page change."""
        return self.sets[0].sentence if self.sets else ""


def sheets_part(
    check: Check, shown: Shown, runs: Sequence[RenderRun], usual: SheetOptions, template_number: int, now: datetime
) -> Sheets:
    """Return the sheets of a draft: `runs` are those of all its documents, newest first.

    Those of the draft as it is are shown, or else the last ones of an earlier draft, called that.
    """
    current = shown.proof if shown.proof is not None and shown.current else None
    of_now = [run for run in runs if current is not None and _is_of(run, current, template_number)]
    shown_runs = of_now or [run for run in runs if _setting_of(run) == _setting_of(runs[0])]
    chosen = shown_runs[0].options if shown_runs else usual
    return Sheets(
        choices=tuple(
            Choice(choice.name, choice.label, choice.words, getattr(chosen, choice.name)) for choice in CHOICES
        ),
        can_be_made=current is not None,
        why_not="" if current is not None else _why_not(check, shown),
        sets=tuple(_set(run, not of_now, now) for run in shown_runs),
        token=sheets_token(runs, now),
    )


def sheets_token(runs: Sequence[RenderRun], now: datetime) -> str:
    """Return what changes whenever there is more to show of a draft's sheets."""
    told = (
        f"{run.pk}{run.state}{run.progress.get('done', 0)}{'late' if _is_late(run, now) else ''}"
        for run in runs[:_MOST_TOLD]
    )
    return "-".join(told) or "none"


def _is_of(run: RenderRun, proof: Mapping[str, Any], template_number: int) -> bool:
    return _setting_of(run) == (proof["document"], proof["engine"], template_number)


def _setting_of(run: RenderRun) -> tuple[str, int, int]:
    return run.document_hash, run.engine, run.template_number


def _why_not(check: Check, shown: Shown) -> str:
    if check.is_open:
        return "Sheets are made from the proof: they can be made when the check is through."
    if shown.proof is None:
        return "Sheets are made from the proof, and this draft has none yet: check it first."
    return "Sheets are made from the proof, and there is none of the draft as it is: check it again first."


def _set(run: RenderRun, outdated: bool, now: datetime) -> SheetSet:
    page, unit, size, cut = (choice.words[getattr(run, choice.name)] for choice in CHOICES)
    return SheetSet(
        run=run,
        title=f"{page}, {unit}, {size} print, cut with {cut}",
        sentence=_sentence(run, now),
        outdated=outdated,
        files=tuple(_file(number, file) for number, file in enumerate(run.files, start=1)),
    )


def _sentence(run: RenderRun, now: datetime) -> str:
    if run.state == JobState.DONE:
        return f"Made: {counted(len(run.files), 'file')}."
    if run.state == JobState.FAILED:
        return f"These could not be made. {run.reason[:1].upper()}{run.reason[1:].rstrip('.')}."
    if run.state == JobState.CANCELLED:
        return "Making these was called off."
    if run.cancel_asked:
        return "Making these is being called off."
    if "files" in run.progress:
        return f"Being made: {run.progress['done']} of {counted(run.progress['files'], 'file')}."
    late = " Nobody has begun for a while: the part of Kitproof that makes them may not be running."
    return f"Waiting to be made.{late if _is_late(run, now) else ''}"


def _is_late(run: RenderRun, now: datetime) -> bool:
    return run.state == JobState.WAITING and now > run.due_at + _NOBODY_COMES


def _file(number: int, file: Mapping[str, Any]) -> SheetFile:
    pages = len(file["pictures"])
    pictures = tuple(
        SheetPicture(page, f"Page {page} of {pages} of {file['title']}, as it will be printed")
        for page in range(1, pages + 1)
    )
    # Titles end with the kit's, which stands at the head of the page.
    title = file["title"].partition(" · ")[0]
    return SheetFile(number, title, f"{counted(pages, 'page')}, {max(1, round(file['bytes'] / 1000))} kB", pictures)
