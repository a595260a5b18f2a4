"""Equal copies of a piece that are used as a left and a right one."""

from __future__ import annotations

import re
from collections.abc import Hashable, Iterator, Sequence
from dataclasses import dataclass

from layouts.document import Kit, Piece, Placement, Project
from layouts.shapes.faces import Lying
from layouts.shapes.mirrors import is_handed

__all__ = ["Pair", "handed_pairs"]

_SIDE = re.compile(r"(?<![a-z])(?:left|right)(?![a-z])")


@dataclass(frozen=True, slots=True)
class Pair:
    """A piece with two copies that lie left and right: the places of both, or of the placements that put them there."""

    project: Project
    piece: Piece
    left: str
    right: str


def handed_pairs(kit: Kit, lying: Sequence[Lying]) -> Iterator[Pair]:
    """Yield each piece of several equal copies that is not its own mirror image and is used left and right.

    It is used so where two copies, turned alike, lie as far from the left as from the right of one support and equally
    high; or where placements, faces or panels are named alike but for “left” and “right”. A piece that has a mirror
    image of its own among the pieces has been thought of.
    """
    by_piece: dict[tuple[str, str], list[Lying]] = {}
    for one in lying:
        if one.placement.put.piece is not None:
            by_piece.setdefault((one.project.id, one.placement.put.piece), []).append(one)
    for project in kit.projects:
        mirrored = {piece.mirror_of for piece in project.pieces} | {
            piece.id for piece in project.pieces if piece.mirror_of is not None
        }
        for piece in project.pieces:
            copies = by_piece.get((project.id, piece.id), [])
            if piece.count < 2 or len(copies) < 2 or piece.id in mirrored or not is_handed(piece):
                continue
            pair = _opposite(copies)
            if pair is not None:
                left, right = pair
                yield Pair(project, piece, left.place, right.place)


def _opposite(copies: Sequence[Lying]) -> tuple[Lying, Lying] | None:
    """The first two copies that lie left and right of each other, the left one first."""
    seen: dict[tuple[Hashable, ...], Lying] = {}
    named: dict[tuple[Hashable, ...], Lying] = {}
    for one in copies:
        low, high = one.across.low, one.across.high
        if low is not None and high is not None and low != high:
            here = (one.surface.place, one.on_copy, one.turn, one.up.low)
            other = seen.get((*here, high, low))
            if other is not None:
                return (one, other) if low < high else (other, one)
            seen.setdefault((*here, low, high), one)
        name = _name(one.placement)
        sides = set(_SIDE.findall(name))
        if len(sides) == 1:
            side = sides.pop()
            key = one.turn, _SIDE.sub("*", name)
            other = named.get((*key, "right" if side == "left" else "left"))
            if other is not None:
                return (one, other) if side == "left" else (other, one)
            named.setdefault((*key, side), one)
    return None


def _name(placement: Placement) -> str:
    """The words of a placement in which a side may be named: its own, and those of what it is on."""
    on = placement.on
    return "/".join(part.lower() for part in (placement.id, on.face, on.panel, on.blank, on.form, on.piece) if part)
