"""The rule about words that claim equal measures: “each side”, “both sides” beside measures that differ."""

from __future__ import annotations

import re
from bisect import bisect_left
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction

from layouts.assembly import KitSteps, Names, PlannedStep, Reference, Target, parse_text
from layouts.document import Kit, Opening, Placement
from layouts.document.forms import Scored
from layouts.lengths import Length, System
from layouts.proofing.findings import Finding, Rule
from layouts.proofing.measures import shortened, told, whole_ticks
from layouts.shapes.faces import Lying
from layouts.shapes.forms.folded import Side

__all__ = ["CLAIM_EACH_SIDE", "RULES", "findings"]

_WHOLE = {"type": "integer", "description": "ticks of 1/320 mm"}

CLAIM_EACH_SIDE = Rule(
    "claim-each-side",
    "fix",
    "The text of a step says “each side” or “both sides” of a measure that is not the same on the other side.",
    {"reference": {"type": "string"}, "said": _WHOLE, "other": _WHOLE},
)
RULES = (CLAIM_EACH_SIDE,)

_CLAIM = re.compile(r"\b(?:each\s+side|both\s+sides)\b", re.IGNORECASE)
_SENTENCE_END = re.compile(r"[.!?;](?=\s|\Z)|\n")
# What parts a measure from words that are about something else.
_PARTED = re.compile(r"[,:]|\b(?:and|then|but|while)\b", re.IGNORECASE)
# How far words may be from the measure that they are about, in characters, and past how many other references.
_NEAR = 40
_MOST_PAST = 2
_AT = {"left": "on the left", "right": "on the right", "top": "at the top", "bottom": "at the bottom"}
_OPPOSITE: Mapping[str, Side] = {"left": "right", "right": "left", "top": "bottom", "bottom": "top"}


def findings(kit: Kit, steps: KitSteps, lying: Sequence[Lying]) -> Iterator[Finding]:
    """Yield the claims of step texts that are not true; `lying` are all copies of all placements.

    A claim is about the nearest measure of a side, rather one before it, with no other clause between. Where the
    sentence refers to the opposite side as well, or where another copy of the same thing lies as far from that side of
    the same support, nothing is wrong.
    """
    measured: _Measured | None = None
    for planned in steps:
        if not _CLAIM.search(planned.step.text):
            continue
        measured = measured or _Measured(kit, lying)
        yield from _of_step(planned, measured, kit.unit)


@dataclass(frozen=True, slots=True)
class _Measure:
    """A measure on one side of something, and that of the opposite side (ticks; None where there is none)."""

    side: str
    said: Fraction
    other: Fraction | None


class _Measured:
    """The measures of sides that a reference may name, and what is on the opposite side."""

    def __init__(self, kit: Kit, lying: Sequence[Lying]) -> None:
        self._names = Names(kit)
        self._lying = {one.place: one for one in lying}
        # How far from each side of a support copies of the same thing lie.
        self._alike: set[tuple[str, str, str, Fraction]] = set()
        for one in lying:
            for side, border in one.borders.items():
                if border is not None:
                    self._alike.add((one.thing.place, one.surface.place, side, border))
        self._scores: dict[str, set[tuple[str, int]]] = {}
        self._known: dict[tuple[str, str], _Measure | None] = {}

    def of(self, reference: Reference, project: str) -> _Measure | None:
        """Return the measure that a reference in a step of a project names, None where it is of no side."""
        key = reference.text, project
        if key not in self._known:
            self._known[key] = self._looked_up(reference, project)
        return self._known[key]

    def _looked_up(self, reference: Reference, project: str) -> _Measure | None:
        target = self._names.resolve(reference, project)
        if target is None or not isinstance(target.value, Length):
            return None
        said, side = Fraction(target.value.ticks), target.place.rpartition("/")[2]
        if isinstance(target.thing, Scored):
            return self._score(target, said)
        if side not in _OPPOSITE:
            return None
        if isinstance(target.thing, Opening):
            other = self._names.resolve(_opposite(reference, side), project)
            length = other.value if other is not None and isinstance(other.value, Length) else None
            return None if length is None else _Measure(side, said, Fraction(length.ticks))
        return self._placed(target, side, said) if isinstance(target.thing, Placement) else None

    def _placed(self, target: Target, side: str, said: Fraction) -> _Measure | None:
        one = self._lying.get(target.place.rpartition("/")[0].removesuffix("/border"))
        other = one.borders[_OPPOSITE[side]] if one is not None else None
        if one is None or other is None:
            return None
        same = (one.thing.place, one.surface.place, _OPPOSITE[side], said)
        return _Measure(side, said, said if same in self._alike else other)

    def _score(self, target: Target, said: Fraction) -> _Measure | None:
        form, parts = target.thing, target.place.split("/")
        if not isinstance(form, Scored) or parts[-3:-2] != ["scores"] or parts[-1] != "at":
            return None
        place = target.place.rpartition("/scores/")[0]
        if place not in self._scores:
            self._scores[place] = {(one.from_, one.at.ticks) for one in form.scores}
        side, known = form.scores[int(parts[-2]) - 1].from_, self._scores[place]
        return _Measure(side, said, said if (_OPPOSITE[side], said.numerator) in known else None)


