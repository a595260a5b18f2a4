"""Values of a draft that are changed in place."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any, Literal, get_args

from django.db import transaction

from inventory.models import CatalogueItem, ItemKind
from kits.members.models import Person
from kits.planning.documents import write_changes
from kits.planning.editing import judged, opened, record
from kits.planning.models import ChangeKind, Draft, Paper
from kits.planning.permissions import ensure_may_edit
from kits.planning.trees import change_at, path_of, value_at
from layouts.document import UnknownPlace

__all__ = ["PieceField", "paper_take_over", "piece_change"]

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


def _as_written(field: PieceField, value: Any) -> Any:
    """Return a value as the document writes it: a form knows texts only, and for no paper an empty one."""
    if field == "count" and isinstance(value, str) and value.isascii() and value.isdigit() and len(value) < 20:
        return int(value)
    if field == "size" and isinstance(value, tuple):
        return [*value]
    return None if field == "paper" and value == "" else value


def _paper_of(item: CatalogueItem, before: Mapping[str, Any], tree: Mapping[str, Any]) -> dict[str, Any]:
    paper = {**item.facts, "id": before["id"], "name": item.name, "sheets": before["sheets"]}
    pad = next((pad for pad in tree["pads"] if pad["id"] == before.get("pad")), None)
    if pad is not None and pad["size"] == paper["size"]:
        # Still a leaf of its pad, which says the size.
        del paper["size"]
        paper["pad"] = pad["id"]
    return paper
