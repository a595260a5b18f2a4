"""The cuts of one print, one after the other: its sheets with their numbers, and a line a cut, as in the cut guide."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from itertools import islice
from typing import Any

from django.utils.safestring import SafeString, mark_safe

from kits.sheets.content.cut_rows import CutRow
from kits.sheets.content.guide import GuideSheet, sheets_of_print
from kits.sheets.options import SheetOptions
from layouts.document import Kit, paper_place
from layouts.drawing import ScaledDrawing

__all__ = ["CutSheet", "CutsPart", "cuts_part"]

# Sheets of a print, with what comes out of their windows; nobody reads more on a screen.
_MOST = 12
# On paper letters are nine points high; a screen is read from farther away.
_LARGER = Fraction(5, 4)


@dataclass(frozen=True, slots=True)
class CutSheet:
    """One sheet, or what comes out of a window; `after` says what is true of all its cuts, and what is cut after."""

    heading: str
    side: str
    whole: str
    drawing: SafeString
    keep: tuple[str, ...]
    rows: tuple[CutRow, ...]
    after: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class CutsPart:
    """The cuts of one print. `sentence` says why there are none, `more` how many sheets are not shown, `current`
    whether they are of the kit as it is."""

    name: str
    place: str
    sheets: tuple[CutSheet, ...]
    more: int
    sentence: str
    current: bool


def cuts_part(kit: Kit, proof: Mapping[str, Any], paper: str, *, current: bool) -> CutsPart:
    """Return the cuts of a print of a kit; `proof` is that of this very document. Raises: StopIteration if unknown."""
    name = next(one.name for one in kit.papers if one.id == paper)
    answer = next(one for one in proof["papers"] if one["paper"] == paper)
    sheets = list(islice(sheets_of_print(kit, proof, SheetOptions.of(kit), paper, name="_cuts-"), _MOST))
    planned = len(answer["plan"])
    shown = sum(not one.is_cut_out for one in sheets)
    sentence = "Nothing is cut from it." if answer["verdict"] == "fits" else "There is no cut plan for it."
    return CutsPart(
        name=name,
        place=paper_place(paper),
        sheets=tuple(_sheet(one) for one in sheets),
        more=max(0, planned - shown),
        sentence=sentence,
        current=current,
    )


def _sheet(one: GuideSheet) -> CutSheet:
    after = tuple(part for part in (one.counted, *one.windows) if part)
    return CutSheet(one.heading, one.side, one.whole, _inline(one.drawing), one.keep, one.rows, after)


def _inline(drawing: ScaledDrawing) -> SafeString:
    """The drawing, to stand in a page; it escapes what it writes."""
    tenths = int(Fraction(drawing.width_mm) * _LARGER * 10)
    return mark_safe(re.sub("^<svg ", f'<svg width="{tenths // 10}.{tenths % 10}mm" ', drawing.svg))
