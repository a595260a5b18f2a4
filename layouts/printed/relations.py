"""Which sums a reader can check: among the figures of a kit, with those that are derived on the way."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from layouts.document import Kit
from layouts.printed.borders import border_sums
from layouts.printed.figures import FlatParts
from layouts.printed.folds import flat_sums, score_sums
from layouts.printed.openings import cut_sums, opening_sums
from layouts.printed.sums import PrintedSum, Summed

__all__ = ["PrintedSum", "SumsOfKit", "sums_of"]


@dataclass(frozen=True, slots=True)
class SumsOfKit:
    """The sums, the important ones first, and the derived figures in them by place, in ticks."""

    sums: tuple[PrintedSum, ...]
    derived: Mapping[str, int]


def sums_of(kit: Kit, known: Mapping[str, int], flat: FlatParts) -> SumsOfKit:
    """Return the sums that hold exactly; `known` are the listed figures of the kit by place, in ticks.

    What one drawing shows comes first (margins and openings, scores and panels), then what is cut larger for an edge,
    then borders, then flat parts: whatever contradicts another is left out from behind. A sum with a term that no
    sheet shows (a thickness, a default) is none that a reader could check.
    """
    derived: dict[str, int] = {}
    sums = []
    for one in _all(kit, flat):
        new = {place: ticks for place, ticks in one.derived.items() if place not in known}
        if _is_true(one.sum, (known, derived, new)):
            derived |= new
            sums.append(one.sum)
    return SumsOfKit(tuple(sums), derived)


def _is_true(one: PrintedSum, values: Sequence[Mapping[str, int]]) -> bool:
    """Whether all figures of a sum are there, none below zero, and it comes out exactly."""

    def value(place: str) -> int:
        return next((known[place] for known in values if place in known), -1)

    parts = [(times, value(place)) for times, place in one.parts]
    return all(ticks >= 0 for _, ticks in parts) and sum(n * ticks for n, ticks in parts) == value(one.total)


def _all(kit: Kit, flat: FlatParts) -> Iterator[Summed]:
    yield from opening_sums(kit)
    yield from score_sums(kit)
    yield from cut_sums(kit)
    # Those that say what the base of a box is go before: a border may be that on a base.
    flats = list(flat_sums(kit, flat))
    yield from (one for one in flats if one.derived)
    yield from border_sums(kit)
    yield from (one for one in flats if not one.derived)
