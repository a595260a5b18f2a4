"""A strip pieced from two, where a layer hides the join."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from itertools import islice
from math import ceil, floor
from typing import Any

from layouts.document import Change, Project, change_to, plain_at
from layouts.lengths import Length
from layouts.proofing.mends.case import Candidate, Case
from layouts.proofing.mends.hidden import HIDING, Hidden, is_plain
from layouts.proofing.mends.mend import Mend, cost
from layouts.shapes.faces import Lying

__all__ = ["joined"]

# Joins that are looked at for one strip: a few layers, in a few places each.
MOST_JOINS = 12
_LONGEST_ID = 32
# How each axis of a support is named: its low side, its high side, the middle, and its span.
_ACROSS = ("left", "right", "centred", "width")
_UP = ("bottom", "top", "middle", "height")


@dataclass(frozen=True, slots=True)
class _Join:
    """Where a strip is parted: along which axis of its support, how far from its low end (ticks), and under what."""

    axis: tuple[str, str, str, str]
    at: int
    under: str


def joined(case: Case) -> Iterator[Mend]:
    """Yield for each strip where it could be parted: into halves, in the middle of what is hidden, and at its ends."""
    hidden = case.hidden
    for one in case.pieces:
        lies = hidden.put(one.place)
        if lies is None or not _may_be_parted(one) or hidden.is_support(one.place):
            continue
        for join in dict.fromkeys(islice(_joins(case, hidden, lies), MOST_JOINS)):
            mend = _parted(case, one, lies, join)
            if mend is not None:
                yield mend


def _may_be_parted(one: Candidate) -> bool:
    """Whether a piece is a plain strip, seen from one side, of which no other is the mirror image."""
    mirrored = one.piece.mirror_of is not None or one.piece.id in {piece.mirror_of for piece in one.project.pieces}
    return is_plain(one.piece) and not mirrored and one.piece.side != "both"


def _joins(case: Case, hidden: Hidden, lies: Lying) -> Iterator[_Join]:
    """Where a layer covers the whole breadth of a strip, by enough on both sides of the join."""
    whole, step = lies.rectangle, case.step.ticks
    if whole is None:
        return
    for other, common in hidden.covers_over(lies):
        for axis, low, high, end, full in (
            (_ACROSS, common.left - whole.left, common.right - whole.left, whole.width, common.height == whole.height),
            (_UP, common.bottom - whole.bottom, common.top - whole.bottom, whole.height, common.width == whole.width),
        ):
            first, last = ceil((low + HIDING.ticks) / step), floor((high - HIDING.ticks) / step)
            if full and first <= last and first > 0 and last * step < end:
                half = round(end / 2 / step)
                tried = ((half,) if first <= half <= last else ()) + ((first + last) // 2, first, last)
                yield from (_Join(axis, at * step, other.thing.name) for at in tried)


def _parted(case: Case, one: Candidate, lies: Lying, join: _Join) -> Mend | None:
    """A strip as two: its first part keeps its name and its place, the rest is a new piece beside it."""
    kit, unit, placement = case.kit, case.kit.unit, lies.placement
    along = lies.across if join.axis is _ACROSS else lies.up
    if along.low is None or along.low.denominator != 1 or along.low < 0:
        return None  # it lies between two ticks, or overhangs: no length says where
    turned = lies.turn in (90, 270)
    side = {"width": "height", "height": "width"}[join.axis[3]] if turned else join.axis[3]
    whole: Length = getattr(one.piece.size, side)
    first = Length(join.at, case.step.system)
    rest = whole - first
    piece_id = _free_id(
        one.piece.id, [*(piece.id for piece in one.project.pieces), *(form.id for form in one.project.forms)]
    )
    placement_id = _free_id(placement.id, [other.id for other in one.project.placements])
    at = f"project:{one.project.id}/placement:{placement.id}"
    low = Length(int(along.low), case.step.system)
    own = plain_at(kit, at)
    changes = [change_to(kit, f"{one.place}/size/{side}", first)]
    for name, value in _placed(own, join, low, is_first=True, unit=unit).items():
        if own.get(name) != value:
            changes.append(Change(f"{at}/{name}", plain_at(kit, f"{at}/{name}"), value))
    new_piece = plain_at(kit, one.place) | {"id": piece_id, "name": f"{one.piece.name.strip() or one.piece.id}, rest"}
    new_piece["size"] = [
        rest.text(unit) if name == side else getattr(one.piece.size, name).text(unit) for name in ("width", "height")
    ]
    moved = own | _placed(own, join, low + first, is_first=False, unit=unit)
    new_placement = {name: value for name, value in moved.items() if value is not None}
    new_placement |= {"id": placement_id, "put": {"piece": piece_id}}
    changes.append(Change(f"project:{one.project.id}/piece:{piece_id}", None, new_piece, one.piece.id))
    changes.append(Change(f"project:{one.project.id}/placement:{placement_id}", None, new_placement, placement.id))
    changes += _in_steps(case, one.project, one.piece.id, piece_id)
    words = (
        f"Cut {one.name} from two pieces, {first.text(unit)} and {rest.text(unit)} {unit} long: the join is hidden "
        f"by {join.under}."
    )
    return Mend(tuple(changes), words, cost(joined=one.copies))


def _placed(own: Mapping[str, Any], join: _Join, low: Length, *, is_first: bool, unit: Any) -> dict[str, Any]:
    """The members of a placement that differ for a part: where it begins, and what border is claimed around it."""
    low_side, high_side, middle, _ = join.axis
    placed: dict[str, Any] = {low_side: low.text(unit), high_side: None, middle: None}
    border = own.get("border")
    if border is not None:
        sides = border if isinstance(border, dict) else dict.fromkeys(("left", "right", "top", "bottom"), border)
        claimed = {name: value for name, value in sides.items() if name != (high_side if is_first else low_side)}
        placed["border"] = claimed or None
    return placed


def _in_steps(case: Case, project: Project, old: str, new: str) -> Iterator[Change]:
    """Name the rest wherever a step cuts or uses the strip."""
    for step in project.steps:
        place = f"project:{project.id}/step:{step.id}"
        if old in step.cut:
            cut = [id_ for one in step.cut for id_ in ((one, new) if one == old else (one,))]
            yield Change(f"{place}/cut", list(step.cut), cut)
        if any(use.piece == old for use in step.use):
            uses = plain_at(case.kit, f"{place}/use")
            both = [one for use in uses for one in ((use, use | {"piece": new}) if use.get("piece") == old else (use,))]
            yield Change(f"{place}/use", uses, both)


def _free_id(id_: str, taken: list[str]) -> str:
    """An id like this one that is not taken, in whatever letters.

    >>> _free_id("A", ["A", "a-2"])
    'A-3'
    """
    known = {one.casefold() for one in taken}
    number = 2
    while f"{id_[: _LONGEST_ID - 4]}-{number}".casefold() in known:
        number += 1
    return f"{id_[: _LONGEST_ID - 4]}-{number}"
