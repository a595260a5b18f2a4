"""The pieces of each project as lines of a table, and the values in them that are changed in place."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from urllib.parse import quote

from frontend.kit_page.findings import FindingLine
from frontend.words.numbers import listed
from layouts.document import Each, Kit, Paper, Piece, piece_place
from layouts.printed import Printing, ShownFigures, text_of
from layouts.shapes import cut_size
from layouts.shapes.cut_sizes import finished_size

__all__ = ["FIELDS", "Cell", "Choice", "PieceLine", "Pieces"]

# What can be changed in place, in the order of the columns, and what each is called.
FIELDS = {"size": "size", "count": "count", "paper": "print", "side": "side", "print_reads": "direction"}

_READS = ("up", "down", "left", "right", "any")


@dataclass(frozen=True, slots=True)
class Choice:
    value: str
    words: str


@dataclass(frozen=True, slots=True)
class Cell:
    """One value of a piece. `typed` are the texts its form starts with, one for each of its inputs.

    A value with `choices` is chosen from a list; one that is not `free` is only shown.
    """

    place: str
    field: str
    name: str
    shown: str
    typed: tuple[str, ...]
    choices: tuple[Choice, ...]
    free: bool

    @property
    def label(self) -> str:
        return FIELDS[self.field]

    @property
    def query(self) -> str:
        """What of an address says which cell is meant, after `change=` or `show=`."""
        return f"{quote(self.place)}&field={self.field}"

    @property
    def key(self) -> str:
        """The id of the element that holds the cell."""
        return f"{self.place}/{self.field}"


@dataclass(frozen=True, slots=True)
class PieceLine:
    """One piece: its letter, name and cells, its size in the other system, and the findings that name it."""

    place: str
    letter: str
    name: str
    cells: tuple[Cell, ...]
    other: str
    notes: tuple[str, ...]
    said: tuple[FindingLine, ...]


class Pieces:
    """The pieces of one kit as lines and cells."""

    def __init__(self, kit: Kit, said: Mapping[str, tuple[FindingLine, ...]] | None = None) -> None:
        self._kit = kit
        self._papers = {paper.id: paper for paper in kit.papers}
        self._tools = {tool.id: tool for tool in kit.tools}
        self._said = said or {}
        self._windows = _uses(kit)
        self._shown: ShownFigures | None = None

    def lines(self, project: str) -> tuple[PieceLine, ...]:
        return tuple(
            self._line(one.id, piece) for one in self._kit.projects if one.id == project for piece in one.pieces
        )

    def cell(self, place: str, field: str) -> Cell | None:
        """Return one cell by the place of its piece, or None: the piece may have gone meanwhile."""
        line = self.line(place)
        return next((cell for cell in line.cells if cell.field == field), None) if line is not None else None

    def line(self, place: str) -> PieceLine | None:
        for project in self._kit.projects:
            for piece in project.pieces:
                if piece_place(project.id, piece.id) == place:
                    return self._line(project.id, piece)
        return None

    def _line(self, project: str, piece: Piece) -> PieceLine:
        place = piece_place(project, piece.id)
        return PieceLine(
            place=place,
            letter=piece.id,
            name=piece.name,
            cells=tuple(self._cells(place, piece)),
            other=self._in_other(place),
            notes=tuple(self._notes(place, piece)),
            said=self._said.get(place, ()),
        )

    def _in_other(self, place: str) -> str:
        """The size in the other system, rounded with all that it must add up with; what a check then has to hold down
        for a print, nobody knows before it has run."""
        if self._shown is None:
            self._shown = Printing(self._kit).shown("mm" if self._kit.unit == "in" else "in")
        ticks = (self._shown.by_place[f"{place}/size/{side}"] for side in ("width", "height"))
        return " × ".join(text_of(one, self._shown.system) for one in ticks)

    def _cells(self, place: str, piece: Piece) -> Sequence[Cell]:
        unit = self._kit.unit
        size = tuple(length.text(unit) for length in piece.size)
        paper = self._papers.get(piece.paper) if isinstance(piece.paper, str) else None
        return (
            _cell(place, piece, "size", " × ".join(size), size),
            _cell(place, piece, "count", str(piece.count), (str(piece.count),)),
            self._paper_cell(place, piece),
            _cell(place, piece, "side", piece.side, (piece.side,), _sides(paper)),
            _cell(
                place,
                piece,
                "print_reads",
                piece.print_reads,
                (piece.print_reads,),
                tuple(Choice(one, one) for one in _READS),
            ),
        )

    def _paper_cell(self, place: str, piece: Piece) -> Cell:
        if piece.from_ is not None:
            project, host, window = piece.from_.split("/")
            # The window of which project matters only where it is another one.
            within = "" if f"project:{project}/" in place else f" of {project}"
            return _cell(place, piece, "paper", f"window {window} of {host}{within}", ())
        if isinstance(piece.paper, Each):
            return _cell(
                place, piece, "paper", f"one of each: {listed([self._name(one) for one in piece.paper.each])}", ()
            )
        choices = tuple(Choice(paper.id, paper.name) for paper in self._kit.papers)
        if piece.paper is None:
            return _cell(place, piece, "paper", "none yet", ("",), (Choice("", "choose a print"), *choices))
        return _cell(place, piece, "paper", self._name(piece.paper), (piece.paper,), choices)

    def _name(self, paper: str) -> str:
        return self._papers[paper].name if paper in self._papers else paper

    def _notes(self, place: str, piece: Piece) -> Sequence[str]:
        notes = []
        for window in piece.windows:
            users = self._windows.get(f"{place}/{window.id}", [])
            kept = f", kept for {listed(users)}" if users else (", kept" if window.cut_out == "kept" else "")
            notes.append(f"window {window.id}{kept}")
        if piece.shape.kind != "rect":
            notes.append(f"trimmed to {_SHAPES[piece.shape.kind]}")
        cut, finished = cut_size(piece, self._tools), finished_size(piece, self._tools)
        if cut != finished and min(finished).ticks > 0:
            sizes = (" × ".join(length.text(self._kit.unit) for length in size) for size in (cut, finished))
            notes.append("cut {}, finished {} after its edges are made".format(*sizes))
        elif piece.size_is == "finished":
            notes.append("size after its edges are made")
        return notes


_SHAPES = {"ellipse": "an oval", "arch": "an arch", "rounded": "rounded corners", "polygon": "its outline"}


def _cell(
    place: str, piece: Piece, field: str, shown: str, typed: tuple[str, ...], choices: tuple[Choice, ...] = ()
) -> Cell:
    return Cell(place, field, f"{FIELDS[field]} of {piece.id}", shown, typed, choices, bool(typed))


def _sides(paper: Paper | None) -> tuple[Choice, ...]:
    """The sides of a piece, each with the name of the print that is seen then."""
    front = f"front: {paper.front.name}" if paper is not None else "front"
    back = f"back: {paper.back.name}" if paper is not None and paper.back is not None else "back"
    return (Choice("front", front), Choice("back", back), Choice("either", "either"), Choice("both", "both"))


def _uses(kit: Kit) -> dict[str, list[str]]:
    """Which pieces come out of which window, by the window's piece and id."""
    uses: dict[str, list[str]] = {}
    for project in kit.projects:
        for piece in project.pieces:
            if piece.from_ is not None:
                host, name, window = piece.from_.split("/")
                letter = piece.id if host == project.id else f"{piece.id} of {project.title}"
                uses.setdefault(f"{piece_place(host, name)}/{window}", []).append(letter)
    return uses
