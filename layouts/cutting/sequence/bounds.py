"""How often the trimmer must be set at least, whatever the order."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable

from layouts.cutting.sequence.ways import Left, Sheet

__all__ = ["Needed", "settings_needed"]


class Needed:
    """Tells for what is left of a sheet how many more settings it needs at least.

    Every strip that is exact is measured at its own span, but one of a part: what is left when all others are off. If
    a part holds something that is not exact, that is what is left, or a margin that is measured besides. So the spans
    that stand twice in a part, and all exact ones of a part with waste, are settings that some cut needs; and of the
    others of a part all but one. Spans of several parts are counted once. Parts with a strip that is too narrow to be
    held are not counted: there the rest may be measured instead.
    """

    def __init__(self, sheet: Sheet) -> None:
        self._sheet = sheet
        self._own: dict[Left, tuple[frozenset[int], frozenset[int]]] = {}
        self._below: dict[Left, tuple[frozenset[int], tuple[frozenset[int], ...]]] = {}

    def at_least(self, left: Iterable[Left], setting: int | None) -> int:
        """Return a number of settings, beyond the one that stands, that no order of the cuts left does without."""
        surely: set[int] = set()
        choices: list[frozenset[int]] = []
        for one in left:
            sure, of_parts = self._all_below(one)
            surely |= sure
            choices.extend(of_parts)
        if setting is not None:
            surely.discard(setting)
        count, used = len(surely), set(surely)
        for choice in choices:
            others = choice - {setting} - surely
            if len(others) > 1 and used.isdisjoint(others):
                count += len(others) - 1
                used |= others
        return count

    def _all_below(self, left: Left) -> tuple[frozenset[int], tuple[frozenset[int], ...]]:
        """What this part and all that come out of it surely need, and the spans of which all but one are needed."""
        if left not in self._below:
            surely: set[int] = set()
            choices: list[frozenset[int]] = []
            waiting = [left]
            while waiting:
                one = waiting.pop()
                sure, choice = self._of(one)
                surely |= sure
                if len(choice) > 1:
                    choices.append(choice)
                number, first, last = one
                for strip in self._sheet.parts[number].strips[first : last + 1]:
                    if strip.part is not None:
                        waiting.append((strip.part, 0, len(self._sheet.parts[strip.part].strips) - 1))
            self._below[left] = frozenset(surely), tuple(choices)
        return self._below[left]

    def _of(self, left: Left) -> tuple[frozenset[int], frozenset[int]]:
        if left not in self._own:
            number, first, last = left
            strips = self._sheet.parts[number].strips[first : last + 1]
            exact = [strip.span for strip in strips if strip.is_exact]
            if not self._sheet.is_free(number):
                self._own[left] = frozenset(), frozenset()
            elif len(exact) < len(strips):
                self._own[left] = frozenset(exact), frozenset()
            else:
                counted = Counter(exact)
                often = frozenset(span for span, many in counted.items() if many > 1)
                self._own[left] = often, frozenset(counted) - often
        return self._own[left]


def settings_needed(sheet: Sheet) -> int:
    """Return how often the trimmer must be set at least for all cuts of a sheet."""
    return max(Needed(sheet).at_least(sheet.whole, None), 1 if sheet.cuts else 0)
