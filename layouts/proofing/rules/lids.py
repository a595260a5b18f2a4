"""The rule about lids: that they go over what they are said, or shown, to cover."""

from __future__ import annotations

import re
from collections.abc import Container, Iterator, Mapping
from fractions import Fraction
from typing import NamedTuple

from layouts.assembly.naming import blank_place
from layouts.document import Blank, Face, Form, Kit, Project, form_place, step_place
from layouts.document.forms import Covered, Lid, Scored, Tray
from layouts.lengths import System
from layouts.proofing.findings import Finding, Rule
from layouts.proofing.measures import told, whole_ticks
from layouts.shapes import NotBuilt
from layouts.shapes.forms import Coverable, ExactSize

__all__ = ["LID_TOO_TIGHT", "RULES", "findings"]

_PAIR = {
    "type": "array",
    "items": {"type": "integer", "description": "ticks of 1/320 mm"},
    "minItems": 2,
    "maxItems": 2,
}

LID_TOO_TIGHT = Rule(
    "lid-too-tight",
    "stop",
    "The inside of a lid is not larger than what it covers with the layers on it.",
    {"inside": _PAIR, "covers": _PAIR},
)
RULES = (LID_TOO_TIGHT,)

_SAYS_LID = re.compile(r"\blid\b", re.IGNORECASE)


class _Over(NamedTuple):
    """A lid and what it goes over, a blank or a form of the project, and the place that shows it."""

    lid: str
    blank: str | None
    form: str | None
    shown_at: str


def findings(kit: Kit) -> Iterator[Finding]:
    """Yield the lids that do not go over what they cover.

    What a lid covers is what it fits; the one thing that a step closes in which it is the one lid used; the blank on
    whose top or bottom it is put; and the box that is put into it. A form given by its scores is taken for a lid where
    its id or name says so. A lid may be turned by a quarter. Where a size is not known nothing is said.
    """
    coverable = Coverable.of(kit)
    blanks = {blank.id: blank for blank in kit.blanks}
    on_end = {(blank.id, face.id) for blank in kit.blanks for face in blank.faces if _is_end(face, blank)}
    for project in kit.projects:
        forms = {form.id: form for form in project.forms}
        told_of: set[tuple[str, str | None, str | None]] = set()
        for over in _covers(project, forms, blanks, on_end):
            if over[:3] in told_of:
                continue
            told_of.add(over[:3])
            try:
                inside = coverable.inside_of_form(project.id, over.lid)
                outside = _outside(coverable, project.id, over)
            except NotBuilt:
                continue
            if not (_goes_over(inside, outside) or _goes_over(inside, ExactSize(outside.height, outside.width))):
                thing = forms[over.form or ""].name if over.blank is None else blanks[over.blank].name
                message = _message(forms[over.lid].name, thing, _size(inside, kit.unit), _size(outside, kit.unit))
                lid = form_place(project.id, over.lid)
                covers = blank_place(over.blank) if over.blank else form_place(project.id, over.form or "")
                why = {"inside": _ticks(inside), "covers": _ticks(outside)}
                yield LID_TOO_TIGHT.finding(*dict.fromkeys((lid, covers, over.shown_at)), message=message, **why)


def _outside(coverable: Coverable, project: str, over: _Over) -> ExactSize:
    if over.blank is not None:
        return coverable.outside_of_blank(over.blank)
    return coverable.outside_of_form(project, over.form or "")


def _message(lid: str, thing: str, inside: str, outside: str) -> str:
    return (
        f"“{lid}” is {inside} inside, and “{thing}”, which it goes over, is {outside} outside with its layers. "
        f"Make the lid larger, or let it fit “{thing}”."
    )


def _goes_over(inside: ExactSize, outside: ExactSize) -> bool:
    return inside.width > outside.width and inside.height > outside.height


def _size(size: ExactSize, unit: System) -> str:
    return f"{told(size.width, unit)} × {told(size.height, unit)}"


def _ticks(size: ExactSize) -> list[int]:
    return [whole_ticks(Fraction(side)) for side in (size.width, size.height)]


def _covers(
    project: Project, forms: Mapping[str, Form], blanks: Mapping[str, Blank], on_end: Container[tuple[str, str | None]]
) -> Iterator[_Over]:
    for form in project.forms:
        if isinstance(form, Lid) and isinstance(form.fits, Covered):
            yield _Over(form.id, form.fits.blank, form.fits.form, form_place(project.id, form.id))
    for step in project.steps:
        lids = {use.form for use in step.use if use.form is not None and _is_lid(forms[use.form])}
        lids.difference_update(step.closes)
        if len(step.closes) == len(lids) == 1:
            (thing,) = step.closes
            (lid,) = lids
            place = step_place(project.id, step.id)
            yield _Over(lid, None, thing, place) if thing in forms else _Over(lid, thing, None, place)
    for placement in project.placements:
        place = f"project:{project.id}/placement:{placement.id}"
        put, on = placement.put, placement.on
        if put.form is not None and on.blank is not None:
            if isinstance(forms[put.form], Lid) and (on.blank, on.face) in on_end:
                yield _Over(put.form, on.blank, None, place)
        elif on.form is not None and on.panel == "base" and on.skin == "inside" and _is_lid(forms[on.form]):
            if put.blank is not None and blanks[put.blank].outside is not None:
                yield _Over(on.form, put.blank, None, place)
            elif put.form is not None and put.form != on.form and isinstance(forms[put.form], Tray | Lid):
                yield _Over(on.form, None, put.form, place)


def _is_end(face: Face, blank: Blank) -> bool:
    """Whether a face is the top or the bottom of its blank."""
    box, sides = blank.outside, (face.size.width, face.size.height)
    return box is not None and not face.inside and sides in ((box.width, box.depth), (box.depth, box.width))


def _is_lid(form: Form) -> bool:
    if isinstance(form, Lid):
        return True
    return isinstance(form, Scored) and any(_SAYS_LID.search(text) for text in (form.id, form.name))
