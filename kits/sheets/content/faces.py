"""Faces, panels and pieces with all that is put on them, drawn: in place with the borders, and layer by layer."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from kits.sheets.content.layers import LyingPair, SupportNames
from kits.sheets.content.measures import Measures
from layouts.document import Project
from layouts.drawing import FaceDrawing, ScaledDrawing, face_drawing, stacks_of

__all__ = ["DrawnFace", "drawn_faces"]

# How much of the paper a face may take, in lines, without its dimensions; how many are drawn for one project.
_DRAWN = (115, 100)
_MOST = 24


@dataclass(frozen=True, slots=True)
class DrawnFace:
    """One face: its place, its letter if it has one, its name with the copies that look so, and its drawings."""

    place: str
    letter: str
    name: str
    drawn: FaceDrawing
    is_flat: bool

    @property
    def drawings(self) -> tuple[ScaledDrawing, ...]:
        """In place, and layer by layer where anything lies on something else."""
        exploded = self.drawn.exploded
        return (self.drawn.assembled,) if exploded is None or self.is_flat else (self.drawn.assembled, exploded)


def drawn_faces(
    measures: Measures, project: Project, lying: Sequence[LyingPair], line: int
) -> tuple[tuple[DrawnFace, ...], int]:
    """Return the faces of a project on which several things are put, and how many are not drawn: there are too many.

    A single thing on a face needs no picture: its border says where it lies. `line` is the thickness of a line on
    paper, in ticks.
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
        is_flat = all(layer.level == 1 for layer in stack.layers)
        found.append(DrawnFace(stack.surface.place, letter, name, drawn, is_flat))
    return tuple(found), max(0, len(stacks) - _MOST)
