"""What the lines of the cut guide say: one cut each, as a person makes it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from kits.sheets.content.measures import Measures
from layouts.cutting.sequence import CutStep, Edge
from layouts.cutting.sequence import Sequence as Cuts
from layouts.drawing import Letters

__all__ = ["CutRow", "cut_rows", "cuts_counted", "lines_of"]

_TURNS = ("", "once", "twice")  # each a quarter
_SIDES: dict[Edge, str] = {"left": "left", "right": "right", "bottom": "lower", "top": "upper"}
_EDGES: dict[Edge, str] = {"left": "left", "right": "right", "bottom": "below", "top": "above"}


@dataclass(frozen=True, slots=True)
class CutRow:
    """One cut: its number, what to take in hand, how far from which edge of it to cut, and what comes off finished.

    `turn` says how often it is turned by a quarter since the last cut, "" where it is not; `is_same`, that the trimmer
    is set already; `keep`, which parts are laid aside for which cuts; `note`, how to hold what is hard to hold. Whoever
    cuts with scissors needs none of these but `keep`.
    """

    number: int
    take: str
    setting: str
    edge: str
    gives: str
    turn: str = ""
    is_same: bool = False
    keep: tuple[str, ...] = ()
    note: str = ""

    @property
    def said(self) -> tuple[str, ...]:
        """All that stands in the last column."""
        return tuple(one for one in (self.gives, *self.keep, self.note) if one)


def cut_rows(cuts: Cuts, whole: str, *, trimmer: bool, measures: Measures, letters: Letters) -> tuple[CutRow, ...]:
    """Return the lines of a sheet's cuts; `whole` is what the first one takes in hand."""
    return tuple(_row(cut, whole, trimmer=trimmer, measures=measures, letters=letters) for cut in cuts.steps)


def _row(cut: CutStep, whole: str, *, trimmer: bool, measures: Measures, letters: Letters) -> CutRow:
    return CutRow(
        number=cut.number,
        take=whole if cut.taken is None else f"{_SIDES[cut.taken.side]} of {cut.taken.cut}",
        setting=measures.own(cut.setting).text,
        edge=_EDGES[cut.edge],
        gives=_gives(cut, letters),
        turn=_TURNS[cut.turns] if trimmer else "",
        is_same=trimmer and cut.is_same_setting,
        keep=tuple(_kept(cut)),
        note=_held(cut) if trimmer else "",
    )


def _gives(cut: CutStep, letters: Letters) -> str:
    """What comes off finished: the letters of pieces, and what is left over."""
    said = [letters.of(one.place) for one in cut.outcomes if one.kind == "piece"]
    if len(said) == 2 and said[0] == said[1]:
        said = [f"2 × {said[0]}"]
    if any(one.kind == "offcut" for one in cut.outcomes):
        said.append("offcut")
    return ", ".join(said)


def _kept(cut: CutStep) -> Iterator[str]:
    """What is laid aside: every part that another cut than the next one takes in hand."""
    for one in cut.outcomes:
        if one.next_cut > cut.number + 1:
            # No number alone in a line, which the column may be too narrow for.
            yield f"{_SIDES[one.side]} for\N{NO-BREAK SPACE}{one.next_cut}"


def _held(cut: CutStep) -> str:
    if not cut.is_held:
        return "too narrow for the trimmer to hold: with knife and ruler"
    return "hold the wide part" if cut.over_rest else ""


def cuts_counted(cuts: Cuts, *, trimmer: bool) -> str:
    """How many cuts there are, at how many settings, and whether another order could do with fewer."""
    if len(cuts.steps) < 2:
        return ""
    if not trimmer:
        return f"{len(cuts.steps)} cuts."
    settings = "one setting" if cuts.settings == 1 else f"{cuts.settings} settings"
    said = f"{len(cuts.steps)} cuts at {settings}"
    if cuts.is_fewest:
        return f"{said}; no order of these cuts needs fewer."
    return f"{said}; the fewest possible lies between {cuts.fewest} and {cuts.settings}."


def lines_of(rows: Sequence[CutRow], wide: int) -> int:
    """How many lines a table has whose last column holds so many letters in one."""
    return sum(-(-max(1, len("; ".join(row.said))) // wide) for row in rows)
