"""The geometry that cutting needs: openings and what comes out of them, cut sizes, flat sizes, sheets, turns."""

from layouts.shapes.cut_outs import cut_out
from layouts.shapes.cut_sizes import cut_size, finished_size
from layouts.shapes.forms import MOST_PARTS, FlatPart, FlatSizes
from layouts.shapes.not_built import NotBuilt
from layouts.shapes.sheets import UsableSheet, sheet_size, usable_sheet
from layouts.shapes.turns import AskedSide, Showing, missing_side, turn_on_sheet, turns_in_cut_out, turns_on_sheet
from layouts.shapes.windows import Aperture, WindowSum, contradictions, is_inside, resolve

__all__ = [
    "MOST_PARTS",
    "Aperture",
    "AskedSide",
    "FlatPart",
    "FlatSizes",
    "NotBuilt",
    "Showing",
    "UsableSheet",
    "WindowSum",
    "contradictions",
    "cut_out",
    "cut_size",
    "finished_size",
    "is_inside",
    "missing_side",
    "resolve",
    "sheet_size",
    "turn_on_sheet",
    "turns_in_cut_out",
    "turns_on_sheet",
    "usable_sheet",
]
