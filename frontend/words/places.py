"""Places in words: `project:chest/piece:A/size/width` is “Garden chest, piece A (front panel), width”."""

from __future__ import annotations

from collections.abc import Iterator

from layouts.document import Kit, paper_place, piece_place, step_place
from layouts.document.places import form_place

__all__ = ["Places"]

# What a value is called where its name in the document is no word for it.
_VALUES = {
    "at": "where it is",
    "caliper_um": "thickness",
    "cut_out": "cut-out",
    "paper": "print",
    "print_reads": "direction",
    "size": "",
    "size_is": "size",
    "thickness_um": "thickness",
    "turn_in": "turn-in",
}


class Places:
    """The places of one kit: what each is called, and where on the kit's page it stands."""

    def __init__(self, kit: Kit) -> None:
        self._names = dict(_named(kit))

    def words(self, place: str) -> str:
        """Return what a place is called: the thing's own words, then those of the value in it.

        A place that is not of this kit (any more) is given back as it is.
        """
        own = self._own(place)
        return place if own is None else ", ".join([self._names[own], *_values(place[len(own) :])])

    def short(self, place: str) -> str:
        """Return what a place is called in few words: a piece by its letter."""
        own = self._own(place)
        if own is None:
            return place
        project, piece, letter = own.partition("/piece:")
        thing = f"{self._names[project]}, {letter.replace('/window:', ', window ')}" if piece else self._names[own]
        return ", ".join([thing, *_values(place[len(own) :])])

    def anchor(self, place: str) -> str:
        """Return the id of the element of the kit's page that holds a place, or nothing."""
        own = self._own(place) or ""
        # Windows, elements and faces stand in the line of what they belong to.
        for inner in ("/window:", "/element:", "/face:"):
            own = own.partition(inner)[0]
        return own

    def anchors(self) -> tuple[str, ...]:
        """Return the ids of all elements of the kit's page that hold a thing, in the order of the document."""
        return tuple(dict.fromkeys(self.anchor(place) for place in self._names))

    def _own(self, place: str) -> str | None:
        while place not in self._names:
            place, inner, _ = place.rpartition("/")
            if not inner:
                return None
        return place


def _values(rest: str) -> Iterator[str]:
    """What the value in a thing is called; the rest of its place."""
    for name in rest.strip("/").split("/"):
        # A part of a form and a panel are named by kind and id: “part:2”.
        if words := _VALUES.get(name, name.replace("_", " ").replace(":", " ")):
            yield words


def _named(kit: Kit) -> Iterator[tuple[str, str]]:
    for project in kit.projects:
        yield f"project:{project.id}", project.title
        for piece in project.pieces:
            place, name = piece_place(project.id, piece.id), f"{project.title}, piece {piece.id} ({piece.name})"
            yield place, name
            for window in piece.windows:
                yield f"{place}/window:{window.id}", f"{name}, window {window.id}"
        for form in project.forms:
            yield form_place(project.id, form.id), f"{project.title}, {form.name} ({form.id})"
        for placement in project.placements:
            yield f"project:{project.id}/placement:{placement.id}", f"{project.title}, placement {placement.id}"
        for step in project.steps:
            yield step_place(project.id, step.id), f"{project.title}, step {step.id}"
    for paper in kit.papers:
        yield paper_place(paper.id), paper.name
    for pad in kit.pads:
        yield f"pad:{pad.id}", pad.name
    for sheet in kit.embellishments:
        yield f"embellishment:{sheet.id}", sheet.name
        for element in sheet.elements:
            yield f"embellishment:{sheet.id}/element:{element.id}", f"{sheet.name}, {element.name}"
    for blank in kit.blanks:
        yield f"blank:{blank.id}", blank.name
        for face in blank.faces:
            yield f"blank:{blank.id}/face:{face.id}", f"{blank.name}, face {face.id}"
    for supply in kit.supplies:
        yield f"supply:{supply.id}", supply.name
    for tool in kit.tools:
        yield f"tool:{tool.id}", tool.name or tool.id
