"""Changes taken back."""

from __future__ import annotations

import copy
import json
from typing import Any

from django.db import transaction

from kits.members.models import Person
from kits.planning.documents import write_changes
from kits.planning.editing import Opened, judged, opened, record, standing
from kits.planning.errors import NothingToUndo, OthersChange
from kits.planning.models import Change, ChangeKind, Draft, Paper
from kits.planning.permissions import ensure_may_edit
from kits.planning.renaming import renamed_place
from kits.planning.services.kits import load_whole
from kits.planning.services.mends import with_values
from kits.planning.services.names import renamed
from kits.planning.trees import change_at, path_of
from layouts.document import Change as ValueChange
from layouts.document import Kit as Document
from layouts.document import reread_kit

__all__ = ["draft_undo"]


@transaction.atomic
def draft_undo(*, draft: Draft, revision: int, by: Person) -> Draft:
    """Take back the last change that still stands; called again, the one before. Taking back is a change as well.

    Raises: NotAllowed, NothingToUndo; RevisionMoved, OthersChange where somebody else's change came after.
    """
    ensure_may_edit(by)
    wanted = standing(draft).filter(revision__lte=revision).first()
    place, yours = (wanted.place, wanted.before) if wanted else ("", None)
    edit = opened(draft, sent=revision, place=place, yours=yours)
    last = standing(edit.draft).first()
    if last is None:
        raise NothingToUndo("no change is left that could be taken back")
    if last.by_id != by.pk:
        raise OthersChange(last.place, last.before, last.after, str(last.by or "the system"), last.at)
    kit = _taken_back(edit, last)
    return record(
        edit.draft,
        kit,
        what=ChangeKind.UNDONE,
        by=by,
        place=last.place,
        before=last.after,
        after=last.before,
        undoes=last,
    )


def _taken_back(edit: Opened, change: Change) -> Document:
    before: Any = copy.deepcopy(change.before)
    if change.what == ChangeKind.MENDED:
        after: Any = change.after
        pairs = zip(after, before, strict=True)
        return with_values(edit, [ValueChange(one["at"], one["value"], other["value"]) for one, other in pairs])
    if change.what == ChangeKind.REPLACED:
        kit = reread_kit(json.loads(change.replaced))
        load_whole(edit.draft, kit)
        return kit
    if change.what == ChangeKind.RENAMED:
        place = change.place.removesuffix("/id")
        return renamed(edit, renamed_place(place, str(change.after)), before)
    path = path_of(edit.tree, change.place)
    if change.what == ChangeKind.TAKEN_OVER:
        item = before.pop("item")
        Paper.objects.filter(draft=edit.draft, ident=before["id"]).update(item=item)
    change_at(edit.tree, path, before)
    kit = judged(edit.tree, edited=path)
    write_changes(edit.rows, kit)
    return kit
