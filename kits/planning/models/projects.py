"""The projects of a kit, with their pieces, forms, placements and steps; and the findings that somebody has waived."""

from __future__ import annotations

from typing import Any, get_args

from django.db import models
from django.db.models import Q

from kits.planning.models.kits import Draft
from kits.planning.models.rows import LONGEST_ID, MOST, NamedRow, Row, between, in_list, known, words
from layouts import document
from layouts.document import placements, steps, values
from layouts.document.forms import Form as AnyForm
from layouts.document.forms import FormBase
from layouts.fields import LengthField

__all__ = ["AcceptedFinding", "Form", "Piece", "Placement", "Project", "Step", "Window"]

# PROJECT/PIECE/WINDOW
_LONGEST_CUT_OUT = 3 * LONGEST_ID + 2
# “10000 min”
_LONGEST_DURATION = 9
_CONSTRUCTIONS = [word for branch in get_args(get_args(AnyForm)[0]) for word in words(get_args(branch)[0], "as_")]


def _of_project() -> Any:
    return models.ForeignKey(Project, on_delete=models.DB_CASCADE, related_name="+")


class Project(NamedRow):
    draft = models.ForeignKey(Draft, on_delete=models.DB_CASCADE, related_name="+")
    title = models.TextField()
    makes = models.PositiveIntegerField(default=1)

    class Meta(NamedRow.Meta):
        constraints = [*in_list("draft"), between("makes", 1, MOST)]


class Piece(NamedRow):
    """Cut from one paper, from one paper for each copy of the project, from a cut-out, or from nothing yet."""

    project = _of_project()
    name = models.TextField()
    paper = models.CharField(max_length=LONGEST_ID, blank=True)
    each = models.JSONField(null=True)
    cut_from = models.CharField(max_length=_LONGEST_CUT_OUT, blank=True)
    side = models.CharField(max_length=6, default="front")
    width = LengthField()
    height = LengthField()
    size_is = models.CharField(max_length=8, default="cut")
    count = models.PositiveIntegerField(default=1)
    print_reads = models.CharField(max_length=5, default="up")
    shape = models.JSONField(default=dict)
    edges = models.JSONField(default=dict)
    mirror_of = models.CharField(max_length=LONGEST_ID, blank=True)

    class Meta(NamedRow.Meta):
        constraints = [
            *in_list("project"),
            models.CheckConstraint(
                condition=Q(paper="", each__isnull=True) | Q(paper="", cut_from="") | Q(each__isnull=True, cut_from=""),
                name="piece_one_source_at_most",
            ),
            known("side", words(document.Piece, "side")),
            known("size_is", words(document.Piece, "size_is")),
            known("print_reads", [*get_args(values.PrintReads)]),
            between("count", 1, MOST),
        ]


class Window(NamedRow):
    piece = models.ForeignKey(Piece, on_delete=models.DB_CASCADE, related_name="+")
    left = LengthField(null=True)
    right = LengthField(null=True)
    top = LengthField(null=True)
    bottom = LengthField(null=True)
    width = LengthField(null=True)
    height = LengthField(null=True)
    shape = models.JSONField(default=dict)
    cut_out = models.CharField(max_length=5, default="waste")

    class Meta(NamedRow.Meta):
        constraints = [*in_list("piece"), known("cut_out", words(document.Window, "cut_out"))]


class Form(NamedRow):
    """`parameters` are those of its construction."""

    project = _of_project()
    name = models.TextField()
    construction = models.CharField(max_length=10)
    paper = models.CharField(max_length=LONGEST_ID, blank=True)
    each = models.JSONField(null=True)
    side = models.CharField(max_length=5, default="front")
    count = models.PositiveIntegerField(default=1)
    print_reads = models.CharField(max_length=5, default="any")
    parameters = models.JSONField(default=dict)

    class Meta(NamedRow.Meta):
        constraints = [
            *in_list("project"),
            models.CheckConstraint(
                condition=Q(paper="", each__isnull=False) | (~Q(paper="") & Q(each__isnull=True)),
                name="form_paper_or_each",
            ),
            known("construction", _CONSTRUCTIONS),
            known("side", words(FormBase, "side")),
            known("print_reads", [*get_args(values.PrintReads)]),
            between("count", 1, MOST),
        ]


def _on_each() -> str:
    return "each"


class Placement(NamedRow):
    project = _of_project()
    put = models.JSONField()
    on = models.JSONField()
    layer = models.CharField(max_length=6, default="over")
    left = LengthField(null=True)
    right = LengthField(null=True)
    centred = models.BooleanField(default=False)
    top = LengthField(null=True)
    bottom = LengthField(null=True)
    middle = models.BooleanField(default=False)
    turn = models.PositiveSmallIntegerField(default=0)
    copies = models.JSONField(default=_on_each)
    border = models.JSONField(null=True)
    wraps = models.JSONField(default=list)
    intends = models.JSONField(default=list)

    class Meta(NamedRow.Meta):
        constraints = [
            *in_list("project"),
            known("layer", words(placements.Placement, "layer")),
            models.CheckConstraint(condition=Q(turn__in=[0, 90, 180, 270]), name="placement_turn_is_known"),
        ]


class Step(NamedRow):
    """No `after` means after the step before it; an empty list means at once."""

    project = _of_project()
    text = models.TextField()
    cut = models.JSONField(default=list)
    use = models.JSONField(default=list)
    tools = models.JSONField(default=list)
    work = models.CharField(max_length=_LONGEST_DURATION, blank=True)
    hold = models.CharField(max_length=_LONGEST_DURATION, blank=True)
    held = models.CharField(max_length=7, default="by-hand")
    dry = models.CharField(max_length=_LONGEST_DURATION, blank=True)
    after = models.JSONField(null=True)
    closes = models.JSONField(default=list)
    cautions = models.JSONField(default=list)

    class Meta(NamedRow.Meta):
        constraints = [*in_list("project"), known("held", words(steps.Step, "held"))]


class AcceptedFinding(Row):
    draft = models.ForeignKey(Draft, on_delete=models.DB_CASCADE, related_name="+")
    rule = models.TextField()
    at = models.JSONField()
    why = models.TextField()
    because = models.TextField()
    by = models.TextField()

    class Meta(Row.Meta):
        constraints = in_list("draft", named=False)

    def __str__(self) -> str:
        return self.rule
