"""The report: the verdict first, then the paper, then what to mend, then the order of making."""

from __future__ import annotations

import textwrap
from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from layouts.document import DocumentError, Kit
from layouts.lengths import Length
from layouts.proofing.report.picture import leaves_of, sheet_picture

__all__ = ["refusal_report", "report"]

_WIDTH = 88
_PICTURE = 35
# Weights and verdicts differ in word and in shape, as they do on the pages: solid, hatched, outlined.
_MARKS = {"stop": "█ STOP", "fix": "▒ FIX ", "note": "░ note"}
_VERDICTS = {"ready": "█ READY", "not-ready": "▒ NOT READY", "unknown": "░ UNKNOWN"}


def report(kit: Kit, proof: Mapping[str, Any]) -> str:
    """Return the report of a proof as text, ending in a line break."""
    lines = [
        *_head(kit, proof),
        *_section("Paper"),
        *_papers(kit, proof),
        *_section("Findings"),
        *_findings(kit, proof),
        *_section("Order and time"),
        *_order(kit, proof),
    ]
    return "\n".join(lines) + "\n"


def refusal_report(errors: Sequence[DocumentError]) -> str:
    """Return why a document is refused, as text: every error with its pointer."""
    refused = len([error for error in errors if error.code != "more-errors"])
    lines = [f"The document is refused: {_counted(refused, 'error')}."]
    for error in errors:
        where = error.pointer or "the document"
        lines += [f"  {where}", f"      {error.code}: {error.message}"]
    return "\n".join(lines) + "\n"


def _head(kit: Kit, proof: Mapping[str, Any]) -> Iterator[str]:
    title, identity = f"{kit.title} · {kit.code}", f"document {proof['document'][:8]}"
    yield f"{title}{identity:>{max(len(identity) + 2, _WIDTH - len(title))}}"
    yield from _wrapped(f"{_VERDICTS[proof['verdict']]}: {_sentence(proof)}")


def _sentence(proof: Mapping[str, Any]) -> str:
    papers = Counter(paper["verdict"] for paper in proof["papers"])
    fit = "Every piece fits the paper in the box."
    if papers["short"]:
        fit = f"{_counted(papers['short'], 'print')} of {len(proof['papers'])} too short."
    elif papers["unknown"]:
        fit = f"{_counted(papers['unknown'], 'print')} of {len(proof['papers'])} undecided."
    standing = [one for one in proof["findings"] if not one["accepted"]]
    to_mend = sum(one["weight"] in ("stop", "fix") for one in standing)
    if to_mend:
        return f"{fit} {_counted(to_mend, 'thing')} to mend before it can go to print."
    return f"{fit} Nothing to mend." if proof["verdict"] == "ready" else f"{fit} Nothing else to mend."


def _section(title: str) -> Iterator[str]:
    yield ""
    yield f"{title} {'─' * (_WIDTH - len(title) - 1)}"


def _papers(kit: Kit, proof: Mapping[str, Any]) -> Iterator[str]:
    names = {paper.id: paper.name for paper in kit.papers}
    things = _things(kit)
    for number, paper in enumerate(proof["papers"]):
        if number:
            yield ""
        yield from _wrapped(f"{names[paper['paper']]}: {_paper_words(paper)}")
        pictures = [
            [
                *sheet_picture(planned["tree"], {place: letter for place, (letter, _) in things.items()}, _PICTURE),
                f"sheet {planned['sheet']}",
            ]
            for planned in paper["plan"]
        ]
        yield from _side_by_side(pictures)
        yield from _pieces(kit, paper["plan"], things)
    if not proof["papers"]:
        yield "This kit has no paper yet."


def _paper_words(paper: Mapping[str, Any]) -> str:
    box, needed = _counted(paper["sheets"], "sheet"), paper["needed"]
    least, most = needed["at_least"], needed["at_most"]
    if paper["verdict"] == "fits":
        if not paper["plan"]:
            return f"nothing is cut from it ({box} in the box)"
        return f"fits, {len(paper['plan'])} of {box} touched, {_percent(paper['yield'])} of them used"
    if paper["verdict"] == "short":
        would = f", {most} would do" if most is not None else ""
        return f"SHORT, {box} in the box, at least {least} needed{would} (proof: {paper['reason']['kind']})"
    best = f", the best plan found takes {most}" if most is not None else ""
    return f"UNDECIDED ({paper['reason']['kind']}), {box} in the box, at least {least} needed{best}"


def _percent(share: str) -> str:
    """“0.853” as “85.3 %”; the text is exact, so no arithmetic is."""
    digits = share.replace(".", "").lstrip("0").rjust(2, "0")
    return f"{digits[:-1]}.{digits[-1]} %"


