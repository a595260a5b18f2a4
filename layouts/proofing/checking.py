"""Every plan before anyone sees it: held against what was asked, by a checker that shares no code with the search."""

from __future__ import annotations


from layouts.errors import KitproofError
from layouts.proofing.plans import PrintAnswer

__all__ = ["PlanFails", "check_plan"]


class PlanFails(KitproofError):
    """A plan that cannot be cut as it stands: a defect of this program, never an answer."""

    code = "plan-fails"


def check_plan(a):
    pass
