"""Templates: windows and odd shapes at true size, each where a page can hold it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from kits.sheets.content.measures import Measures
from kits.sheets.content.room import Room, room_of
from kits.sheets.options import SheetOptions
from layouts.document import Kit, Piece, Project
from layouts.drawing import ScaledDrawing, check_bars, piece_template, window_template
from layouts.lengths import TICKS_PER_MM
from layouts.shapes import is_inside, resolve

__all__ = ["Template", "TemplatePages", "has_template", "template_pages"]

# Around a template, in tenths of a millimetre: the drawing's own margin at the sides; above it a heading of two lines,
# in large print too, and its words.
_SIDES, _HEADING, _LARGE_HEADING = 50, 250, 420


@dataclass(frozen=True, slots=True)
class Template:
    """One template: what it is for, what it shows in words, and the drawing with its true size."""

    heading: str
    size: str
    words: str
    drawing: ScaledDrawing


@dataclass(frozen=True, slots=True)
class TemplatePages:
    """The bars to check a print by, the templates, what no page of this size can hold, and windows that lie outside."""

    bars: ScaledDrawing
    templates: tuple[Template, ...]
    too_big: tuple[str, ...]
    outside: tuple[str, ...]


def template_pages(kit: Kit, options: SheetOptions, proof: Mapping[str, Any] | None = None) -> TemplatePages:
    """Return the templates of a kit, of the sizes that its sheets show.

    A piece that is larger than the page gives its windows alone.
    """
    room = room_of(options)
    measures = Measures(kit, options, proof)
    kit = measures.as_shown
    found: list[Template] = []
    too_big: list[str] = []
    outside: list[str] = []
    for project in kit.projects:
        for piece in project.pieces:
            inside = [one for one in piece.windows if is_inside(one, piece.size, piece.shape)]
            name = f"{piece.id}, {piece.name} ({project.title})"
            outside += [f"{window.id} of {name}" for window in piece.windows if window not in inside]
            if piece.shape.kind == "rect" and not inside:
                continue
            if has_template(piece, options):
                found.append(_of_piece(project, piece, len(inside), measures))
                continue
            alone = list(_windows(project, piece, room, measures))
            found += alone
            if piece.shape.kind != "rect" or len(alone) < len(inside):
                too_big.append(name)
    bars = check_bars(name="bars", type_size=room.type_size)
    return TemplatePages(bars, tuple(found), tuple(too_big), tuple(outside))


def has_template(piece: Piece, options: SheetOptions) -> bool:
    """Whether a page can hold a piece at true size."""
    return _fits(piece.size.width.ticks, piece.size.height.ticks, room_of(options))


def _of_piece(project: Project, piece: Piece, windows: int, measures: Measures) -> Template:
    with_windows = "" if not windows else " with its window" if windows == 1 else " with its windows"
    heading = f"{project.title}: {piece.id}, {piece.name}{with_windows}"
    drawing = piece_template(piece, name=f"t-{project.id}-{piece.id}", title=heading)
    return _template(heading, piece.size.width.ticks, piece.size.height.ticks, drawing, measures)


def _windows(project: Project, piece: Piece, room: Room, measures: Measures) -> Iterator[Template]:
    for window in piece.windows:
        if not is_inside(window, piece.size, piece.shape):
            continue
        aperture = resolve(window, piece.size)
        width, height = aperture.width.ticks, aperture.height.ticks
        if _fits(width, height, room):
            heading = f"{project.title}: window {window.id} of {piece.id}, {piece.name}"
            name = f"t-{project.id}-{piece.id}-{window.id}"
            drawing = window_template(piece, window, name=name, title=heading)
            stated = window.width is not None and window.height is not None
            yield _template(heading, width, height, drawing, measures, with_size=stated)


def _template(
    heading: str, width: int, height: int, drawing: ScaledDrawing, measures: Measures, *, with_size: bool = True
) -> Template:
    """A template with its size, where the document states it: a figure that is only derived stands on no sheet."""
    size = f"{measures.own(width).text} × {measures.own(height).text} {measures.unit}" if with_size else ""
    return Template(heading, size, f"{heading}, outline at true size{f', {size}' if size else ''}.", drawing)


def _fits(width: int, height: int, room: Room) -> bool:
    heading = _LARGE_HEADING if room.large else _HEADING
    across, up = ((side * TICKS_PER_MM) // 10 for side in (_SIDES, _SIDES + heading))
    return width + across <= room.width and height + up <= room.height
