"""Folded parts on a sheet: each flat part drawn, its panels, the order of folding, and how large it is in the end."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from math import ceil

from kits.sheets.content.measures import Measures
from kits.sheets.content.panels import panel_words, shown_areas
from layouts.document import Form, Project, form_place
from layouts.document.forms import Concertina, FlatTag, Lid, Scored, Tray
from layouts.drawing import FlatDrawing, ScaledDrawing, flat_drawings, fold_words, folded_drawing
from layouts.drawing.fold_words import said
from layouts.lengths import TICKS_PER_MM
from layouts.rounding import nearest_step, step_up
from layouts.shapes import NotBuilt
from layouts.shapes.forms import FlatSheet, Folded

__all__ = ["DrawnForm", "DrawnPart", "Fold", "drawn_forms", "printed_flat_size"]

# How much of the paper a flat part may take, in lines, without its dimensions.
_DRAWN = (190, 150)
_STANDING = (120, 90)
# Panels that are folded for one project, and flat parts that are drawn: a short document may ask for very many.
_MOST_PANELS, _MOST_DRAWN = 20_000, 60
# What is thinner than this when it is folded flat is told as flat.
_FLAT = 2 * TICKS_PER_MM


@dataclass(frozen=True, slots=True)
class Fold:
    """One step of folding; `number` is that in the drawing, empty where all is folded in one step."""

    number: str
    words: str


@dataclass(frozen=True, slots=True)
class DrawnPart:
    """One flat part, or several that are alike: which (“, parts 1 and 2”, nothing where the form is one part), the size
    it is cut to, its drawing, the same in words, and sentences beside it."""

    which: str
    size: str
    drawing: ScaledDrawing
    words: str
    beside: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class DrawnForm:
    """A form: its flat parts drawn, its panels and tabs with their sizes, how it is folded, and what comes of it.

    `from_` names the print that it is drawn for, where others of its prints need other sizes; `wrong` says that it
    cannot be folded as it is given: then nothing is said of folding. `standing` shows a box as it stands, `inside` says
    how much room there is in it. `kinds` are the lines and areas that its drawings show.
    """

    place: str
    letter: str
    name: str
    from_: str
    parts: tuple[DrawnPart, ...]
    panels: tuple[tuple[str, str], ...]
    folds: tuple[Fold, ...]
    folded: str
    wrong: str
    standing: ScaledDrawing | None
    inside: str
    kinds: frozenset[str]

    @property
    def called(self) -> str:
        """Letter and name, once where they are the same."""
        return self.name if self.letter == self.name else f"{self.letter}, {self.name}"


def drawn_forms(
    measures: Measures, project: Project, line: int, room: tuple[int, int] | None = None
) -> tuple[tuple[DrawnForm, ...], int]:
    """Return the forms of a project as a sheet shows them, and how many are not drawn: there are too many.

    `project` is that of the kit as the sheet shows it, `line` the thickness of a line on paper and `room` the width and
    height there of a flat part without its dimensions, in ticks. Forms of
    which the flat parts are not worked out are left out: the cutting list says why.
    """
    exact = {one.id: one for other in measures.kit.projects if other.id == project.id for one in other.forms}
    sizes, exact_sizes = measures.flat_sizes_as_shown, measures.flat_sizes
    papers = {paper.id: paper for paper in measures.kit.papers}
    panels_left, parts_left, left_out = _MOST_PANELS, _MOST_DRAWN, 0
    found = []
    for form in project.forms:
        panels_left -= _panels(form)
        if panels_left < 0 or parts_left <= 0:
            left_out += 1
            continue
        prints = [papers[name] for name in ([form.paper] if isinstance(form.paper, str) else form.paper.each)]
        try:
            folded = sizes.fold(form, project.id, prints[0])
            wrong = bool(exact_sizes.faults(exact[form.id], project.id, prints[0]))
            alike = {exact_sizes.parts(exact[form.id], project.id, paper) for paper in prints}
        except NotBuilt:
            continue
        inside = room or (_DRAWN[0] * line, _DRAWN[1] * line)
        drawn = _drawn(measures, project, form, folded, line, inside, wrong=wrong)
        parts_left -= len(drawn.parts)
        found.append(replace(drawn, from_=prints[0].name if len(alike) > 1 else ""))
    return tuple(found), left_out


def printed_flat_size(measures: Measures, project: Project, form: Form, sheet: FlatSheet) -> tuple[int, int]:
    """Return the size of a flat part as this sheet prints it, in ticks: that of the proof, else rounded up."""
    place = form_place(project.id, form.id)
    if isinstance(form, Scored | FlatTag):
        place += "/size"
    else:
        place += "/flat" if sheet.number is None else f"/part:{sheet.number}/flat"
    width, height = (step_up(ceil(side), measures.step) for side in (sheet.width, sheet.height))
    return measures.ticks_at(f"{place}/width", width), measures.ticks_at(f"{place}/height", height)


def _panels(form: Form) -> int:
    return form.panels if isinstance(form, Concertina) else 1 + len(form.scores) if isinstance(form, Scored) else 1


def _drawn(
    measures: Measures,
    project: Project,
    form: Form,
    folded: Folded,
    line: int,
    room: tuple[int, int],
    *,
    wrong: bool,
) -> DrawnForm:
    def figure(ticks: int) -> str:
        return measures.own(ticks).text

    sizes = [printed_flat_size(measures, project, form, sheet) for sheet in folded.sheets]
    if wrong:
        # What is drawn is right; how it would be folded is not to be relied on.
        folded = replace(folded, steps=())
    parts = flat_drawings(
        folded,
        figure,
        name=f"{project.id}_{form.id}",
        title=form.name,
        unit=measures.unit,
        room=room,
        line=line,
        step=measures.step,
        sizes=sizes,
    )
    areas = [
        one for sheet, size in zip(folded.sheets, sizes, strict=True) for one in shown_areas(sheet, size, measures.step)
    ]
    # One panel as large as the sheet is no news.
    is_plain = len(areas) == 1 and areas[0][1] == sizes[0]
    standing = None
    if not wrong:
        # Rounding alone makes no form impossible.
        standing = folded_drawing(
            replace(folded, faults=()),
            figure,
            name=f"{project.id}_{form.id}_folded",
            title=form.name,
            unit=measures.unit,
            room=(_STANDING[0] * line, _STANDING[1] * line),
            line=line,
            step=measures.step,
        )
    return DrawnForm(
        place=form_place(project.id, form.id),
        letter=form.id,
        name=form.name,
        from_="",
        parts=tuple(_part(one, sizes[one.numbers[0] - 1 if one.numbers else 0], figure) for one in parts),
        panels=() if is_plain else panel_words(areas, figure),
        folds=tuple(_folds(folded)),
        folded="" if wrong else _folded(folded, measures),
        wrong="It cannot be folded as it is given: ask before you cut it." if wrong else "",
        standing=standing,
        inside="" if wrong else _inside(measures, project, form, folded),
        kinds=_kinds(folded),
    )


def _part(drawn: FlatDrawing, size: tuple[int, int], figure: Callable[[int], str]) -> DrawnPart:
    which = f", part{'s' if len(drawn.numbers) > 1 else ''} {said(map(str, drawn.numbers))}" if drawn.numbers else ""
    return DrawnPart(which, " × ".join(map(figure, size)), drawn.drawing, drawn.words, drawn.beside)


def _folds(folded: Folded) -> Iterator[Fold]:
    """The steps of folding by the numbers that the drawing gives them, none where it gives none."""
    numbered = len({number for number, step in enumerate(folded.steps) if step.creases}) > 1
    for number, step in enumerate(folded.steps, start=1):
        words = " ".join(fold_words(replace(folded, steps=(step,))))
        if words:
            yield Fold(str(number) if numbered else "", words)


def _kinds(folded: Folded) -> frozenset[str]:
    """What kinds of lines and areas its flat parts have: what is cut, how what is scored folds, tabs, waste."""
    folds = {crease.fold for sheet in folded.sheets for crease in sheet.creases}
    roles = {area.role for sheet in folded.sheets for area in sheet.areas} - {"panel"}
    return frozenset({"cut", *folds, *roles})


def _inside(measures: Measures, project: Project, form: Form, folded: Folded) -> str:
    """The room in a tray or a lid that is stated by it, where that is told by other figures than the outside."""
    if not isinstance(form, Tray | Lid) or form.inside is None:
        return ""
    size = measures.size_at(
        f"{form_place(project.id, form.id)}/inside", form.inside.width.ticks, form.inside.height.ticks
    ).own_text
    outside = " × ".join(measures.own(nearest_step(round(side), measures.step)).text for side in folded.size[:2])
    if size == outside:
        return ""
    return f"Inside {size} {measures.unit}: less than outside by the thickness of the paper."


def _folded(folded: Folded, measures: Measures) -> str:
    """How large it is in the end; what is folded flat and stays thin has no height. Nothing where nothing is folded."""
    creases = [crease for sheet in folded.sheets for crease in sheet.creases]
    if not creases:
        return ""
    is_flat = folded.size.height < _FLAT and all(crease.turn == 180 for crease in creases)
    exact = folded.size[:2] if is_flat else tuple(folded.size)
    sides = [nearest_step(round(side), measures.step) for side in exact]
    about = "about " if any(side % measures.step for side in exact) else ""
    size = " × ".join(measures.own(side).text for side in sides)
    return f"Folded {about}{size} {measures.unit}{', lying flat' if is_flat else ''}."
