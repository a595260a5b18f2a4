"""Pictures of prints: what the two sides of a leaf look like, for whoever plans with them."""

from __future__ import annotations

from django.conf import settings
from django.db import models

from kits.planning.models.kits import Kit
from kits.planning.models.rows import LONGEST_ID, known

__all__ = ["SIDES", "PrintPicture"]

SIDES = ("front", "back")


class PrintPicture(models.Model):
    """A picture of one side of a print, the print's top up, by the print's id. It is no part of the document.

    `file` is the name under which it is kept, made from what is in it.
    """

    kit = models.ForeignKey(Kit, on_delete=models.DB_CASCADE, related_name="pictures")
    paper = models.CharField(max_length=LONGEST_ID)
    side = models.CharField(max_length=5)
    file = models.CharField(max_length=80)
    width = models.PositiveIntegerField()
    height = models.PositiveIntegerField()
    by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.DO_NOTHING, related_name="+")
    at = models.DateTimeField()

    class Meta:
        constraints = [
            models.UniqueConstraint(fields=["kit", "paper", "side"], name="print_picture_one_of_a_side"),
            known("side", list(SIDES)),
        ]

    def __str__(self) -> str:
        return f"{self.side} of {self.paper}"
