"""Mends and ideas of a proof, made in the draft."""

from __future__ import annotations

from collections.abc import Sequence

from django.db import transaction

from kits.members.models import Person
from kits.planning.documents import write_members
from kits.planning.editing import Opened, opened, record, refused
from kits.planning.errors import MendOutdated
from kits.planning.models import ChangeKind, Draft
from kits.planning.permissions import ensure_may_edit
from layouts.document import Change as ValueChange
from layouts.document import Kit as Document
from layouts.document import Refused, changed, plain_at, reread_kit

__all__ = ["mend_apply", "with_values"]


@transaction.atomic
def mend_apply(*, draft: Draft, changes: Sequence[ValueChange], revision: int, by: Person) -> Draft:
    """Change all that a mend or an idea of a proof changes, or nothing of it.

    Raises: NotAllowed, RevisionMoved, UnknownPlace, DraftRefused; MendOutdated where a value is no longer what the mend
    starts from.
    """
    ensure_may_edit(by)
    first = changes[0]
    edit = opened(draft, sent=revision, place=first.at, yours=first.after)
    kit = with_values(edit, changes)
    return record(
        edit.draft,
        kit,
        what=ChangeKind.MENDED,
        by=by,
        place=first.at,
        before=[{"at": change.at, "value": change.before} for change in changes],
        after=[{"at": change.at, "value": change.after} for change in changes],
    )


def with_values(edit: Opened, changes: Sequence[ValueChange]) -> Document:
    """Write changes of values, and things added or removed; each starts from what is there.

    Raises: MendOutdated, UnknownPlace, DraftRefused.
    """
    now = reread_kit(edit.tree)
    for change in changes:
        if plain_at(now, change.at) != change.before:
            raise MendOutdated(change.at)
    try:
        kit = changed(now, changes)
    except Refused as refusal:
        raise refused(refusal, edited=()) from None
    write_members(edit.rows, kit)
    return kit
