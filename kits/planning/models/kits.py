"""Kits, their drafts, and what was changed in a draft."""

from __future__ import annotations

import json
import zlib

from django.conf import settings
from django.db import models
from django.db.models import Q
from django.db.models.functions import Lower

from kits.planning.models.rows import LONGEST_ID, known, words
from layouts import document

__all__ = ["Change", "ChangeKind", "Draft", "Kit"]

_HASH = 64
# Nothing here is ever removed. DO_NOTHING leaves the refusal to the database, which alone may look after the rows of a
# draft: Django does not let its own ways of removing meet the database's in one chain.
_KEPT = models.DO_NOTHING


class Kit(models.Model):
    """One month's box, by its code."""

    code = models.CharField(max_length=LONGEST_ID)

    class Meta:
        constraints = [models.UniqueConstraint(Lower("code"), name="kit_one_with_a_code")]

    def __str__(self) -> str:
        return self.code


class Draft(models.Model):
    """A state of a kit that is worked on; its columns are the members of the document as a whole.

    Every change raises the revision, and names the one that it was made on.
    """

    kit = models.ForeignKey(Kit, on_delete=_KEPT, related_name="drafts")
    is_main = models.BooleanField(default=True)
    revision = models.PositiveIntegerField(default=1)
    # The hash of the released document that a branch starts from.
    branched_from = models.CharField(max_length=_HASH, blank=True)
    title = models.TextField()
    unit = models.CharField(max_length=2)
    printed = models.JSONField(default=dict)
    cutting = models.JSONField(default=dict)
    carried = models.JSONField(default=dict)

    class Meta:
        constraints = [
            models.UniqueConstraint(fields=["kit"], condition=Q(is_main=True), name="draft_one_main_of_a_kit"),
            models.CheckConstraint(condition=Q(revision__gte=1), name="draft_revision_counts_from_1"),
            models.CheckConstraint(
                condition=Q(is_main=True, branched_from="") | (Q(is_main=False) & ~Q(branched_from="")),
                name="draft_main_or_branch",
            ),
            known("unit", words(document.Kit, "unit")),
        ]

    def __str__(self) -> str:
        return f"{self.kit} at revision {self.revision}"

    @property
    def subject(self) -> str:
        """What the checks of this draft are filed under."""
        return f"draft:{self.pk}"


class ChangeKind(models.TextChoices):
    """What was done."""

    CREATED = "created"
    REPLACED = "replaced"
    CHANGED = "changed"
    EDITED = "edited"
    ADDED = "added"
    MOVED = "moved"
    REMOVED = "removed"
    RENAMED = "renamed"
    TAKEN_OVER = "taken-over"
    MENDED = "mended"
    ACCEPTED = "accepted"
    RECALLED = "recalled"
    RESTORED = "restored"
    UNDONE = "undone"
    REDONE = "redone"


class Change(models.Model):
    """What somebody did to a draft: `revision` is the one that came of it.

    `before` and `after` are the values at `place` as plain JSON with every unit written; ids where something was
    renamed, hashes where the whole document was replaced, positions from 1 where something was moved in its list. What
    was mended or edited may be several values: then both are lists of `at` and `value`, and `place` is that of the
    first. `state` is the document that came of it, in canonical form and compressed (zlib).
    """

    draft = models.ForeignKey(Draft, on_delete=_KEPT, related_name="changes")
    revision = models.PositiveIntegerField()
    by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=_KEPT, null=True, related_name="+")
    at = models.DateTimeField()
    what = models.CharField(max_length=10, choices=ChangeKind.choices)
    place = models.TextField(blank=True)
    before = models.JSONField(null=True)
    after = models.JSONField(null=True)
    state = models.BinaryField(default=bytes)
    undoes = models.OneToOneField("self", on_delete=_KEPT, null=True, related_name="undone_by")
    # The change that took back what this one makes again.
    redoes = models.OneToOneField("self", on_delete=_KEPT, null=True, related_name="redone_by")

    class Meta:
        ordering = ["-revision"]
        constraints = [
            models.UniqueConstraint(fields=["draft", "revision"], name="change_one_for_a_revision"),
            known("what", ChangeKind.values),
            models.CheckConstraint(
                condition=Q(what=ChangeKind.UNDONE, undoes__isnull=False)
                | (~Q(what=ChangeKind.UNDONE) & Q(undoes__isnull=True)),
                name="change_only_an_undoing_one_undoes",
            ),
            models.CheckConstraint(
                condition=Q(what=ChangeKind.REDONE, redoes__isnull=False)
                | (~Q(what=ChangeKind.REDONE) & Q(redoes__isnull=True)),
                name="change_only_a_redoing_one_redoes",
            ),
        ]

    def __str__(self) -> str:
        return f"{self.what} {self.place}".strip()

    @property
    def document(self) -> document.Kit:
        """The document that came of it."""
        return document.reread_kit(json.loads(zlib.decompress(self.state)))

    @property
    def first_made(self) -> Change:
        """The change itself, or, of one that makes a change again, the one that was made first."""
        change = self
        while change.redoes is not None and change.redoes.undoes is not None:
            change = change.redoes.undoes
        return change
