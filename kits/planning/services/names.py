"""Ids that are given anew."""

from __future__ import annotations

from django.db import transaction

from kits.members.models import Person
from kits.planning.documents import write_changes
from kits.planning.editing import Opened, judged, opened, record, refused
from kits.planning.models import ChangeKind, Comment, Draft, PrintPicture
from kits.planning.permissions import ensure_may_edit
from kits.planning.renaming import rename, renamed_place
from kits.planning.trees import path_of, value_at
from layouts.document import Kit as Document
from layouts.document import Refused

__all__ = ["id_rename", "renamed"]


@transaction.atomic
def id_rename(*, draft: Draft, place: str, to: str, revision: int, by: Person) -> Draft:
    """Give something a new id, and write it wherever the old one stood, step text included.

    Raises: NotAllowed, RevisionMoved, UnknownPlace, DraftRefused, RenameUnclear.
    """
    ensure_may_edit(by)
    at = f"{place}/id"
    edit = opened(draft, sent=revision, place=at, yours=to)
    path = path_of(edit.tree, at)
    before = value_at(edit.tree, path)
    if before == to:
        return edit.draft
    kit = renamed(edit, place, to)
    return record(edit.draft, kit, what=ChangeKind.RENAMED, by=by, place=at, before=before, after=to)


def renamed(edit: Opened, place: str, to: str) -> Document:
    """Write the new id of what is at a place, and every reference to it. Raises: DraftRefused, RenameUnclear."""
    try:
        tree = rename(edit.tree, place, to)
    except Refused as refusal:
        raise refused(refusal, edited=path_of(edit.tree, f"{place}/id")) from None
    kit = judged(tree, edited=())
    write_changes(edit.rows, kit)
    kind, _, old = place.partition(":")
    if kind == "paper":  # its pictures go by its id, and are no part of the document
        pictures = PrintPicture.objects.filter(kit=edit.draft.kit)
        pictures.filter(paper=to).delete()  # of a print that is gone
        pictures.filter(paper=old).update(paper=to)
    _move_comments(edit.draft, place, to)
    return kit


def _move_comments(draft: Draft, place: str, to: str) -> None:
    """What was said about a thing goes with it. Its words stay: they are what it was called then."""
    for comment in Comment.objects.filter(kit=draft.kit, place__startswith=place):
        rest = comment.place[len(place) :]
        # SQLite does not tell capitals apart.
        if comment.place.startswith(place) and (not rest or rest.startswith("/")):
            comment.place = renamed_place(place, to) + rest
            comment.save(update_fields=["place"])
