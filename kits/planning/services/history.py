"""Changes taken back and made again, and earlier states of a kit brought back. Each is a change itself."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from django.db import transaction

from kits.members.models import Person
from kits.planning.documents import write_members
from kits.planning.editing import Opened, opened, record, standing, taken_back_last
from kits.planning.errors import NothingToRedo, NothingToUndo, OthersChange
from kits.planning.models import Blank, Change, ChangeKind, Draft, Embellishment, Pad, Paper, Supply, Tool
from kits.planning.permissions import ensure_may_edit
from kits.planning.renaming import renamed_place
from kits.planning.services.kits import load_whole
from kits.planning.services.names import renamed
from layouts.document import Kit as Document
from layouts.document import document_hash, reread_kit

__all__ = ["draft_redo", "draft_restore", "draft_undo"]

# What may say which catalogue item it came from.
_FROM_CATALOGUE: Mapping[str, Any] = {
    "pad": Pad,
    "paper": Paper,
    "embellishment": Embellishment,
    "blank": Blank,
    "supply": Supply,
    "tool": Tool,
}


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
    _ensure_own(last, by)
    first = last.first_made
    renamed_from = renamed_place(first.place.removesuffix("/id"), str(first.after)) if _is_renaming(first) else ""
    kit = _written(edit, first, value=first.before, revision=last.revision - 1, renamed_from=renamed_from)
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


@transaction.atomic
def draft_redo(*, draft: Draft, revision: int, by: Person) -> Draft:
    """Make the change again that was taken back last, if nothing was changed since; called again, the one before.

    Raises: NotAllowed, NothingToRedo; RevisionMoved, OthersChange where somebody else took it back.
    """
    ensure_may_edit(by)
    edit = opened(draft, sent=revision, place="", yours=None)
    taken_back = taken_back_last(edit.draft)
    if taken_back is None or taken_back.undoes is None:
        raise NothingToRedo("nothing was taken back that could be made again")
    _ensure_own(taken_back, by)
    change = taken_back.undoes
    first = change.first_made
    renamed_from = first.place.removesuffix("/id")
    kit = _written(edit, first, value=first.after, revision=change.revision, renamed_from=renamed_from)
    return record(
        edit.draft,
        kit,
        what=ChangeKind.REDONE,
        by=by,
        place=change.place,
        before=change.before,
        after=change.after,
        redoes=taken_back,
    )


@transaction.atomic
def draft_restore(*, draft: Draft, to: int, revision: int, by: Person) -> Draft:
    """Bring a kit back to how it was at an earlier revision; all that came since stays in its history.

    Raises: NotAllowed, RevisionMoved, NothingToUndo where there is no such revision.
    """
    ensure_may_edit(by)
    edit = opened(draft, sent=revision, place="", yours=None)
    if not 1 <= to < edit.draft.revision:
        raise NothingToUndo(f"there is no earlier revision {to}")
    before = document_hash(reread_kit(edit.tree))
    kit = _brought_back(edit, to)
    after = document_hash(kit)
    if after == before:
        return edit.draft
    return record(edit.draft, kit, what=ChangeKind.RESTORED, by=by, before=before, after=after)


def _is_renaming(change: Change) -> bool:
    return change.what == ChangeKind.RENAMED


def _written(edit: Opened, first: Change, *, value: Any, revision: int, renamed_from: str) -> Document:
    """Write the document of a revision, in which what was changed has this value.

    What was renamed is renamed again, from where it is now: so its rows stay.
    """
    if _is_renaming(first):
        return renamed(edit, renamed_from, str(value))
    kit = _brought_back(edit, revision)
    _link_again(edit.draft, first.place, value)
    return kit


def _ensure_own(change: Change, by: Person) -> None:
    if change.by_id != by.pk:
        raise OthersChange(change.place, change.before, change.after, str(change.by or "the system"), change.at)


def _brought_back(edit: Opened, revision: int) -> Document:
    """Write the document that a revision was. Rows of things that are there now, and were then, are the same rows.

    Raises: NothingToUndo.
    """
    then = Change.objects.filter(draft=edit.draft, revision=revision).exclude(state=b"").first()
    if then is None:
        raise NothingToUndo(f"nobody kept how this kit was at revision {revision}")
    kit = then.document
    if kit.code == edit.draft.kit.code:
        write_members(edit.rows, kit)
    else:
        load_whole(edit.draft, kit)
    return kit


def _link_again(draft: Draft, place: str, value: Any) -> None:
    """Say again which catalogue item something came from: documents know nothing of the catalogue."""
    model = _FROM_CATALOGUE.get(place.partition(":")[0])
    if model is not None and isinstance(value, dict) and "item" in value:
        model._default_manager.filter(draft=draft, ident=value["id"]).update(item=value["item"])
