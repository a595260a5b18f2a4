"""The sheets of a paper: their stated size, and what of them can be used."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from layouts.document import Pad, Paper, Size
from layouts.lengths import Length

__all__ = ["UsableSheet", "sheet_size", "size_within_margins", "usable_sheet"]


@dataclass(frozen=True, slots=True)
class UsableSheet:
    """A sheet less its undersize, and the edges of its usable area, in ticks from the lower left with the front up.

    `right` is never less than `left`, nor `top` less than `bottom`: an area that is all spoilt is empty.
    """

    width: int
    height: int
    left: int
    bottom: int
    right: int
    top: int

    @property
    def usable_width(self) -> int:
        return self.right - self.left

    @property
    def usable_height(self) -> int:
        return self.top - self.bottom


def sheet_size(paper: Paper, pads: Mapping[str, Pad]) -> Size:
    """Return the stated size of a paper's sheets, its own or its pad's (`pads` by id)."""
    if paper.size is not None:
        return paper.size
    if paper.pad is None:
        raise ValueError("a paper has a pad or a size of its own")
    return pads[paper.pad].size


def size_within_margins(paper: Paper, pads: Mapping[str, Pad]) -> Size:
    """Return the stated size less undersize and spoilt margins, whatever the slack; zero where nothing is left."""
    stated, spoilt = sheet_size(paper, pads), paper.spoilt
    zero = Length.zero()
    return Size(
        max(stated.width - paper.undersize - spoilt.left - spoilt.right, zero),
        max(stated.height - paper.undersize - spoilt.top - spoilt.bottom, zero),
    )


def usable_sheet(paper: Paper, pads: Mapping[str, Pad], slack: Length) -> UsableSheet:
    """Return what edge-to-edge cuts with this slack leave of a sheet once its spoilt margins are cut off.

    The two parts of a cut leave the slack s between them, and the part cut off must be at least one tick wide. So a
    margin m on the left (or bottom) leaves the area from max(m, s + 1) on: a margin narrower than the slack costs more
    than itself. On the right (or top) the usable area is the first part and ends at the margin exactly: a rest of no
    more than s is lost with the cut.
    """
    stated, spoilt = sheet_size(paper, pads), paper.spoilt
    width, left, right = _axis(stated.width - paper.undersize, spoilt.left, spoilt.right, slack)
    height, bottom, top = _axis(stated.height - paper.undersize, spoilt.bottom, spoilt.top, slack)
    return UsableSheet(width, height, left, bottom, right, top)


def _axis(whole: Length, low: Length, high: Length, slack: Length) -> tuple[int, int, int]:
    """The whole side, and where its usable part starts and ends."""
    side = max(whole.ticks, 0)
    start = min(max(low.ticks, slack.ticks + 1) if low else 0, side)
    return side, start, max(side - high.ticks, start)
