"""The cutting list of a project: every piece and flat part, by the print it is cut from."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from kits.sheets.content.cut_outs import can_be_cut, lost_pieces
from kits.sheets.content.measures import Measures, SizeText
from kits.sheets.content.templates import has_template
from layouts.document import Each, Form, Kit, Paper, Piece, Project, Size, form_place, piece_place
from layouts.document.forms import FlatTag, Scored
from layouts.shapes import FlatPart, NotBuilt, cut_size
from layouts.shapes.cut_sizes import finished_size

__all__ = ["CutRow", "PrintRows", "cutting_list"]

_SIDES = ("width", "height")
_NOT_OUT = "What does not come out of its window needs a paper."
_SHAPES = {"ellipse": "an oval", "arch": "an arch", "rounded": "rounded corners", "polygon": "its outline"}
_READS = {
    "up": "print upright",
    "down": "print upside down",
    "left": "print reads to the left",
    "right": "print reads to the right",
}


@dataclass(frozen=True, slots=True)
class CutRow:
    """One line of the list. `size` is None where it is not worked out; `finished` is what decorative edges leave of
    it, None where that is all of it."""

    letter: str
    name: str
    count: int
    size: SizeText | None
    notes: tuple[str, ...]
    finished: SizeText | None = None


@dataclass(frozen=True, slots=True)
class PrintRows:
    """What is cut from one print (or from cut-outs), and what the proof says where the paper does not suffice."""

    name: str
    rows: tuple[CutRow, ...]
    warning: str = ""


def cutting_list(kit: Kit, proof: Mapping[str, Any], project: Project, measures: Measures) -> tuple[PrintRows, ...]:
    """Return the list by print, in the order of the box; pieces from cut-outs, and those without a paper, last."""
    return tuple(group for group in _groups(kit, proof, project, measures) if group.rows)


def _groups(kit: Kit, proof: Mapping[str, Any], project: Project, measures: Measures) -> Iterator[PrintRows]:
    rows = _Rows(kit, project, measures, lost_pieces(proof))
    verdicts = {paper["paper"]: paper["verdict"] for paper in proof["papers"]}
    things: tuple[Piece | Form, ...] = (*project.pieces, *project.forms)
    papers = {paper.id: paper for paper in kit.papers}
    for paper in kit.papers:
        own = rows.of([thing for thing in things if thing.paper == paper.id], [paper], project.makes)
        yield PrintRows(paper.name, own, _warning([verdicts[paper.id]]))
    # Each copy of the project is cut from another print: what is said is cut from every one of them.
    for shared in dict.fromkeys(thing.paper.each for thing in things if isinstance(thing.paper, Each)):
        among = [papers[paper] for paper in shared]
        members = [thing for thing in things if isinstance(thing.paper, Each) and thing.paper.each == shared]
        own = rows.of(members, among, project.makes // len(among))
        yield PrintRows(f"From each of {_listed(among)}", own, _warning([verdicts[paper] for paper in shared]))
    lost = [piece for piece in project.pieces if piece_place(project.id, piece.id) in rows.lost]
    kept = [piece for piece in project.pieces if piece.from_ and piece not in lost]
    yield PrintRows("From what comes out of windows", rows.of(kept, [], project.makes))
    homeless = [piece for piece in project.pieces if piece in lost or (piece.paper is None and piece.from_ is None)]
    yield PrintRows("From a paper not chosen yet", rows.of(homeless, [], project.makes), _NOT_OUT if lost else "")


def _warning(verdicts: Sequence[str]) -> str:
    if "short" in verdicts:
        return "There is no cut plan for this print: the paper in the box does not suffice."
    return "There is no proven cut plan for this print yet." if "unknown" in verdicts else ""


def _listed(papers: Sequence[Paper]) -> str:
    names = [paper.name for paper in papers]
    return " and ".join([*([", ".join(names[:-1])] if names[:-1] else []), names[-1]])


class _Rows:
    """Makes the lines of one project's list."""

    def __init__(self, kit: Kit, project: Project, measures: Measures, lost: frozenset[str]) -> None:
        self.lost = lost
        self._kit = kit
        self._project = project
        self._measures = measures
        self._tools = {tool.id: tool for tool in kit.tools}
        other = measures.as_shown_in_other
        self._other_tools = {tool.id: tool for tool in other.tools}
        self._others = {piece.id: piece for one in other.projects if one.id == project.id for piece in one.pieces}
        # Flat parts are worked out from the kit as it is, and shown as the proof shows them.
        self._exact = {form.id: form for one in measures.kit.projects if one.id == project.id for form in one.forms}
        self._flat = measures.flat_sizes

    def of(self, things: Sequence[Piece | Form], papers: Sequence[Paper], times: int) -> tuple[CutRow, ...]:
        """Return the lines of some pieces and forms, each cut so many times its count from each of the papers."""
        return tuple(row for thing in things for row in self._of(thing, papers, times))

    def _of(self, thing: Piece | Form, papers: Sequence[Paper], times: int) -> Iterator[CutRow]:
        if not isinstance(thing, Piece):
            yield from self._of_form(thing, papers, thing.count * times)
            return
        notes = tuple(note for note in self._notes(thing, papers) if note)
        other = self._others[thing.id]
        cut, finished = (
            self._size_of(
                thing, way(thing, self._tools), way(other, self._other_tools), is_stated=thing.size_is == name
            )
            for name, way in (("cut", cut_size), ("finished", finished_size))
        )
        yield CutRow(
            thing.id, thing.name, thing.count * times, cut, notes, finished if self._is_bitten(thing) else None
        )

    def _size_of(self, piece: Piece, size: Size, other: Size, *, is_stated: bool) -> SizeText:
        """A size of a piece as it is shown; the marks of the proof are on the one that the document states."""
        place = f"{piece_place(self._project.id, piece.id)}/size"
        width, height = (
            self._measures.own(length.ticks).text + (self._measures.mark(f"{place}/{side}") if is_stated else "")
            for side, length in zip(_SIDES, size, strict=True)
        )
        in_other = (self._measures.in_other(other.width.ticks).text, self._measures.in_other(other.height.ticks).text)
        return SizeText((width, height), in_other)

    def _is_bitten(self, piece: Piece) -> bool:
        """Whether edges take something from it and leave something: nobody prints a size of less than nothing."""
        finished = finished_size(piece, self._tools)
        return finished != cut_size(piece, self._tools) and min(finished).ticks > 0

    def _of_form(self, form: Form, papers: Sequence[Paper], count: int) -> Iterator[CutRow]:
        notes = (self._shows(papers),) if form.side == "back" else ()
        try:
            parts = [self._flat.parts(self._exact[form.id], self._project.id, paper) for paper in papers]
        except NotBuilt as reason:
            yield CutRow(form.id, form.name, count, None, (*notes, str(reason)))
            return
        # Prints of another thickness may need another size.
        alike = all(_sizes(other) == _sizes(parts[0]) for other in parts)
        for paper, of_paper in zip(papers[:1] if alike else papers, parts, strict=False):
            for part in of_paper:
                letter = form.id if part.number is None else f"{form.id} {part.number}"
                name = form.name if part.number is None else f"{form.name}, part {part.number}"
                only = () if alike else (f"from {paper.name}",)
                size = self._size(form, part, is_first=paper is papers[0])
                yield CutRow(letter, name, count, size, (*notes, *only))

    def _size(self, form: Form, part: FlatPart, *, is_first: bool) -> SizeText:
        """The size of a flat part: the printed one of the first paper, which is the one that the proof lists."""
        width, height = part.width.ticks, part.height.ticks
        if not is_first:
            return self._measures.size(width, height)
        place = form_place(self._project.id, form.id)
        if isinstance(form, Scored | FlatTag):
            return self._measures.size_at(f"{place}/size", width, height)
        place += "" if part.number is None else f"/part:{part.number}"
        return self._measures.size_at(f"{place}/flat", width, height)

    def _notes(self, piece: Piece, papers: Sequence[Paper]) -> Iterator[str]:
        if piece.from_ is not None:
            project, host, _ = piece.from_.split("/")
            title = next(one.title for one in self._kit.projects if one.id == project)
            of = "" if project == self._project.id else f" of the {title}"
            is_lost = piece_place(self._project.id, piece.id) in self.lost
            yield f"{'does not come out of' if is_lost else 'from'} the window of {host}{of}"
        if piece.side == "back":
            yield self._shows(papers)
        elif piece.side == "both":
            yield "both sides show"
        yield _reading(piece, papers)
        if piece.shape.kind != "rect":
            template = " (templates)" if has_template(piece, self._measures.options) else ""
            yield f"then trim to {_SHAPES[piece.shape.kind]}{template}"
        edges = [side for side in ("top", "right", "bottom", "left") if getattr(piece.edges, side)]
        if edges:
            tools = dict.fromkeys(self._tools[getattr(piece.edges, side)].name or "decorative edge" for side in edges)
            where = "all round" if len(edges) == 4 else " and ".join(edges)
            yield f"{where}: {', '.join(tools)}"
        windows = can_be_cut(piece)
        if windows:
            yield "window" if len(windows) == 1 else f"{len(windows)} windows"

    def _shows(self, papers: Sequence[Paper]) -> str:
        names = {paper.back.name if paper.back is not None else "" for paper in papers}
        return f"show {names.pop()}" if len(names) == 1 and names != {""} else "show the back"


def _sizes(parts: Sequence[FlatPart]) -> list[tuple[int, int]]:
    return [(part.width.ticks, part.height.ticks) for part in parts]


def _reading(piece: Piece, papers: Sequence[Paper]) -> str:
    sides = [paper.back if piece.side == "back" else paper.front for paper in papers]
    if piece.print_reads == "any" or all(side is None or side.repeat == "any" for side in sides):
        return ""
    return _READS[piece.print_reads]
