"""The files for cutting machines of a whole kit: what is more than a rectangle."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from layouts.document import Form, Kit, Project
from layouts.document.forms import Concertina, Scored
from layouts.drawing.machine.as_dxf import part_as_dxf
from layouts.drawing.machine.as_svg import part_as_svg
from layouts.drawing.machine.parts import MachinePart, flat_sheet_part, piece_part
from layouts.shapes import FlatSizes, NotBuilt

__all__ = ["LeftOut", "MachineFile", "machine_files"]

# Panels of one kit that are folded for files; a short line may ask for ten thousand.
_MOST_PANELS = 20_000


@dataclass(frozen=True, slots=True)
class MachineFile:
    """A file by its name, and what is in it."""

    name: str
    content: bytes


@dataclass(frozen=True, slots=True)
class LeftOut:
    """A form for which there is no file, and the sentence that says why."""

    place: str
    why: str


def machine_files(kit: Kit) -> Iterator[MachineFile | LeftOut]:
    """Yield an SVG and a DXF of every piece with windows or a shape, and of every flat part of every form.

    Lengths are those of the document, exact, not as a sheet rounds them. Parts that are alike but for their number
    share the file of the first. A form that cannot be worked out or folded as it is given has none.
    """
    taken: set[str] = set()
    for name, part in _parts(kit):
        if isinstance(part, LeftOut):
            yield part
            continue
        free = _free(name, taken)
        yield MachineFile(f"{free}.svg", part_as_svg(part))
        yield MachineFile(f"{free}.dxf", part_as_dxf(part))


def _parts(kit: Kit) -> Iterator[tuple[str, MachinePart | LeftOut]]:
    tools = {tool.id: tool for tool in kit.tools}
    forms = _Forms(kit)
    for project in kit.projects:
        for piece in project.pieces:
            if piece.windows or piece.shape.kind != "rect":
                yield f"{project.id}-{piece.id}", piece_part(piece, tools, f"{project.title}: {piece.id}, {piece.name}")
        for form in project.forms:
            yield from forms.parts(project, form)


class _Forms:
    """The flat parts of forms, as long as there are not too many panels."""

    def __init__(self, kit: Kit) -> None:
        self._sizes = FlatSizes.of(kit)
        self._papers = {paper.id: paper for paper in kit.papers}
        self._left = _MOST_PANELS

    def parts(self, project: Project, form: Form) -> Iterator[tuple[str, MachinePart | LeftOut]]:
        name, place = f"{project.id}-{form.id}", f"project:{project.id}/form:{form.id}"
        self._left -= (
            form.panels if isinstance(form, Concertina) else len(form.scores) if isinstance(form, Scored) else 1
        )
        if self._left < 0:
            yield name, LeftOut(place, f"the forms before it have {_MOST_PANELS:,} panels; no more are drawn")
            return
        # Copies cut from several prints may differ in thickness; the first one's is taken, as on the sheets.
        paper = self._papers[form.paper if isinstance(form.paper, str) else form.paper.each[0]]
        try:
            folded = self._sizes.fold(form, project.id, paper)
        except NotBuilt as reason:
            yield name, LeftOut(place, reason.message)
            return
        if folded.faults:
            yield name, LeftOut(place, f"{form.id} cannot be folded as it is given; the proof says why")
            return
        seen: set[tuple[Fraction | tuple[object, ...], ...]] = set()
        for sheet in folded.sheets:
            title = f"{project.title}: {form.id}, {form.name}"
            part = flat_sheet_part(sheet, title if sheet.number is None else f"{title}, part {sheet.number}")
            looks = (part.width, part.height, part.cuts, part.mountains, part.valleys)
            if looks not in seen:
                seen.add(looks)
                yield name if sheet.number is None else f"{name}-{sheet.number}", part


def _free(name: str, taken: set[str]) -> str:
    """A name that no file has yet, whatever the case of its letters: some folders do not tell them apart."""
    free, number = name, 1
    while free.casefold() in taken:
        number += 1
        free = f"{name}~{number}"
    taken.add(free.casefold())
    return free
