"""Templates: windows and odd shapes at true size, each where a page can hold it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from kits.sheets.options import SheetOptions
from layouts.document import Kit, Piece, Project
from layouts.drawing import TrueSize, check_bars, piece_template, window_template
from layouts.lengths import TICKS_PER_MM

__all__ = ["Template", "TemplatePages", "template_pages"]

# What a page holds inside its margins, less the drawing's own margin and a heading, in millimetres.
_ROOM = {"letter": (182, 222), "a4": (176, 240)}


@dataclass(frozen=True, slots=True)
class Template:
    """One template: what it is for, what it shows in words, and the drawing with its true size."""

    project: str
    heading: str
    words: str
    drawing: TrueSize


@dataclass(frozen=True, slots=True)
class TemplatePages:
    """The bars to check a print by, the templates, and what no page of this size can hold."""

    kit_title: str
    bars: TrueSize
    templates: tuple[Template, ...]
    too_big: tuple[str, ...]


def template_pages(kit: Kit, options: SheetOptions) -> TemplatePages:
    """Return the templates of a kit. A piece that is larger than the page gives its windows alone."""
    room = tuple(side * TICKS_PER_MM for side in _ROOM[options.page])
    found: list[Template] = []
    too_big: list[str] = []
    for project in kit.projects:
        for piece in project.pieces:
            if piece.shape.kind == "rect" and not piece.windows:
                continue
            if _fits(piece.size.width.ticks, piece.size.height.ticks, room):
                found.append(_of_piece(project, piece))
                continue
            alone = list(_windows(project, piece, room))
            found += alone
            if piece.shape.kind != "rect" or len(alone) < len(piece.windows):
                too_big.append(f"{piece.id}, {piece.name} ({project.title})")
    bars = check_bars(name="bars", title="A square of 1 in, a square of 50 mm, a bar of 6 in and a bar of 150 mm.")
    return TemplatePages(kit.title, bars, tuple(found), tuple(too_big))


def _of_piece(project: Project, piece: Piece) -> Template:
    windows = "" if not piece.windows else " with its window" if len(piece.windows) == 1 else " with its windows"
    heading = f"{piece.id}, {piece.name}{windows}"
    words = f"The outline of {heading}, at true size."
    drawing = piece_template(piece, name=f"t-{project.id}-{piece.id}", title=words)
    return Template(project.title, heading, words, drawing)


def _windows(project: Project, piece: Piece, room: tuple[int, ...]) -> Iterator[Template]:
    for number, window in enumerate(piece.windows):
        heading = f"Window {window.id} of {piece.id}, {piece.name}"
        words = f"The outline of {heading}, at true size."
        name = f"t-{project.id}-{piece.id}-{window.id}"
        drawing = window_template(piece, number, name=name, title=words)
        width, height = (side.split(".")[0] for side in (drawing.width_mm, drawing.height_mm)) if drawing else ("", "")
        if drawing is not None and _fits(int(width) * TICKS_PER_MM, int(height) * TICKS_PER_MM, room):
            yield Template(project.title, heading, words, drawing)


def _fits(width: int, height: int, room: tuple[int, ...]) -> bool:
    return width <= room[0] and height <= room[1]
