"""A print that may read any way, so that the piece may lie any way."""

from __future__ import annotations

from collections.abc import Iterator

from layouts.document import change_to
from layouts.proofing.mends.case import Case
from layouts.proofing.mends.mend import Mend, cost

__all__ = ["turned"]


def turned(case: Case) -> Iterator[Mend]:
    """Yield for each piece that its print may read any way."""
    for one in case.pieces:
        if one.piece.print_reads != "any" and one.piece.size.width != one.piece.size.height:
            change = change_to(case.kit, f"{one.place}/print_reads", "any")
            words = f"Let {one.name} read any way, so that it may be turned on the sheet."
            yield Mend((change,), words, cost(turned=one.copies))
