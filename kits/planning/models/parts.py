"""The team's library of parts: things of kits that may be used again, each with what it needs."""

from __future__ import annotations

from django.conf import settings
from django.db import models
from django.db.models.functions import Lower

from kits.planning.fragments import Fragment
from kits.planning.models.kits import Kit
from kits.planning.models.rows import known

__all__ = ["Part", "PartKind"]


class PartKind(models.TextChoices):
    """What can be kept, in the words of the kit document."""

    PIECE = "piece"
    FORM = "form"
    BLANK = "blank"


class Part(models.Model):
    """A thing as it was in a revision of a kit, under a name of the team's.

    `document` is a kit document that holds nothing but the thing, at `place`, and what it needs; every unit is written.
    """

    name = models.TextField()
    note = models.TextField(blank=True)
    kind = models.CharField(max_length=5, choices=PartKind.choices)
    place = models.TextField()
    document = models.JSONField()
    kit = models.ForeignKey(Kit, on_delete=models.DO_NOTHING, related_name="+")
    revision = models.PositiveIntegerField()
    by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.DO_NOTHING, related_name="+")
    at = models.DateTimeField()

    class Meta:
        ordering = ["name"]
        constraints = [
            models.UniqueConstraint(Lower("name"), name="part_one_of_a_name"),
            models.CheckConstraint(condition=~models.Q(name=""), name="part_has_a_name"),
            known("kind", PartKind.values),
        ]

    def __str__(self) -> str:
        return self.name

    @property
    def fragment(self) -> Fragment:
        return Fragment(self.place, self.document)
