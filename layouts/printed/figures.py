"""The ordered list of every figure a kit holds: where it stands, its exact value, and how a sheet shows it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from layouts.document import Kit, form_place, lengths_of
from layouts.document.forms import FlatTag, Scored
from layouts.lengths import Length, System, in_inches, in_millimetres
from layouts.rounding import nearest_step
from layouts.shapes import MOST_PARTS, FlatPart, FlatSizes, NotBuilt

__all__ = ["Figure", "FlatParts", "flat_parts", "listed", "shown", "text_of"]

# The flat parts of forms by the form's place.
type FlatParts = dict[str, tuple[FlatPart, ...]]


@dataclass(frozen=True, slots=True)
class Figure:
    """One figure: its place, its exact value in ticks, and its text in inches and in millimetres, without units.

    `off_sum` are the systems in which a sum that a reader can check does not come to this figure as it is shown.
    """

    at: str
    ticks: int
    inches: str
    mm: str
    off_sum: tuple[System, ...] = ()

    @property
    def exact_mm(self) -> str:
        return in_millimetres(self.ticks)


def shown(ticks: int, system: System, step: int) -> str:
    """Return a figure by itself as a sheet shows it in one system, without a unit; `step` is the printed step in ticks.

    >>> shown(23368, "in", 508), shown(23368, "mm", 320)
    ('2 7/8', '73')
    """
    return text_of(nearest_step(ticks, step), system)


def text_of(ticks: int, system: System) -> str:
    """Return a shown value in its system, without a unit."""
    return in_inches(ticks) if system == "in" else in_millimetres(ticks)


def listed(kit: Kit, flat: FlatParts) -> Iterator[tuple[str, int]]:
    """Yield every measure that the document gives and every computed flat size, in document order, each place once.

    Window sides that are derived are not among them.
    """
    waiting = dict(flat)
    given = list(lengths_of(kit))
    for number, (place, length) in enumerate(given):
        yield place, length.ticks
        form = _form_of(place)
        following = given[number + 1][0] if number + 1 < len(given) else ""
        if form in waiting and _form_of(following) != form:
            for part in waiting.pop(form):
                yield from ((at, size.ticks) for at, size in _sizes(form, part))


def flat_parts(kit: Kit) -> FlatParts:
    """Return the computed flat parts of every form by its place; a scored form and a tag state theirs.

    Beyond the most parts of a kit nothing is worked out, here as in the plans.
    """
    found: FlatParts = {}
    sizes = FlatSizes.of(kit)
    parts_left = MOST_PARTS
    papers = {paper.id: paper for paper in kit.papers}
    for project in kit.projects:
        for form in project.forms:
            if isinstance(form, Scored | FlatTag):
                continue
            # Copies cut from several prints may differ in thickness; the sheet shows the first one's size.
            paper = form.paper if isinstance(form.paper, str) else form.paper.each[0]
            try:
                parts = sizes.parts(form, project.id, papers[paper])
            except NotBuilt:
                continue
            parts_left -= len(parts)
            if parts_left < 0:
                return found
            found[form_place(project.id, form.id)] = parts
    return found


def _sizes(form: str, part: FlatPart) -> Iterator[tuple[str, Length]]:
    whole = form if part.number is None else f"{form}/part:{part.number}"
    yield f"{whole}/flat/width", part.width
    yield f"{whole}/flat/height", part.height


def _form_of(place: str) -> str:
    """The place of the form that a measure belongs to, or nothing."""
    parts = place.split("/")
    return "/".join(parts[:2]) if len(parts) > 2 and parts[1].startswith("form:") else ""
