"""What changes a kit and its drafts. Each service is one transaction, checks who asks, and records what it did.

A change is made on the revision that was read, or not at all (RevisionMoved); a draft that would be no valid document
is refused with every reason (DraftRefused). Nothing is kept of a change that is not made.
"""

from __future__ import annotations

import copy
import json
from collections.abc import Mapping, Sequence
from typing import Any, Literal, get_args

from django.db import IntegrityError, transaction
from django.utils import timezone

from inventory.models import CatalogueItem, ItemKind
from kits.members.models import Person
from kits.planning.documents import build_bytes, load, write_changes, write_members
from kits.planning.editing import Opened, judged, locked, opened, record, refused, standing
from kits.planning.errors import CodeKnown, MendOutdated, NothingToUndo, OtherKit, OthersChange
from kits.planning.models import Change, ChangeKind, Draft, Kit, Paper
from kits.planning.permissions import ensure_may_check, ensure_may_edit
from kits.planning.renaming import rename, renamed_place
from kits.planning.trees import change_at, path_of, value_at
from layouts.checks import check_request
from layouts.document import Change as ValueChange
from layouts.document import Kit as Document
from layouts.document import (
    Refused,
    UnknownPlace,
    canonical_bytes,
    changed,
    document_hash,
    plain_at,
    read_kit,
    reread_kit,
)
from layouts.models import CheckRun

__all__ = [
    "PieceField",
    "draft_check",
    "draft_undo",
    "id_rename",
    "kit_create",
    "kit_replace",
    "mend_apply",
    "paper_take_over",
    "piece_change",
]

PieceField = Literal["size", "count", "paper", "side", "print_reads"]


@transaction.atomic
def piece_change(*, draft: Draft, place: str, field: PieceField, value: Any, revision: int, by: Person) -> Draft:
    """Change one value of a piece; texts are taken as they were typed. A value that is the same changes nothing.

    Raises: NotAllowed, RevisionMoved, UnknownPlace, DraftRefused.
    """
    ensure_may_edit(by)
    if field not in get_args(PieceField):
        raise ValueError(f"{field} is not changed in place")
    at, written = f"{place}/{field}", _as_written(field, value)
    edit = opened(draft, sent=revision, place=at, yours=written)
    path = path_of(edit.tree, at)
    if path[-3:-2] != ("pieces",):
        raise UnknownPlace(f"{place} is no piece")
    before = value_at(edit.tree, path)
    change_at(edit.tree, path, written)
    kit = judged(edit.tree, edited=path)
    write_changes(edit.rows, kit)
    after = value_at(edit.rows.tree(), path)
    if after == before:
        return edit.draft
    return record(edit.draft, kit, what=ChangeKind.CHANGED, by=by, place=at, before=before, after=after)


@transaction.atomic
def mend_apply(*, draft: Draft, changes: Sequence[ValueChange], revision: int, by: Person) -> Draft:
    """Change all that a mend or an idea of a proof changes, or nothing of it.

    Raises: NotAllowed, RevisionMoved, UnknownPlace, DraftRefused; MendOutdated where a value is no longer what the mend
    starts from.
    """
    ensure_may_edit(by)
    first = changes[0]
    edit = opened(draft, sent=revision, place=first.at, yours=first.after)
    kit = _with_values(edit, changes)
    return record(
        edit.draft,
        kit,
        what=ChangeKind.MENDED,
        by=by,
        place=first.at,
        before=[{"at": change.at, "value": change.before} for change in changes],
        after=[{"at": change.at, "value": change.after} for change in changes],
    )


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
    kit = _renamed(edit, place, to)
    return record(edit.draft, kit, what=ChangeKind.RENAMED, by=by, place=at, before=before, after=to)


