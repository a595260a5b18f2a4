"""If a cut goes wrong: which pieces can be cut again, each from which offcut, and which cannot."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from kits.sheets.content.measures import Measures
from layouts.document import Kit
from layouts.drawing import Letters, Mark, OffcutLetters
from layouts.proofing import print_parts
from layouts.proofing.spare import spare_as_cut
from layouts.proofing.weakest import weakest_point

__all__ = ["GuideSpare", "SpareRow", "guide_spare"]

type Node = Mapping[str, Any]


@dataclass(frozen=True, slots=True)
class SpareRow:
    """One offcut: its letter, empty for a whole sheet that is not cut; which sheet, its size, and what it gives."""

    letter: str
    sheet: str
    size: str
    gives: str


@dataclass(frozen=True, slots=True)
class GuideSpare:
    """What can be cut again: the offcuts as rows, and by print what cannot. `careful` is what can be spoilt most often
    of that, with its print; empty where all can be cut again."""

    rows: tuple[SpareRow, ...]
    lost: tuple[tuple[str, str], ...]
    careful: str
    _letters: OffcutLetters

    def marks(self, paper: str, sheet: Node, *, from_behind: bool = False) -> tuple[Mark, ...]:
        """Return the marks of the offcuts of a sheet of the plan, as it is seen."""
        marks = self._letters.on(paper, sheet["sheet"])
        across = 2 * sheet["tree"]["x"] + sheet["tree"]["width"]
        return tuple(mark.seen_from_behind(across) for mark in marks) if from_behind else marks


def guide_spare(
    kit: Kit, proof: Mapping[str, Any], plans: Mapping[str, Sequence[Node]], measures: Measures
) -> GuideSpare:
    """Return what can be cut again of a kit whose prints are cut by these plans, by paper.

    `kit` is the kit as it is: which way a piece may lie is no question of how its size is shown.
    """
    fits = {answer["paper"] for answer in proof["papers"] if answer["verdict"] == "fits"}
    parts = {part.paper: part for part in print_parts(kit)}
    papers: list[dict[str, Any]] = []
    for paper, plan in plans.items():
        spare = spare_as_cut(parts[paper], plan) if paper in fits else None
        if spare is not None:
            papers.append({"paper": paper, "plan": plan, "spare": spare.as_data()})
    names = {paper.id: paper.name for paper in kit.papers}
    letters, offcuts = Letters(kit), OffcutLetters(kit, papers)
    weakest = weakest_point(kit, papers)
    rows = (row for one in papers for row in _rows(one, names[one["paper"]], letters, offcuts, measures))
    lost = ((names[one["paper"]], ", ".join(_lost(one, letters))) for one in papers)
    careful = "" if weakest is None else f"{letters.of(weakest.place)} of {names[weakest.paper]}"
    return GuideSpare(tuple(rows), tuple(one for one in lost if one[1]), careful, offcuts)


def _rows(answer: Node, paper: str, letters: Letters, offcuts: OffcutLetters, measures: Measures) -> Iterator[SpareRow]:
    """Yield the offcuts of one print in the order of their sheets; one row each, however many pieces it would give."""
    gives: dict[tuple[int, int, int, int, int], list[str]] = {}
    for piece in answer["spare"]["pieces"]:
        source = piece["from"]
        if source is not None:
            key = (source["sheet"], source["x"], source["y"], source["width"], source["height"])
            gives.setdefault(key, []).append(letters.of(piece["at"]))
    for (sheet, x, y, width, height), names in sorted(gives.items()):
        source = {"sheet": sheet, "x": x, "y": y, "width": width, "height": height}
        letter = offcuts.of(answer["paper"], source)
        said = f"{paper}, sheet {sheet}" if letter else f"{paper}, a whole sheet that is not cut"
        yield SpareRow(letter, said, measures.size(width, height).own_text, _or(list(dict.fromkeys(names))))


def _lost(answer: Node, letters: Letters) -> Iterator[str]:
    for piece in answer["spare"]["pieces"]:
        if piece["from"] is None:
            yield letters.of(piece["at"])


def _or(names: Sequence[str]) -> str:
    return " or ".join([", ".join(names[:-1]), names[-1]] if len(names) > 1 else names)
