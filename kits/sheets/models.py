"""Rows of renderings: which sheets were asked for, in which setting, and the files that came of it."""

from __future__ import annotations

from django.db import models
from django.db.models import Q

from kits.sheets.options import CUTS, PAGES, PRINTS, UNITS, SheetOptions
from layouts.models import OPEN, Job, JobState

__all__ = ["KEY", "RenderRun"]

# What a rendering is known by: the same key gives the same files, so that they are made once.
KEY = ("document_hash", "engine", "template_number", "page", "unit", "print", "cut")


class RenderRun(Job):
    """The sheets of one proved document in one setting, made in the background; its files are named by what is in them.

    `files` are in the order of the kit, each `{"name", "title", "pdf", "bytes", "pictures"}`: `pdf` and `pictures`, one
    a page, are names of kept files (`kits.sheets.files`).
    """

    TASK = "sheets.render"

    # In canonical form, and the proof as `manage.py proof --json` prints it.
    document = models.TextField()
    proof = models.TextField()
    document_hash = models.CharField(max_length=64)
    engine = models.PositiveIntegerField()
    template_number = models.PositiveIntegerField()
    page = models.CharField(max_length=10, choices=[(name, name) for name in PAGES])
    unit = models.CharField(max_length=2, choices=[(name, name) for name in UNITS])
    print = models.CharField(max_length=10, choices=[(name, name) for name in PRINTS])
    cut = models.CharField(max_length=10, choices=[(name, name) for name in CUTS])
    files = models.JSONField(default=list, blank=True)

    class Meta(Job.Meta):
        abstract = False
        constraints = [
            *Job.Meta.constraints,
            models.UniqueConstraint(
                fields=KEY, condition=Q(state__in=[*OPEN, JobState.DONE]), name="renderrun_one_open_or_done_of_a_key"
            ),
            models.CheckConstraint(
                condition=Q(page__in=PAGES, unit__in=UNITS, print__in=PRINTS, cut__in=CUTS),
                name="renderrun_setting_is_known",
            ),
            models.CheckConstraint(
                condition=Q(state=JobState.DONE) & ~Q(files=[]) | ~Q(state=JobState.DONE) & Q(files=[]),
                name="renderrun_only_a_done_one_has_files",
            ),
        ]
        indexes = [
            models.Index(fields=["document_hash", "-id"], name="renderrun_newest_of_a_document"),
            # The sweep looks every ten seconds, and nearly every row is closed.
            models.Index(fields=["due_at"], condition=Q(state__in=OPEN), name="renderrun_open"),
        ]

    @property
    def options(self) -> SheetOptions:
        return SheetOptions(page=self.page, unit=self.unit, print=self.print, cut=self.cut)  # type: ignore[arg-type]  # held by the database
