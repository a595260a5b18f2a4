"""Rows of long work: what is asked for, who is at it until when, and what came of it."""

from __future__ import annotations

from typing import ClassVar

from django.conf import settings
from django.db import models
from django.db.models import F, Q

__all__ = ["CLOSED", "OPEN", "CheckRun", "Job", "JobState", "PartAnswer"]


class JobState(models.TextChoices):
    WAITING = "waiting"
    RUNNING = "running"
    DONE = "done"
    FAILED = "failed"
    CANCELLED = "cancelled"
    REPLACED = "replaced"


OPEN = (JobState.WAITING, JobState.RUNNING)
CLOSED = (JobState.DONE, JobState.FAILED, JobState.CANCELLED, JobState.REPLACED)


def _both_or_neither(one: Q, other: Q) -> Q:
    return (one & other) | (~one & ~other)


class Job(models.Model):
    """A piece of long work: it waits, one worker at a time is at it, and it comes to one end.

    Who works holds a claim, and with it a lease that must be renewed. A claim that was lost never counts again: every
    later change asks for it. `layouts.jobs` makes these changes; nobody else writes these fields.
    """

    # The name of the task that does the work; its message carries the row's number and nothing else.
    TASK: ClassVar[str]

    state = models.CharField(max_length=10, choices=JobState, default=JobState.WAITING)
    requested_by = models.ForeignKey(
        settings.AUTH_USER_MODEL, on_delete=models.SET_NULL, null=True, blank=True, related_name="+"
    )
    requested_at = models.DateTimeField()
    # When somebody first asked for what this job answers: older than the request where it took a waiting one's place.
    first_requested_at = models.DateTimeField()
    # When it should start. Long past and still waiting means that its message was lost.
    due_at = models.DateTimeField()
    claim = models.UUIDField(null=True, blank=True)
    lease_until = models.DateTimeField(null=True, blank=True)
    attempts = models.PositiveSmallIntegerField(default=0)
    progress = models.JSONField(default=dict, blank=True)
    # A sentence for a person: why it failed.
    reason = models.TextField(blank=True)
    cancel_asked = models.BooleanField(default=False)
    started_at = models.DateTimeField(null=True, blank=True)
    finished_at = models.DateTimeField(null=True, blank=True)

    class Meta:
        abstract = True
        constraints = [
            models.CheckConstraint(condition=Q(state__in=JobState.values), name="%(class)s_state_is_known"),
            models.CheckConstraint(
                condition=Q(state=JobState.RUNNING, claim__isnull=False, lease_until__isnull=False, attempts__gte=1)
                | (~Q(state=JobState.RUNNING) & Q(claim__isnull=True, lease_until__isnull=True)),
                name="%(class)s_only_what_runs_is_claimed",
            ),
            models.CheckConstraint(
                condition=_both_or_neither(Q(state__in=CLOSED), Q(finished_at__isnull=False)),
                name="%(class)s_only_what_is_closed_has_finished",
            ),
            models.CheckConstraint(
                condition=_both_or_neither(Q(state=JobState.FAILED), ~Q(reason="")),
                name="%(class)s_only_a_failure_has_a_reason",
            ),
            models.CheckConstraint(
                condition=_both_or_neither(Q(attempts=0), Q(started_at__isnull=True)),
                name="%(class)s_only_what_was_tried_has_started",
            ),
            models.CheckConstraint(
                condition=Q(first_requested_at__lte=F("requested_at"), requested_at__lte=F("due_at")),
                name="%(class)s_asked_before_due",
            ),
        ]

    def __str__(self) -> str:
        return f"{self._meta.verbose_name} {self.pk} ({self.state})"

    @property
    def is_open(self) -> bool:
        return self.state in OPEN


class CheckRun(Job):
    """A check of one kit document in the background; `proof` is what `manage.py proof --json` prints for it.

    The subject says whose document it is (`draft:12`) and is opaque here. One run of a subject is open at a time.
    """

    TASK = "layouts.check"

    subject = models.CharField(max_length=100)
    revision = models.PositiveIntegerField()
    # In canonical form. Its hash is that of the UTF-8 bytes.
    document = models.TextField()
    document_hash = models.CharField(max_length=64)
    # The engine's number at the request, and then that of the answer.
    engine = models.PositiveIntegerField()
    proof = models.TextField(null=True, blank=True)  # noqa: DJ001  no proof is not an empty one
    verdict = models.CharField(max_length=10, blank=True)

    class Meta(Job.Meta):
        abstract = False
        constraints = [
            *Job.Meta.constraints,
            models.UniqueConstraint(
                fields=["subject"], condition=Q(state__in=OPEN), name="checkrun_one_open_run_of_a_subject"
            ),
            models.CheckConstraint(
                condition=Q(state=JobState.DONE, proof__isnull=False, verdict__in=["ready", "not-ready", "unknown"])
                | (~Q(state=JobState.DONE) & Q(proof__isnull=True, verdict="")),
                name="checkrun_only_a_done_one_has_a_proof",
            ),
            models.CheckConstraint(condition=~Q(subject=""), name="checkrun_has_a_subject"),
        ]
        indexes = [
            models.Index(fields=["subject", "-id"], name="checkrun_newest_of_a_subject"),
            # The sweep looks every ten seconds, and nearly every row is closed.
            models.Index(fields=["due_at"], condition=Q(state__in=OPEN), name="checkrun_open"),
        ]


class PartAnswer(models.Model):
    """The stored answer for one print, under the part's own hash, or the claim of who is working it out.

    `attempts` counts how often somebody began to: more than once only where the first did not come to an end.
    """

    key = models.CharField(max_length=64)
    engine = models.PositiveIntegerField()
    answer = models.TextField(null=True, blank=True)  # noqa: DJ001  no answer is not an empty one
    claim = models.UUIDField(null=True, blank=True)
    lease_until = models.DateTimeField(null=True, blank=True)
    attempts = models.PositiveSmallIntegerField(default=0)

    class Meta:
        constraints = [
            models.UniqueConstraint(fields=["key", "engine"], name="partanswer_one_for_a_key"),
            models.CheckConstraint(
                condition=_both_or_neither(Q(claim__isnull=False), Q(lease_until__isnull=False)),
                name="partanswer_claim_has_a_lease",
            ),
            models.CheckConstraint(
                condition=Q(answer__isnull=True) | Q(claim__isnull=True), name="partanswer_what_is_known_is_not_claimed"
            ),
        ]

    def __str__(self) -> str:
        return f"answer for part {self.key[:8]} by engine {self.engine}"
