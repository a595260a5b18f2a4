"""The findings of a proof: by weight, each with what it is about, what to do, and the way to its place."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from frontend.words.costs import cost_words
from frontend.words.places import Places
from frontend.words.verdicts import WEIGHTS
from layouts.document.kit import Accepted
from layouts.proofing.findings import why_hash

__all__ = [
    "Accepting",
    "FindingLine",
    "FindingPlace",
    "MendLine",
    "WeightGroup",
    "finding_groups",
    "finding_name",
    "mend_lines",
    "said_at",
]

# A paper that is short names everything cut from it; nobody goes through a hundred links.
_MOST_PLACES = 6


@dataclass(frozen=True, slots=True)
class FindingPlace:
    words: str
    anchor: str


@dataclass(frozen=True, slots=True)
class MendLine:
    """What a mend does in words, and by what it is asked for: its finding's number and its own, from 1; an idea by its
    print and its own number; `cost` is what it costs, in words."""

    words: str
    number: str
    cost: str


@dataclass(frozen=True, slots=True)
class Accepting:
    """A finding, by its number in the proof, that was to be accepted: the reason as typed, what is wrong with it."""

    number: int
    because: str
    wrong: str = ""


@dataclass(frozen=True, slots=True)
class Acceptance:
    """Who let a finding stand, and why."""

    by: str
    because: str


@dataclass(frozen=True, slots=True)
class FindingLine:
    """One finding. `about` is its first sentence, `advice` what the rest says to do, `mends` what was proved to do.

    `number` is its number in the proof, from 1; `acceptance` is there where the document of the page says who let it
    stand.
    """

    number: int
    name: str
    weight: str
    word: str
    about: str
    advice: str
    places: tuple[FindingPlace, ...]
    more_places: int
    rule: str
    accepted: bool
    acceptance: Acceptance | None
    mends: tuple[MendLine, ...]


@dataclass(frozen=True, slots=True)
class WeightGroup:
    weight: str
    word: str
    meaning: str
    findings: tuple[FindingLine, ...]


def finding_groups(
    findings: Sequence[Mapping[str, Any]], places: Places, accepted: Sequence[Accepted] = ()
) -> tuple[WeightGroup, ...]:
    """Return the findings by weight, the heaviest first; a weight without findings is left out.

    `accepted` are those that the document lets stand.
    """
    known = {(one.rule, one.at, one.why): Acceptance(one.by, one.because) for one in accepted}
    lines = [_line(number, one, places, known) for number, one in enumerate(findings, start=1)]
    return tuple(
        WeightGroup(weight, word, meaning, here)
        for weight, (word, meaning) in WEIGHTS.items()
        if (here := tuple(line for line in lines if line.weight == weight))
    )


def said_at(groups: Sequence[WeightGroup]) -> dict[str, tuple[FindingLine, ...]]:
    """Return the findings that name each element of the page, by its id: what is said beside a piece's line."""
    said: dict[str, list[FindingLine]] = {}
    for group in groups:
        for line in group.findings:
            for anchor in dict.fromkeys(place.anchor for place in line.places):
                said.setdefault(anchor, []).append(line)
    return {anchor: tuple(lines) for anchor, lines in said.items()}


def _line(
    number: int,
    finding: Mapping[str, Any],
    places: Places,
    known: Mapping[tuple[str, tuple[str, ...], str], Acceptance],
) -> FindingLine:
    about, advice = _sentences(finding["message"])
    shown = tuple(FindingPlace(places.words(one), places.anchor(one)) for one in _places(finding)[:_MOST_PLACES])
    weight = finding["weight"]
    named = finding["rule"], tuple(finding["at"]), why_hash(finding.get("why", {}))
    return FindingLine(
        number=number,
        name=finding_name(number),
        weight=weight,
        word=WEIGHTS[weight][0],
        about=about,
        advice=advice,
        places=shown,
        more_places=len(finding["at"]) - len(shown),
        rule=finding["rule"],
        accepted=finding["accepted"],
        acceptance=known.get(named) if finding["accepted"] else None,
        mends=mend_lines(finding["mend"], str(number)),
    )


def finding_name(number: int) -> str:
    """Return the id of a finding on the page, by its number in the proof, from 1."""
    return f"finding-{number}"


def mend_lines(mends: Sequence[Mapping[str, Any]], of: str) -> tuple[MendLine, ...]:
    """Return mends, or ideas, as lines; `of` says whose they are."""
    # A proof that was stored by an earlier engine has mends without words.
    return tuple(
        MendLine(mend["message"], f"{of}-{at}", cost_words(mend.get("cost", {})))
        for at, mend in enumerate(mends, start=1)
        if "message" in mend
    )


def _places(finding: Mapping[str, Any]) -> list[str]:
    """Where to look for a finding: of a print that is short what already is too much, not all that is cut from it."""
    at: list[str] = finding["at"]
    culprits = [one["at"] for one in finding.get("why", {}).get("culprits", ())]
    return [at[0], *culprits] if culprits else at


def _sentences(message: str) -> tuple[str, str]:
    """Part a message after its first sentence; a point inside quotation marks ends none."""
    for at in _ends(message):
        return message[: at + 1], message[at + 2 :]
    return message, ""


def _ends(message: str) -> Iterator[int]:
    depth = 0
    for at, letter in enumerate(message):
        depth += (letter == "“") - (letter == "”")
        if depth == 0 and message[at : at + 2] == ". ":
            yield at
