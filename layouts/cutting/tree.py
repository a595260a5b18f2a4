"""A cut tree: how one sheet comes apart, in ticks from the lower left corner of its usable rectangle."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any, Literal

__all__ = ["Along", "Cut", "Offcut", "Region", "Taken", "region_from_json", "region_to_json", "taken"]

Along = Literal["x", "y"]


@dataclass(frozen=True, slots=True)
class Taken:
    """The region is a piece; `sideways`: its height lies along x."""

    key: str
    sideways: bool


@dataclass(frozen=True, slots=True)
class Offcut:
    """The region is what is left over."""


@dataclass(frozen=True, slots=True)
class Cut:
    """The region is cut once, from edge to edge, at `at` on the axis `along`: left then right, or bottom then top.

    With a slack the parts leave it between them; where no more than the slack is left beyond the cut, that rest is
    lost and the cut has one part.
    """

    along: Along
    at: int
    parts: tuple[Region, ...]

    def __post_init__(self) -> None:
        if len(self.parts) not in (1, 2):
            raise ValueError(f"a cut has one or two parts, not {len(self.parts)}")


@dataclass(frozen=True, slots=True)
class Region:
    """A rectangle of paper and what becomes of it. Raises: ValueError if it is empty."""

    x: int
    y: int
    width: int
    height: int
    what: Cut | Taken | Offcut

    def __post_init__(self) -> None:
        if self.width < 1 or self.height < 1:
            raise ValueError(f"an empty part of {self.width} x {self.height} at {self.x}, {self.y}")


def taken(region: Region) -> Iterator[tuple[Region, Taken]]:
    """Yield the pieces of a sheet, in the order of the tree."""
    waiting = [region]
    while waiting:
        part = waiting.pop()
        if isinstance(part.what, Cut):
            waiting.extend(reversed(part.what.parts))
        elif isinstance(part.what, Taken):
            yield part, part.what


def region_to_json(region: Region) -> dict[str, Any]:
    """The region as plain values, to be kept; `region_from_json` reads them."""
    value: dict[str, Any] = {"x": region.x, "y": region.y, "width": region.width, "height": region.height}
    match region.what:
        case Cut(along, at, parts):
            value |= {"cut": {"along": along, "at": at}, "parts": [region_to_json(part) for part in parts]}
        case Taken(key, sideways):
            value |= {"key": key, "sideways": sideways}
        case Offcut():
            value |= {"offcut": True}
    return value


def region_from_json(value: dict[str, Any]) -> Region:
    what: Cut | Taken | Offcut = Offcut()
    if "cut" in value:
        parts = tuple(region_from_json(part) for part in value["parts"])
        what = Cut(value["cut"]["along"], value["cut"]["at"], parts)
    elif "key" in value:
        what = Taken(value["key"], value["sideways"])
    return Region(value["x"], value["y"], value["width"], value["height"], what)
