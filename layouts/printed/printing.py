"""The figures of a kit as shown in each system, so that every sum that a reader can check still adds up."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping
from dataclasses import dataclass

from layouts.document import Kit
from layouts.lengths import TICKS_PER_INCH, TICKS_PER_MM, System
from layouts.printed.figures import Figure, flat_parts, listed, text_of
from layouts.printed.relations import PrintedSum, sums_of
from layouts.rounding import Relation, Rounding

__all__ = ["Printing", "ShownFigures", "figures", "grid_of"]

# What a document may put down as nothing, and a sheet may therefore show as nothing.
_MAY_BE_NOTHING = frozenset({"slack", "undersize", "bite", "least_depth", "turn_in", "flange", "corner", "border"})
_64TH = TICKS_PER_INCH // 64
_FINE_MM = TICKS_PER_MM // 20


@dataclass(frozen=True, slots=True)
class ShownFigures:
    """All figures of a kit in one system, derived ones too: by place, in ticks, each a multiple of the printed step.

    `broken` are the sums that do not come out between them, because no way of showing the figures lets all of them.
    """

    system: System
    by_place: Mapping[str, int]
    broken: tuple[PrintedSum, ...]


def figures(kit: Kit) -> tuple[Figure, ...]:
    """Return every measure that the document gives and every computed flat size, in document order, each place once.

    Window sides that are derived are not among them. Nothing is rounded down here for the sake of a print: whether that
    is needed, a proof knows.
    """
    printing = Printing(kit)
    return printing.figures(printing.shown("in"), printing.shown("mm"))


def grid_of(kit: Kit, system: System) -> int:
    """Return the step in ticks to which sheets in one system round.

    It is the kit's printed step where figures on it can be written in that system: a whole number of 64ths of an inch,
    or of twentieths of a millimetre. Any other step (2 mm for inches, 1/16 in for millimetres) would print figures
    such as 10/127: then it is the coarsest usual step that is no coarser than what is stated.

    >>> from layouts.document import read_kit
    >>> kit = read_kit(b'{"format": "kitproof/1", "code": "c", "title": "t", "unit": "mm", '
    ...                b'"printed": {"in": "2 mm", "mm": "1/16 in"}}')
    >>> grid_of(kit, "in") * 16 == 8128, grid_of(kit, "mm") == 320
    (True, True)
    """
    stated = (kit.printed.in_ if system == "in" else kit.printed.mm).ticks
    fine = _64TH if system == "in" else _FINE_MM
    if stated % fine == 0:
        return stated
    usual = [fine * 2**power for power in range(7)] if system == "in" else [fine * many for many in (1, 2, 10, 20)]
    return max((step for step in usual if step <= stated), default=fine)


class Printing:
    """The figures of one kit with all that must hold between them, to be shown in either system."""

    def __init__(self, kit: Kit) -> None:
        flat = flat_parts(kit)
        self._listed = list(listed(kit, flat))
        known = dict(self._listed)
        found = sums_of(kit, known, flat)
        self.sums = found.sums
        self.exact: Mapping[str, int] = {**known, **found.derived}
        self._places = list(self.exact)
        self._number = {place: number for number, place in enumerate(self._places)}
        self._grid: dict[System, int] = {"in": grid_of(kit, "in"), "mm": grid_of(kit, "mm")}
        self._rounding: dict[System, Rounding] = {}

    def shown(self, system: System, lowered: Collection[str] = ()) -> ShownFigures:
        """Return the figures in one system, those at the `lowered` places rounded down, and what is equal to them.

        Figures that are equal are shown alike all over a kit, where their sums allow it.
        """
        held = {self.exact[place] for place in lowered}
        down = [number for number, (_, ticks) in enumerate(self._listed) if ticks in held] if held else []
        down += [self._number[place] for place in lowered if self._number[place] >= len(self._listed)]
        found = self._in(system).rounded(frozenset(down))
        broken = tuple(self.sums[number] for number in found.broken if number < len(self.sums))
        return ShownFigures(system, dict(zip(self._places, found.shown, strict=True)), broken)

    def may_be_lowered(self, system: System, place: str) -> bool:
        """Whether a figure lies off the grid, so that it can be rounded down, and not down to nothing."""
        return self._in(system).may_be_lowered(self._number[place])

    def figures(self, inches: ShownFigures, mm: ShownFigures) -> tuple[Figure, ...]:
        """Return the listed figures as shown in both systems."""
        return self._figures(self._listed, inches, mm)

    def derived_sides(self, inches: ShownFigures, mm: ShownFigures) -> tuple[Figure, ...]:
        """Return the sides of windows and openings that follow from others: the text of a step may name them."""
        derived = self._places[len(self._listed) :]
        named = [(place, self.exact[place]) for place in derived if "/window:" in place or "/opening/" in place]
        return self._figures([one for one in named if one[1]], inches, mm)

    def _figures(self, places: Iterable[tuple[str, int]], inches: ShownFigures, mm: ShownFigures) -> tuple[Figure, ...]:
        marked = {one.system: {broken.mark for broken in one.broken} for one in (inches, mm)}
        return tuple(
            Figure(
                place,
                ticks,
                text_of(inches.by_place[place], "in"),
                text_of(mm.by_place[place], "mm"),
                tuple(system for system, where in marked.items() if place in where),
            )
            for place, ticks in places
        )

    def _in(self, system: System) -> Rounding:
        if system not in self._rounding:
            step = self._grid[system]
            sums = [_relation(one, self._number) for one in self.sums]
            values = list(self.exact.values())
            positive = [number for number, place in enumerate(self._places) if not _may_be_nothing(place)]
            relations = [*sums, *self._alike(step)]
            derived = range(len(self._listed), len(self._places))
            self._rounding[system] = Rounding(values, step, relations, positive=positive, unprinted=derived)
        return self._rounding[system]

    def _alike(self, step: int) -> Iterator[Relation]:
        """Equal figures are shown alike: rather within one thing (a piece, a form) than all over the kit.

        Those of which none stands in a sum are alike anyway.
        """
        summed = {place for one in self.sums for _, place in (*one.parts, (1, one.total))}
        bound = {ticks for place, ticks in self._listed if place in summed}
        first: dict[int, int] = {}
        within: dict[tuple[str, int], int] = {}
        across = []
        for number, (place, ticks) in enumerate(self._listed):
            if ticks % step == 0 or ticks not in bound:
                continue
            thing = "/".join(place.split("/")[:2])
            if (thing, ticks) in within:
                yield Relation.equal(within[thing, ticks], number)
                continue
            within[thing, ticks] = number
            if ticks in first:
                across.append(Relation.equal(first[ticks], number))
            else:
                first[ticks] = number
        yield from across


def _relation(one: PrintedSum, number: Mapping[str, int]) -> Relation:
    terms: dict[int, int] = {}
    for times, place in one.parts:
        terms[number[place]] = terms.get(number[place], 0) + times
    terms[number[one.total]] = terms.get(number[one.total], 0) - 1
    return Relation(tuple((times, figure) for figure, times in terms.items() if times))


def _may_be_nothing(place: str) -> bool:
    *path, last = place.split("/")
    if "points" in path or "spoilt" in path or "border" in path:
        return True
    if last in ("left", "right", "top", "bottom"):
        return any(part.startswith("placement:") for part in path)
    return last in _MAY_BE_NOTHING
