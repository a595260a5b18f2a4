"""How much of the paper touched becomes something."""

from __future__ import annotations

from decimal import ROUND_HALF_EVEN, Decimal

from layouts.proofing.plans import PrintAnswer

__all__ = ["yield_of"]


def yield_of(answer: PrintAnswer) -> str | None:
    """Return the area of what is cut from the sheets over the area of the plan's sheets less undersize.

    Three decimals, half to even; what comes out of cut-outs does not count. None where there is no plan.
    """
    if not answer.plan:
        return None
    used = sum(want.width * want.height * len(want.copies) for want in answer.part.direct)
    touched = len(answer.plan) * answer.part.sheet.width * answer.part.sheet.height
    # An area in ticks has up to fourteen digits: the quotient of two is exact to far more than the three printed.
    return str((Decimal(used) / Decimal(touched)).quantize(Decimal("0.001"), ROUND_HALF_EVEN))
