"""Rules about the sheets as printed: a list that fits must fit with the sizes that are shown as well."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from layouts.document import Kit, paper_place
from layouts.lengths import System
from layouts.printed import text_of
from layouts.proofing.as_printed import AsPrinted, is_as_good
from layouts.proofing.findings import Finding, Rule
from layouts.proofing.plans import PrintAnswer
from layouts.proofing.rules.papers import PAPER_UNDECIDED

__all__ = ["RULES", "findings"]

_WHOLE = {"type": "integer"}
_SYSTEMS: Mapping[System, str] = {"in": "inches", "mm": "millimetres"}
# The pieces named in one finding; a list may hold ten thousand.
_MOST_TOLD = 20

SHORT_AS_PRINTED = Rule(
    "short-as-printed",
    "fix",
    "Everything fits exactly, but not with the sizes that sheets in one unit system show, however they are rounded.",
    {
        "system": {"enum": ["in", "mm"]},
        "sheets": _WHOLE,
        "at_least": _WHOLE,
        "pieces": {
            "type": "array",
            "items": {
                "type": "object",
                "properties": {"at": {"type": "string"}, "width": _WHOLE, "height": _WHOLE, "copies": _WHOLE},
                "required": ["at", "width", "height", "copies"],
                "additionalProperties": False,
            },
            "description": f"the first {_MOST_TOLD} pieces cut from this print, sizes as shown in ticks of 1/320 mm",
        },
    },
)
RULES = (SHORT_AS_PRINTED,)


def findings(kit: Kit, answers: Sequence[PrintAnswer], as_printed: Mapping[System, AsPrinted]) -> Iterator[Finding]:
    """Yield the prints that suffice exactly and not as printed, and those of which that is not decided."""
    names = {paper.id: paper.name for paper in kit.papers}
    exact = {answer.part.paper: answer for answer in answers}
    for system, printed in as_printed.items():
        for answer in printed.answers:
            if not is_as_good(answer, exact[answer.part.paper]):
                yield _finding(names[answer.part.paper], answer, system)


def _finding(name: str, answer: PrintAnswer, system: System) -> Finding:
    part = answer.part
    pieces = [
        {"at": want.place, "width": want.width, "height": want.height, "copies": len(want.copies)}
        for want in part.wants[:_MOST_TOLD]
    ]
    at = (paper_place(part.paper), *(want.place for want in part.wants[:_MOST_TOLD]))
    facts = {"sheets": part.sheets, "at_least": answer.at_least, "pieces": pieces}
    box = f"the box holds {part.sheets}"
    in_system = f"the sizes that sheets in {_SYSTEMS[system]} show"
    if answer.verdict == "unknown":
        message = (
            f"{name} suffices exactly. Whether it does with {in_system} is not decided: {box}. "
            "Put one more sheet into the box, or choose a finer printed step."
        )
        return PAPER_UNDECIDED.finding(*at, message=message, cause="as-printed", **facts)
    largest = max(part.wants, key=lambda want: want.width * want.height)
    example = f"{text_of(largest.width, system)} × {text_of(largest.height, system)} {system}"
    why = f"it takes at least {answer.at_least} sheets, and {box}"
    if answer.verdict == "fits":
        why = "what is to come out of windows does not come out of them"
    message = (
        f"{name} suffices exactly, but not with {in_system} (the largest piece as {example}), however they are "
        f"rounded: {why}. Make something a little smaller, choose a finer printed step, or add a sheet."
    )
    return SHORT_AS_PRINTED.finding(*at, message=message, system=system, **facts)
