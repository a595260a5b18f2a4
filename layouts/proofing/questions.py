"""All that is asked of the solver for one proof, in the order in which it can be asked."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import Any

from layouts.document import Kit
from layouts.printed import Printing
from layouts.proofing.as_printed import AsPrintedSearch
from layouts.proofing.mends import MendSearch
from layouts.proofing.plans import PrintAnswer
from layouts.proofing.prints import PrintPart, print_parts
from layouts.proofing.runner import faults_in_text, faults_without_plans, prove_as_printed

__all__ = ["Questions"]


class Questions:
    """What must be answered for the proof of one kit.

    First each print, then those prints whose sizes as printed differ, where the plan of the exact ones does not do for
    them; and the prints of the kit with something changed that might mend a print that is short, or save paper of one
    that fits. Each is a question by itself: whoever asks may have them answered side by side and in any order, and use
    stored answers. What is asked follows from the kit and the answers alone.
    """

    def __init__(self, kit: Kit) -> None:
        self.kit = kit
        self.parts = print_parts(kit)
        self._keys = [part.key for part in self.parts]
        self._printing = Printing(kit)
        self._as_printed = AsPrintedSearch(kit, self.parts, self._printing)
        self._mends = MendSearch(kit, self.parts, faults_without_plans, faults_in_text)

    def open(self, answers: Mapping[str, PrintAnswer]) -> tuple[PrintPart, ...]:
        """Return the parts that can be answered now and are not yet among the answers (by key); empty at the end."""
        exact = {key: part for key, part in zip(self._keys, self.parts, strict=True) if key not in answers}
        return (*exact.values(), *self._as_printed.open(answers), *self._mends.open(answers))

    def proof(self, answers: Mapping[str, PrintAnswer]) -> dict[str, Any]:
        """Return the proof; `open` has nothing left to ask. Raises: KeyError where a print has no answer."""
        exact = [replace(answers[key], part=part) for key, part in zip(self._keys, self.parts, strict=True)]
        as_printed = self._as_printed.both(answers)
        mends, ideas = self._mends.mends(answers), self._mends.ideas(answers)
        return prove_as_printed(self.kit, exact, self._printing, as_printed, mends, ideas)
