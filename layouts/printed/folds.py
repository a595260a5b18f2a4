"""Sums of forms: scores and panels against the sheet, and what a flat part is made up of."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from typing import Any

from layouts.document import Kit, form_place
from layouts.document.forms import Concertina, Envelope, Frame, Lid, Pocket, Scored, Sleeve, Tray
from layouts.printed.figures import FlatParts
from layouts.printed.sums import PrintedSum, Summed
from layouts.shapes import FlatPart
from layouts.shapes.forms.scored import read

__all__ = ["flat_sums", "score_sums"]

_AXES = (("width", "left", "right"), ("height", "bottom", "top"))


def score_sums(kit: Kit) -> Iterator[Summed]:
    """Yield, for every scored form, each score as the panels up to it, and all panels against the sheet."""
    for project in kit.projects:
        for form in project.forms:
            if isinstance(form, Scored):
                yield from _scored(form, form_place(project.id, form.id))


def flat_sums(kit: Kit, flat: FlatParts) -> Iterator[Summed]:
    """Yield what the flat parts of every other form are made up of, where nothing that no sheet shows is in it.

    What is rounded up in a box belongs to its base: the walls are folded as deep as they are stated.
    """
    for project in kit.projects:
        for form in project.forms:
            place = form_place(project.id, form.id)
            if place in flat and form.as_ in _SUMS:
                yield from _SUMS[form.as_](form, place, flat[place])


def _scored(form: Scored, place: str) -> Iterator[Summed]:
    arms = read(form).arms
    numbers: dict[tuple[str, int], int] = {}
    for number, score in enumerate(form.scores, start=1):
        numbers.setdefault((score.from_, score.at.ticks), number)
    for axis, low, high in _AXES:
        size = f"{place}/size/{axis}"
        base = f"{place}/panel:base/{axis}"
        # Each score from an edge is the one before it and the panel between them; what is beyond the last is the base.
        ends: list[str] = []
        taken = 0
        for side, strips in ((side, strips) for side, strips in arms.items() if side in (low, high)):
            at, before = 0, ""
            for strip in reversed(strips):
                deep = int(strip.deep)
                at += deep
                panel = f"{place}/panel:{strip.name}/{axis}"
                here = f"{place}/scores/{numbers[side, at]}/at"
                parts = ((1, before), (1, panel)) if before else ((1, panel),)
                yield Summed(PrintedSum(parts, here, here), {panel: deep})
                before = here
            ends.append(before)
            taken += at
        if ends:
            total = PrintedSum((*((1, end) for end in ends), (1, base)), size, size)
            yield Summed(total, {base: getattr(form.size, axis).ticks - taken})


def _box(form: Tray | Lid, place: str, parts: tuple[FlatPart, ...]) -> Iterator[Summed]:
    times: dict[str, int] = {"depth": 2}
    turned = "depth" if form.turned_in.written_like(form.usual_turn_in) and form.turned_in else "turn_in"
    if form.turned_in:
        times[turned] = times.get(turned, 0) + 2
    if form.flange:
        times["flange"] = 2
    around = 2 * (form.depth + form.turned_in + form.flange).ticks
    for axis in ("width", "height"):
        flat, base = f"{place}/flat/{axis}", f"{place}/panel:base/{axis}"
        made_up = PrintedSum(((1, base), *((many, f"{place}/{name}") for name, many in times.items())), flat, flat)
        yield Summed(made_up, {base: getattr(parts[0], axis).ticks - around})
        if form.inside is not None:
            yield Summed(PrintedSum(((1, f"{place}/inside/{axis}"),), base, flat))


def _sleeve(form: Sleeve, place: str, parts: tuple[FlatPart, ...]) -> Iterator[Summed]:
    around = ((2, "around/width"), (2, "around/height"), (4, "clearance"), (1, "overlap"))
    yield _flat(place, around, "flat/width")


def _concertina(form: Concertina, place: str, parts: tuple[FlatPart, ...]) -> Iterator[Summed]:
    panel = form.panel.width.ticks
    for part in parts:
        last = part.number is None or part.number == len(parts)
        many = (part.width - (form.join * (not last))).ticks // panel
        join = () if last else ((1, "join"),)
        yield _flat(place, ((many, "panel/width"), *join), _part(part, "width"))


def _pocket(form: Pocket, place: str, parts: tuple[FlatPart, ...]) -> Iterator[Summed]:
    across, upright = (2, 1) if form.open in ("top", "bottom") else (1, 2)
    yield _flat(place, ((1, "panel/width"), (across, "flap")), "flat/width")
    yield _flat(place, ((1, "panel/height"), (upright, "flap")), "flat/height")


def _frame(form: Frame, place: str, parts: tuple[FlatPart, ...]) -> Iterator[Summed]:
    for part in parts[:2]:
        yield _flat(place, ((1, "opening/width"), (2, "width")), _part(part, "width"))
    for part in parts[2:]:
        ends = ((2, "width"),) if form.corner == "mitre" else ()
        yield _flat(place, ((1, "opening/height"), *ends), _part(part, "height"))


def _envelope(form: Envelope, place: str, parts: tuple[FlatPart, ...]) -> Iterator[Summed]:
    yield _flat(place, ((1, "holds/width"), (2, "clearance"), (2, "side_flap")), "flat/width")
    flaps = ((1, "bottom_flap"), (1, "top_flap"))
    yield _flat(place, ((1, "holds/height"), (2, "clearance"), *flaps), "flat/height")


def _flat(place: str, parts: tuple[tuple[int, str], ...], total: str) -> Summed:
    whole = f"{place}/{total}"
    return Summed(PrintedSum(tuple((many, f"{place}/{name}") for many, name in parts), whole, whole))


def _part(part: FlatPart, side: str) -> str:
    return f"flat/{side}" if part.number is None else f"part:{part.number}/flat/{side}"


# The one table of what flat parts are made up of; a tag and a scored form state theirs.
_SUMS: Mapping[str, Callable[[Any, str, tuple[FlatPart, ...]], Iterator[Summed]]] = {
    "tray": _box,
    "lid": _box,
    "sleeve": _sleeve,
    "concertina": _concertina,
    "pocket": _pocket,
    "frame": _frame,
    "envelope": _envelope,
}
