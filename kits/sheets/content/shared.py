"""What the sheets of all projects of a kit share: worked out once, however many projects there are."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, Self

from kits.sheets.content.layers import LyingPair, lying_pairs
from kits.sheets.content.measures import Measures
from kits.sheets.content.turns import Turns
from kits.sheets.content.waits import WaitWords, wait_words
from kits.sheets.options import SheetOptions
from layouts.assembly import KitSteps, Names, one_person, steps_of
from layouts.document import Kit

__all__ = ["Shared"]


@dataclass(frozen=True, slots=True)
class Shared:
    """Figures, steps with what can be done meanwhile, cautions that are missing by step, names, placements, and what
    waits for what."""

    measures: Measures
    planned: KitSteps
    waits: WaitWords
    needed: Mapping[str, set[str]]
    names: Names
    lying: Mapping[str, tuple[LyingPair, ...]]
    turns: Turns

    @classmethod
    def of(cls, kit: Kit, proof: Mapping[str, Any], options: SheetOptions) -> Self:
        measures = Measures(kit, options, proof)
        # From here on everything is as the sheet shows it: what is drawn, read and added up are the same figures.
        shown = measures.as_shown
        planned = steps_of(shown)
        lying: dict[str, list[LyingPair]] = {project.id: [] for project in kit.projects}
        for one in lying_pairs(measures):
            lying[one.exact.project.id].append(one)
        by_project = {project: tuple(here) for project, here in lying.items()}
        return cls(
            measures,
            planned,
            wait_words(shown, planned),
            _needed_cautions(proof),
            Names(shown),
            by_project,
            Turns(shown, proof, planned, one_person(shown, planned)),
        )


def _needed_cautions(proof: Mapping[str, Any]) -> dict[str, set[str]]:
    """The cautions that steps need and that the document forgot, by the step.

    A sheet that somebody cuts from has to warn, whether or not the plan has been mended.
    """
    needed: dict[str, set[str]] = {}
    for finding in proof["findings"]:
        if finding["rule"] == "caution-needed":
            needed.setdefault(finding["at"][0], set()).add(finding["why"]["caution"])
    return needed
