"""What would mend a print or save paper of it, in a report and as a numbered list."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from layouts.document import Kit, paper_place, piece_place
from layouts.proofing.report.lines import wrapped

__all__ = ["idea_lines", "mends_report", "numbered_mends"]


def numbered_mends(proof: Mapping[str, Any]) -> list[dict[str, Any]]:
    """Return the mends of every finding that has any, in the order of the findings, then the ideas of every print.

    Each as it stands in the proof, with its `number` from 1, the place (`at`) of the print or the piece that it is for,
    and its `kind`: mend or idea.
    """
    found = [(one["at"][0], "mend", mend) for one in proof["findings"] for mend in one["mend"]]
    found += [(paper_place(paper["paper"]), "idea", one) for paper in proof["papers"] for one in paper["ideas"]]
    return [{"number": number, "at": at, "kind": kind, **one} for number, (at, kind, one) in enumerate(found, start=1)]


def mends_report(kit: Kit, proof: Mapping[str, Any]) -> str:
    """Return the numbered list as text, ending in a line break: below what each is for."""
    names = {paper_place(paper.id): paper.name for paper in kit.papers}
    names |= {
        piece_place(project.id, piece.id): f"{piece.id} ({piece.name})"
        for project in kit.projects
        for piece in project.pieces
    }
    lines: list[str] = []
    last = ("", "")
    for one in numbered_mends(proof):
        if (one["at"], one["kind"]) != last:
            last = one["at"], one["kind"]
            if one["kind"] == "idea":
                what = "fits. Any of these would save paper:"
            elif one["at"].startswith("paper:"):
                what = "is short. Any one of these would do:"
            else:
                what = "does not come out of its cut-out. Any one of these would do:"
            lines += [*([""] if lines else []), *wrapped(f"{names[one['at']]} {what}")]
        lines += wrapped(one["message"], f"{one['number']:>4}  ", " " * 6)
    if not lines:
        is_short = any(paper["verdict"] == "short" for paper in proof["papers"])
        lines = ["Nothing was found that would mend it." if is_short else "No print is short, and nothing saves paper."]
    return "".join(f"{line}\n" for line in lines)


def idea_lines(answer: Mapping[str, Any]) -> Iterator[str]:
    """Yield what would save paper of one print, for the report of a proof."""
    for idea in answer["ideas"]:
        yield from wrapped(idea["message"], "  Idea: ", " " * 8)
