"""A rule about names, titles and the text of steps: characters that no sheet can print."""

from __future__ import annotations

from collections.abc import Iterator

from layouts.document import Kit, form_place, paper_place, piece_place, step_place
from layouts.printed.characters import unprintable
from layouts.proofing.findings import Finding, Rule

__all__ = ["CHARACTER_NOT_PRINTED", "RULES", "findings"]

CHARACTER_NOT_PRINTED = Rule(
    "character-not-printed",
    "note",
    "A name, a title or the text of a step has characters that the faces of the sheets lack: a sign stands for each.",
    {"characters": {"type": "array", "items": {"type": "string"}}},
)
RULES = (CHARACTER_NOT_PRINTED,)

# Of a long text in a script that no sheet has, the first tell enough.
_MOST = 10


def findings(kit: Kit) -> Iterator[Finding]:
    """Yield each text that a sheet cannot print as it is written."""
    for place, text in _texts(kit):
        lost = unprintable(text)
        if lost:
            shown = " ".join(f"“{one}”" for one in lost[:_MOST])
            more = f" and {len(lost) - _MOST} more" if len(lost) > _MOST else ""
            message = f"No sheet can print {shown}{more}: � stands there instead. Write it with other characters."
            yield CHARACTER_NOT_PRINTED.finding(place, message=message, characters=list(lost[:_MOST]))


def _texts(kit: Kit) -> Iterator[tuple[str, str]]:
    """Each text that sheets show, with its place."""
    yield "title", kit.title
    for paper in kit.papers:
        place = paper_place(paper.id)
        yield f"{place}/name", paper.name
        yield f"{place}/front/name", paper.front.name
        if paper.back is not None:
            yield f"{place}/back/name", paper.back.name
    for sheet in kit.embellishments:
        yield f"embellishment:{sheet.id}/name", sheet.name
        for element in sheet.elements:
            yield f"embellishment:{sheet.id}/element:{element.id}/name", element.name
    for pad in kit.pads:
        yield f"pad:{pad.id}/name", pad.name
    for blank in kit.blanks:
        yield f"blank:{blank.id}/name", blank.name
    for supply in kit.supplies:
        yield f"supply:{supply.id}/name", supply.name
    for tool in kit.tools:
        yield f"tool:{tool.id}/name", tool.name or ""
    for project in kit.projects:
        yield f"project:{project.id}/title", project.title
        for piece in project.pieces:
            yield f"{piece_place(project.id, piece.id)}/name", piece.name
        for form in project.forms:
            yield f"{form_place(project.id, form.id)}/name", form.name
        for step in project.steps:
            yield f"{step_place(project.id, step.id)}/text", step.text
