"""The places of the things that steps speak of."""

from __future__ import annotations

from layouts.document import FormBase, Piece, Put, Support, Use
from layouts.document.places import form_place, piece_place

__all__ = ["blank_place", "element_place", "made_place", "place_named", "project_place", "supply_place"]


def project_place(project: str) -> str:
    return f"project:{project}"


def blank_place(blank: str) -> str:
    return f"blank:{blank}"


def supply_place(supply: str) -> str:
    return f"supply:{supply}"


def element_place(element: str) -> str:
    """Return the place of an element named as steps and placements do, SHEET/ELEMENT.

    >>> element_place("labels/oval")
    'embellishment:labels/element:oval'
    """
    sheet, _, name = element.partition("/")
    return f"embellishment:{sheet}/element:{name}"


def made_place(project: str, made: Piece | FormBase) -> str:
    """Return the place of a piece or a form, which is made in a project.

    >>> from layouts.document import Size
    >>> made_place("chest", Piece(id="A", name="front panel", size=Size.of("6 3/4", "4 3/4")))
    'project:chest/piece:A'
    """
    return piece_place(project, made.id) if isinstance(made, Piece) else form_place(project, made.id)


def place_named(thing: Use | Put | Support, project: str) -> str:
    """Return the place of the one thing that a step or a placement of `project` names."""
    if thing.piece is not None:
        return piece_place(project, thing.piece)
    if thing.form is not None:
        return form_place(project, thing.form)
    if thing.blank is not None:
        return blank_place(thing.blank)
    if isinstance(thing, Use | Put):
        if thing.element is not None:
            return element_place(thing.element)
        if thing.supply is not None:
            return supply_place(thing.supply)
    raise AssertionError("one of these is named, or the document would have been refused")
