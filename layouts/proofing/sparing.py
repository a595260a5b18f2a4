"""How much may be asked of the solver for one print."""

from __future__ import annotations

from typing import Any

from layouts.cutting.search import Asks

__all__ = ["MOST_WORK", "Sparing"]

# Kinds x copies x queue, as in the schedule of one list, which may use up a quarter of this. A print whose hundred
# windows each ask for as much would else run into the wall clock, and an answer must not depend on that.
MOST_WORK = 12_000_000
# And steps of the enumeration of builds (some nine seconds of one core), of which one list may use up nearly all.
MOST_STEPS = 200_000_000
# What is only tried, to be offered if it works, gets this share of both.
QUICK_SHARE = 16


class Sparing:
    """A solver that stops answering once one print has had its share of steps: what is asked then finds nothing."""

    def __init__(self, solver: Asks, *, is_quick: bool = False, is_glance: bool = False) -> None:
        self._solver = solver
        self._left = 0 if is_glance else MOST_WORK // (QUICK_SHARE if is_quick else 1)
        self._steps = 0 if is_glance else MOST_STEPS // (QUICK_SHARE if is_quick else 1)

    def check(self) -> None:
        """Raises: Cancelled."""
        self._solver.check()

    def ask(self, question: dict[str, Any]) -> dict[str, Any]:
        """Return the solver's answer. Raises: what `Solver.ask` raises."""
        if question["task"] == "builds":
            return self._built(question)
        kinds = question["kinds"]
        self._left -= len(kinds) * sum(copies for _, _, copies, _ in kinds) * question["queue"]
        if self._left < 0:
            return _SHARED
        return self._solver.ask(question)

    def _built(self, question: dict[str, Any]) -> dict[str, Any]:
        if self._steps <= 0:
            return _SHARED
        answer = self._solver.ask(question | {"steps": min(question["steps"], self._steps)})
        self._steps -= answer.get("steps", 0)
        return answer


_SHARED = {"failed": "this print has had its share of the solver"}
