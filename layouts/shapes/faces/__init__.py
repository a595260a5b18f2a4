"""Things on faces, pieces and panels: where they lie, what they leave, what they cover, and what of them shows."""

from layouts.shapes.faces.borders import WrongBorder, claimed_borders, uneven_borders, wrong_borders
from layouts.shapes.faces.form_sizes import FormSizes
from layouts.shapes.faces.holes import Hole
from layouts.shapes.faces.lying import Along, Lying
from layouts.shapes.faces.openings import Rim, Unsupported, rims_in, seen_over_openings, unsupported_in
from layouts.shapes.faces.overhangs import Reach, overhang
from layouts.shapes.faces.overlaps import Overlap, overlaps_in
from layouts.shapes.faces.placed import MOST_LYING, lying_in
from layouts.shapes.faces.rectangles import Rectangle
from layouts.shapes.faces.showing import MOST_LAYERS, Layer, layers_on
from layouts.shapes.faces.surfaces import Surface, Surfaces
from layouts.shapes.faces.things import Thing, Things

__all__ = [
    "MOST_LAYERS",
    "MOST_LYING",
    "Along",
    "FormSizes",
    "Hole",
    "Layer",
    "Lying",
    "Overlap",
    "Reach",
    "Rectangle",
    "Rim",
    "Surface",
    "Surfaces",
    "Thing",
    "Things",
    "Unsupported",
    "WrongBorder",
    "claimed_borders",
    "layers_on",
    "lying_in",
    "overhang",
    "overlaps_in",
    "rims_in",
    "seen_over_openings",
    "uneven_borders",
    "unsupported_in",
    "wrong_borders",
]
