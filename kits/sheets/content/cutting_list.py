"""The cutting list of a project: every piece and flat part, by the print it is cut from."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from kits.sheets.content.measures import Measures, SizeText
from layouts.document import Each, Form, Kit, Paper, Piece, Project
from layouts.shapes import FlatSizes, NotBuilt, cut_size

__all__ = ["CutRow", "PrintRows", "cutting_list"]

_SHAPES = {"ellipse": "an oval", "arch": "an arch", "rounded": "rounded corners", "polygon": "its outline"}
_READS = {"up": "", "down": "print upside down", "left": "print reads to the left", "right": "print reads to the right"}


@dataclass(frozen=True, slots=True)
class CutRow:
    """One line of the list. `size` is None where it is not worked out."""

    letter: str
    name: str
    count: int
    size: SizeText | None
    notes: tuple[str, ...]


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
    rows = _Rows(kit, project, measures)
    verdicts = {paper["paper"]: paper["verdict"] for paper in proof["papers"]}
    for paper in kit.papers:
        own = (
            *(rows.of_piece(piece, paper) for piece in project.pieces if piece.paper == paper.id),
            *(row for form in project.forms if form.paper == paper.id for row in rows.of_form(form, paper)),
        )
        yield PrintRows(paper.name, own, _warning(verdicts.get(paper.id, "fits")))
    yield from _of_each(kit, project, rows)
    yield PrintRows(
        "From what comes out of windows", tuple(rows.of_piece(piece, None) for piece in project.pieces if piece.from_)
    )
    homeless = [piece for piece in project.pieces if piece.paper is None and piece.from_ is None]
    yield PrintRows("From a paper not chosen yet", tuple(rows.of_piece(piece, None) for piece in homeless))


def _of_each(kit: Kit, project: Project, rows: _Rows) -> Iterator[PrintRows]:
    """One group for each set of prints that the copies of a project share out among them."""
    names = {paper.id: paper for paper in kit.papers}
    things: tuple[Piece | Form, ...] = (*project.pieces, *project.forms)
    sets = dict.fromkeys(thing.paper.each for thing in things if isinstance(thing.paper, Each))
    for papers in sets:
        first = names[papers[0]]
        own = (
            *(
                rows.of_piece(piece, first)
                for piece in project.pieces
                if isinstance(piece.paper, Each) and piece.paper.each == papers
            ),
            *(
                row
                for form in project.forms
                if isinstance(form.paper, Each) and form.paper.each == papers
                for row in rows.of_form(form, first)
            ),
        )
        listed = ", ".join(names[paper].name for paper in papers[:-1]) + f" and {names[papers[-1]].name}"
        yield PrintRows(f"One set from each of {listed}" if len(papers) > 1 else names[papers[0]].name, own)


def _warning(verdict: str) -> str:
    if verdict == "short":
        return "There is no cut plan for this print: the paper in the box does not suffice."
    return "There is no proven cut plan for this print yet." if verdict == "unknown" else ""


class _Rows:
    """Makes the lines of one project's list."""

    def __init__(self, kit: Kit, project: Project, measures: Measures) -> None:
        self._kit = kit
        self._project = project
        self._measures = measures
        self._tools = {tool.id: tool for tool in kit.tools}
        self._flat = FlatSizes.of(kit)

    def of_piece(self, piece: Piece, paper: Paper | None) -> CutRow:
        size = cut_size(piece, self._tools)
        notes = tuple(note for note in self._notes(piece, paper) if note)
        text = self._measures.size(size.width.ticks, size.height.ticks)
        return CutRow(piece.id, piece.name, piece.count * self._project.makes, text, notes)

    def of_form(self, form: Form, paper: Paper) -> Iterator[CutRow]:
        count = form.count * self._project.makes
        try:
            parts = self._flat.parts(form, self._project.id, paper)
        except NotBuilt as reason:
            yield CutRow(form.id, form.name, count, None, (str(reason),))
            return
        for part in parts:
            letter = form.id if part.number is None else f"{form.id} {part.number}"
            name = form.name if part.number is None else f"{form.name}, part {part.number}"
            back = ("back outside",) if form.side == "back" else ()
            yield CutRow(letter, name, count, self._measures.size(part.width.ticks, part.height.ticks), back)

    def _notes(self, piece: Piece, paper: Paper | None) -> Iterator[str]:
        if piece.from_ is not None:
            project, host, _ = piece.from_.split("/")
            title = next(one.title for one in self._kit.projects if one.id == project)
            of = "" if project == self._project.id else f" of the {title}"
            yield f"from the window of {host}{of}"
        if piece.side == "back":
            yield f"show {paper.back.name}" if paper is not None and paper.back is not None else "show the back"
        elif piece.side == "both":
            yield "both sides show"
        yield self._reading(piece, paper)
        if piece.shape.kind != "rect":
            yield f"then trim to {_SHAPES[piece.shape.kind]} (templates)"
        edges = [side for side in ("top", "right", "bottom", "left") if getattr(piece.edges, side)]
        if edges:
            tools = dict.fromkeys(self._tools[getattr(piece.edges, side)].name or "decorative edge" for side in edges)
            where = "all round" if len(edges) == 4 else " and ".join(edges)
            yield f"{where}: {', '.join(tools)}"
        if piece.windows:
            yield "window" if len(piece.windows) == 1 else f"{len(piece.windows)} windows"

    def _reading(self, piece: Piece, paper: Paper | None) -> str:
        if paper is None or piece.print_reads == "any":
            return ""
        side = paper.back if piece.side == "back" else paper.front
        if side is None or side.repeat == "any":
            return ""
        return _READS[piece.print_reads] or "print upright"
