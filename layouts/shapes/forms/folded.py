"""A form laid flat and folded: its sheets with cut lines, score lines and named areas, and the order of folding.

Lengths are exact ticks; coordinates run from the lower left of a flat part as its outside is seen.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import Literal, NamedTuple

__all__ = [
    "Area",
    "Crease",
    "Fault",
    "FaultKind",
    "FlatSheet",
    "Fold",
    "FoldStep",
    "Folded",
    "FoldedSize",
    "Glued",
    "Hole",
    "Role",
    "Side",
    "Spot",
    "neighbour",
]

Fold = Literal["mountain", "valley"]
Role = Literal["panel", "tab", "waste"]
Side = Literal["left", "right", "top", "bottom"]


class Spot(NamedTuple):
    """A point of a flat part, in ticks from its lower left."""

    x: Fraction
    y: Fraction


@dataclass(frozen=True, slots=True)
class Area:
    """A named area of a flat part: a panel, a tab that is glued to another area, or waste that is cut off.

    `corners` run anticlockwise; width and height are those of the bounding rectangle, as the flat part lies.
    """

    name: str
    corners: tuple[Spot, ...]
    role: Role = "panel"

    @property
    def left(self) -> Fraction:
        return min(spot.x for spot in self.corners)

    @property
    def bottom(self) -> Fraction:
        return min(spot.y for spot in self.corners)

    @property
    def width(self) -> Fraction:
        return max(spot.x for spot in self.corners) - self.left

    @property
    def height(self) -> Fraction:
        return max(spot.y for spot in self.corners) - self.bottom

    @property
    def size(self) -> Fraction:
        """The area itself, in square ticks. Source: the trapezoid formula (identity)."""
        following = (*self.corners[1:], self.corners[0])
        return sum((a.x * b.y - b.x * a.y for a, b in zip(self.corners, following, strict=True)), Fraction(0)) / 2


@dataclass(frozen=True, slots=True)
class Crease:
    """A score line between two areas (by name, the one nearer the base first), and how it is folded.

    `fold` is as the outside is seen. `turn` is how far, in degrees: 90 for what stands up, 180 for what lies flat.
    """

    start: Spot
    end: Spot
    fold: Fold
    between: tuple[str, str]
    turn: Literal[90, 180] = 90

    @property
    def upright(self) -> bool:
        """Whether the line runs along the height of the flat part."""
        return self.start.x == self.end.x

    @property
    def length(self) -> Fraction:
        return abs(self.end.x - self.start.x) + abs(self.end.y - self.start.y)


@dataclass(frozen=True, slots=True)
class Hole:
    """A round hole: its middle and its diameter."""

    middle: Spot
    diameter: Fraction


@dataclass(frozen=True, slots=True)
class FlatSheet:
    """One flat part, exact: what is cut rounded up is trimmed to this at the right and the top.

    `number` counts from 1 where there are several. `cuts` are all lines that are cut: first the trimmed outline, closed
    (its last spot is its first), then slits inside it. `areas` are panels, tabs and waste; they tile the rectangle.
    """

    number: int | None
    width: Fraction
    height: Fraction
    cuts: tuple[tuple[Spot, ...], ...]
    creases: tuple[Crease, ...]
    areas: tuple[Area, ...]
    holes: tuple[Hole, ...] = ()

    def named(self, name: str) -> Area | None:
        """Return the area of this name, None if the sheet has none."""
        return next((area for area in self.areas if area.name == name), None)


@dataclass(frozen=True, slots=True)
class Glued:
    """An area (a tab, a flap, an inner wall) that is glued to another one, on that skin of the other."""

    area: str
    onto: str
    skin: Literal["outside", "inside"] = "inside"


@dataclass(frozen=True, slots=True)
class FoldStep:
    """One step of folding: these creases, in this order, then these areas are glued."""

    creases: tuple[Crease, ...] = ()
    glued: tuple[Glued, ...] = ()


class FoldedSize(NamedTuple):
    """The outside of the folded thing as it lies with its base up: from left to right, from top to bottom, and high."""

    width: Fraction
    depth: Fraction
    height: Fraction


FaultKind = Literal[
    "outside",  # a score that is not inside the sheet
    "meeting",  # scores from opposite edges that leave no base
    "same",  # a score on top of another from the same edge
    "turned-in",  # a wall turned in that is longer than the wall it lies against
    "uneven",  # a corner tab that is higher than the wall it is glued to
    "corner",  # corners cut off a tag that meet before they end
    "hole",  # a hole as large as its tag
    "tabs",  # two corner tabs that meet on the wall they are glued to
    "flap",  # a flap, tab or flange that is longer than the panel it lies on
]


@dataclass(frozen=True, slots=True)
class Fault:
    """Why a form cannot be folded as it is given: what is too long for what.

    `subject` is the area, or the score or parameter (`scores/2`, `hole`), that is wrong, and `against` what it is
    measured against: its `length` is too much for that `limit` (ticks).
    """

    kind: FaultKind
    subject: str
    against: str
    length: Fraction
    limit: Fraction


@dataclass(frozen=True, slots=True)
class Folded:
    """A form as it is cut, scored and folded.

    `grain` is how the grain should run on the (first) flat part, as it lies: along its longest fold; None if it makes
    no difference. With `faults` the sheets are what can be drawn of it; the rest of it cannot be relied on.
    """

    sheets: tuple[FlatSheet, ...]
    steps: tuple[FoldStep, ...]
    size: FoldedSize
    grain: Literal["up", "sideways"] | None = None
    faults: tuple[Fault, ...] = ()


_ENDS: dict[Side, tuple[bool, bool]] = {
    "left": (True, False),
    "right": (True, True),
    "bottom": (False, False),
    "top": (False, True),
}


def neighbour(sheet: FlatSheet, name: str, side: Side) -> str | None:
    """Return the area that an area turns into over the crease on this side of it, None where nothing is folded."""
    area = sheet.named(name)
    if area is None:
        return None
    upright, far = _ENDS[side]
    edge = (area.left + area.width * far) if upright else (area.bottom + area.height * far)
    for crease in sheet.creases:
        line = crease.start.x if upright else crease.start.y
        if name in crease.between and crease.upright == upright and line == edge:
            first, second = crease.between
            return second if first == name else first
    return None