def _side_by_side(pictures: Sequence[Sequence[str]]) -> Iterator[str]:
    """Set pictures beside each other, as many as the width takes."""
    widths = [max((len(line) for line in picture), default=0) for picture in pictures]
    at = 0
    while at < len(pictures):
        row = [at]
        while row[-1] + 1 < len(pictures) and sum(widths[one] + 3 for one in (*row, row[-1] + 1)) <= _WIDTH:
            row.append(row[-1] + 1)
        for line in range(max(len(pictures[one]) for one in row)):
            cells = [(pictures[one][line] if line < len(pictures[one]) else "").ljust(widths[one]) for one in row]
            yield f"  {'   '.join(cells)}".rstrip()
        at = row[-1] + 1


def _pieces(kit: Kit, plan: Sequence[Mapping[str, Any]], things: Mapping[str, tuple[str, str]]) -> Iterator[str]:
    """One line for each size of piece on each sheet: letter, name, size as it is seen, count, and what is kept."""
    for planned in plan:
        rows: Counter[tuple[str, str, str]] = Counter()
        for leaf in leaves_of(planned["tree"]):
            if "piece" in leaf:
                rows[_row(kit, leaf, things)] += 1
                for window, tree in leaf.get("cut_outs", {}).items():
                    letter = things[leaf["piece"]][0]
                    for inner in leaves_of(tree):
                        if "piece" in inner:
                            name = f"{things[inner['piece']][1]}, from the cut-out {letter}/{window}: KEEP it"
                            rows[things[inner["piece"]][0], name, _size(kit, inner)] += 1
        for (letter, name, size), count in rows.items():
            many = f"{count} ×" if count > 1 else ""
            yield f"    {planned['sheet']}  {letter:<8} {size:<18} {many:<4} {name}".rstrip()


def _row(kit: Kit, leaf: Mapping[str, Any], things: Mapping[str, tuple[str, str]]) -> tuple[str, str, str]:
    letter, name = things[leaf["piece"]]
    turned = f", turned {leaf['turn']}°" if leaf["turn"] else ""
    side = ", back up" if leaf.get("side") == "back" else ""
    return letter, f"{name}{side}{turned}", _size(kit, leaf)


def _size(kit: Kit, leaf: Mapping[str, Any]) -> str:
    width, height = leaf["width"], leaf["height"]
    if leaf["turn"] in (90, 270):
        width, height = height, width
    return f"{Length(width, kit.unit).text(kit.unit)} × {Length(height, kit.unit).text(kit.unit)}"


def _things(kit: Kit) -> dict[str, tuple[str, str]]:
    """Letter and name of everything that is cut, by its place."""
    things: dict[str, tuple[str, str]] = {}
    for project in kit.projects:
        things |= {f"project:{project.id}/piece:{one.id}": (one.id, one.name) for one in project.pieces}
        for form in project.forms:
            place = f"project:{project.id}/form:{form.id}"
            things[place] = (form.id, form.name)
            things |= {f"{place}/part:{n}": (f"{form.id} {n}", f"{form.name}, part {n}") for n in range(1, 200)}
    return things


def _findings(kit: Kit, proof: Mapping[str, Any]) -> Iterator[str]:
    for one in proof["findings"]:
        accepted = " (accepted)" if one["accepted"] else ""
        yield from _wrapped(one["message"], f"{_MARKS[one['weight']]}  ", "        ")
        yield f"        {one['rule']}{accepted} · {', '.join(one['at'][:3])}{' …' if len(one['at']) > 3 else ''}"
    if not proof["findings"]:
        yield "None."


def _order(kit: Kit, proof: Mapping[str, Any]) -> Iterator[str]:
    titles = {project.id: project.title for project in kit.projects}
    order = proof["order"]
    if order["projects"] is None:
        yield "The projects wait for each other in a circle: there is no order to make them in."
    elif order["projects"]:
        yield from _wrapped("Make " + ", then ".join(titles[id_] for id_ in order["projects"]) + ".")
    for because in order["because"]:
        yield from _wrapped(_because(because, titles), "  ", "  ")
    time = proof["time"]
    hands = "unknown (a step states no work)" if time["hands_on_s"] is None else _duration(time["hands_on_s"])
    yield f"At work: {hands}. Waiting: {_duration(time['waiting_s'])}."


def _because(because: Mapping[str, str], titles: Mapping[str, str]) -> str:
    first, then = titles[because["first"]], titles[because["then"]]
    thing = because["at"].rpartition(":")[2]
    if because["reason"] == "cut-out":
        return f"{first} before {then}: {thing} comes out of a window of it."
    if because["reason"] == "after":
        return f"{first} before {then}: step {thing} comes after a step of it."
    return f"{first} before {then}: while step {thing} dries, the next can be made."


def _duration(seconds: int) -> str:
    hours, rest = divmod(seconds, 3600)
    minutes, rest = divmod(rest, 60)
    parts = [f"{n} {unit}" for n, unit in ((hours, "h"), (minutes, "min"), (rest, "s")) if n]
    return " ".join(parts) or "none"


def _counted(number: int, thing: str) -> str:
    return f"{number} {thing}" if number == 1 else f"{number} {thing}s"


def _wrapped(text: str, first: str = "", others: str = "") -> list[str]:
    return textwrap.wrap(text, _WIDTH, initial_indent=first, subsequent_indent=others, break_long_words=False)
