"""Whether a way that works works as printed as well: with the sizes that sheets in inches and in millimetres show."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

from layouts.document import Kit
from layouts.lengths import System
from layouts.printed import Printing, grid_of
from layouts.proofing.as_printed import AsPrintedSearch, is_as_good
from layouts.proofing.plans import PrintAnswer
from layouts.proofing.prints import PrintPart, Want
from layouts.proofing.resized import resized

__all__ = ["AsShown"]

_SYSTEMS: tuple[System, ...] = ("in", "mm")


class AsShown:
    """One way made in the document: its kit, and the prints that differ by it, each of which suffices exactly."""

    def __init__(self, kit: Kit, parts: Sequence[PrintPart]) -> None:
        self._kit, self._parts = kit, parts
        self._has_room: bool | None = None
        self._search: AsPrintedSearch | None = None

    def works(self, answers: Mapping[str, PrintAnswer]) -> bool | PrintPart:
        """Return whether all of them suffice as printed, or what must be answered before that is known."""
        if self._has_room is None:
            self._has_room = all(
                _has_room(replace(answers[part.key], part=part), grid_of(self._kit, system))
                for part in self._parts
                for system in _SYSTEMS
            )
        if self._has_room:
            return True
        if self._search is None:
            self._search = AsPrintedSearch(self._kit, self._parts, Printing(self._kit), most_tries=0)
        waiting = self._search.open(answers)
        if waiting:
            return waiting[0]
        exact = {part.paper: answers[part.key] for part in self._parts}
        found = self._search.both(answers).values()
        return all(is_as_good(answer, exact[answer.part.paper]) for one in found for answer in one.answers)


def _has_room(answer: PrintAnswer, grid: int) -> bool:
    """Whether a plan does for all that sheets may show in steps of a grid (ticks): sizes rounded up, windows down.

    Then no figure need be rounded to know that the print suffices as printed.
    """
    wants = tuple(_at_worst(want, grid) for want in answer.part.wants)
    return resized(answer, replace(answer.part, wants=wants)) is not None


def _at_worst(want: Want, grid: int) -> Want:
    windows = tuple(
        replace(one, width=one.width // grid * grid, height=one.height // grid * grid) for one in want.windows
    )
    return replace(want, width=-(-want.width // grid) * grid, height=-(-want.height // grid) * grid, windows=windows)
