"""What every change of a draft has in common: it is made on the revision that was read, and leaves a valid document.

The draft is locked first, so that two people who edit at once come one after the other: by the row's own lock, or, with
SQLite, by the write lock that each transaction takes when it begins.
"""

from __future__ import annotations

import zlib
from dataclasses import dataclass
from typing import Any

from django.db.models import QuerySet
from django.utils import timezone

from kits.members.models import Person
from kits.planning.documents import DraftRows, read_rows
from kits.planning.errors import DraftRefused, FieldError, RevisionMoved
from kits.planning.models import Change, ChangeKind, Draft
from kits.planning.trees import Path, path_of, value_at
from layouts.checks import check_request
from layouts.document import Kit, Refused, UnknownPlace, canonical_bytes, document_hash, reread_kit
from layouts.document.refusal import pointer_of

__all__ = [
    "Opened",
    "judged",
    "locked",
    "moved",
    "opened",
    "record",
    "refused",
    "standing",
    "state_at",
    "taken_back_last",
]


@dataclass(frozen=True, slots=True)
class Opened:
    """A draft that nobody else can change until the transaction ends."""

    draft: Draft
    rows: DraftRows
    tree: dict[str, Any]


def locked(draft: Draft) -> Draft:
    """Return a draft as it is now, and nobody else's until the transaction ends."""
    return Draft.objects.select_related("kit").select_for_update(of=("self",)).get(pk=draft.pk)


def opened(draft: Draft, *, sent: int, place: str, yours: Any) -> Opened:
    """Lock a draft and read it. Raises: RevisionMoved, if it is not at the revision that was sent."""
    now = locked(draft)
    rows = read_rows(now)
    tree = rows.tree()
    if not _is_at(now, sent):
        raise moved(now, sent=sent, place=place, yours=yours, theirs=_value(tree, place))
    return Opened(now, rows, tree)


def moved(draft: Draft, *, sent: int, place: str, yours: Any, theirs: Any) -> RevisionMoved:
    """Say that a draft is no longer at the revision that was sent, and who changed it last."""
    last = draft.changes.select_related("by").defer("state").first()
    by, at = (str(last.by or ""), last.at) if last else ("", None)
    return RevisionMoved(place, yours, theirs, sent, draft.revision, by, at)


def judged(tree: dict[str, Any], *, edited: Path) -> Kit:
    """Return the document that a changed tree is. Raises: DraftRefused."""
    try:
        return reread_kit(tree)
    except Refused as refusal:
        raise refused(refusal, edited=edited) from None


def refused(refusal: Refused, *, edited: Path) -> DraftRefused:
    """Say what is wrong at the members of the value that was edited, and at the value itself what is elsewhere."""
    return DraftRefused(
        tuple(
            FieldError(_field(error.pointer, edited), error.code, error.message, error.pointer)
            for error in refusal.errors
        )
    )


def record(
    draft: Draft,
    kit: Kit,
    *,
    what: ChangeKind,
    by: Person | None,
    place: str = "",
    before: Any = None,
    after: Any = None,
    undoes: Change | None = None,
    redoes: Change | None = None,
) -> Draft:
    """Raise the revision of a changed draft, note what was changed, and have the new document checked."""
    now, document = timezone.now(), canonical_bytes(kit)
    # A new draft is at its first revision by being there.
    draft.revision += what != ChangeKind.CREATED
    draft.save(update_fields=["revision"])
    Change.objects.create(
        draft=draft,
        revision=draft.revision,
        by=by,
        at=now,
        what=what,
        place=place,
        before=before,
        after=after,
        state=zlib.compress(document),
        undoes=undoes,
        redoes=redoes,
    )
    check_request(subject=draft.subject, revision=draft.revision, document=document, by=by, now=now)
    return draft


def state_at(draft: Draft, revision: int) -> Kit | None:
    """Return the document that a revision of a draft was, None where nobody kept it."""
    change = draft.changes.filter(revision=revision).exclude(state=b"").first()
    return None if change is None else change.document


def standing(draft: Draft) -> QuerySet[Change]:
    """The changes of a draft that could be taken back, the last one first."""
    return (
        Change.objects.filter(draft=draft, undoes__isnull=True, undone_by__isnull=True)
        .exclude(what=ChangeKind.CREATED)
        .select_related("by")
        .order_by("-revision")
    )


# Mostly the first change tells: not all of a long history is fetched for it.
_FEW = 20


def taken_back_last(draft: Draft) -> Change | None:
    """The undoing change that could itself be taken back: the last one, if nothing but that was done since.

    Every change that was made again hides the undoing one that it answers.
    """
    answered = 0
    changes = draft.changes.defer("state", "undoes__state").select_related("undoes", "by")
    for change in changes.iterator(chunk_size=_FEW):
        if change.what == ChangeKind.REDONE:
            answered += 1
        elif change.what == ChangeKind.UNDONE and answered:
            answered -= 1
        else:
            return change if change.what == ChangeKind.UNDONE else None
    return None


def _is_at(draft: Draft, revision: int) -> bool:
    return draft.revision == revision


def _value(tree: dict[str, Any], place: str) -> Any:
    if not place:
        return document_hash(reread_kit(tree))
    try:
        return value_at(tree, path_of(tree, place))
    except UnknownPlace:
        return None


# How a place names the members of a size.
_OF_A_SIZE = {"0": "width", "1": "height"}


def _field(pointer: str, edited: Path) -> str:
    start, name = pointer_of(edited), str(edited[-1] if edited else "")
    if not pointer.startswith(f"{start}/"):
        return name
    rest = pointer.removeprefix(f"{start}/")
    return f"{name}/{_OF_A_SIZE.get(rest, rest) if name == 'size' else rest}"
