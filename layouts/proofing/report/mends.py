"""What would mend a print or save paper of it, in a report and as a numbered list."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from layouts.document import Kit
from layouts.proofing.report.lines import wrapped

__all__ = ["idea_lines", "mends_report", "numbered_mends"]


def numbered_mends(proof: Mapping[str, Any]) -> list[dict[str, Any]]:
    """Return the mends of every print that is short, and the ideas of the others, numbered from 1.

    Each as it stands in the proof, with its `number`, the `paper` it is for, and whether it is a `mend` or an `idea`.
    """
    mends = {
        one["at"][0].removeprefix("paper:"): one["mend"] for one in proof["findings"] if one["rule"] == "paper-short"
    }
    found = [(paper["paper"], "mend", one) for paper in proof["papers"] for one in mends.get(paper["paper"], ())]
    found += [(paper["paper"], "idea", one) for paper in proof["papers"] for one in paper["ideas"]]
    return [
        {"number": number, "paper": paper, "kind": kind, **one}
        for number, (paper, kind, one) in enumerate(found, start=1)
    ]


def mends_report(kit: Kit, proof: Mapping[str, Any]) -> str:
    """Return the numbered list as text, ending in a line break: each print by its name, with what could be done."""
    names = {paper.id: paper.name for paper in kit.papers}
    verdicts = {paper["paper"]: paper["verdict"] for paper in proof["papers"]}
    lines: list[str] = []
    last = None
    for one in numbered_mends(proof):
        if one["paper"] != last:
            last = one["paper"]
            is_short = verdicts[last] == "short"
            what = "is short. Any one of these would do:" if is_short else "fits. Any of these would save paper:"
            lines += ["", *wrapped(f"{names[last]} {what}")] if lines else wrapped(f"{names[last]} {what}")
        lines += wrapped(one["message"], f"{one['number']:>4}  ", " " * 6)
    if not lines:
        is_short = "short" in verdicts.values()
        lines = ["Nothing was found that would mend it." if is_short else "No print is short, and nothing saves paper."]
    return "".join(f"{line}\n" for line in lines)


def idea_lines(answer: Mapping[str, Any]) -> Iterator[str]:
    """Yield what would save paper of one print, for the report of a proof."""
    for idea in answer["ideas"]:
        yield from wrapped(idea["message"], "  Idea: ", " " * 8)
