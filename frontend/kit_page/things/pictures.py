"""What a thing looks like while it is typed: drawn, or a step as it will print, with what is wrong with it at once."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace

from frontend.kit_page.drawn import inline
from frontend.kit_page.making import Figure
from frontend.kit_page.things.laid import carried_by, faces_of, laid
from frontend.kit_page.things.wording import Flaw, flaws_in, printed_step
from kits.sheets.content.forms import drawn_forms
from kits.sheets.content.measures import Measures
from kits.sheets.content.project import PrintedStep
from kits.sheets.options import SheetOptions
from layouts.document import Kit, Project
from layouts.document.places import value_at
from layouts.drawing import piece_drawing
from layouts.proofing.rules import forms

__all__ = ["Picture", "picture_of"]

# Lines on screen are as thick as in large print.
_LINE = 229
_ROOM = (110 * _LINE, 110 * _LINE)
_MOST_SAID = 8


@dataclass(frozen=True, slots=True)
class Picture:
    """What a thing looks like: figures, or a step as it will print; what else is to say of it, and what is wrong."""

    figures: tuple[Figure, ...] = ()
    words: tuple[str, ...] = ()
    wrong: tuple[str, ...] = ()
    step: PrintedStep | None = None
    flaws: tuple[Flaw, ...] = ()


def picture_of(kit: Kit, place: str) -> Picture:
    """Return what the thing at a place looks like in this kit, which may be one that is only being typed."""
    kind = place.rpartition("/")[2].partition(":")[0]
    draw = _DRAWN.get(kind)
    return Picture() if draw is None else draw(kit, place)


def _piece(kit: Kit, place: str) -> Picture:
    piece = value_at(kit, place)
    measures = Measures(kit, SheetOptions.of(kit))
    drawn = piece_drawing(
        piece,
        lambda ticks: measures.own(ticks).text,
        name="picture",
        unit=kit.unit,
        room=_ROOM,
        line=_LINE,
        tools={tool.id: tool for tool in kit.tools},
    )
    outside = tuple(f"Window {window} does not lie inside the piece and is not drawn." for window in drawn.outside)
    figure = Figure(inline(drawn.drawing), " ".join((*drawn.beside, *outside)))
    return Picture((figure, *carried_by(kit, place)))


def _form(kit: Kit, place: str) -> Picture:
    measures = Measures(kit, SheetOptions.of(kit))
    project = _project(measures.as_shown, place)
    own = tuple(form for form in project.forms if form.id == place.rpartition(":")[2])
    drawn = next(iter(drawn_forms(measures, project.model_copy(update={"forms": own}), _LINE)[0]), None)
    wrong = tuple(one.message for one in forms.findings(kit) if one.at[0] == place or one.at[0].startswith(f"{place}/"))
    if drawn is None:
        return Picture(wrong=wrong[:_MOST_SAID])
    figures = [Figure(inline(part.drawing), " ".join(part.beside)) for part in drawn.parts]
    if drawn.standing is not None:
        figures.append(Figure(inline(drawn.standing), "As it stands, its base up."))
    panels = "; ".join(f"{names} {size}" for names, size in drawn.panels)
    said = " ".join(filter(None, (drawn.wrong, f"Panels: {panels}." if panels else "", drawn.folded)))
    if said and figures:
        figures[0] = replace(figures[0], caption=" ".join(filter(None, (figures[0].caption, said))))
    return Picture((*figures, *carried_by(kit, place)), wrong=wrong[:_MOST_SAID])


def _placement(kit: Kit, place: str) -> Picture:
    found = laid(kit, place)
    return Picture(found.figures, found.words, found.wrong)


def _blank(kit: Kit, place: str) -> Picture:
    return Picture(faces_of(kit, value_at(kit, place)))


def _step(kit: Kit, place: str) -> Picture:
    return Picture(step=printed_step(kit, place), flaws=flaws_in(kit, place))


def _project(kit: Kit, place: str) -> Project:
    return next(one for one in kit.projects if place.startswith(f"project:{one.id}/"))


_DRAWN: Mapping[str, Callable[[Kit, str], Picture]] = {
    "piece": _piece,
    "form": _form,
    "placement": _placement,
    "blank": _blank,
    "step": _step,
}
