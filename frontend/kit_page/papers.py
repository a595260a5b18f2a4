"""The papers of a kit: what is true of each in words, and its sheets as they are cut."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import partial
from typing import Any

from django.utils.safestring import SafeString, mark_safe

from frontend.words.numbers import counted, listed, percent
from layouts.document import Kit, Paper, paper_place
from layouts.drawing import sheet_drawing
from layouts.shapes import sheet_size

__all__ = ["PaperTile", "SheetTile", "paper_tiles"]

# The longer side of a tile without a drawing.
_TILE = 1000
_PROVED = {
    "area": "the pieces are larger than the sheets",
    "bound": "proved by a bound",
    "exhausted": "every way of cutting was tried",
}


@dataclass(frozen=True, slots=True)
class SheetTile:
    """One sheet that is cut: its drawing, which print it is, and what becomes of it."""

    drawing: SafeString
    caption: str
    note: str


@dataclass(frozen=True, slots=True)
class PaperTile:
    """One print. `verdict` is fits, short, unknown, or checking where no answer is known yet.

    `stale` says that the answer is from before the last change and is being worked out again.
    """

    place: str
    name: str
    verdict: str
    sentence: str
    why: str
    sheets: tuple[SheetTile, ...]
    stale: bool
    # The size of one sheet, in no unit: the shape of a tile that has no drawing.
    across: int
    up: int


def paper_tiles(
    kit: Kit, answers: Mapping[str, Mapping[str, Any]], earlier: Mapping[str, Mapping[str, Any]], drawn_from: Kit
) -> tuple[PaperTile, ...]:
    """Return the prints in document order, each by its answer in `answers`, else by its `earlier` one.

    Earlier answers belong to an earlier document, `drawn_from`.
    """
    return tuple(_tile(kit, paper, answers.get(paper.id), earlier.get(paper.id), drawn_from) for paper in kit.papers)


def _tile(
    kit: Kit, paper: Paper, answer: Mapping[str, Any] | None, earlier: Mapping[str, Any] | None, drawn_from: Kit
) -> PaperTile:
    known, stale = (answer, False) if answer is not None else (earlier, earlier is not None)
    across, up = _shape(kit, paper)
    tile = partial(PaperTile, place=paper_place(paper.id), name=paper.name, across=across, up=up, stale=stale)
    if known is None:
        return tile(verdict="checking", sentence="Not answered yet.", why="", sheets=())
    sheets = tuple(_sheets(drawn_from if stale else kit, paper, known))
    return tile(verdict=known["verdict"], sentence=_sentence(known), why=_why(known), sheets=sheets)


def _shape(kit: Kit, paper: Paper) -> tuple[int, int]:
    size = sheet_size(paper, {pad.id: pad for pad in kit.pads})
    longest = max(size.width.ticks, size.height.ticks)
    return size.width.ticks * _TILE // longest, size.height.ticks * _TILE // longest


def _sheets(kit: Kit, paper: Paper, answer: Mapping[str, Any]) -> Iterator[SheetTile]:
    box = answer["sheets"]
    free = box - len(answer["plan"])
    stated = sheet_size(paper, {pad.id: pad for pad in kit.pads})
    size = f"{' × '.join(length.text(kit.unit) for length in stated)} {kit.unit}"
    for planned in answer["plan"]:
        caption = f"{paper.name} {planned['sheet']} of {box}"
        notes = [f"{size}, used {_share(planned['tree'])}"]
        if kept := _kept(planned["tree"]):
            notes.append(f"keep what comes out for {listed(kept)}")
        if free > 0 and planned is answer["plan"][-1]:
            notes.append(f"{counted(free, 'sheet')} left for mistakes")
        title = f"{caption}: {_pieces(planned['tree'])}"
        # The drawing escapes what it writes.
        svg = mark_safe(sheet_drawing(kit, planned, name=f"sheet-{paper.id}-{planned['sheet']}", title=title))
        yield SheetTile(svg, caption, "; ".join(notes))


def _sentence(answer: Mapping[str, Any]) -> str:
    box, needed = counted(answer["sheets"], "sheet"), answer["needed"]
    least, most = needed["at_least"], needed["at_most"]
    if answer["verdict"] == "fits":
        if not answer["plan"]:
            return f"Nothing is cut from it; {box} in the box."
        return f"Fits: {len(answer['plan'])} of {box} cut."
    if answer["verdict"] == "short":
        enough = f"; {most} would do" if most is not None else ""
        return f"Short: {box} in the box, at least {least} needed{enough}."
    best = f"; the best plan found takes {most}" if most is not None else ""
    return f"Undecided: {box} in the box, at least {least} needed{best}."


def _why(answer: Mapping[str, Any]) -> str:
    kind = answer["reason"]["kind"]
    if answer["verdict"] == "unknown":
        return "The search ended at its bound without an answer." if kind == "budget" else "No rule works this out yet."
    return f"Proof: {_PROVED[kind]}." if kind in _PROVED else ""


def _share(tree: Mapping[str, Any]) -> str:
    used = sum(leaf["width"] * leaf["height"] for leaf in _leaves(tree) if "piece" in leaf)
    return percent(used, tree["width"] * tree["height"])


def _pieces(tree: Mapping[str, Any]) -> str:
    return listed([_letter(leaf) for leaf in _leaves(tree) if "piece" in leaf]) or "nothing cut"


def _kept(tree: Mapping[str, Any]) -> list[str]:
    inner = (node for leaf in _leaves(tree) for node in leaf.get("cut_outs", {}).values())
    return list(dict.fromkeys(_letter(leaf) for node in inner for leaf in _leaves(node) if "piece" in leaf))


def _letter(leaf: Mapping[str, Any]) -> str:
    made, _, part = leaf["piece"].partition("/part:")
    letter: str = made.rpartition(":")[2]
    return f"{letter} part {part}" if part else letter


def _leaves(node: Mapping[str, Any]) -> Iterator[Mapping[str, Any]]:
    if "parts" in node:
        for part in node["parts"]:
            yield from _leaves(part)
    else:
        yield node
