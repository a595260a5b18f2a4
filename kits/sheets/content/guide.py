"""The cut guide: every sheet of the plan, drawn to scale, with its cuts as a numbered table."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from kits.sheets.content.measures import Measures
from kits.sheets.options import SheetOptions
from layouts.cutting.sequence import CutStep, cuts_of
from layouts.document import Kit, Paper
from layouts.drawing import guide_drawing

__all__ = ["CutGuide", "CutRow", "GuideSheet", "cut_guide"]


@dataclass(frozen=True, slots=True)
class CutRow:
    """One cut: its number, the setting of the trimmer (or the distance of the line), what to do and what it gives."""

    number: int
    turn: bool
    setting: str
    other: str
    gives: str


@dataclass(frozen=True, slots=True)
class GuideSheet:
    """One sheet: its print and number, which side is up, its drawing, its cuts, and what of it must be kept."""

    print: str
    number: int
    of: int
    side: str
    svg: str
    words: str
    rows: tuple[CutRow, ...]
    keep: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class CutGuide:
    """All sheets in the order to cut them, and the prints of which there is no plan, with why."""

    kit_title: str
    order: tuple[str, ...]
    sheets: tuple[GuideSheet, ...]
    missing: tuple[str, ...]
    unit: str
    other: str
    trimmer: bool


def cut_guide(kit: Kit, proof: Mapping[str, Any], options: SheetOptions) -> CutGuide:
    """Return the cut guide. Sheets that a kept cut-out comes from come first, so that nobody cuts for the second
    project what the first may spoil; then by project in the order of making, then in the order of the box."""
    measures = Measures(kit, options)
    papers = {paper.id: paper for paper in kit.papers}
    planned = [
        (papers[answer["paper"]], sheet, len(answer["plan"])) for answer in proof["papers"] for sheet in answer["plan"]
    ]
    made = proof["order"]["projects"] or [project.id for project in kit.projects]
    planned.sort(key=lambda one: _rank(one[1]["tree"], made))
    titles = {project.id: project.title for project in kit.projects}
    return CutGuide(
        kit_title=kit.title,
        order=tuple(titles[project] for project in proof["order"]["projects"] or ()),
        sheets=tuple(_sheet(kit, paper, sheet, of, measures) for paper, sheet, of in planned),
        missing=tuple(_missing(papers, proof)),
        unit=measures.unit,
        other=measures.other,
        trimmer=options.cut == "trimmer",
    )


def _rank(tree: Mapping[str, Any], made: list[str]) -> tuple[bool, int]:
    pieces = [leaf for leaf in _leaves(tree) if "piece" in leaf]
    projects = [made.index(leaf["piece"].split("/")[0].removeprefix("project:")) for leaf in pieces]
    return not any(leaf.get("cut_outs") for leaf in pieces), min(projects, default=0)


def _sheet(kit: Kit, paper: Paper, planned: Mapping[str, Any], of: int, measures: Measures) -> GuideSheet:
    tree = planned["tree"]
    pieces = [leaf for leaf in _leaves(tree) if "piece" in leaf]
    # A sheet from which only back pieces come is cut with its back up: what is left lies right then.
    mirrored = bool(pieces) and all(leaf.get("side") == "back" for leaf in pieces)
    cuts = cuts_of(_seen_from_behind(tree) if mirrored else tree)
    side = paper.back.name if mirrored and paper.back is not None else paper.front.name
    words = f"{paper.name}, sheet {planned['sheet']} of {of}: {_listed(pieces)}."
    return GuideSheet(
        print=paper.name,
        number=planned["sheet"],
        of=of,
        side=side,
        svg=guide_drawing(
            kit,
            _seen_from_behind(tree) if mirrored else tree,
            cuts,
            name=f"{paper.id}-{planned['sheet']}",
            title=words,
            figure=lambda ticks: measures.own(ticks).text,
            mirrored=mirrored,
        ),
        words=words,
        rows=tuple(_row(cut, measures) for cut in cuts),
        keep=tuple(_keeps(pieces)),
    )


def _row(cut: CutStep, measures: Measures) -> CutRow:
    return CutRow(
        number=cut.number,
        turn=cut.turned,
        setting=measures.own(cut.setting).text,
        other=measures.in_other(cut.setting).text,
        gives=_gives(cut),
    )


def _gives(cut: CutStep) -> str:
    """What a cut gives, in few words: the letters of pieces, and what becomes of the rest."""
    sides = ("left", "right") if cut.along == "x" else ("lower", "upper")
    letters = [_letter(one.place) for one in cut.outcomes if one.kind == "piece"]
    parts = [side for side, one in zip(sides, cut.outcomes, strict=False) if one.kind == "part"]
    said = []
    if letters:
        said.append(" and ".join(letters))
    if len(parts) == 2:
        said.append("two parts to cut on")
    elif parts and len(cut.outcomes) == 2:
        said.append(f"{parts[0]} part to cut on")
    if any(one.kind == "offcut" for one in cut.outcomes):
        said.append("strip left over")
    return ", ".join(said) or "a trimmed edge"


def _keeps(pieces: list[Mapping[str, Any]]) -> Iterator[str]:
    for leaf in pieces:
        for tree in leaf.get("cut_outs", {}).values():
            letters = dict.fromkeys(_letter(inner["piece"]) for inner in _leaves(tree) if "piece" in inner)
            yield f"KEEP what comes out of the window of {_letter(leaf['piece'])}: it becomes {', '.join(letters)}."


def _missing(papers: Mapping[str, Paper], proof: Mapping[str, Any]) -> Iterator[str]:
    for answer in proof["papers"]:
        if answer["verdict"] == "short":
            yield f"{papers[answer['paper']].name}: no cut plan, the paper in the box does not suffice."
        elif answer["verdict"] == "unknown":
            yield f"{papers[answer['paper']].name}: no proven cut plan yet."


def _seen_from_behind(tree: Mapping[str, Any]) -> dict[str, Any]:
    """The same sheet turned like a page: left becomes right, so the parts of an upright cut change places."""
    across = tree["x"] + tree["x"] + tree["width"]
    return _mirrored(tree, across)


def _mirrored(node: Mapping[str, Any], across: int) -> dict[str, Any]:
    turned = {**node, "x": across - node["x"] - node["width"]}
    if "cut" in node:
        parts = [_mirrored(part, across) for part in node["parts"]]
        if node["cut"]["along"] == "x":
            parts.reverse()
            # The cut takes its slack on the other side now: it starts where the left part ends.
            first = parts[0]
            lost = len(parts) == 1
            at = across - node["cut"]["at"] if lost else first["x"] + first["width"]
            turned["cut"] = {"along": "x", "at": at}
        turned["parts"] = parts
    return turned


def _letter(place: str) -> str:
    made, _, part = place.partition("/part:")
    letter = made.rpartition(":")[2]
    return f"{letter} {part}" if part else letter


def _listed(pieces: list[Mapping[str, Any]]) -> str:
    letters = [_letter(leaf["piece"]) for leaf in pieces]
    counted = {letter: letters.count(letter) for letter in letters}
    return ", ".join(letter if many == 1 else f"{many} × {letter}" for letter, many in counted.items())


def _leaves(node: Mapping[str, Any]) -> Iterator[Mapping[str, Any]]:
    if "parts" in node:
        for part in node["parts"]:
            yield from _leaves(part)
    else:
        yield node
