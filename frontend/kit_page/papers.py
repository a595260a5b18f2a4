"""The papers of a kit: what is true of each in words, and its sheets as they are cut."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import partial
from typing import Any

from django.utils.safestring import SafeString, mark_safe

from frontend.kit_page.findings import MendLine, mend_lines
from frontend.kit_page.reasons import Reasons, reasons_of
from frontend.kit_page.spare import SparePart, SpareWords
from frontend.words.numbers import counted, listed, percent
from layouts.document import Kit, Paper, paper_place
from layouts.drawing import Mark, OffcutLetters, sheet_drawing
from layouts.proofing.rules.papers import beyond_any_sheet
from layouts.shapes import sheet_size

__all__ = ["PaperTile", "SheetTile", "paper_tiles"]

type Data = Mapping[str, Any]

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

    `stale` says that the answer is from before the last change and is being worked out again. `reasons` are those of a
    print that is short, `ideas` what would save paper, `spare` what could be cut again.
    """

    place: str
    paper: str
    name: str
    verdict: str
    sentence: str
    why: str
    sheets: tuple[SheetTile, ...]
    reasons: Reasons | None
    ideas: tuple[MendLine, ...]
    spare: SparePart | None
    stale: bool
    # The size of one sheet, in no unit: the shape of a tile that has no drawing.
    across: int
    up: int


def paper_tiles(
    kit: Kit,
    answers: Mapping[str, Data],
    earlier: Mapping[str, Data],
    drawn_from: Kit,
    findings: Sequence[Data] = (),
) -> tuple[PaperTile, ...]:
    """Return the prints in document order, each by its answer in `answers`, else by its `earlier` one.

    Earlier answers belong to an earlier document, `drawn_from`; `findings` are those of the proof that is shown.
    """
    known = [(answers.get(paper.id), earlier.get(paper.id)) for paper in kit.papers]
    offcuts = OffcutLetters(kit, [answer for pair in known if (answer := pair[0] or pair[1]) is not None])
    now = SpareWords(kit, offcuts)
    before = now if drawn_from is kit else SpareWords(drawn_from, offcuts)
    tiles = []
    for paper, (answer, old) in zip(kit.papers, known, strict=True):
        stale = answer is None and old is not None
        said = _Said(drawn_from if stale else kit, paper, answer or old, offcuts, before if stale else now, findings)
        tiles.append(said.tile(kit, stale=stale))
    return tuple(tiles)


@dataclass(frozen=True, slots=True)
class _Said:
    """What there is to say of one print by its answer; `kit` is the one that was asked about."""

    kit: Kit
    paper: Paper
    answer: Data | None
    offcuts: OffcutLetters
    spare: SpareWords
    findings: Sequence[Data]

    def tile(self, kit: Kit, *, stale: bool) -> PaperTile:
        across, up = _shape(kit, self.paper)
        place, name = paper_place(self.paper.id), self.paper.name
        tile = partial(PaperTile, place, self.paper.id, name, stale=stale, across=across, up=up)
        answer = self.answer
        if answer is None:
            sentence = "Not answered yet."
            return tile("checking", sentence, why="", sheets=(), reasons=None, ideas=(), spare=None)
        return tile(
            answer["verdict"],
            _sentence(answer, self.paper.id in beyond_any_sheet(self.findings)),
            why=_why(answer),
            sheets=tuple(_sheets(self.kit, self.paper, answer, self.offcuts)),
            reasons=reasons_of(self.kit, self.paper, self.findings) if answer["verdict"] == "short" else None,
            ideas=mend_lines(answer.get("ideas", ()), f"idea-{self.paper.id}"),
            spare=self.spare.of(answer),
        )


def _shape(kit: Kit, paper: Paper) -> tuple[int, int]:
    size = sheet_size(paper, {pad.id: pad for pad in kit.pads})
    longest = max(size.width.ticks, size.height.ticks)
    return size.width.ticks * _TILE // longest, size.height.ticks * _TILE // longest


def _sheets(kit: Kit, paper: Paper, answer: Data, offcuts: OffcutLetters) -> Iterator[SheetTile]:
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
        title = f"{caption}: {_pieces(planned['tree'])}{_marked(offcuts.on(paper.id, planned['sheet']))}"
        # The drawing escapes what it writes.
        marks = offcuts.on(paper.id, planned["sheet"])
        name = f"sheet-{paper.id}-{planned['sheet']}"
        svg = mark_safe(sheet_drawing(kit, planned, name=name, title=title, marks=marks))
        yield SheetTile(svg, caption, "; ".join(notes))


def _sentence(answer: Mapping[str, Any], is_never: bool) -> str:
    """The answer in words; `is_never`: some piece can be cut from none of the sheets."""
    box, needed = counted(answer["sheets"], "sheet"), answer["needed"]
    least, most = needed["at_least"], needed["at_most"]
    if answer["verdict"] == "fits":
        if not answer["plan"]:
            return f"Nothing is cut from it; {box} in the box."
        return f"Fits: {len(answer['plan'])} of {box} cut."
    if answer["verdict"] == "short":
        if is_never:
            return f"Short: {box} in the box, and no number would do: something lies on none of its sheets."
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


def _marked(marks: Sequence[Mark]) -> str:
    return f"; offcut{'s' if len(marks) > 1 else ''} {listed([mark.letter for mark in marks])}" if marks else ""


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
