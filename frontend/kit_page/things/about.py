"""What stands beside the form of a thing: its drawing as it is typed, what is found about it, the prints it is of."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from typing import Any

from frontend.kit_page.drawn import inline
from frontend.kit_page.findings import FindingLine
from frontend.kit_page.making import Figure, StepLine, step_lines
from frontend.kit_page.papers import PaperTile
from kits.sheets.content.forms import drawn_forms
from kits.sheets.content.measures import Measures
from kits.sheets.options import SheetOptions
from layouts.assembly import Names
from layouts.document import Each, Kit, Project, UnknownPlace
from layouts.document.places import value_at
from layouts.drawing import piece_drawing

__all__ = ["About", "Picture", "about_thing", "picture_of"]

# Lines on screen are as thick as in large print.
_LINE = 229
_ROOM = (110 * _LINE, 110 * _LINE)


@dataclass(frozen=True, slots=True)
class About:
    """What a check says of a thing: its findings, and the prints that it is cut from as they are planned."""

    findings: tuple[FindingLine, ...]
    papers: tuple[PaperTile, ...]


@dataclass(frozen=True, slots=True)
class Picture:
    """What a thing looks like: figures, or a step as it will print."""

    figures: tuple[Figure, ...] = ()
    step: StepLine | None = None


def about_thing(
    kit: Kit, place: str, said: Mapping[str, tuple[FindingLine, ...]], papers: tuple[PaperTile, ...]
) -> About:
    """Return what there is to say beside a thing; `papers` are the tiles of all prints."""
    prints = _prints(kit, place)
    findings = dict.fromkeys(one for at, lines in said.items() if at == place or _is_inside(at, place) for one in lines)
    return About(tuple(findings), tuple(one for one in papers if one.paper in prints))


def _is_inside(at: str, place: str) -> bool:
    return at.startswith(f"{place}/")


def picture_of(kit: Kit, place: str) -> Picture:
    """Return what the thing at a place looks like in this kit, which may be one that is only being typed."""
    kind = place.rpartition("/")[2].partition(":")[0]
    draw = _DRAWN.get(kind)
    return Picture() if draw is None else draw(kit, place)


def _prints(kit: Kit, place: str) -> set[str]:
    kind, _, id_ = place.rpartition("/")[2].partition(":")
    if kind == "paper":
        return {id_}
    try:
        thing = value_at(kit, place)
    except UnknownPlace:
        return set()
    made = [*thing.pieces, *thing.forms] if kind == "project" else [thing] if kind in ("piece", "form") else []
    return {print_ for one in made for print_ in _of(one.paper)}


def _of(paper: Any) -> tuple[str, ...]:
    return paper.each if isinstance(paper, Each) else () if paper is None else (paper,)


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
    return Picture((Figure(inline(drawn.drawing), " ".join((*drawn.beside, *outside))),))


def _form(kit: Kit, place: str) -> Picture:
    measures = Measures(kit, SheetOptions.of(kit))
    project = _project(measures.as_shown, place)
    own = tuple(form for form in project.forms if form.id == place.rpartition(":")[2])
    drawn = next(iter(drawn_forms(measures, project.model_copy(update={"forms": own}), _LINE)[0]), None)
    if drawn is None:
        return Picture()
    figures = [Figure(inline(part.drawing), " ".join(part.beside)) for part in drawn.parts]
    if drawn.standing is not None:
        figures.append(Figure(inline(drawn.standing), "As it stands, its base up."))
    panels = "; ".join(f"{names} {size}" for names, size in drawn.panels)
    said = " ".join(filter(None, (drawn.wrong, f"Panels: {panels}." if panels else "", drawn.folded)))
    if said and figures:
        figures[0] = replace(figures[0], caption=" ".join(filter(None, (figures[0].caption, said))))
    return Picture(tuple(figures))


def _placement(kit: Kit, place: str) -> Picture:
    del kit, place
    return Picture()


def _step(kit: Kit, place: str) -> Picture:
    project = _project(kit, place)
    own = next((line for line in step_lines(kit, project, Names(kit), {}) if line.place == place), None)
    return Picture(step=own)


def _project(kit: Kit, place: str) -> Project:
    return next(one for one in kit.projects if place.startswith(f"project:{one.id}/"))


_DRAWN: Mapping[str, Callable[[Kit, str], Picture]] = {
    "piece": _piece,
    "form": _form,
    "placement": _placement,
    "step": _step,
}
