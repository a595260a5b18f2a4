"""What a slip of the knife costs: whether one more of each piece could be cut from what a plan leaves.

What a plan leaves are its offcuts, and the sheets that it does not touch; what comes out of windows is not counted.
A piece that comes out of a cut-out may be replaced from them as well, wherever its print reads right.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from decimal import ROUND_HALF_EVEN, Decimal
from typing import Any

from layouts.cutting import Problem
from layouts.proofing.families import free_lies, lies_within
from layouts.proofing.plans import Node, PrintAnswer, one_more
from layouts.proofing.prints import PrintPart, Want

__all__ = ["Source", "Spare", "is_spent", "spare_as_cut", "spare_of"]

# Of very many offcuts only the largest are looked at: no sheet that somebody cuts leaves so many of any use.
MOST_OFFCUTS = 100
# Nor is it asked of a long list whether any of it could be cut once more.
MOST_ASKED = 60


@dataclass(frozen=True, slots=True)
class Source:
    """Where one more could be cut from: an offcut of a sheet of the plan, or a whole sheet that is not touched.

    In ticks from the lower left of the sheet with its front up; sheets count from 1, untouched ones after the plan's.
    """

    sheet: int
    x: int
    y: int
    width: int
    height: int

    def as_data(self) -> dict[str, int]:
        return {"sheet": self.sheet, "x": self.x, "y": self.y, "width": self.width, "height": self.height}


@dataclass(frozen=True, slots=True)
class Spare:
    """For each piece and flat part, by its place, the smallest source that gives one more of it, or None."""

    sources: Mapping[str, Source | None]

    @property
    def is_nothing(self) -> bool:
        """Whether not one of the pieces could be cut once more."""
        return all(source is None for source in self.sources.values())

    @property
    def score(self) -> str:
        """The share of pieces that could be cut once more, three decimals, half to even."""
        again = sum(source is not None for source in self.sources.values())
        return str((Decimal(again) / Decimal(len(self.sources))).quantize(Decimal("0.001"), ROUND_HALF_EVEN))

    def as_data(self) -> dict[str, Any]:
        """The member `spare` of a paper in a proof."""
        pieces = [
            {"at": place, "from": None if source is None else source.as_data()}
            for place, source in self.sources.items()
        ]
        return {"score": self.score, "pieces": pieces}


def spare_of(answer: PrintAnswer) -> Spare | None:
    """Return what could be cut once more, each piece by itself; None where there is no plan that fits."""
    return spare_as_cut(answer.part, answer.plan) if answer.verdict == "fits" else None


def spare_as_cut(part: PrintPart, plan: Sequence[Mapping[str, Any]]) -> Spare | None:
    """Return what could be cut once more of a plan, each piece by itself; None where nothing is cut.

    Pieces are as large as in the plan: it may be one with the sizes that a sheet prints, which differ from those of
    `part` by less than a step. A piece that its cut-out does not yield is not cut once, let alone once more.
    """
    sizes = dict(_sizes(plan))
    left = sorted(
        _left(part, plan), key=lambda source: (source.width * source.height, source.sheet, source.x, source.y)
    )
    left = left[-MOST_OFFCUTS:]
    sources: dict[str, Source | None] = {}
    known: dict[tuple[int, int, tuple[bool, ...]], Source | None] = {}
    for want in part.wants:
        if want.place not in sizes:
            continue
        width, height = sizes[want.place]
        cut = replace(want, width=width, height=height)
        asked = (width, height, free_lies(want))
        if asked not in known:
            known[asked] = next((source for source in left if _gives(source, cut)), None)
        sources[want.place] = known[asked]
    return Spare(sources) if sources else None


def is_spent(answer: PrintAnswer, is_short: Callable[[Problem], bool]) -> bool:
    """Whether not one of the pieces could be cut once more, however the sheets were cut.

    `is_short` says whether a list is proven short. The smallest piece is asked for first: mostly that is all.
    """
    spare = spare_of(answer)
    if spare is None or not spare.is_nothing or len(answer.part.wants) > MOST_ASKED:
        return False
    wants = sorted(answer.part.wants, key=lambda want: (want.width * want.height, want.place))
    return all(is_short(one_more(answer.part, want)) for want in wants if want.turns)


def _gives(source: Source, want: Want) -> bool:
    return bool(lies_within(want, source.width, source.height, free_lies(want)))


def _left(part: PrintPart, plan: Sequence[Mapping[str, Any]]) -> Iterator[Source]:
    sheet = part.sheet
    for one in plan:
        for offcut in _offcuts(one["tree"]):
            yield _within_margins(part, one["sheet"], offcut)
    # All untouched sheets are alike: the first stands for them.
    if len(plan) < part.sheets:
        yield Source(len(plan) + 1, sheet.left, sheet.bottom, sheet.usable_width, sheet.usable_height)


def _within_margins(part: PrintPart, number: int, node: Node) -> Source:
    """What can be used of an offcut: a spoilt margin that was cut off is none of it."""
    sheet = part.sheet
    left, bottom = max(node["x"], sheet.left), max(node["y"], sheet.bottom)
    right = min(node["x"] + node["width"], sheet.left + sheet.usable_width)
    top = min(node["y"] + node["height"], sheet.bottom + sheet.usable_height)
    return Source(number, left, bottom, max(0, right - left), max(0, top - bottom))


def _sizes(plan: Sequence[Mapping[str, Any]]) -> Iterator[tuple[str, tuple[int, int]]]:
    """Every piece of a plan by its place, with its width and height as it is seen the right way up."""
    waiting = [one["tree"] for one in plan]
    while waiting:
        here = waiting.pop()
        waiting.extend(here.get("parts", ()))
        waiting.extend(here.get("cut_outs", {}).values())
        if "piece" in here:
            upright = (here["width"], here["height"])
            yield here["piece"], upright[::-1] if here["turn"] in (90, 270) else upright


def _offcuts(node: Node) -> Iterator[Node]:
    waiting = [node]
    while waiting:
        here = waiting.pop()
        if "parts" in here:
            waiting.extend(reversed(here["parts"]))
        elif here.get("offcut"):
            yield here
