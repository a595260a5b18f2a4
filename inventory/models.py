"""The rows of the catalogue."""

from __future__ import annotations

from django.conf import settings
from django.db import models
from django.db.models.functions import Lower

__all__ = ["CatalogueItem", "ItemKind"]


class ItemKind(models.TextChoices):
    """What a kit can hold, in the words of the kit document."""

    PAD = "pad"
    PAPER = "paper"
    EMBELLISHMENT = "embellishment"
    BLANK = "blank"
    SUPPLY = "supply"
    TOOL = "tool"


class CatalogueItem(models.Model):
    """A thing that kits take over by copying: `facts` are the members that hold for it in every kit.

    They are written as in a kit document in its canonical form, but with the unit of every length.
    """

    kind = models.CharField(max_length=13, choices=ItemKind.choices)
    name = models.TextField()
    facts = models.JSONField(default=dict, blank=True)
    changed_at = models.DateTimeField()
    changed_by = models.ForeignKey(
        settings.AUTH_USER_MODEL, on_delete=models.PROTECT, null=True, blank=True, related_name="+"
    )

    class Meta:
        constraints = [
            models.UniqueConstraint("kind", Lower("name"), name="item_one_name_a_kind"),
            models.CheckConstraint(condition=models.Q(kind__in=ItemKind.values), name="item_kind_is_known"),
        ]

    def __str__(self) -> str:
        return self.name