def _of_step(planned: PlannedStep, measured: _Measured, unit: System) -> Iterator[Finding]:
    text = planned.step.text
    references = [part for part in parse_text(text) if isinstance(part, Reference)]
    starts = [reference.start for reference in references]
    told_already: set[str] = set()
    for start, end in _sentences(text, references):
        named = {one.text for one in references[bisect_left(starts, start) : bisect_left(starts, end)]}
        for claim in _CLAIM.finditer(text, start, end):
            reference = None
            measure = None
            for reference in _nearest(text, references, starts, claim, (start, end)):
                measure = measured.of(reference, planned.project.id)
                if measure is not None:
                    break
            if reference is None or measure is None or measure.said == measure.other or reference.text in told_already:
                continue
            opposite = _opposite(reference, measure.side).text
            if opposite in named and opposite != reference.text:
                continue
            told_already.add(reference.text)
            far = _OPPOSITE[measure.side]
            other = "there is none" if measure.other is None else f"it is {told(measure.other, unit)}"
            message = (
                f"Step {planned.step.id} of “{shortened(planned.project.title)}” says “{claim[0].lower()}” of "
                f"{{{shortened(reference.text)}}}, which is {told(measure.said, unit)} {_AT[measure.side]}; "
                f"{_AT[far]} {other}. Name the sides one by one, or make them equal."
            )
            yield CLAIM_EACH_SIDE.finding(
                planned.place,
                message=message,
                reference=reference.text,
                said=whole_ticks(measure.said),
                other=0 if measure.other is None else whole_ticks(measure.other),
            )


def _sentences(text: str, references: Sequence[Reference]) -> Iterator[tuple[int, int]]:
    """Where each sentence begins and ends; what ends one inside a reference does not."""
    masked = list(text)
    for reference in references:
        masked[reference.start : reference.end] = "\0" * (reference.end - reference.start)
    start = 0
    for mark in _SENTENCE_END.finditer("".join(masked)):
        yield start, mark.start()
        start = mark.end()
    yield start, len(text)


def _nearest(
    text: str,
    references: Sequence[Reference],
    starts: Sequence[int],
    claim: re.Match[str],
    sentence: tuple[int, int],
) -> Iterator[Reference]:
    """The references that words may be about, the nearest before them first, then the nearest after them."""
    at = bisect_left(starts, claim.start())
    before = reversed(references[max(at - 1 - _MOST_PAST, 0) : at])
    for reference in before:
        between = text[reference.end : claim.start()]
        if reference.start < sentence[0] or len(between) > _NEAR or _PARTED.search(between):
            break
        yield reference
    for reference in references[at : at + 1 + _MOST_PAST]:
        between = text[claim.end() : reference.start]
        if reference.end > sentence[1] or len(between) > _NEAR or _PARTED.search(between):
            break
        yield reference


def _opposite(reference: Reference, side: str) -> Reference:
    """The same reference to the opposite side; one that names no side as it is."""
    thing, dot, last = reference.text.rpartition(".")
    return Reference.read(f"{thing}{dot}{_OPPOSITE[side]}") if last == side else reference
