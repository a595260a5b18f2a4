"""What things are put on: faces of blanks, pieces of their finished size, and panels of forms."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction

from layouts.document import Blank, Face, Form, Kit, Piece, Project, Support, Tool, form_place, piece_place
from layouts.shapes.cut_sizes import bites, finished_size
from layouts.shapes.faces.form_sizes import FormSizes
from layouts.shapes.faces.holes import Hole, hole_of
from layouts.shapes.forms.folded import Side

__all__ = ["OverFold", "Surface", "Surfaces", "windows_of"]


@dataclass(frozen=True, slots=True)
class Surface:
    """What things are put on, as it is seen; lengths in ticks.

    A size is None where it is not known. `give` is how far a length of it is uncertain: a panel is measured from score
    to score, and folded paper has thickness. A side wall of a box is given as that panel lies flat, but the document
    may speak of it as it stands. `is_face`: of a blank, with nothing below its opening. `project` is that to which a
    list of copies belongs; None for a blank of which the kit holds one, which all projects share.
    """

    place: str
    name: str
    width: Fraction | None = None
    height: Fraction | None = None
    give: Fraction = Fraction(0)
    holes: tuple[Hole, ...] = ()
    is_side_wall: bool = False
    is_face: bool = False
    project: str | None = None


@dataclass(frozen=True, slots=True)
class OverFold:
    """The panel over a fold: its place as a surface, and its size as the flat part lies, in ticks."""

    place: str
    width: Fraction
    height: Fraction


class Surfaces:
    """All that can be put upon in a kit, each worked out when it is first asked for."""

    __slots__ = ("_blanks", "_forms", "_known", "_made", "_tools")

    def __init__(self, kit: Kit, forms: FormSizes) -> None:
        self._blanks = {blank.id: (blank, {face.id: face for face in blank.faces}) for blank in kit.blanks}
        self._made: dict[tuple[str, str], Piece | Form] = {
            (project.id, made.id): made for project in kit.projects for made in (*project.pieces, *project.forms)
        }
        self._tools: Mapping[str, Tool] = {tool.id: tool for tool in kit.tools}
        self._forms = forms
        self._known: dict[tuple[str, ...], Surface] = {}

    def of(self, project: Project, on: Support) -> Surface:
        """Return what a placement of this project is put on."""
        key = (project.id, *(str(part) for part in (on.blank, on.face, on.piece, on.form, on.panel, on.skin)))
        if key not in self._known:
            self._known[key] = self._made_anew(project, on)
        return self._known[key]

    def _made_anew(self, project: Project, on: Support) -> Surface:
        if on.blank is not None:
            blank, faces = self._blanks[on.blank]
            return _face(blank, faces[on.face or ""], project)
        made = self._made[project.id, on.piece or on.form or ""]
        if isinstance(made, Piece):
            return _piece(project, made, self._tools)
        return self._panel(project, made, on)

    def _panel(self, project: Project, form: Form, on: Support) -> Surface:
        """One skin of a panel. Left and right are those of the skin that is seen: inside they are exchanged."""
        name = on.panel or ""
        place = f"{form_place(project.id, form.id)}/panel:{name}/{on.skin}"
        words = f"{name} of {form.id} ({form.name})"
        give, size = self._forms.give(form), self._forms.panel(project, form, name)
        if size is None:
            return Surface(place, words, give=give, project=project.id)
        side_wall = name.startswith(("wall-left", "wall-right"))
        return Surface(place, words, size.width, size.height, give, is_side_wall=side_wall, project=project.id)

    def beyond(self, project: Project, on: Support) -> dict[Side, OverFold]:
        """Return the panel into which something turns over each side of a panel, as seen; nothing where unknown."""
        if on.form is None or on.panel is None:
            return {}
        made = self._made[project.id, on.form]
        if isinstance(made, Piece):
            return {}
        form = form_place(project.id, made.id)
        return {
            side if on.skin == "outside" else _MIRRORED[side]: OverFold(
                f"{form}/panel:{name}/{on.skin}", size.width, size.height
            )
            for side, (name, size) in self._forms.beyond(project, made, on.panel).items()
        }


_MIRRORED: Mapping[Side, Side] = {"left": "right", "right": "left", "top": "top", "bottom": "bottom"}


def windows_of(piece: Piece, place: str, tools: Mapping[str, Tool]) -> tuple[Hole, ...]:
    """Return the windows of a piece from the lower left of its finished size; those that are nothing are left out."""
    taken = bites(piece, tools)
    left, bottom = (taken.left.ticks, taken.bottom.ticks) if piece.size_is == "cut" else (0, 0)
    found = (
        hole_of(one, f"{place}/window:{one.id}", f"the window {one.id} of {piece.id}", piece.size, left, bottom)
        for one in piece.windows
    )
    return tuple(hole for hole in found if hole is not None)


def _face(blank: Blank, face: Face, project: Project) -> Surface:
    place = f"blank:{blank.id}/face:{face.id}"
    name = f"{face.id} of {blank.name}"
    holes: tuple[Hole, ...] = ()
    if face.opening is not None:
        hole = hole_of(face.opening, f"{place}/opening", f"the opening of {name}", face.size)
        holes = (hole,) if hole is not None else ()
    return Surface(
        place,
        name,
        Fraction(face.size.width.ticks),
        Fraction(face.size.height.ticks),
        holes=holes,
        is_face=True,
        project=None if blank.count == 1 else project.id,
    )


def _piece(project: Project, piece: Piece, tools: Mapping[str, Tool]) -> Surface:
    place, size = piece_place(project.id, piece.id), finished_size(piece, tools)
    if min(size).ticks <= 0:
        return Surface(place, f"{piece.id} ({piece.name})", project=project.id)
    return Surface(
        place,
        f"{piece.id} ({piece.name})",
        Fraction(size.width.ticks),
        Fraction(size.height.ticks),
        holes=windows_of(piece, place, tools),
        project=project.id,
    )
