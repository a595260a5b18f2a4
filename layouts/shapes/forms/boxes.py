"""How a box is folded: a base with walls around it, walls turned in, flanges, and corner tabs."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction

from layouts.document.forms import Lid, Tray
from layouts.shapes.forms.cross import SIDES, Arms, Strip, cross, tabs
from layouts.shapes.forms.flat import ExactSize
from layouts.shapes.forms.folded import Fault, FlatSheet, Folded, FoldedSize, FoldStep, Glued, Side
from layouts.shapes.forms.grain import grain_along_folds
from layouts.shapes.forms.names import NamedPanels

__all__ = ["box_faults", "fold_box", "fold_steps", "names_around", "tab_faults", "wall_names", "walled_arms"]


def wall_names(side: Side) -> tuple[str, str, str]:
    """Return the names of the strips on a side: the wall, the wall turned in, the flange.

    >>> wall_names("left")
    ('wall-left', 'wall-left-inner', 'flange-left')
    """
    return f"wall-{side}", f"wall-{side}-inner", f"flange-{side}"


def walled_arms(form: Tray | Lid) -> Arms:
    """Return the strips around the base of a tray or lid, alike on all sides.

    As the outside is seen walls fold away, and what turns in goes on the same way, flat against its wall. A flange
    turns the other way: behind a wall that is turned in it lies on the base, without one it stands out from the rim.
    """
    depth, turned_in, flange = (Fraction(length.ticks) for length in (form.depth, form.turned_in, form.flange))
    arms: dict[Side, list[Strip]] = {}
    for side in SIDES:
        wall, inner, lip = wall_names(side)
        strips = arms[side] = [Strip(wall, depth)]
        if turned_in:
            strips.append(Strip(inner if form.walls == "double" else f"turn-in-{side}", turned_in, turn=180))
        if flange:
            strips.append(Strip(lip, flange, fold="valley"))
    return arms


def names_around(arms: Arms) -> NamedPanels:
    """Return the names of a base and of the strips around it."""
    return NamedPanels("base", {side: tuple(strip.name for strip in strips) for side, strips in arms.items()})


def fold_box(form: Tray | Lid, scores: ExactSize, thick: Fraction) -> Folded:
    """Return a tray or a lid folded; `scores` are the distances from score to score of its base (ticks)."""
    arms = walled_arms(form)
    sheet = cross(scores, arms, form.corner)
    lip = 0 if form.turned_in else 2 * form.flange.ticks
    size = FoldedSize(scores.width + thick + lip, scores.height + thick + lip, form.depth.ticks + thick / 2)
    steps, grain = fold_steps(sheet, arms, scores), grain_along_folds(sheet.creases)
    return Folded((sheet,), steps, size, grain, box_faults(form, scores))


def box_faults(form: Tray | Lid, scores: ExactSize) -> tuple[Fault, ...]:
    """Return why a tray or lid cannot be folded; `scores` as for `fold_box`."""
    return (*_turned_in_faults(form), *_flange_faults(form, scores), *_corner_faults(form, scores))


def fold_steps(sheet: FlatSheet, arms: Arms, base: ExactSize) -> tuple[FoldStep, ...]:
    """Return the order of folding a box: walls and tabs, tabs glued; what turns in, glued to its wall; flanges.

    Source: common practice, no source.
    """
    by_outer = {crease.between[1]: crease for crease in sheet.creases}
    corner = [tab for tab in tabs(base, arms) if tab.name in by_outer]
    outer = [arms[side][0].name for side in SIDES if arms.get(side)] + [tab.name for tab in corner]
    steps = [FoldStep(tuple(by_outer[name] for name in outer), tuple(Glued(tab.name, tab.onto.name) for tab in corner))]
    for index in range(1, max(map(len, arms.values()), default=0)):
        here = [arms[side] for side in SIDES if len(arms.get(side, ())) > index]
        glued = [Glued(strips[index].name, onto) for strips in here if (onto := _lies_on(strips, index)) is not None]
        steps.append(FoldStep(tuple(by_outer[strips[index].name] for strips in here), tuple(glued)))
    return tuple(steps)


def _lies_on(strips: Sequence[Strip], index: int) -> str | None:
    """What a strip of a box is glued to: what turns in to its wall, the flange behind it to the base."""
    if strips[index].turn == 180:
        return strips[index - 1].name
    # A wall that turns in less far leaves its flange standing as a ledge.
    turned_in = index == 2 and strips[1].turn == 180 and strips[0].deep == strips[1].deep
    return "base" if turned_in else None


def tab_faults(base: ExactSize, arms: Arms) -> Iterator[Fault]:
    """Yield the walls on which two corner tabs meet, and the tabs that stand out over the rim of what holds them.

    What is wrong by the same numbers on opposite walls is told once.
    """
    told: set[tuple[str, Fraction, Fraction]] = set()
    for tab in tabs(base, arms):
        wall = base.height if tab.onto_side in ("left", "right") else base.width
        if 2 * tab.length > wall and ("tabs", tab.length, wall) not in told:
            told.add(("tabs", tab.length, wall))
            yield Fault("tabs", tab.name, tab.onto.name, tab.length, wall / 2)
        if tab.across > tab.length and ("uneven", tab.across, tab.length) not in told:
            told.add(("uneven", tab.across, tab.length))
            yield Fault("uneven", tab.on.name, tab.onto.name, tab.across, tab.length)


def _corner_faults(form: Tray | Lid, scores: ExactSize) -> Iterator[Fault]:
    """What `tab_faults` says of walls that are all alike, without laying them out: very many forms are asked."""
    depth, shorter = form.depth.ticks, min(scores.width, scores.height)
    if form.corner == "tab" and 2 * depth > shorter:
        side: Side = "left" if scores.width >= scores.height else "bottom"
        yield Fault("tabs", "tab-left-bottom", wall_names(side)[0], Fraction(depth), shorter / 2)


def _turned_in_faults(form: Tray | Lid) -> Iterator[Fault]:
    """A wall turned in that is longer than the wall it lies against stands on the base, or runs along it."""
    if form.turned_in > form.depth:
        wall, inner, _ = wall_names("left")
        name = inner if form.walls == "double" else "turn-in-left"
        yield Fault("turned-in", name, wall, Fraction(form.turned_in.ticks), Fraction(form.depth.ticks))


def _flange_faults(form: Tray | Lid, scores: ExactSize) -> Iterator[Fault]:
    """A flange on the base that is longer than the base goes through the wall opposite."""
    shorter = min(scores.width, scores.height)
    if form.turned_in and form.flange.ticks > shorter:
        _, _, lip = wall_names("left" if scores.width <= scores.height else "bottom")
        yield Fault("flap", lip, "base", Fraction(form.flange.ticks), shorter)
