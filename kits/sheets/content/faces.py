"""Faces, panels and pieces with all that is put on them, drawn: in place with the borders, and layer by layer."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from kits.sheets.content.layers import LyingPair, SupportNames
from kits.sheets.content.measures import Measures
from kits.sheets.content.room import Room
from layouts.document import Project
from layouts.drawing import ScaledDrawing, face_drawing, stacks_of

__all__ = ["DrawnFace", "drawn_faces"]

# How much of the paper a face may take, in lines, without its dimensions; how many are drawn for one project.
_DRAWN = (115, 100)
_MOST = 24


@dataclass(frozen=True, slots=True)
class DrawnFace:
    """One face: its place, its letter if it has one, its name with the copies that look so, and its drawings.

    They show it in place and, where anything lies on something else, layer by layer. `words` say the same for who
    cannot see it; `beside` are sentences with what the drawings do not show.
    """

    place: str
    letter: str
    name: str
    drawings: tuple[ScaledDrawing, ...]
    words: str
    beside: tuple[str, ...]


def drawn_faces(
    measures: Measures, project: Project, lying: Sequence[LyingPair], line: int, room: Room | None = None
) -> tuple[tuple[DrawnFace, ...], int]:
    """Return the faces of a project on which several things are put, and how many are not drawn: there are too many.

    A single thing on a face needs no picture: its border says where it lies. `line` is the thickness of a line on
    paper, in ticks. Layers that are more than a page of this `room` holds are not drawn one above the other.
    """
    names = SupportNames(measures.kit, project)
    own = [one.shown for one in lying if one.shown.project.id == project.id]
    supports = {one.surface.place: one.placement.on for one in own}
    stacks = [stack for stack in stacks_of(own) if len(stack.layers) > 1]
    found = []
    for number, stack in enumerate(stacks[:_MOST], start=1):
        letter, name = names.told(supports[stack.surface.place], stack.copies)
        drawn = face_drawing(
            stack,
            lambda ticks: measures.own(ticks).text,
            name=f"{project.id}__{number}",
            title=f"{letter}, {name}" if letter else name,
            unit=measures.unit,
            room=(_DRAWN[0] * line, _DRAWN[1] * line),
            line=line,
            step=measures.step,
        )
        drawings = [drawn.assembled]
        if drawn.exploded is not None and any(layer.level != 1 for layer in stack.layers):
            drawings.append(drawn.exploded)
        held = tuple(one for one in drawings if room is None or room.holds(one))
        found.append(DrawnFace(stack.surface.place, letter, name, held, drawn.words, drawn.beside))
    return tuple(found), max(0, len(stacks) - _MOST)
