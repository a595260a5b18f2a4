"""The schedule: prices, then passes from narrow to wide. The first that decides is the answer.

What is left undecided may be asked again with a later `stage`, which goes on where the earlier one ended.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from layouts.cutting.builds.asked import Asked
from layouts.cutting.builds.grid import Grid, TooFine
from layouts.cutting.builds.passing import Beam, Field, run_pass
from layouts.cutting.builds.valuing import valuations

__all__ = ["STAGES", "decide"]

EVERYTHING = Beam(None, rows=300_000)

# The passes of each stage, and the steps that all of them may take together.
# On one core a million steps were seen to take 0.05 to 0.15 s.
STAGES: Mapping[str, tuple[Sequence[Beam], int]] = {
    "first": ((Beam(1_000), Beam(4_000), EVERYTHING), 60_000_000),
    "wide": ((Beam(16_000), Beam(64_000)), 60_000_000),
    "other": ((Beam(None), Beam(16_000, "filling")), 120_000_000),
}


def decide(question: Mapping[str, Any]) -> dict[str, Any]:
    """Answer a question of `sheets`, `kinds` (as `Asked.from_data` reads them), `stage` and the `steps` it may take.

    `by` is "too-big", "prices" or "exhausted" where the list is proven short, "plan" where `plan` holds a list of [size
    of sheet, tree], and null where nothing was decided; `steps` is what it took. With sheets of one size `at_least` is
    how many of them the prices prove to be needed.
    """
    asked = Asked.from_data(question)
    if asked.is_too_big:
        return {"by": "too-big", "steps": 0}
    try:
        grid = Grid.of(asked)
    except TooFine:
        return {"by": None, "steps": 0}
    tight, by_area = valuations(grid, asked)
    answer: dict[str, Any] = {"by": None, "steps": 0}
    if len(asked.sheets) == 1:
        answer["at_least"] = tight.sheets_needed(asked.sheets[0].copies)
    if tight.room < 0:
        return answer | {"by": "prices"}
    field = Field.of(asked, grid, tight, by_area)
    beams, most = STAGES[question["stage"]]
    left = min(most, question["steps"])
    for beam in beams:
        ended = run_pass(field, beam, left)
        left -= ended.steps
        answer["steps"] += ended.steps
        if ended.is_exhausted:
            return answer | {"by": "exhausted"}
        if ended.plan is not None:
            return answer | {"by": "plan", "plan": [[size, node.as_data()] for size, node in ended.plan]}
        if left < 0:
            break
    return answer
