"""A sheet scored in parallel to its edges: a base, strips on its four sides, and what becomes of the corners."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise
from typing import Literal, NamedTuple

from layouts.shapes.forms.flat import ExactSize
from layouts.shapes.forms.folded import Area, Crease, FlatSheet, Fold, Role, Side, Spot

__all__ = ["CORNERS", "SIDES", "Arms", "Corners", "Strip", "Tab", "cross", "reach", "tabs"]

SIDES: tuple[Side, ...] = ("bottom", "top", "left", "right")

# Beside and level sides of each corner, anticlockwise from the lower left.
CORNERS: tuple[tuple[Side, Side], ...] = (
    ("left", "bottom"),
    ("right", "bottom"),
    ("right", "top"),
    ("left", "top"),
)

# What stays of the corners beyond the base: all of them, nothing, or the rectangle that touches the base as a tab.
Corners = Literal["keep", "cut", "tab"]


@dataclass(frozen=True, slots=True)
class Strip:
    """One strip beside the base or beside the strip before it: how deep (ticks), and how its inner edge is folded."""

    name: str
    deep: Fraction
    fold: Fold = "mountain"
    turn: Literal[90, 180] = 90
    role: Role = "panel"


# How far the strips on each side go beyond the base.
_Far = Mapping[Side, Fraction]

# The strips on each side, from the base outwards; a side may lack any.
Arms = Mapping[Side, Sequence[Strip]]


class Tab(NamedTuple):
    """A corner tab: its name, the wall it stays on and the wall it is glued to, and how far it reaches on that wall.

    `across` is how wide it is, in the direction of the height of the wall it is glued to.
    """

    name: str
    on: Strip
    onto: Strip
    onto_side: Side
    length: Fraction
    across: Fraction


def reach(arms: Arms, side: Side) -> Fraction:
    """Return how far the strips of one side go beyond the base (ticks)."""
    return sum((strip.deep for strip in arms.get(side, ())), Fraction(0))


def tabs(base: ExactSize, arms: Arms) -> Iterator[Tab]:
    """Yield the corner tabs, one wherever two walls meet.

    A tab stays on the wall at a longer side of the base and is slit from the wall at a shorter one, to which it is
    glued; on a square base it stays at the bottom and the top.
    """
    for beside, level in CORNERS:
        if not arms.get(beside) or not arms.get(level):
            continue
        on, onto = (level, beside) if base.width >= base.height else (beside, level)
        name = f"tab-{beside}-{level}"
        yield Tab(name, arms[on][0], arms[onto][0], onto, arms[onto][0].deep, arms[on][0].deep)


def cross(base: ExactSize, arms: Arms, corners: Corners, name: str = "base") -> FlatSheet:
    """Return the sheet: its areas, the creases from the base outwards, and the lines along which it is cut.

    With `keep` a crease runs from edge to edge, and each corner is one area, however often it is scored.
    """
    # Added up once: a sheet may be scored very often.
    far = {side: reach(arms, side) for side in SIDES}
    frame = _Frame.around(base, far)
    areas = [Area(name, frame.rectangle(frame.left, frame.bottom, frame.right, frame.top))]
    creases: list[Crease] = []
    for side in SIDES:
        near, inner = Fraction(0), name
        for strip in arms.get(side, ()):
            areas.append(Area(strip.name, frame.strip(side, near, near + strip.deep), strip.role))
            start, end = frame.line(side, near, whole=corners == "keep")
            creases.append(Crease(start, end, strip.fold, (inner, strip.name), strip.turn))
            near, inner = near + strip.deep, strip.name
    slits: list[tuple[Spot, ...]] = []
    if corners == "tab":
        for tab in tabs(base, arms):
            corner = frame.corner(tab.name)
            areas.append(Area(tab.name, corner.rectangle(corner.beside(arms), corner.level(arms)), "tab"))
            along = base.width >= base.height
            crease, slit = corner.arm_lines(arms, crease_upright=along)
            other = arms[corner.names[0] if along else corner.names[1]][0]
            creases.append(Crease(*crease, other.fold, (tab.on.name, tab.name)))
            slits.append(slit)
    areas.extend(frame.leftovers(arms, far, corners))
    outline = frame.outline(arms, far, corners)
    return FlatSheet(None, frame.width, frame.height, (outline, *slits), tuple(creases), tuple(areas))


class _Frame(NamedTuple):
    """Where the base lies on its sheet."""

    left: Fraction
    bottom: Fraction
    right: Fraction
    top: Fraction
    width: Fraction
    height: Fraction

    @classmethod
    def around(cls, base: ExactSize, far: _Far) -> _Frame:
        left, bottom = far["left"], far["bottom"]
        right, top = left + base.width, bottom + base.height
        return cls(left, bottom, right, top, right + far["right"], top + far["top"])

    @staticmethod
    def rectangle(left: Fraction, bottom: Fraction, right: Fraction, top: Fraction) -> tuple[Spot, ...]:
        return Spot(left, bottom), Spot(right, bottom), Spot(right, top), Spot(left, top)

    def strip(self, side: Side, near: Fraction, far: Fraction) -> tuple[Spot, ...]:
        match side:
            case "left":
                return self.rectangle(self.left - far, self.bottom, self.left - near, self.top)
            case "right":
                return self.rectangle(self.right + near, self.bottom, self.right + far, self.top)
            case "bottom":
                return self.rectangle(self.left, self.bottom - far, self.right, self.bottom - near)
            case "top":
                return self.rectangle(self.left, self.top + near, self.right, self.top + far)

    def line(self, side: Side, near: Fraction, *, whole: bool) -> tuple[Spot, Spot]:
        """The line at this distance beyond a side of the base; `whole`: from edge to edge of the sheet."""
        zero = Fraction(0)
        if side in ("left", "right"):
            x = self.left - near if side == "left" else self.right + near
            return (Spot(x, zero), Spot(x, self.height)) if whole else (Spot(x, self.bottom), Spot(x, self.top))
        y = self.bottom - near if side == "bottom" else self.top + near
        return (Spot(zero, y), Spot(self.width, y)) if whole else (Spot(self.left, y), Spot(self.right, y))

    def corner(self, tab: str) -> _Corner:
        return next(corner for corner in self.corners() if tab == f"tab-{corner.names[0]}-{corner.names[1]}")

    def corners(self) -> Iterator[_Corner]:
        """The corners anticlockwise from the lower left."""
        for names in CORNERS:
            beside, level = names
            x, out_x = (self.left, -1) if beside == "left" else (self.right, 1)
            y, out_y = (self.bottom, -1) if level == "bottom" else (self.top, 1)
            yield _Corner(names, x, y, out_x, out_y)

    def leftovers(self, arms: Arms, far: _Far, corners: Corners) -> Iterator[Area]:
        """The corners less their tabs: waste, or areas of their own where they are kept."""
        for corner in self.corners():
            wide, high = (far[side] for side in corner.names)
            if not wide or not high:
                continue
            kind = "corner" if corners == "keep" else "waste"
            role: Role = "panel" if corners == "keep" else "waste"
            shape = corner.rectangle(wide, high)
            if corners == "tab":
                shape = corner.less_tab(arms, wide, high)
            if shape:
                yield Area(f"{kind}-{corner.names[0]}-{corner.names[1]}", shape, role)

    def outline(self, arms: Arms, far: _Far, corners: Corners) -> tuple[Spot, ...]:
        """The trimmed outline, anticlockwise and closed."""
        spots: list[Spot] = []
        for corner in self.corners():
            wide, high = (far[side] for side in corner.names)
            turn = corner.steps(arms, wide, high, corners)
            # At the lower left and the upper right one comes along the side arm, elsewhere along the level one.
            spots.extend(turn if corner.out_x == corner.out_y else reversed(turn))
        return _closed(spots)


class _Corner(NamedTuple):
    """A corner of the base, with the names of its sides, and in which direction the corner of the sheet lies."""

    names: tuple[Side, Side]
    x: Fraction
    y: Fraction
    out_x: int
    out_y: int

    def at(self, across: Fraction | int, up: Fraction | int) -> Spot:
        """The spot at these distances outwards."""
        return Spot(self.x + self.out_x * across, self.y + self.out_y * up)

    def beside(self, arms: Arms) -> Fraction:
        """How wide a tab is: as the first strip at the side is deep."""
        return arms[self.names[0]][0].deep if arms.get(self.names[0]) else Fraction(0)

    def level(self, arms: Arms) -> Fraction:
        return arms[self.names[1]][0].deep if arms.get(self.names[1]) else Fraction(0)

    def rectangle(self, wide: Fraction, high: Fraction) -> tuple[Spot, ...]:
        return self._anticlockwise([self.at(0, 0), self.at(wide, 0), self.at(wide, high), self.at(0, high)])

    def less_tab(self, arms: Arms, wide: Fraction, high: Fraction) -> tuple[Spot, ...]:
        """What a tab leaves of a corner: nothing, a rectangle, or the shape of an L."""
        tab_wide, tab_high = self.beside(arms), self.level(arms)
        if (tab_wide, tab_high) == (wide, high):
            return ()
        line = [
            self.at(tab_wide, 0),
            self.at(wide, 0),
            self.at(wide, high),
            self.at(0, high),
            self.at(0, tab_high),
            self.at(tab_wide, tab_high),
        ]
        return self._anticlockwise(_straightened(line))

    def steps(self, arms: Arms, wide: Fraction, high: Fraction, corners: Corners) -> list[Spot]:
        """The outline at this corner, from the end of the arm beside the base to the end of the level one."""
        if corners == "keep":
            return [self.at(wide, high)]
        if corners == "cut" or not wide or not high:
            return [self.at(wide, 0), self.at(0, 0), self.at(0, high)]
        tab_wide, tab_high = self.beside(arms), self.level(arms)
        return [
            self.at(wide, 0),
            self.at(tab_wide, 0),
            self.at(tab_wide, tab_high),
            self.at(0, tab_high),
            self.at(0, high),
        ]

    def arm_lines(self, arms: Arms, *, crease_upright: bool) -> tuple[tuple[Spot, Spot], tuple[Spot, Spot]]:
        """The two inner edges of a tab: the one that is folded, and the one that is slit."""
        upright = self.at(0, 0), self.at(0, self.level(arms))
        along = self.at(0, 0), self.at(self.beside(arms), 0)
        return (upright, along) if crease_upright else (along, upright)

    def _anticlockwise(self, spots: list[Spot]) -> tuple[Spot, ...]:
        return tuple(spots if self.out_x == self.out_y else reversed(spots))


def _straightened(spots: Sequence[Spot]) -> list[Spot]:
    """A closed line without spots that repeat the one before or lie on the straight line of their neighbours."""
    kept = [spot for spot, following in pairwise((*spots, spots[0])) if spot != following]
    around = zip((kept[-1], *kept[:-1]), kept, (*kept[1:], kept[0]), strict=True)
    return [
        here
        for before, here, after in around
        if (here.x - before.x) * (after.y - here.y) != (here.y - before.y) * (after.x - here.x)
    ]


def _closed(spots: Sequence[Spot]) -> tuple[Spot, ...]:
    line = _straightened(spots)
    return (*line, line[0])
