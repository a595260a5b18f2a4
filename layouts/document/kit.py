"""The kit document as a value."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field, StrictStr

from layouts.document.base import Bounded, DocumentObject
from layouts.document.contents import Blank, Embellishment, Pad, Paper, Supply, Tool
from layouts.document.forms import Form
from layouts.document.pieces import Piece
from layouts.document.placements import Placement
from layouts.document.steps import Step
from layouts.document.values import Count, Id, LengthOrZero, PositiveLength
from layouts.lengths import Length

__all__ = ["Accepted", "Cutting", "Kit", "Printed", "Project"]


class Printed(DocumentObject):
    """The steps to which sheets round in each unit system."""

    in_: PositiveLength = Field(default=Length.of("1/16 in"), alias="in")
    mm: PositiveLength = Length.of("1 mm")


class Cutting(DocumentObject):
    """How the kit is cut: `slack` is the paper lost to each cut by hand."""

    slack: LengthOrZero = Length.zero()


class Project(DocumentObject):
    """One thing the member makes; all counts in it are for one of `makes` alike copies."""

    id: Id
    title: StrictStr
    makes: Count = 1
    pieces: tuple[Annotated[Piece, Bounded], ...] = ()
    forms: tuple[Annotated[Form, Bounded], ...] = ()
    placements: tuple[Annotated[Placement, Bounded], ...] = ()
    steps: tuple[Annotated[Step, Bounded], ...] = ()


class Accepted(DocumentObject):
    """A finding that a person has waived, for this reason; it lapses when the facts (`why`) change."""

    rule: StrictStr
    at: tuple[Annotated[StrictStr, Bounded], ...] = ()
    why: StrictStr
    because: StrictStr
    by: StrictStr


class Kit(DocumentObject):
    """A kit document, `kitproof/1`: everything that can be checked, printed, frozen or replayed."""

    format: Literal["kitproof/1"]
    code: Id
    title: StrictStr
    unit: Literal["in", "mm"]
    printed: Printed = Printed.by_default()
    cutting: Cutting = Cutting.by_default()
    pads: tuple[Annotated[Pad, Bounded], ...] = ()
    papers: tuple[Annotated[Paper, Bounded], ...] = ()
    embellishments: tuple[Annotated[Embellishment, Bounded], ...] = ()
    blanks: tuple[Annotated[Blank, Bounded], ...] = ()
    supplies: tuple[Annotated[Supply, Bounded], ...] = ()
    tools: tuple[Annotated[Tool, Bounded], ...] = ()
    projects: tuple[Annotated[Project, Bounded], ...] = ()
    accepted: tuple[Annotated[Accepted, Bounded], ...] = ()
