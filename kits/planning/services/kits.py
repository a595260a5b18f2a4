"""Kits begun with a document, and documents put in their place."""

from __future__ import annotations

from django.db import IntegrityError, transaction

from kits.members.models import Person
from kits.planning.documents import load
from kits.planning.editing import judged, opened, record
from kits.planning.errors import CodeKnown, OtherKit
from kits.planning.models import ChangeKind, Draft, Kit
from kits.planning.permissions import ensure_may_edit
from layouts.document import Kit as Document
from layouts.document import document_hash, read_kit

__all__ = ["kit_create", "kit_replace", "load_whole"]


def kit_create(*, document: bytes, by: Person) -> Draft:
    """Start a kit with a document. Raises: NotAllowed, Refused, CodeKnown."""
    ensure_may_edit(by)
    # Read first: whoever waits for the database must not wait for this.
    kit = read_kit(document)
    with transaction.atomic():
        draft = Draft(kit=_new_kit(kit.code))
        load(draft, kit)
        return record(draft, kit, what=ChangeKind.CREATED, by=by, after=document_hash(kit))


def kit_replace(*, kit: Kit, document: bytes, revision: int, by: Person) -> Draft:
    """Put a document in the place of a kit's draft. Its history stays, and the change can be taken back.

    Raises: NotAllowed, Refused, OtherKit, RevisionMoved.
    """
    ensure_may_edit(by)
    new = read_kit(document)
    if new.code.lower() != kit.code.lower():
        raise OtherKit(kit.code, new.code)
    with transaction.atomic():
        main = Draft.objects.get(kit=kit, is_main=True)
        edit = opened(main, sent=revision, place="", yours=document_hash(new))
        old = judged(edit.tree, edited=())
        before, after = document_hash(old), document_hash(new)
        if after == before:
            return edit.draft
        load_whole(edit.draft, new)
        return record(
            edit.draft,
            new,
            what=ChangeKind.REPLACED,
            by=by,
            before=before,
            after=after,
        )


def load_whole(draft: Draft, kit: Document) -> None:
    """Write a document into a draft, and its code into the kit."""
    load(draft, kit)
    # Codes that differ in capitals only are of one kit; the document says which are written.
    if draft.kit.code != kit.code:
        draft.kit.code = kit.code
        draft.kit.save()


def _new_kit(code: str) -> Kit:
    known = Kit.objects.filter(code__iexact=code)
    if not known.exists():
        try:
            with transaction.atomic():
                return Kit.objects.create(code=code)
        except IntegrityError:
            pass  # somebody else was quicker
    draft = Draft.objects.select_related("kit").get(kit__in=known, is_main=True)
    raise CodeKnown(draft.kit.code, draft.title, draft.revision)
