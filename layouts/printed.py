"""The ordered list of every figure a kit holds: where it stands, its exact value, and how a sheet shows it.

For now each figure is rounded by itself, to the printed step of the system it is shown in.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from layouts.document import Kit, form_place, lengths_of
from layouts.document.forms import FlatTag, Scored
from layouts.lengths import Length, System, in_inches, in_millimetres
from layouts.rounding import nearest_step
from layouts.shapes import MOST_PARTS, FlatSizes, NotBuilt

__all__ = ["Figure", "figures", "shown"]


@dataclass(frozen=True, slots=True)
class Figure:
    """One figure: its place, its exact value in ticks, and its text in inches and in millimetres, without units."""

    at: str
    ticks: int
    inches: str
    mm: str

    @property
    def exact_mm(self) -> str:
        return in_millimetres(self.ticks)


def figures(kit: Kit) -> tuple[Figure, ...]:
    """Return every measure that the document gives and every computed flat size, in document order, each place once.

    Window sides that are derived are not among them.
    """
    flat = dict(_flat_sizes(kit))
    found = []
    given = list(lengths_of(kit))
    for number, (place, length) in enumerate(given):
        found.append(_figure(kit, place, length.ticks))
        form = _form_of(place)
        following = given[number + 1][0] if number + 1 < len(given) else ""
        if form in flat and _form_of(following) != form:
            found += [_figure(kit, at, size.ticks) for at, size in flat.pop(form)]
    return tuple(found)


def shown(ticks: int, system: System, step: int) -> str:
    """Return a figure as a sheet shows it in one system, without a unit; `step` is that system's printed step in ticks.

    >>> shown(23368, "in", 508), shown(23368, "mm", 320)
    ('2 7/8', '73')
    """
    rounded = nearest_step(ticks, step)
    return in_inches(rounded) if system == "in" else in_millimetres(rounded)


def _figure(kit: Kit, place: str, ticks: int) -> Figure:
    inches = shown(ticks, "in", kit.printed.in_.ticks)
    return Figure(place, ticks, inches, shown(ticks, "mm", kit.printed.mm.ticks))


def _form_of(place: str) -> str:
    """The place of the form that a measure belongs to, or nothing."""
    parts = place.split("/")
    return "/".join(parts[:2]) if len(parts) > 2 and parts[1].startswith("form:") else ""


def _flat_sizes(kit: Kit) -> Iterator[tuple[str, list[tuple[str, Length]]]]:
    """The computed flat sizes of every form by its place; a scored form and a tag state theirs.

    Beyond the most parts of a kit nothing is worked out, here as in the plans.
    """
    sizes = FlatSizes.of(kit)
    parts_left = MOST_PARTS
    papers = {paper.id: paper for paper in kit.papers}
    for project in kit.projects:
        for form in project.forms:
            if isinstance(form, Scored | FlatTag):
                continue
            # Copies cut from several prints may differ in thickness; the sheet shows the first one's size.
            paper = form.paper if isinstance(form.paper, str) else form.paper.each[0]
            place = form_place(project.id, form.id)
            try:
                parts = sizes.parts(form, project.id, papers[paper])
            except NotBuilt:
                continue
            parts_left -= len(parts)
            if parts_left < 0:
                return
            yield (
                place,
                [
                    (f"{place}{'' if part.number is None else f'/part:{part.number}'}/flat/{name}", getattr(part, name))
                    for part in parts
                    for name in ("width", "height")
                ],
            )
