"""The drawings of a kit's page: flat parts, faces and the schedule, the same as those of its sheets."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from django.utils.safestring import SafeString, mark_safe

from kits.sheets.content.faces import DrawnFace, drawn_faces
from kits.sheets.content.forms import DrawnForm, drawn_forms
from kits.sheets.content.layers import LyingPair, how_words, lying_pairs
from kits.sheets.content.measures import Measures
from kits.sheets.content.schedule import ScheduleRow, kit_schedule
from kits.sheets.options import SheetOptions
from layouts.assembly import steps_of
from layouts.document import Kit, Project
from layouts.drawing import ScaledDrawing, flat_key
from layouts.lengths import TICKS_PER_MM

__all__ = ["Drawings", "DrawnProject", "DrawnSchedule", "inline"]

# Lines on screen are as thick as in large print: letters are as high as the words around them.
_LINE = 229
# How wide the schedule is drawn, in millimetres, and its lines: on a wide page, and on a phone, where bars need room.
_WIDE, _NARROW = (290, _LINE), (88, 165)
# Drawings of one page, and copies of placements that are looked at: a short document may ask for very many.
_MOST_DRAWN, _MOST_PLACED = 60, 2_000


@dataclass(frozen=True, slots=True)
class DrawnProject:
    """What is drawn of a project: its forms by their places, its faces, and how each placement lies, by its place.

    `left_out` are forms and faces that are not drawn, since there are too many on this page.
    """

    forms: Mapping[str, DrawnForm]
    faces: tuple[DrawnFace, ...]
    how: Mapping[str, tuple[str, ...]]
    key: SafeString
    left_out: int


@dataclass(frozen=True, slots=True)
class DrawnSchedule:
    """One person's plan: the bars for a wide page and for a phone, sentences, and the steps as rows."""

    wide: SafeString
    narrow: SafeString
    words: tuple[str, ...]
    rows: tuple[ScheduleRow, ...]
    more: int


class Drawings:
    """The drawings of one page, in the kit's own unit, with the figures of its proof where that is of this document."""

    def __init__(self, kit: Kit, proof: Mapping[str, Any] | None) -> None:
        self._kit, self._proof = kit, proof
        self._measures = Measures(kit, SheetOptions.of(kit), proof)
        self._left = _MOST_DRAWN
        placed = sum(
            1 if one.copies == "each" else len(one.copies) for project in kit.projects for one in project.placements
        )
        self._lying: Sequence[LyingPair] = lying_pairs(self._measures) if placed <= _MOST_PLACED else ()

    def of(self, project: Project) -> DrawnProject:
        """Return what is drawn of a project; the first of a page have their drawings, however many there are."""
        shown = next(one for one in self._measures.as_shown.projects if one.id == project.id)
        lying = [one for one in self._lying if one.exact.project.id == project.id]
        how: dict[str, list[str]] = {}
        for one in lying:
            placement = f"project:{project.id}/placement:{one.exact.placement.id}"
            how.setdefault(placement, []).append(how_words(self._measures, one))
        if self._left <= 0:
            many = len(project.forms)
            return DrawnProject({}, (), {at: tuple(words) for at, words in how.items()}, SafeString(), many)
        forms, forms_left_out = drawn_forms(self._measures, shown, _LINE)
        faces, faces_left_out = drawn_faces(self._measures, shown, lying, _LINE)
        self._left -= sum(len(form.parts) for form in forms) + sum(len(face.drawings) for face in faces)
        key = inline(flat_key(name=f"{project.id}__key", line=_LINE)) if forms else SafeString()
        return DrawnProject(
            {form.place: form for form in forms},
            faces,
            {at: tuple(words) for at, words in how.items()},
            key,
            forms_left_out + faces_left_out,
        )

    def schedule(self) -> DrawnSchedule | None:
        """Return what to make when, None where no step takes any time."""
        critical = () if self._proof is None else self._proof["time"]["critical"]
        steps = steps_of(self._kit)
        wide, narrow = (
            kit_schedule(self._kit, steps, critical, width=width * TICKS_PER_MM, line=line, name=f"_schedule-{name}")
            for (width, line), name in ((_WIDE, "wide"), (_NARROW, "narrow"))
        )
        if wide is None or wide.drawn is None or narrow is None or narrow.drawn is None:
            return None
        words = (*wide.words, *wide.drawn.beside)
        return DrawnSchedule(inline(wide.drawn.drawing), inline(narrow.drawn.drawing), words, wide.rows, wide.more)


def inline(drawing: ScaledDrawing) -> SafeString:
    """Return a drawing to stand in a page, as wide as it is on paper where there is so much room.

    The drawing escapes what it writes.
    """
    return mark_safe(re.sub("^<svg ", f'<svg width="{drawing.width_mm}mm" ', drawing.svg))
