"""Why a print is short: what already is too much for its sheets, by itself, in words and drawn to scale beside them."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from django.utils.safestring import SafeString, mark_safe

from frontend.kit_page.findings import finding_name
from frontend.words.numbers import counted
from frontend.words.places import Places
from layouts.document import Kit, Paper, paper_place
from layouts.drawing import Letters
from layouts.drawing.too_much import TooMuch, too_much_drawing
from layouts.lengths import Length
from layouts.shapes import sheet_size

__all__ = ["Culprit", "Reasons", "reasons_of"]

# Findings about one print that say why it is short.
_SHORT = ("paper-short", "piece-too-big", "turn-impossible")
_MOST_TOLD = 12
_BECAUSE = {
    "area": "These alone are more than the sheets hold:",
    "apart": "These are too many: no two of them come out of one sheet.",
    "cuts": "These alone do not come out of the sheets, however they are cut from edge to edge:",
}


@dataclass(frozen=True, slots=True)
class Culprit:
    """A piece that is too much: how many of it, its size in words, and the id of its line."""

    letter: str
    name: str
    anchor: str
    copies: int
    size: str


@dataclass(frozen=True, slots=True)
class Reasons:
    """Why a print is short: a sentence, what is too much, a drawing of it, and the finding that tells all of it.

    `more` are pieces that are not told, since there are so many.
    """

    sentence: str
    culprits: tuple[Culprit, ...]
    more: int
    drawing: SafeString
    finding: str


def reasons_of(kit: Kit, paper: Paper, findings: Sequence[Mapping[str, Any]]) -> Reasons | None:
    """Return why a print is short by the findings of the proof; None where they do not say it."""
    place = paper_place(paper.id)
    for number, finding in enumerate(findings, start=1):
        if finding["rule"] in _SHORT and place in finding["at"]:
            told = list(_told(finding))
            if told:
                return _reasons(kit, paper, told, _sentence(finding), finding_name(number))
    return None


def _told(finding: Mapping[str, Any]) -> Iterator[TooMuch]:
    """What is too much: the culprits of a list that is short, or the one piece that no sheet of it gives."""
    why = finding["why"]
    if finding["rule"] != "paper-short":
        width, height = why["size"]
        yield TooMuch(finding["at"][0], width, height, 1)
        return
    sizes = {one["at"]: (one["width"], one["height"]) for one in why["pieces"]}
    for culprit in why.get("culprits", ()):
        width, height = sizes[culprit["at"]]
        yield TooMuch(culprit["at"], width, height, culprit["copies"])


def _sentence(finding: Mapping[str, Any]) -> str:
    if finding["rule"] == "piece-too-big":
        return "This alone is larger than a sheet:"
    if finding["rule"] == "turn-impossible":
        return "This fits a sheet only in a turn in which its print does not read as asked:"
    return _BECAUSE.get(finding["why"].get("because") or "", "These alone are too much for the sheets:")


def _reasons(kit: Kit, paper: Paper, told: Sequence[TooMuch], sentence: str, finding: str) -> Reasons:
    letters, places = Letters(kit), Places(kit)
    size = sheet_size(paper, {pad.id: pad for pad in kit.pads})
    few = told[:_MOST_TOLD]
    culprits = tuple(
        Culprit(
            letters.of(one.place),
            places.words(one.place),
            places.anchor(one.place),
            one.copies,
            " × ".join(Length(side, kit.unit).text(kit.unit) for side in (one.width, one.height)) + f" {kit.unit}",
        )
        for one in few
    )
    whole = " × ".join(side.text(kit.unit) for side in size) + f" {kit.unit}"
    listed = ", ".join(f"{one.copies} of {one.letter} {one.size}" for one in culprits)
    title = f"{counted(paper.sheets, 'sheet')} of {paper.name} {whole}, and what is too much: {listed}"
    sheet = (size.width.ticks, size.height.ticks)
    name = f"too-much-{paper.id}"
    # The drawing escapes what it writes.
    svg = mark_safe(too_much_drawing(sheet, paper.sheets, few, letters.of, name=name, title=title))
    return Reasons(sentence, culprits, len(told) - len(few), svg, finding)