@transaction.atomic
def paper_take_over(*, draft: Draft, place: str, item: CatalogueItem, revision: int, by: Person) -> Draft:
    """Copy what the catalogue says of a paper into the one at `place`; how many sheets a member gets stays.

    Raises: NotAllowed, RevisionMoved, UnknownPlace, DraftRefused.
    """
    ensure_may_edit(by)
    edit = opened(draft, sent=revision, place=place, yours=item.facts)
    path = path_of(edit.tree, place)
    if path[:-1] != ("papers",) or item.kind != ItemKind.PAPER:
        raise UnknownPlace(f"{place} cannot be taken over from {item}: one of them is no paper")
    row = Paper.objects.get(draft=edit.draft, ident=value_at(edit.tree, path)["id"])
    before = {"item": row.item_id, **value_at(edit.tree, path)}
    change_at(edit.tree, path, _paper_of(item, before, edit.tree))
    kit = judged(edit.tree, edited=path)
    write_changes(edit.rows, kit)
    after = {"item": item.pk, **value_at(edit.rows.tree(), path)}
    if after == before:
        return edit.draft
    Paper.objects.filter(pk=row.pk).update(item=item)
    return record(edit.draft, kit, what=ChangeKind.TAKEN_OVER, by=by, place=place, before=before, after=after)


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
        _load_whole(edit.draft, new)
        return record(
            edit.draft,
            new,
            what=ChangeKind.REPLACED,
            by=by,
            before=before,
            after=after,
            replaced=canonical_bytes(old),
        )


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


@transaction.atomic
def draft_check(*, draft: Draft, by: Person) -> CheckRun:
    """Have a draft checked as it is. Raises: NotAllowed."""
    ensure_may_check(by)
    now = locked(draft)
    return check_request(
        subject=now.subject, revision=now.revision, document=build_bytes(now), by=by, now=timezone.now()
    )


def _as_written(field: PieceField, value: Any) -> Any:
    """Return a value as the document writes it: a form knows texts only, and for no paper an empty one."""
    if field == "count" and isinstance(value, str) and value.isascii() and value.isdigit() and len(value) < 20:
        return int(value)
    if field == "size" and isinstance(value, tuple):
        return [*value]
    return None if field == "paper" and value == "" else value


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


def _load_whole(draft: Draft, kit: Document) -> None:
    load(draft, kit)
    # Codes that differ in capitals only are of one kit; the document says which are written.
    if draft.kit.code != kit.code:
        draft.kit.code = kit.code
        draft.kit.save()


def _renamed(edit: Opened, place: str, to: str) -> Document:
    try:
        tree = rename(edit.tree, place, to)
    except Refused as refusal:
        raise refused(refusal, edited=path_of(edit.tree, f"{place}/id")) from None
    kit = judged(tree, edited=())
    write_changes(edit.rows, kit)
    return kit


def _paper_of(item: CatalogueItem, before: Mapping[str, Any], tree: Mapping[str, Any]) -> dict[str, Any]:
    paper = {**item.facts, "id": before["id"], "name": item.name, "sheets": before["sheets"]}
    pad = next((pad for pad in tree["pads"] if pad["id"] == before.get("pad")), None)
    if pad is not None and pad["size"] == paper["size"]:
        # Still a leaf of its pad, which says the size.
        del paper["size"]
        paper["pad"] = pad["id"]
    return paper


def _with_values(edit: Opened, changes: Sequence[ValueChange]) -> Document:
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


def _taken_back(edit: Opened, change: Change) -> Document:
    before: Any = copy.deepcopy(change.before)
    if change.what == ChangeKind.MENDED:
        after: Any = change.after
        pairs = zip(after, before, strict=True)
        return _with_values(edit, [ValueChange(one["at"], one["value"], other["value"]) for one, other in pairs])
    if change.what == ChangeKind.REPLACED:
        kit = reread_kit(json.loads(change.replaced))
        _load_whole(edit.draft, kit)
        return kit
    if change.what == ChangeKind.RENAMED:
        place = change.place.removesuffix("/id")
        return _renamed(edit, renamed_place(place, str(change.after)), before)
    path = path_of(edit.tree, change.place)
    if change.what == ChangeKind.TAKEN_OVER:
        item = before.pop("item")
        Paper.objects.filter(draft=edit.draft, ident=before["id"]).update(item=item)
    change_at(edit.tree, path, before)
    kit = judged(edit.tree, edited=path)
    write_changes(edit.rows, kit)
    return kit
