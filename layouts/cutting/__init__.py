"""Pieces out of sheets by straight cuts: a plan, a proof that there is none, or an honest unknown.

    with Solver() as solver:
        answer = solve(Problem(width, height, sheets, items, slack), solver)

`verify_plan` judges finished plans and shares no code with what made them.

The names are looked up when they are first used: the child process that runs the solver is this package, too, and
starts in half the time without the rest of it.
"""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from layouts.cutting.answer import Answer, Reason, Verdict
    from layouts.cutting.culprits import Culprits, find_culprits
    from layouts.cutting.guard import Cancelled, Solver, SolverDied, SolverTooBig, SolverTooSlow
    from layouts.cutting.leftovers import gather_leftovers
    from layouts.cutting.problem import Item, Problem
    from layouts.cutting.search import is_proven_short, solve
    from layouts.cutting.tree import Cut, Offcut, Region, Taken, taken
    from layouts.cutting.verify import CutOut, Sheet, Wanted, verify_plan
    from layouts.cutting.wheel import SolverWrong

__all__ = [
    "Answer",
    "Cancelled",
    "Culprits",
    "Cut",
    "CutOut",
    "Item",
    "Offcut",
    "Problem",
    "Reason",
    "Region",
    "Sheet",
    "Solver",
    "SolverDied",
    "SolverTooBig",
    "SolverTooSlow",
    "SolverWrong",
    "Taken",
    "Verdict",
    "Wanted",
    "find_culprits",
    "gather_leftovers",
    "is_proven_short",
    "solve",
    "taken",
    "verify_plan",
]

_HOME = {
    "culprits": ("Culprits", "find_culprits"),
    "answer": ("Answer", "Reason", "Verdict"),
    "guard": ("Cancelled", "Solver", "SolverDied", "SolverTooBig", "SolverTooSlow"),
    "leftovers": ("gather_leftovers",),
    "problem": ("Item", "Problem"),
    "search": ("is_proven_short", "solve"),
    "tree": ("Cut", "Offcut", "Region", "Taken", "taken"),
    "verify": ("CutOut", "Sheet", "Wanted", "verify_plan"),
    "wheel": ("SolverWrong",),
}


def __getattr__(name: str) -> object:
    for module, names in _HOME.items():
        if name in names:
            return getattr(import_module(f"{__name__}.{module}"), name)
    raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
