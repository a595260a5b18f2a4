"""The report: the verdict first, then the paper, then what to mend, then the order of making."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import Any

from layouts.document import DocumentError, Kit
from layouts.proofing.report.lines import WIDTH, counted, shown, wrapped
from layouts.proofing.report.sheets import papers

__all__ = ["refusal_report", "report"]

# Weights and verdicts differ in word and in shape, as they do on the pages: solid, hatched, outlined.
_MARKS = {"stop": "█ STOP", "fix": "▒ FIX ", "note": "░ note"}
# What a piece lacks besides paper: somewhere to come out of.
_LOST = ("cut-out-too-small", "cut-out-overdrawn", "paper-missing")
_PLACES = 3
_VERDICTS = {"ready": "█ READY", "not-ready": "▒ NOT READY", "unknown": "░ UNKNOWN"}


def report(kit: Kit, proof: Mapping[str, Any]) -> str:
    """Return the report of a proof as text, ending in a line break."""
    unit = "inches" if kit.unit == "in" else "millimetres"
    lines = [
        *_head(kit, proof),
        *_section(f"Paper, sizes as width × height in {unit}"),
        *papers(kit, proof),
        *_section(f"Findings{_weights(proof)}"),
        *_findings(proof),
        *_section("Order and time"),
        *_order(kit, proof),
    ]
    return _text(lines)


def refusal_report(errors: Sequence[DocumentError]) -> str:
    """Return why a document is refused, as text: every error with its pointer."""
    refused = len([error for error in errors if error.code != "more-errors"])
    lines = [f"The document is refused: {counted(refused, 'error')}."]
    for error in errors:
        lines.append(f"  {shown(error.pointer) or 'the whole document'}")
        lines += wrapped(f"{error.code}: {error.message}", "      ", "      ")
    return _text(lines)


def _text(lines: Iterable[str]) -> str:
    return "".join(f"{line}\n" for line in lines)


def _head(kit: Kit, proof: Mapping[str, Any]) -> Iterator[str]:
    title, identity = shown(f"{kit.title} · {kit.code}"), f"document {proof['document'][:8]}"
    room = WIDTH - len(identity) - 2
    *others, last = wrapped(title, width=room)
    yield from others
    yield f"{last:<{room}}  {identity}"
    yield from wrapped(f"{_VERDICTS[proof['verdict']]}. {_sentence(proof)}")


def _sentence(proof: Mapping[str, Any]) -> str:
    standing = [one for one in proof["findings"] if not one["accepted"]]
    to_mend = sum(one["weight"] in ("stop", "fix") for one in standing)
    if to_mend:
        return f"{_fit(proof)} {counted(to_mend, 'thing')} to mend before it can go to print."
    accepted = len(proof["findings"]) - len(standing)
    rest = "Nothing to mend" if proof["verdict"] == "ready" else "Nothing else to mend"
    return f"{_fit(proof)} {rest}{f', {counted(accepted, "finding")} accepted' if accepted else ''}."


def _fit(proof: Mapping[str, Any]) -> str:
    papers = Counter(paper["verdict"] for paper in proof["papers"])
    for verdict, words in (("short", "short"), ("unknown", "undecided")):
        if papers[verdict]:
            are = "is" if papers[verdict] == 1 else "are"
            return f"{papers[verdict]} of {counted(len(proof['papers']), 'paper')} {are} {words}."
    if any(one["rule"] in _LOST for one in proof["findings"]):
        return "The sheets suffice, but not every piece comes out of something."
    return "Every piece fits the paper in the box."


def _section(title: str) -> Iterator[str]:
    yield ""
    yield f"{title} {'─' * (WIDTH - len(title) - 1)}"


def _weights(proof: Mapping[str, Any]) -> str:
    counts = Counter(one["weight"] for one in proof["findings"])
    told = [f"{counts[weight]} {weight}" for weight in _MARKS if counts[weight]]
    return f": {', '.join(told)}" if told else ""


def _findings(proof: Mapping[str, Any]) -> Iterator[str]:
    for number, one in enumerate(proof["findings"]):
        if number:
            yield ""
        yield from wrapped(one["message"], f"{_MARKS[one['weight']]}  ", " " * 8)
        rule = f"{one['rule']} (accepted)" if one["accepted"] else one["rule"]
        places = f"{', '.join(one['at'][:_PLACES])}{' …' if len(one['at']) > _PLACES else ''}"
        for mend in one["mend"]:
            yield from wrapped(mend["message"], " " * 8 + "→ ", " " * 10)
        yield from wrapped(f"{rule} · {places}", " " * 8, " " * 10)
    if not proof["findings"]:
        yield "None."


def _order(kit: Kit, proof: Mapping[str, Any]) -> Iterator[str]:
    titles = {project.id: project.title.strip() or project.id for project in kit.projects}
    order = proof["order"]
    if order["projects"] is None:
        yield "The projects wait for each other in a circle: there is no order to make them in."
    for number, project in enumerate(order["projects"] or (), start=1):
        yield from wrapped(titles[project], f"  {number}  ", " " * 5)
        for because in order["because"]:
            if because["then"] == project:
                yield from wrapped(_because(because, titles), " " * 5, " " * 7)
    time = proof["time"]
    hands = "unknown (a step states no work)" if time["hands_on_s"] is None else _duration(time["hands_on_s"])
    yield f"At work: {hands}. Waiting: {_duration(time['waiting_s'])}."


def _because(because: Mapping[str, str], titles: Mapping[str, str]) -> str:
    first, thing = titles[because["first"]], because["at"].rpartition(":")[2]
    if because["reason"] == "cut-out":
        return f"after {first}: {thing} comes out of a window of it"
    if because["reason"] == "after":
        return f"after {first}: step {thing} comes after a step of it"
    return f"after {first}, whose step {thing} can dry meanwhile"


def _duration(seconds: int) -> str:
    hours, rest = divmod(seconds, 3600)
    minutes, rest = divmod(rest, 60)
    parts = [f"{n} {unit}" for n, unit in ((hours, "h"), (minutes, "min"), (rest, "s")) if n]
    return " ".join(parts) or "none"
