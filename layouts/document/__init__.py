"""The kit document `kitproof/1`: its model, how it is read and refused, its canonical form, its places."""

from layouts.document.canonical import canonical_bytes, canonical_tree, canonical_value, document_hash
from layouts.document.changes import Change, added, change_to, changed, plain_at
from layouts.document.contents import Blank, Element, Embellishment, Face, Pad, Paper, PrintSide, Spoilt, Supply, Tool
from layouts.document.forms import Form, FormBase
from layouts.document.kit import Accepted, Cutting, Kit, Printed, Project
from layouts.document.pieces import Edges, Piece
from layouts.document.placements import Copy, Placement, Put, Support
from layouts.document.places import (
    UnknownPlace,
    form_place,
    lengths_of,
    paper_place,
    piece_place,
    step_place,
    value_at,
)
from layouts.document.reading import read_kit, read_kit_tree, reread_kit
from layouts.document.refusal import DocumentError, Refused
from layouts.document.schema import schema_text
from layouts.document.shape import Opening, Shape, Window
from layouts.document.steps import Step, Use
from layouts.document.values import Box, Duration, Each, Point, Size

__all__ = [
    "Accepted",
    "Blank",
    "Box",
    "Change",
    "Copy",
    "Cutting",
    "DocumentError",
    "Duration",
    "Each",
    "Edges",
    "Element",
    "Embellishment",
    "Face",
    "Form",
    "FormBase",
    "Kit",
    "Opening",
    "Pad",
    "Paper",
    "Piece",
    "Placement",
    "Point",
    "PrintSide",
    "Printed",
    "Project",
    "Put",
    "Refused",
    "Shape",
    "Size",
    "Spoilt",
    "Step",
    "Supply",
    "Support",
    "Tool",
    "UnknownPlace",
    "Use",
    "Window",
    "added",
    "canonical_bytes",
    "canonical_tree",
    "canonical_value",
    "change_to",
    "changed",
    "document_hash",
    "form_place",
    "lengths_of",
    "paper_place",
    "piece_place",
    "plain_at",
    "read_kit",
    "read_kit_tree",
    "reread_kit",
    "schema_text",
    "step_place",
    "value_at",
]
