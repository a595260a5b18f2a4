"""All pieces of one project as a form: a row a piece, a control a value, and one empty row for the next piece."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any

from frontend.kit_page.pieces import Choice, Pieces
from kits.planning.letters import free_letters
from layouts.document import Kit, Piece, Project, piece_place

__all__ = ["COLUMNS", "NEW", "Control", "Grid", "Row", "free_letters", "grid_of", "written"]

# The columns, what each is called, and where its value stands below its piece.
COLUMNS: Mapping[str, tuple[str, str]] = {
    "name": ("piece", "name"),
    "width": ("width", "size/width"),
    "height": ("height", "size/height"),
    "count": ("count", "count"),
    "paper": ("print", "paper"),
    "side": ("side", "side"),
    "print_reads": ("direction", "print_reads"),
}
# The row of the piece that is to be added; no piece can have this id.
NEW = "+"


@dataclass(frozen=True, slots=True)
class Control:
    """One value as it is typed. One without choices is typed freely; `fixed` is only shown.

    `wrong` is what was refused about it; `theirs` what somebody else made of it meanwhile.
    """

    name: str
    label: str
    text: str
    choices: tuple[Choice, ...] = ()
    fixed: bool = False
    wrong: str = ""
    theirs: str = ""


@dataclass(frozen=True, slots=True)
class Row:
    """One piece: its id, its place, and its controls in the order of the columns."""

    id: str
    place: str
    controls: tuple[Control, ...]
    notes: tuple[str, ...] = ()

    @property
    def is_new(self) -> bool:
        return self.id == NEW


@dataclass(frozen=True, slots=True)
class Grid:
    """The rows of a project, the one of the piece to be added last."""

    project: Project
    rows: tuple[Row, ...]

    @property
    def texts(self) -> dict[str, str]:
        """What each control that can be typed into holds, by its name."""
        return {control.name: control.text for row in self.rows for control in row.controls if not control.fixed}

    @property
    def wrong(self) -> tuple[Control, ...]:
        return tuple(control for row in self.rows for control in row.controls if control.wrong)

    def with_typed(
        self, typed: Mapping[str, str], wrong: Mapping[str, str] | None = None, theirs: Mapping[str, str] | None = None
    ) -> Grid:
        """Return the grid with what was typed in place of what is there."""
        wrong, theirs = wrong or {}, theirs or {}
        rows = tuple(
            replace(
                row,
                controls=tuple(
                    replace(
                        one,
                        text=typed.get(one.name, one.text),
                        wrong=wrong.get(one.name, ""),
                        theirs=theirs.get(one.name, ""),
                    )
                    for one in row.controls
                ),
            )
            for row in self.rows
        )
        return replace(self, rows=rows)


def grid_of(kit: Kit, project: Project) -> Grid:
    """Return the pieces of a project as they are."""
    lines = {line.letter: line for line in Pieces(kit).lines(project.id)}
    rows = [_row(kit, project, piece, lines[piece.id].notes, lines[piece.id].cells) for piece in project.pieces]
    return Grid(project, (*rows, _new_row(kit, project)))


def written(column: str, text: str) -> Any:
    """Return what was typed as a document writes it: a form knows texts only, and for no paper an empty one."""
    if column == "count" and text.isascii() and text.isdigit() and len(text) < 20:
        return int(text)
    return None if column == "paper" and not text else text


def _row(kit: Kit, project: Project, piece: Piece, notes: Sequence[str], cells: Sequence[Any]) -> Row:
    place, unit = piece_place(project.id, piece.id), kit.unit
    by_field = {cell.field: cell for cell in cells}
    texts = {
        "name": piece.name,
        "width": piece.size.width.text(unit),
        "height": piece.size.height.text(unit),
        "count": str(piece.count),
    }
    controls = []
    for column, (label, _) in COLUMNS.items():
        called = f"{label} of {piece.id}"
        cell = by_field.get(column)
        if cell is None:
            controls.append(Control(f"{piece.id}.{column}", called, texts[column]))
        elif cell.free:
            text = cell.typed[0]
            controls.append(Control(f"{piece.id}.{column}", called, text, cell.choices))
        else:
            controls.append(Control(f"{piece.id}.{column}", called, cell.shown, fixed=True))
    return Row(piece.id, place, tuple(controls), tuple(notes))


def _new_row(kit: Kit, project: Project) -> Row:
    papers = (Choice("", "choose a print"), *(Choice(paper.id, paper.name) for paper in kit.papers))
    choices = {
        "paper": papers,
        "side": tuple(Choice(one, one) for one in ("front", "back", "either", "both")),
        "print_reads": tuple(Choice(one, one) for one in ("up", "down", "left", "right", "any")),
    }
    # Of one print, every piece is.
    only = kit.papers[0].id if len(kit.papers) == 1 else ""
    texts = {"count": "1", "paper": only, "side": "front", "print_reads": "up"}
    return Row(
        NEW,
        "",
        (
            Control(f"{NEW}.id", "letter of the new piece", next(free_letters(kit))),
            *(
                Control(f"{NEW}.{column}", f"{label} of the new piece", texts.get(column, ""), choices.get(column, ()))
                for column, (label, _) in COLUMNS.items()
            ),
        ),
    )
