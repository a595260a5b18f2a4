"""What is said about a kit beside its document: comments, who has it in hand, and who made it from the sheets alone."""

from __future__ import annotations

from django.conf import settings
from django.db import models
from django.db.models import Q

from kits.planning.models.kits import Kit
from kits.planning.models.rows import known

__all__ = ["Comment", "CommentEntry", "EntryKind", "Handover", "Holder", "TestBuild", "TestBuildPhoto"]

_KEPT = models.DO_NOTHING
_PERSON = settings.AUTH_USER_MODEL


class Comment(models.Model):
    """Something said about a place of a kit, an empty one is the kit as a whole; it is open until somebody resolves it.

    `words` is what the place was called when it was said: the thing may be renamed or removed.
    """

    kit = models.ForeignKey(Kit, on_delete=_KEPT, related_name="comments")
    place = models.TextField(blank=True)
    words = models.TextField()
    text = models.TextField()
    by = models.ForeignKey(_PERSON, on_delete=_KEPT, related_name="+")
    at = models.DateTimeField()
    assigned_to = models.ForeignKey(_PERSON, on_delete=_KEPT, null=True, related_name="+")
    is_open = models.BooleanField(default=True)

    class Meta:
        ordering = ["-is_open", "-pk"]
        constraints = [models.CheckConstraint(condition=~Q(text=""), name="comment_says_something")]

    def __str__(self) -> str:
        return f"{self.words}: {self.text}"


class EntryKind(models.TextChoices):
    """What became of a comment."""

    ANSWERED = "answered"
    ASSIGNED = "assigned"
    RESOLVED = "resolved"
    REOPENED = "reopened"


class CommentEntry(models.Model):
    """One thing that became of a comment: an answer, or a change of its state; `to` is whom it was assigned to."""

    comment = models.ForeignKey(Comment, on_delete=_KEPT, related_name="entries")
    what = models.CharField(max_length=8, choices=EntryKind.choices)
    text = models.TextField(blank=True)
    to = models.ForeignKey(_PERSON, on_delete=_KEPT, null=True, related_name="+")
    by = models.ForeignKey(_PERSON, on_delete=_KEPT, related_name="+")
    at = models.DateTimeField()

    class Meta:
        ordering = ["pk"]
        constraints = [
            known("what", EntryKind.values),
            models.CheckConstraint(
                condition=~Q(what=EntryKind.ANSWERED) | ~Q(text=""), name="comment_entry_answer_says_something"
            ),
        ]

    def __str__(self) -> str:
        return f"{self.what} by {self.by}"


class Holder(models.TextChoices):
    """Who has a kit in hand."""

    PLANNER = "planner"
    EDITOR = "editor"


class Handover(models.Model):
    """A kit given into other hands, with a sentence; the newest one says who has it. Without any, the planner has."""

    kit = models.ForeignKey(Kit, on_delete=_KEPT, related_name="handovers")
    number = models.PositiveIntegerField()
    to = models.CharField(max_length=7, choices=Holder.choices)
    taken_back = models.BooleanField(default=False)
    sentence = models.TextField()
    by = models.ForeignKey(_PERSON, on_delete=_KEPT, related_name="+")
    at = models.DateTimeField()

    class Meta:
        ordering = ["-number"]
        constraints = [
            # Two people who hand over at once are one after the other: the second one finds the number taken.
            models.UniqueConstraint(fields=["kit", "number"], name="handover_one_of_a_number"),
            known("to", Holder.values),
            models.CheckConstraint(condition=~Q(sentence=""), name="handover_says_why"),
            models.CheckConstraint(
                condition=Q(taken_back=False) | Q(to=Holder.PLANNER), name="handover_taken_back_by_the_planner"
            ),
        ]

    def __str__(self) -> str:
        return f"{self.kit} to the {self.to}"


class TestBuild(models.Model):
    """The record that somebody who did not plan a kit made it from its sheets alone, from exactly this document."""

    __test__ = False  # no class of tests, whatever its name

    kit = models.ForeignKey(Kit, on_delete=_KEPT, related_name="test_builds")
    document_hash = models.CharField(max_length=64)
    revision = models.PositiveIntegerField()
    unit = models.CharField(max_length=2)
    tools = models.TextField()
    minutes = models.PositiveIntegerField()
    deviations = models.TextField(blank=True)
    by = models.ForeignKey(_PERSON, on_delete=_KEPT, related_name="+")
    at = models.DateTimeField()

    class Meta:
        ordering = ["-pk"]
        constraints = [
            known("unit", ["in", "mm"]),
            models.CheckConstraint(condition=Q(minutes__range=(1, 10_000)), name="test_build_takes_minutes"),
        ]

    def __str__(self) -> str:
        return f"{self.kit} made by {self.by}"


class TestBuildPhoto(models.Model):
    """A photograph of a test build; `file` is the name under which it is kept, made from what is in it."""

    __test__ = False

    build = models.ForeignKey(TestBuild, on_delete=_KEPT, related_name="photos")
    number = models.PositiveIntegerField()
    file = models.CharField(max_length=80)
    width = models.PositiveIntegerField()
    height = models.PositiveIntegerField()

    class Meta:
        ordering = ["number"]
        constraints = [models.UniqueConstraint(fields=["build", "number"], name="test_build_photo_one_of_a_number")]

    def __str__(self) -> str:
        return f"photograph {self.number}"
