"""Checks that are asked for by hand."""

from __future__ import annotations

from django.db import transaction
from django.utils import timezone

from kits.members.models import Person
from kits.planning.documents import build_bytes
from kits.planning.editing import locked
from kits.planning.models import Draft
from kits.planning.permissions import ensure_may_check
from layouts.checks import check_request
from layouts.models import CheckRun

__all__ = ["draft_check"]


@transaction.atomic
def draft_check(*, draft: Draft, by: Person) -> CheckRun:
    """Have a draft checked as it is. Raises: NotAllowed."""
    ensure_may_check(by)
    now = locked(draft)
    return check_request(
        subject=now.subject, revision=now.revision, document=build_bytes(now), by=by, now=timezone.now()
    )
