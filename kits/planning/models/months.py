"""When kits go to print and leave, who is responsible for them, and the secret addresses of the calendar."""

from __future__ import annotations

from django.conf import settings
from django.db import models
from django.db.models import F, Q

from kits.planning.models.kits import Kit

__all__ = ["CalendarAddress", "KitDates", "KitDatesChange"]

_KEPT = models.DO_NOTHING


class KitDates(models.Model):
    """The days of a kit, and who answers for it as planner and as editor. It is no part of the document.

    Every change raises the version, and names the one that it was made on.
    """

    kit = models.OneToOneField(Kit, on_delete=_KEPT, related_name="dates")
    version = models.PositiveIntegerField(default=1)
    print_day = models.DateField(null=True)
    post_day = models.DateField(null=True)
    planner = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=_KEPT, null=True, related_name="+")
    editor = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=_KEPT, null=True, related_name="+")
    at = models.DateTimeField()

    class Meta:
        constraints = [
            models.CheckConstraint(
                condition=Q(print_day__isnull=True) | Q(post_day__isnull=True) | Q(post_day__gte=F("print_day")),
                name="kit_dates_printed_before_posted",
            ),
        ]

    def __str__(self) -> str:
        return f"dates of {self.kit}"


class KitDatesChange(models.Model):
    """What somebody changed in the dates of a kit: both states with days as text and people by their number."""

    kit = models.ForeignKey(Kit, on_delete=_KEPT, related_name="dates_changes")
    version = models.PositiveIntegerField()
    by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=_KEPT, related_name="+")
    at = models.DateTimeField()
    before = models.JSONField()
    after = models.JSONField()

    class Meta:
        ordering = ["-version"]
        constraints = [models.UniqueConstraint(fields=["kit", "version"], name="kit_dates_change_one_for_a_version")]

    def __str__(self) -> str:
        return f"{self.kit}, version {self.version}"


class CalendarAddress(models.Model):
    """The address at which a person's calendar program gets the days: only the hash of its secret is kept."""

    person = models.OneToOneField(settings.AUTH_USER_MODEL, on_delete=models.CASCADE, related_name="+")
    secret_hash = models.CharField(max_length=64, unique=True)
    at = models.DateTimeField()

    def __str__(self) -> str:
        return f"calendar of {self.person}"
