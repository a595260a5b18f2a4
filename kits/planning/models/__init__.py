"""The rows: kits, their drafts and what was changed in them, and everything that has an id in a kit document.

Each row copies every field of its object in the document, defaults filled in. Lengths are columns of exact text with
their unit; a size is two of them. Values without ids of their own are JSON in canonical form, every unit written.
References stay ids of the document. An absent text is an empty one where no document can hold an empty one.
"""

from kits.planning.models.contents import Blank, Element, Embellishment, Face, Pad, Paper, Supply, Tool
from kits.planning.models.kits import Change, ChangeKind, Draft, Kit
from kits.planning.models.months import CalendarAddress, KitDates, KitDatesChange
from kits.planning.models.parts import Part, PartKind
from kits.planning.models.pictures import SIDES, PrintPicture
from kits.planning.models.projects import AcceptedFinding, Form, Piece, Placement, Project, Step, Window
from kits.planning.models.reviews import (
    Comment,
    CommentEntry,
    EntryKind,
    Handover,
    Holder,
    TestBuild,
    TestBuildPhoto,
)
from kits.planning.models.rows import NamedRow, Row

__all__ = [
    "SIDES",
    "AcceptedFinding",
    "Blank",
    "CalendarAddress",
    "Change",
    "ChangeKind",
    "Comment",
    "CommentEntry",
    "Draft",
    "Element",
    "Embellishment",
    "EntryKind",
    "Face",
    "Form",
    "Handover",
    "Holder",
    "Kit",
    "KitDates",
    "KitDatesChange",
    "NamedRow",
    "Pad",
    "Paper",
    "Part",
    "PartKind",
    "Piece",
    "Placement",
    "PrintPicture",
    "Project",
    "Row",
    "Step",
    "Supply",
    "TestBuild",
    "TestBuildPhoto",
    "Tool",
    "Window",
]
