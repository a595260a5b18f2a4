"""The schedule: prices, then passes from narrow to wide. The first that decides is the answer.

What is left undecided may be asked again with a later `stage`, which goes on where the earlier one ended.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from functools import lru_cache
from typing import Any

from layouts.cutting.builds.asked import Asked
from layouts.cutting.builds.grid import Grid, TooFine
from layouts.cutting.builds.passing import Beam, Field, run_pass
from layouts.cutting.builds.valuing import valuations

__all__ = ["STAGES", "decide"]

EVERYTHING = Beam(None, rows=300_000)


@dataclass(frozen=True, slots=True)
class Stage:
    """Passes, and the steps that all of them may take together; a million steps were seen to take 0.05 s of one core.

    `parts`: before them these shares of all copies, the largest pieces first, are looked at by themselves.
    """

    beams: tuple[Beam, ...]
    steps: int
    parts: tuple[tuple[int, int], ...] = ()


STAGES: Mapping[str, Stage] = {
    "first": Stage((Beam(1_000), Beam(4_000), Beam(24_000)), 16_000_000),
    "whole": Stage((EVERYTHING,), 14_000_000, parts=((1, 2), (2, 3), (5, 6))),
    "wide": Stage((Beam(24_000),), 60_000_000),
    "other": Stage((Beam(None, rows=600_000), Beam(16_000, "filling")), 80_000_000),
}
# A part of the pieces is soon exhausted, or it is too many as well.
STEPS_OF_PART = 4_000_000


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
    can be checked again with (`layouts.cutting.recheck`); where a part of the pieces is short already, `copies` says
    how many of each kind these are.
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
    stage = STAGES[question["stage"]]
    left = min(stage.steps, question["steps"])
    for share, of in stage.parts:
        if left < 0:
            break
        found, steps = _short_part(asked, share, of, min(left, STEPS_OF_PART))
        left -= steps
        answer["steps"] += steps
        if found is not None:
            return answer | found
    for beam in stage.beams:
        if left < 0:
            break
        ended = run_pass(field, beam, left)
        left -= ended.steps
        answer["steps"] += ended.steps
        if ended.is_exhausted:
            return answer | {"by": "exhausted", "prices": field.tight.prices}
        if ended.plan is not None:
            return answer | {"by": "plan", "plan": [[size, node.as_data()] for size, node in ended.plan]}
    return answer


def _short_part(asked: Asked, share: int, of: int, steps: int) -> tuple[dict[str, Any] | None, int]:
    """Whether the largest pieces alone, a share of all copies, are short already: a proof, and the steps it took.

    Much room is left to few large pieces, but there are few ways to use it.
    """
    wanted = sum(kind.copies for kind in asked.kinds) * share // of
    copies = [0] * len(asked.kinds)
    for number in sorted(range(len(copies)), key=lambda n: -asked.kinds[n].width * asked.kinds[n].height):
        copies[number] = min(asked.kinds[number].copies, wanted)
        wanted -= copies[number]
    part = Asked(
        asked.sheets, tuple(replace(kind, copies=more) for kind, more in zip(asked.kinds, copies, strict=True) if more)
    )
    if not part.kinds:
        return None, 0
    grid = Grid.of(part)
    field = Field.of(part, grid, *valuations(grid, part))
    ended = None if field.tight.room < 0 else run_pass(field, EVERYTHING, steps)
    spent = 0 if ended is None else ended.steps
    if ended is not None and not ended.is_exhausted:
        return None, spent
    prices = iter(field.tight.prices)
    found: dict[str, Any] = {
        "by": "exhausted",
        "prices": [next(prices) if more else 0 for more in copies],
        "copies": copies,
    }
    if ended is None:
        found["by"] = "prices"
        if len(part.sheets) == 1:
            found["at_least"] = field.tight.sheets_needed(part.sheets[0].copies)
    return found, spent
