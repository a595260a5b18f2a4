"""What is put on something: its size as it is seen there, and the windows it is seen through."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from layouts.document import Element, Form, Kit, Piece, Project, Put, Shape, Size, Tool
from layouts.document.forms import Concertina, Envelope, FlatTag, Frame, Lid, Pocket, Tray
from layouts.document.places import form_place, piece_place
from layouts.shapes.cut_sizes import finished_size
from layouts.shapes.faces.form_sizes import FormSizes
from layouts.shapes.faces.holes import Hole
from layouts.shapes.faces.rectangles import Rectangle
from layouts.shapes.faces.surfaces import windows_of

__all__ = ["Thing", "Things"]

_RECT = Shape.by_default()


@dataclass(frozen=True, slots=True)
class Thing:
    """What is put: lengths in ticks, as it lies (turned); None where they are not known.

    `made` is the piece or the element itself, where it is one.
    """

    kind: Literal["piece", "element", "form", "blank", "supply"]
    place: str
    name: str
    width: Fraction | None = None
    height: Fraction | None = None
    windows: tuple[Hole, ...] = ()
    made: Piece | Element | None = None

    def turned(self, turn: int) -> Thing:
        """Return the thing turned anticlockwise by quarter turns."""
        if turn == 0 or self.width is None or self.height is None:
            return self
        windows = tuple(hole.turned(turn, self.width, self.height) for hole in self.windows)
        width, height = (self.height, self.width) if turn in (90, 270) else (self.width, self.height)
        return Thing(self.kind, self.place, self.name, width, height, windows, self.made)


class Things:
    """All that can be put on something in a kit, each worked out when it is first asked for."""

    __slots__ = ("_blanks", "_elements", "_forms", "_known", "_made", "_supplies", "_tools")

    def __init__(self, kit: Kit, forms: FormSizes) -> None:
        self._blanks = {blank.id: blank for blank in kit.blanks}
        self._elements = {
            f"{sheet.id}/{element.id}": element for sheet in kit.embellishments for element in sheet.elements
        }
        self._supplies = {supply.id: supply for supply in kit.supplies}
        self._made: dict[tuple[str, str], Piece | Form] = {
            (project.id, made.id): made for project in kit.projects for made in (*project.pieces, *project.forms)
        }
        self._tools: Mapping[str, Tool] = {tool.id: tool for tool in kit.tools}
        self._forms = forms
        self._known: dict[tuple[str, ...], Thing] = {}

    def of(self, project: Project, put: Put, turn: int = 0) -> Thing:
        """Return what a placement of this project puts, turned."""
        named = (put.piece, put.element, put.form, put.blank, put.supply)
        key = (project.id, str(turn), *("" if name is None else name for name in named))
        if key not in self._known:
            self._known[key] = self._unturned(project, put) if turn == 0 else self.of(project, put).turned(turn)
        return self._known[key]

    def _unturned(self, project: Project, put: Put) -> Thing:
        if put.element is not None:
            element = self._elements[put.element]
            sheet, _, id_ = put.element.partition("/")
            place = f"embellishment:{sheet}/element:{id_}"
            width, height = _sides(element.size)
            return Thing("element", place, f"“{element.name}”", width, height, made=element)
        if put.supply is not None:
            return Thing("supply", f"supply:{put.supply}", f"“{self._supplies[put.supply].name}”")
        if put.blank is not None:
            blank = self._blanks[put.blank]
            # Which side of a blank with several faces it stands on, nobody has said.
            only = blank.faces[0].size if len(blank.faces) == 1 and blank.outside is None else None
            return Thing("blank", f"blank:{blank.id}", f"“{blank.name}”", *_sides(only))
        made = self._made[project.id, put.piece or put.form or ""]
        name = f"{made.id} ({made.name})"
        if not isinstance(made, Piece):
            return self._form(project, made, name)
        place = piece_place(project.id, made.id)
        windows = windows_of(made, place, self._tools)
        size = finished_size(made, self._tools)
        # Edges that bite away all of a piece are another rule's; where nothing is left, nothing can be said.
        width, height = _sides(size if min(size).ticks > 0 else None)
        return Thing("piece", place, name, width, height, windows, made)

    def _form(self, project: Project, form: Form, name: str) -> Thing:
        """Forms that lie flat when they are folded, and boxes standing on their base; of others nothing is known."""
        place = form_place(project.id, form.id)
        if isinstance(form, Frame):
            rim = Fraction(form.width.ticks)
            inner = Rectangle(rim, rim, rim + form.opening.width.ticks, rim + form.opening.height.ticks)
            hole = Hole(f"{place}/opening", f"the opening of {form.id}", inner, _RECT)
            return Thing("form", place, name, inner.right + rim, inner.top + rim, (hole,))
        if isinstance(form, FlatTag):
            return Thing("form", place, name, *_sides(form.size))
        if isinstance(form, Pocket | Concertina):
            return Thing("form", place, name, *_sides(form.panel))
        if isinstance(form, Envelope):
            room = 2 * form.clearance.ticks
            return Thing(
                "form", place, name, Fraction(form.holds.width.ticks + room), Fraction(form.holds.height.ticks + room)
            )
        if isinstance(form, Tray | Lid):
            standing = self._forms.footprint(project, form)
            if standing is not None:
                return Thing("form", place, name, *standing)
        return Thing("form", place, name)


def _sides(size: Size | None) -> tuple[Fraction | None, Fraction | None]:
    return (None, None) if size is None else (Fraction(size.width.ticks), Fraction(size.height.ticks))
