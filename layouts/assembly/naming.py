"""The places of the things that steps speak of."""

from __future__ import annotations

from layouts.document import FormBase, Piece

__all__ = ["element_place", "made_place", "project_place", "step_place"]


def project_place(project: str) -> str:
    return f"project:{project}"


def step_place(project: str, step: str) -> str:
    return f"project:{project}/step:{step}"


def made_place(project: str, made: Piece | FormBase) -> str:
    """Return the place of a piece or a form, which is made in a project.

    >>> from layouts.document import Size
    >>> made_place("chest", Piece(id="A", name="front panel", size=Size.of("6 3/4", "4 3/4")))
    'project:chest/piece:A'
    """
    kind = "piece" if isinstance(made, Piece) else "form"
    return f"project:{project}/{kind}:{made.id}"


def element_place(element: str) -> str:
    """Return the place of an element named as steps and placements do, SHEET/ELEMENT.

    >>> element_place("labels/oval")
    'embellishment:labels/element:oval'
    """
    sheet, _, name = element.partition("/")
    return f"embellishment:{sheet}/element:{name}"
