"""Findings that stand: accepted by name and with a reason, and taken up again."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from django.db import transaction

from kits.members.models import Person
from kits.planning.documents import write_members
from kits.planning.editing import Opened, judged, opened, record
from kits.planning.errors import NoReason, NotAccepted
from kits.planning.models import ChangeKind, Draft
from kits.planning.permissions import ensure_may_accept

__all__ = ["finding_accept", "finding_recall"]


@transaction.atomic
def finding_accept(
    *, draft: Draft, rule: str, at: Sequence[str], why: str, because: str, revision: int, by: Person
) -> Draft:
    """Let a finding stand, for a reason that is kept in the document with the name of who says so.

    `why` is the SHA-256 of its facts: once they change, the acceptance lapses. One that is accepted already gets the
    new reason.
    Raises: NotAllowed, NoReason, RevisionMoved, DraftRefused.
    """
    ensure_may_accept(by)
    if not because.strip():
        raise NoReason("a finding is accepted for a reason: say why it may stand")
    entry = {"rule": rule, "at": [*at], "why": why, "because": because.strip(), "by": str(by)}
    edit = opened(draft, sent=revision, place=at[0], yours=entry)
    known = _number(edit, rule, at, why)
    before = None if known is None else edit.tree["accepted"].pop(known)
    edit.tree["accepted"].append(entry)
    return _recorded(edit, ChangeKind.ACCEPTED, at[0], before, entry, by)


@transaction.atomic
def finding_recall(*, draft: Draft, rule: str, at: Sequence[str], why: str, revision: int, by: Person) -> Draft:
    """Let a finding count again that was accepted. Raises: NotAllowed, NotAccepted, RevisionMoved."""
    ensure_may_accept(by)
    edit = opened(draft, sent=revision, place=at[0], yours=None)
    known = _number(edit, rule, at, why)
    if known is None:
        raise NotAccepted("this finding is not accepted")
    return _recorded(edit, ChangeKind.RECALLED, at[0], edit.tree["accepted"].pop(known), None, by)


def _recorded(edit: Opened, what: ChangeKind, place: str, before: Any, after: Any, by: Person) -> Draft:
    kit = judged(edit.tree, edited=("accepted",))
    write_members(edit.rows, kit)
    return record(edit.draft, kit, what=what, by=by, place=place, before=before, after=after)


def _number(edit: Opened, rule: str, at: Sequence[str], why: str) -> int | None:
    same = (rule, [*at], why)
    accepted = edit.tree["accepted"]
    return next((n for n, one in enumerate(accepted) if (one["rule"], one["at"], one["why"]) == same), None)
