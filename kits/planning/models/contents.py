"""What the box holds, and the tools a member is expected to have. Each may say which catalogue item it came from."""

from __future__ import annotations

from typing import Any

from django.db import models
from django.db.models import Q

from inventory.models import CatalogueItem
from kits.planning.models.kits import Draft
from kits.planning.models.rows import LONGEST_ID, MOST, NamedRow, between, in_list, known, words
from layouts import document
from layouts.fields import LengthField
from layouts.lengths import Length

__all__ = ["Blank", "Element", "Embellishment", "Face", "Pad", "Paper", "Supply", "Tool"]

# Micrometres in the 10 m that are the greatest length.
_THICKEST = 10_000_000


def _of_draft() -> Any:
    """The database removes the rows of a draft itself: the many rows of a replaced document go in a few statements."""
    return models.ForeignKey(Draft, on_delete=models.DB_CASCADE, related_name="+")


def _from_catalogue() -> Any:
    return models.ForeignKey(CatalogueItem, on_delete=models.DO_NOTHING, null=True, related_name="+")


class Pad(NamedRow):
    draft = _of_draft()
    item = _from_catalogue()
    name = models.TextField()
    width = LengthField()
    height = LengthField()

    class Meta(NamedRow.Meta):
        constraints = in_list("draft")


class Paper(NamedRow):
    draft = _of_draft()
    item = _from_catalogue()
    name = models.TextField()
    pad = models.CharField(max_length=LONGEST_ID, blank=True)
    width = LengthField(null=True)
    height = LengthField(null=True)
    sheets = models.PositiveIntegerField()
    front = models.JSONField()
    back = models.JSONField(null=True)
    grammage = models.PositiveIntegerField(null=True)
    caliper_um = models.PositiveIntegerField(null=True)
    grain = models.CharField(max_length=8, blank=True)
    undersize = LengthField(default=Length.zero)
    spoilt = models.JSONField(default=dict)

    class Meta(NamedRow.Meta):
        constraints = [
            *in_list("draft"),
            models.CheckConstraint(
                condition=Q(pad="", width__isnull=False, height__isnull=False)
                | (~Q(pad="") & Q(width__isnull=True, height__isnull=True)),
                name="paper_pad_or_size",
            ),
            known("grain", words(document.Paper, "grain"), optional=True),
            between("sheets", 0, MOST),
            between("grammage", 1, MOST),
            between("caliper_um", 1, _THICKEST),
        ]


class Embellishment(NamedRow):
    draft = _of_draft()
    item = _from_catalogue()
    name = models.TextField()
    sheets = models.PositiveIntegerField(default=1)

    class Meta(NamedRow.Meta):
        constraints = [*in_list("draft"), between("sheets", 0, MOST)]


class Element(NamedRow):
    embellishment = models.ForeignKey(Embellishment, on_delete=models.DB_CASCADE, related_name="+")
    name = models.TextField()
    count = models.PositiveIntegerField()
    width = LengthField(null=True)
    height = LengthField(null=True)
    two_sided = models.BooleanField(default=False)

    class Meta(NamedRow.Meta):
        constraints = [*in_list("embellishment"), between("count", 1, MOST)]


class Blank(NamedRow):
    draft = _of_draft()
    item = _from_catalogue()
    name = models.TextField()
    count = models.PositiveIntegerField(default=1)
    thickness_um = models.PositiveIntegerField(null=True)
    width = LengthField(null=True)
    depth = LengthField(null=True)
    height = LengthField(null=True)

    class Meta(NamedRow.Meta):
        constraints = [*in_list("draft"), between("count", 1, MOST), between("thickness_um", 1, _THICKEST)]


class Face(NamedRow):
    blank = models.ForeignKey(Blank, on_delete=models.DB_CASCADE, related_name="+")
    width = LengthField()
    height = LengthField()
    count = models.PositiveIntegerField(default=1)
    inside = models.BooleanField(default=False)
    opening = models.JSONField(null=True)

    class Meta(NamedRow.Meta):
        constraints = [*in_list("blank"), between("count", 1, MOST)]


class Supply(NamedRow):
    draft = _of_draft()
    item = _from_catalogue()
    name = models.TextField()
    kind = models.CharField(max_length=13)
    count = models.PositiveIntegerField(null=True)
    length = LengthField(null=True)
    thickness_um = models.PositiveIntegerField(null=True)
    given_by = models.CharField(max_length=6, default="kit")

    class Meta(NamedRow.Meta):
        verbose_name_plural = "supplies"
        constraints = [
            *in_list("draft"),
            known("kind", words(document.Supply, "kind")),
            known("given_by", words(document.Supply, "from_")),
            between("count", 1, MOST),
            between("thickness_um", 1, _THICKEST),
        ]


class Tool(NamedRow):
    draft = _of_draft()
    item = _from_catalogue()
    # A tool may have no name, and a document may hold an empty one: two states.
    name = models.TextField(null=True)  # noqa: DJ001
    kind = models.CharField(max_length=12)
    step = LengthField(null=True)
    longest = LengthField(null=True)
    narrowest = LengthField(null=True)
    bite = LengthField(null=True)
    pitch = LengthField(null=True)
    least_depth = LengthField(null=True)

    class Meta(NamedRow.Meta):
        constraints = [*in_list("draft"), known("kind", words(document.Tool, "kind"))]
