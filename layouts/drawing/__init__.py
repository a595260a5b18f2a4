"""Dimensioned drawings as SVG: presentation attributes only, no style sheet and no style attribute.

The page's style sheet does not reach into a PDF's drawings, and a strict content policy blocks styles inside SVG.
"""

from layouts.drawing.cut_plan import sheet_drawing
from layouts.drawing.face import FaceDrawing, face_drawing
from layouts.drawing.flat_part import FlatDrawing, flat_drawings
from layouts.drawing.fold_words import fold_words
from layouts.drawing.folded import folded_drawing
from layouts.drawing.guide import GuideDrawing, guide_drawing
from layouts.drawing.keys import flat_key, flat_key_words
from layouts.drawing.lettering import text_width
from layouts.drawing.letters import Letters
from layouts.drawing.marks import Mark, OffcutLetters
from layouts.drawing.piece import PieceDrawing, piece_drawing
from layouts.drawing.scale import ScaledDrawing
from layouts.drawing.schedule import ScheduleDrawing, schedule_drawing
from layouts.drawing.stacks import Layer, Stack, stacks_of
from layouts.drawing.template import BARS, check_bars, piece_template, window_template

__all__ = [
    "BARS",
    "FaceDrawing",
    "FlatDrawing",
    "GuideDrawing",
    "Layer",
    "Letters",
    "Mark",
    "OffcutLetters",
    "PieceDrawing",
    "ScaledDrawing",
    "ScheduleDrawing",
    "Stack",
    "check_bars",
    "face_drawing",
    "flat_drawings",
    "flat_key",
    "flat_key_words",
    "fold_words",
    "folded_drawing",
    "guide_drawing",
    "piece_drawing",
    "piece_template",
    "schedule_drawing",
    "sheet_drawing",
    "stacks_of",
    "text_width",
    "window_template",
]
