"""The door to better leftovers: the same pieces on as many sheets, laid so that what is left is of more use."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from layouts.cutting.answer import Answer
from layouts.cutting.blocks import Spread, block_of
from layouts.cutting.gathering import Sheets, gathered
from layouts.cutting.problem import Problem
from layouts.cutting.reduced import reduced
from layouts.cutting.regions import regions_of, roughs_of
from layouts.cutting.tidy import in_rows
from layouts.cutting.tree import Along, Cut, Region
from layouts.cutting.usefulness import Usefulness

__all__ = ["gather_leftovers"]

# Of longer lists nobody waits for the leftovers.
MOST_COPIES = 200


def gather_leftovers(problem: Problem, answer: Answer) -> Answer:
    """Return the answer, its plan on as many sheets and with the same pieces, but with leftovers of no less use.

    The sheet with the most useful leftovers stands last. Only a plan that is better takes the place of the one there
    is: by the use of its leftovers (`Usefulness`), or with equal use by fewer settings of the trimmer.
    """
    small = reduced(problem) if answer.sheets else None
    if small is None or problem.copies > MOST_COPIES:
        return answer
    slack, useful = problem.slack, Usefulness(problem)
    spread = Spread(lambda width, height: useful.offcut(width - slack, height - slack))
    turns = {number: kind.turns for number, kind in enumerate(small.kinds)}
    paper = Sheets(problem.width + slack, problem.height + slack, turns, spread, useful.bound)
    blocks = [block for rough in roughs_of(problem, small, answer.sheets) if (block := block_of(rough)) is not None]
    better = sorted(gathered(paper, blocks), key=paper.worth)
    sheets = regions_of(problem, small, [in_rows(spread.rough(one, paper.width, paper.height)) for one in better])
    before, after = [(useful.plan(plan), -_settings(plan)) for plan in (answer.sheets, sheets)]
    return replace(answer, sheets=sheets) if after > before else answer


def _settings(sheets: Sequence[Region]) -> int:
    """How many cuts are not made at the setting of the cut before, by which their part was cut off."""
    settings = 0
    waiting: list[tuple[Region, tuple[Along, int] | None]] = [(sheet, None) for sheet in sheets]
    while waiting:
        region, before = waiting.pop()
        if isinstance(region.what, Cut):
            start = region.x if region.what.along == "x" else region.y
            setting = (region.what.along, region.what.at - start)
            settings += setting != before
            waiting.extend((part, setting) for part in region.what.parts)
    return settings
