"""What is told of the cuts of one sheet: each cut as a person makes it, and how good their order is.

All lengths are ticks; places are seen from the lower left of the sheet as it lies.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

__all__ = ["CutStep", "Edge", "Outcome", "Rectangle", "Sequence", "Taken"]

type Edge = Literal["left", "right", "bottom", "top"]


@dataclass(frozen=True, slots=True)
class Rectangle:
    """Where something lies on its sheet, in ticks from the lower left, as the sheet is seen."""

    x: int
    y: int
    width: int
    height: int


@dataclass(frozen=True, slots=True)
class Outcome:
    """What one side of a cut is: a piece (`place`, `copy`), a part that further cuts divide, or an offcut.

    `side` is the side of the cut on which it lies; `back` says that the piece shows the back of the leaf; `keep` are
    the windows of the piece whose cut-outs others come from; `next_cut` is the number of the cut that takes a part in
    hand again, 0 for what is finished.
    """

    kind: Literal["piece", "part", "offcut"]
    side: Edge
    area: Rectangle
    place: str = ""
    copy: int = 0
    back: bool = False
    keep: tuple[str, ...] = ()
    next_cut: int = 0


@dataclass(frozen=True, slots=True)
class Taken:
    """Which part to take in hand: the one on this side of an earlier cut."""

    cut: int
    side: Edge


@dataclass(frozen=True, slots=True)
class CutStep:
    """One cut. `along` "x" is an upright line at `at`, "y" a level one.

    `part` is what is cut: the whole sheet where `taken` is None. `setting` is the distance of the cut from the part's
    edge `edge`, which lies at the fence. `outcomes` are left then right, or lower then upper; one only where the rest
    is lost with the cut. `is_same_setting`: the trimmer stands there already. `turns` is by how many quarters what is
    in hand is turned since the last cut: 0, 1, or 2. `over_rest`: what comes off is narrower than the trimmer holds,
    so the rest is held and measured; `is_held` is false where that is too narrow as well.
    """

    number: int
    taken: Taken | None
    part: Rectangle
    along: Literal["x", "y"]
    at: int
    edge: Edge
    setting: int
    length: int
    outcomes: tuple[Outcome, ...]
    is_same_setting: bool = False
    turns: int = 0
    over_rest: bool = False
    is_held: bool = True


@dataclass(frozen=True, slots=True)
class Sequence:
    """The cuts of one sheet in the order of making.

    `settings` counts how often the trimmer is set, `turns` the quarter turns between cuts. No order of these cuts is
    made with fewer settings than `fewest`: that is proven, and where the two are equal this order is one of the best.
    """

    steps: tuple[CutStep, ...]
    settings: int
    turns: int
    fewest: int

    @property
    def is_fewest(self) -> bool:
        return self.settings == self.fewest

    @property
    def gap(self) -> int:
        """By how many settings a better order could be better at most; 0 where it is proven that none is."""
        return self.settings - self.fewest
