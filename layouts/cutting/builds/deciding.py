"""The schedule: prices, then passes from narrow to wide. The first that decides is the answer.

What is left undecided may be asked again with a later `stage`, which goes on where the earlier one ended.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from functools import lru_cache
from typing import Any

from layouts.cutting.builds.asked import Asked
from layouts.cutting.builds.grid import Grid, TooFine
from layouts.cutting.builds.passing import Beam, Field, run_pass
from layouts.cutting.builds.valuing import valuations

__all__ = ["STAGES", "decide"]

EVERYTHING = Beam(None, rows=300_000)

# The passes of each stage, and the steps that all of them may take together.
# A million steps were seen to take 0.04 s of one core.
STAGES: Mapping[str, tuple[Sequence[Beam], int]] = {
    "first": ((Beam(1_000), Beam(4_000), EVERYTHING), 60_000_000),
    "wide": ((Beam(16_000), Beam(64_000)), 100_000_000),
    "other": ((Beam(None, rows=600_000), Beam(16_000, "filling")), 160_000_000),
}


@lru_cache(maxsize=1)  # the stages of one question follow each other
def _field(asked: Asked) -> Field | None:
    """The grid and the valuations of a question; None where the grid is too fine to be worth its work."""
    try:
        grid = Grid.of(asked)
    except TooFine:
        return None
    return Field.of(asked, grid, *valuations(grid, asked))


def decide(question: Mapping[str, Any]) -> dict[str, Any]:
    """Answer a question of `sheets`, `kinds` (as `Asked.from_data` reads them), `stage` and the `steps` it may take.

    `by` is "too-big", "prices" or "exhausted" where the list is proven short, "plan" where `plan` holds a list of [size
    of sheet, tree], and null where nothing was decided; `steps` is what it took. With sheets of one size `at_least` is
    how many of them the prices prove to be needed. `prices`, one for each kind, are what a proof that the list is short
    can be checked again with (`layouts.cutting.recheck`).
    """
    asked = Asked.from_data(question)
    if asked.is_too_big:
        return {"by": "too-big", "steps": 0}
    field = _field(asked)
    if field is None:
        return {"by": None, "steps": 0}
    answer: dict[str, Any] = {"by": None, "steps": 0}
    if len(asked.sheets) == 1:
        answer["at_least"] = field.tight.sheets_needed(asked.sheets[0].copies)
    if field.tight.room < 0:
        return answer | {"by": "prices", "prices": field.tight.prices}
    beams, most = STAGES[question["stage"]]
    left = min(most, question["steps"])
    for beam in beams:
        ended = run_pass(field, beam, left)
        left -= ended.steps
        answer["steps"] += ended.steps
        if ended.is_exhausted:
            return answer | {"by": "exhausted", "prices": field.tight.prices}
        if ended.plan is not None:
            return answer | {"by": "plan", "plan": [[size, node.as_data()] for size, node in ended.plan]}
        if left < 0:
            break
    return answer
