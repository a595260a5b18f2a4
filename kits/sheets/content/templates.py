"""Templates: windows, odd shapes and the flat parts of forms at true size, each where a page can hold it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from kits.sheets.content.forms import drawn_forms
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
    """The bars to check a print by, the templates, what no page of this size can hold, and windows that lie outside.

    `too_big_forms` are flat parts that no page can hold: they can be cut and scored by their figures.
    """

    bars: ScaledDrawing
    templates: tuple[Template, ...]
    too_big: tuple[str, ...]
    outside: tuple[str, ...]
    too_big_forms: tuple[str, ...]


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
    too_big_forms: list[str] = []
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
        of_forms, of_forms_too_big = _of_forms(project, room, measures)
        found += of_forms
        too_big_forms += of_forms_too_big
    bars = check_bars(name="bars", type_size=room.type_size)
    return TemplatePages(bars, tuple(found), tuple(too_big), tuple(outside), tuple(too_big_forms))


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


def _of_forms(project: Project, room: Room, measures: Measures) -> tuple[list[Template], list[str]]:
    """The flat parts of a project's forms with their dimensions, and the names of those that no page holds."""
    across, up = (side - _around(room, height=height) for side, height in ((room.width, False), (room.height, True)))
    found, too_big = [], []
    forms, left_out = drawn_forms(measures, project, room.line, (across, up))
    for form in forms:
        for part in form.parts:
            called = f"{form.called}{part.which}"
            width, height = (Fraction(side) * TICKS_PER_MM for side in (part.drawing.width_mm, part.drawing.height_mm))
            if part.drawing.scale.tenths == 10 and width <= room.width and height <= up:
                heading = f"{project.title}: {called}"
                words = f"{heading}, flat part at true size. {part.words}"
                found.append(Template(heading, f"{part.size} {measures.unit}", words, part.drawing))
            else:
                too_big.append(f"{called} ({project.title})")
    return found, [*too_big, *([f"{left_out} more forms ({project.title})"] if left_out else [])]


def _template(
    heading: str, width: int, height: int, drawing: ScaledDrawing, measures: Measures, *, with_size: bool = True
) -> Template:
    """A template with its size, where the document states it: a figure that is only derived stands on no sheet."""
    size = f"{measures.own(width).text} × {measures.own(height).text} {measures.unit}" if with_size else ""
    return Template(heading, size, f"{heading}, outline at true size{f', {size}' if size else ''}.", drawing)


def _fits(width: int, height: int, room: Room) -> bool:
    return width + _around(room) <= room.width and height + _around(room, height=True) <= room.height


def _around(room: Room, *, height: bool = False) -> int:
    """What a page needs around a template: at the sides, or above and below it."""
    heading = (_LARGE_HEADING if room.large else _HEADING) if height else 0
    return (_SIDES + heading) * TICKS_PER_MM // 10
