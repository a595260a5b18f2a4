"""Random forms of every construction, and folding them up in space with whole and exact numbers."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise
from typing import Any

from hypothesis import strategies as st

from layouts.document import Kit
from layouts.shapes.forms import Area, Crease, FlatSheet, FlatSizes, Folded, Spot
from tests.unit.shapes.making import kit_of

__all__ = ["FORMS", "Box", "folded", "in_space", "kits", "on_the_border", "shared"]


def lengths(most: int = 160) -> st.SearchStrategy[str]:
    """A sixteenth of an inch and up; now and then one of the finest or of the longest."""
    return st.integers(1, most).map(lambda n: f"{n}/16") | st.sampled_from(["1/64", "0.1 mm", "10 in", "9000 mm"])


def pairs(most: int = 160) -> st.SearchStrategy[list[str]]:
    return st.lists(lengths(most), min_size=2, max_size=2)


SIDES = st.sampled_from(["left", "right", "top", "bottom"])
FOLDS = st.sampled_from(["mountain", "valley"])
WALLS: dict[str, Any] = {
    "depth": lengths(32),
    "walls": st.sampled_from(["single", "double"]),
    "flange": lengths(16) | st.just("0"),
    "corner": st.sampled_from(["tab", "cut"]),
}


def forms(kind: str, optional: Mapping[str, Any] | None = None, **fields: Any) -> st.SearchStrategy[dict[str, Any]]:
    return st.fixed_dictionaries({"as": st.just(kind), **fields}, optional=dict(optional or {}))


@st.composite
def boxes_by_scores(draw: st.DrawFn) -> dict[str, Any]:
    """Sheets scored alike from all edges, as a planner writes a box, now and then with one distance misprinted."""
    wall = draw(st.integers(4, 24))
    scores = [
        {"from": side, "at": f"{wall * number}/16"}
        for side in ("left", "right", "top", "bottom")
        for number in range(1, draw(st.integers(1, 3)) + 1)
    ]
    if draw(st.booleans()):
        draw(st.sampled_from(scores))["at"] = f"{draw(st.integers(1, 80))}/16"
    size = [f"{draw(st.integers(2, 16 * 20))}/16" for _ in range(2)]
    return {"as": "scored", "size": size, "scores": scores, "corners": draw(st.sampled_from(["tab", "cut"]))}


FORMS: Mapping[str, st.SearchStrategy[dict[str, Any]]] = {
    "tray": forms("tray", {"turn_in": lengths(32)}, inside=pairs(), **WALLS)
    | forms("tray", {"turn_in": lengths(32)}, outside=pairs(), **WALLS),
    "lid": forms("lid", {"clearance": lengths(8)}, fits=pairs(), **WALLS) | forms("lid", outside=pairs(), **WALLS),
    "sleeve": forms("sleeve", around=pairs(), length=lengths(), overlap=lengths(40)),
    "concertina": forms(
        "concertina", {"join": lengths(40)}, panel=pairs(64), panels=st.integers(1, 40), first_fold=FOLDS
    ),
    "pocket": forms("pocket", panel=pairs(), flap=lengths(60), open=SIDES),
    "frame": forms("frame", opening=pairs(), width=lengths(40), corner=st.sampled_from(["mitre", "butt"])),
    "envelope": forms("envelope", holds=pairs(), side_flap=lengths(80), bottom_flap=lengths(80), top_flap=lengths(80)),
    "tag": forms("tag", {"hole": lengths(40)}, size=pairs(), corner=lengths(40) | st.just("0")),
    "scored": boxes_by_scores()
    | forms(
        "scored",
        size=pairs(320),
        scores=st.lists(st.fixed_dictionaries({"from": SIDES, "at": lengths(80), "fold": FOLDS}), max_size=8),
        corners=st.sampled_from(["keep", "tab", "cut"]),
    ),
}


@st.composite
def kits(draw: st.DrawFn, kind: str) -> Kit:
    """A kit of one form of this construction, on a paper of any size and thickness."""
    caliper = draw(st.none() | st.integers(1, 3000))
    return kit_of(draw(FORMS[kind]), caliper_um=caliper, size=draw(pairs(320)))


def folded(kit: Kit) -> Folded:
    return FlatSizes.of(kit).fold(kit.projects[0].forms[0], "p", kit.papers[0])


Point = tuple[Fraction, Fraction, Fraction]


@dataclass(frozen=True)
class Box:
    """The box around some points; of a folded panel, which lies along the axes, it is the panel itself."""

    low: Point
    high: Point

    @classmethod
    def around(cls, points: list[Point]) -> Box:
        low, high = (tuple(side(axis) for axis in zip(*points, strict=True)) for side in (min, max))
        return cls(low, high)

    def within(self, other: Box) -> bool:
        return all(a >= b for a, b in zip(self.low, other.low, strict=True)) and all(
            a <= b for a, b in zip(self.high, other.high, strict=True)
        )


@dataclass(frozen=True)
class Pose:
    """Where an area lies in space: images of the directions right, up and towards the eye, and of the origin."""

    right: Point
    up: Point
    out: Point
    origin: Point

    def of(self, spot: Spot) -> Point:
        return _plus(self.origin, _plus(_times(self.right, spot.x), _times(self.up, spot.y)))

    def folded(self, crease: Crease, child: Area) -> Pose:
        """The pose of an area beyond a crease. A mountain sends it away from the eye, a valley towards it."""
        middle = child.left + child.width / 2, child.bottom + child.height / 2
        if crease.upright:
            away, along = self.right, middle[0] > crease.start.x
        else:
            away, along = self.up, middle[1] > crease.start.y
        outwards = away if along else _times(away, -1)
        if crease.turn == 180:
            turned, out = _times(outwards, -1), _times(self.out, -1)
        elif crease.fold == "mountain":
            turned, out = _times(self.out, -1), outwards
        else:
            turned, out = self.out, _times(outwards, -1)
        image = turned if along else _times(turned, -1)
        right, up = (image, self.up) if crease.upright else (self.right, image)
        # The line of the crease stays where it is.
        moved = _plus(_times(right, crease.start.x), _times(up, crease.start.y))
        return Pose(right, up, out, _plus(self.of(crease.start), _times(moved, -1)))


def in_space(sheet: FlatSheet) -> dict[str, Box]:
    """Fold a sheet up: its first area stays flat, each crease turns what lies beyond it. Every area by its name."""
    zero, one = Fraction(0), Fraction(1)
    areas = {area.name: area for area in sheet.areas}
    poses = {sheet.areas[0].name: Pose((one, zero, zero), (zero, one, zero), (zero, zero, one), (zero, zero, zero))}
    for crease in sheet.creases:
        inner, outer = crease.between
        poses[outer] = poses[inner].folded(crease, areas[outer])
    return {name: Box.around([pose.of(spot) for spot in areas[name].corners]) for name, pose in poses.items()}


def on_the_border(crease: Crease, area: Area) -> bool:
    """Whether a whole crease lies on one edge of an area."""
    return any(
        _between(start, crease.start, end) and _between(start, crease.end, end)
        for start, end in pairwise((*area.corners, area.corners[0]))
    )


def shared(one: Area, other: Area) -> bool:
    """Whether two rectangles have more than a border in common."""
    return (
        min(one.left + one.width, other.left + other.width) > max(one.left, other.left)
        and min(one.bottom + one.height, other.bottom + other.height) > max(one.bottom, other.bottom)
    )  # fmt: skip


def _between(start: Spot, spot: Spot, end: Spot) -> bool:
    straight = (end.x - start.x) * (spot.y - start.y) == (end.y - start.y) * (spot.x - start.x)
    return straight and min(start.x, end.x) <= spot.x <= max(start.x, end.x) and (
        min(start.y, end.y) <= spot.y <= max(start.y, end.y)
    )  # fmt: skip


def _plus(a: Point, b: Point) -> Point:
    return a[0] + b[0], a[1] + b[1], a[2] + b[2]


def _times(a: Point, times: Fraction | int) -> Point:
    return a[0] * times, a[1] * times, a[2] * times
