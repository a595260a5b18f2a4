"""Things of a draft that are added, written anew, copied, moved within their list, or removed; many values at once."""

from __future__ import annotations

import copy
from collections.abc import Mapping, Sequence
from typing import Any

from django.db import transaction

from kits.members.models import Person
from kits.planning.documents import write_changes, write_members
from kits.planning.editing import Opened, judged, opened, record, refused
from kits.planning.errors import IdTaken, StillNamed
from kits.planning.models import ChangeKind, Draft
from kits.planning.permissions import ensure_may_edit
from kits.planning.removing import named_by, removed
from kits.planning.trees import Path, path_of, value_at
from layouts.document import Change as ValueChange
from layouts.document import Kit as Document
from layouts.document import Refused, UnknownPlace, changed, plain_at, reread_kit
from layouts.document.canonical import canonical_tree, canonical_value
from layouts.document.places import MEMBERS_BY_KIND

__all__ = [
    "kit_write",
    "thing_add",
    "thing_copy",
    "thing_move",
    "thing_remove",
    "thing_write",
    "things_add",
    "values_change",
]

type Tree = dict[str, Any]


@transaction.atomic
def values_change(*, draft: Draft, values: Sequence[tuple[str, Any]], revision: int, by: Person) -> Draft:
    """Change values at several places together, or none of them; texts are taken as they were typed, None is absent.

    Values that are the same change nothing.
    Raises: NotAllowed, RevisionMoved, UnknownPlace, DraftRefused.
    """
    ensure_may_edit(by)
    place, value = values[0]
    edit = opened(draft, sent=revision, place=place, yours=value)
    now = reread_kit(edit.tree)
    changes = [ValueChange(at, _plain_at(now, at), after) for at, after in values]
    try:
        kit = changed(now, changes)
    except Refused as refusal:
        raise refused(refusal, edited=()) from None
    pairs = [(one.at, one.before, plain_at(kit, one.at)) for one in changes]
    pairs = [(at, before, after) for at, before, after in pairs if before != after]
    if not pairs:
        return edit.draft
    write_changes(edit.rows, kit)
    if len(pairs) == 1:
        at, before, after = pairs[0]
        return record(edit.draft, kit, what=ChangeKind.EDITED, by=by, place=at, before=before, after=after)
    return record(
        edit.draft,
        kit,
        what=ChangeKind.EDITED,
        by=by,
        place=pairs[0][0],
        before=[{"at": at, "value": before} for at, before, _ in pairs],
        after=[{"at": at, "value": after} for at, _, after in pairs],
    )


@transaction.atomic
def kit_write(*, draft: Draft, values: Mapping[str, Any], revision: int, by: Person) -> Draft:
    """Change what is true of a kit as a whole: `title`, `unit`, `printed`, `cutting`; None is absent.

    Lengths without a unit are in the unit that the kit has until then: with another one, all there are stay as long as
    they are.
    Raises: NotAllowed, RevisionMoved, DraftRefused.
    """
    ensure_may_edit(by)
    place = next(iter(values))
    edit = opened(draft, sent=revision, place="", yours=values[place])
    now = reread_kit(edit.tree)
    given = {name: value for name, value in values.items() if value is not None and name != "unit"}
    kept = {name: value for name, value in canonical_tree(now).items() if name not in values or name == "unit"}
    kit = judged({**kept, **given}, edited=())
    if values.get("unit") != now.unit:
        kit = judged(canonical_value(kit, None) | {"unit": values.get("unit")}, edited=())
    pairs = [(name, plain_at(now, name), plain_at(kit, name)) for name in values]
    pairs = [(name, before, after) for name, before, after in pairs if before != after]
    if not pairs:
        return edit.draft
    write_changes(edit.rows, kit)
    return record(
        edit.draft,
        kit,
        what=ChangeKind.EDITED,
        by=by,
        place=pairs[0][0],
        before=[{"at": name, "value": before} for name, before, _ in pairs],
        after=[{"at": name, "value": after} for name, _, after in pairs],
    )


@transaction.atomic
def thing_write(*, draft: Draft, place: str, thing: Mapping[str, Any], revision: int, by: Person) -> Draft:
    """Put all members of a thing, and the things in it, in place of those there are; its id stays.

    One that is the same, however it is written, changes nothing.
    Raises: NotAllowed, RevisionMoved, UnknownPlace, DraftRefused.
    """
    ensure_may_edit(by)
    edit = opened(draft, sent=revision, place=place, yours=thing)
    path = path_of(edit.tree, place)
    before = plain_at(reread_kit(edit.tree), place)
    value_at(edit.tree, path[:-1])[_number(path) - 1] = {**thing, "id": before["id"]}
    kit = judged(edit.tree, edited=path)
    after = plain_at(kit, place)
    if after == before:
        return edit.draft
    write_members(edit.rows, kit)
    return record(edit.draft, kit, what=ChangeKind.EDITED, by=by, place=place, before=before, after=after)


@transaction.atomic
def thing_add(
    *, draft: Draft, place: str, thing: Mapping[str, Any], position: int | None = None, revision: int, by: Person
) -> Draft:
    """Add a thing whose place ends with its id, at a position of its list that counts from 1, or at the end.

    Raises: NotAllowed, RevisionMoved, UnknownPlace, IdTaken, DraftRefused.
    """
    ensure_may_edit(by)
    edit = opened(draft, sent=revision, place=place, yours=thing)
    return _added(edit, place, {**thing, "id": place.rpartition(":")[2]}, position, by)


@transaction.atomic
def things_add(*, draft: Draft, things: Sequence[tuple[str, Mapping[str, Any]]], revision: int, by: Person) -> Draft:
    """Add several things, by their places, at the end of their lists in this order: all of them or none.

    Raises: NotAllowed, RevisionMoved, UnknownPlace, IdTaken, DraftRefused.
    """
    ensure_may_edit(by)
    first, thing = things[0]
    edit = opened(draft, sent=revision, place=first, yours=thing)
    for place, thing in things:
        _insert(edit.tree, place, {**thing, "id": place.rpartition(":")[2]}, None)
    kit = _written(edit, edit.tree)
    after = [{"at": place, "value": plain_at(kit, place)} for place, _ in things]
    before = [{"at": place, "value": None} for place, _ in things]
    return record(edit.draft, kit, what=ChangeKind.ADDED, by=by, place=first, before=before, after=after)


@transaction.atomic
def thing_copy(*, draft: Draft, place: str, to: str, revision: int, by: Person) -> Draft:
    """Put a copy of a thing, with the id `to`, right behind it; what names the one does not name the other.

    Raises: NotAllowed, RevisionMoved, UnknownPlace, IdTaken, DraftRefused.
    """
    ensure_may_edit(by)
    edit = opened(draft, sent=revision, place=place, yours=to)
    path = path_of(edit.tree, place)
    copied = copy.deepcopy(value_at(edit.tree, path)) | {"id": to}
    return _added(edit, f"{place.rpartition(':')[0]}:{to}", copied, _number(path) + 1, by)


@transaction.atomic
def thing_move(*, draft: Draft, place: str, position: int, revision: int, by: Person) -> Draft:
    """Move a thing to a position of its list that counts from 1; beyond the end is the end.

    Raises: NotAllowed, RevisionMoved, UnknownPlace.
    """
    ensure_may_edit(by)
    edit = opened(draft, sent=revision, place=place, yours=position)
    path = path_of(edit.tree, place)
    members = value_at(edit.tree, path[:-1])
    before, after = _number(path), min(max(position, 1), len(members))
    if before == after:
        return edit.draft
    members.insert(after - 1, members.pop(before - 1))
    kit = _written(edit, edit.tree)
    return record(edit.draft, kit, what=ChangeKind.MOVED, by=by, place=place, before=before, after=after)


@transaction.atomic
def thing_remove(*, draft: Draft, place: str, with_mentions: bool = False, revision: int, by: Person) -> Draft:
    """Remove a thing; `with_mentions`: together with everything that names it, but the text of steps.

    Raises: NotAllowed, RevisionMoved, UnknownPlace, DraftRefused; StillNamed where something names it and nobody said
    what becomes of that.
    """
    ensure_may_edit(by)
    edit = opened(draft, sent=revision, place=place, yours=None)
    path = path_of(edit.tree, place)
    mentions = named_by(edit.tree, place)
    if mentions and not with_mentions:
        raise StillNamed(place, mentions)
    before = value_at(edit.tree, path)
    item = edit.rows.item_of(path)
    kit = _written(edit, removed(edit.tree, place))
    gone = before if item is None else {"item": item, **before}
    return record(edit.draft, kit, what=ChangeKind.REMOVED, by=by, place=place, before=gone)


def _added(edit: Opened, place: str, thing: Tree, position: int | None, by: Person) -> Draft:
    path = _insert(edit.tree, place, thing, position)
    kit = judged(edit.tree, edited=path)
    write_members(edit.rows, kit)
    return record(edit.draft, kit, what=ChangeKind.ADDED, by=by, place=place, after=plain_at(kit, place))


def _insert(tree: Tree, place: str, thing: Tree, position: int | None) -> Path:
    """Put a thing into its list, and return where it is now. Raises: UnknownPlace, IdTaken."""
    path = _list_path(tree, place)
    members = value_at(tree, path)
    if any(one["id"].casefold() == thing["id"].casefold() for one in members):
        raise IdTaken(place)
    at = len(members) if position is None else min(max(position, 1), len(members) + 1) - 1
    members.insert(at, thing)
    return (*path, at)


def _written(edit: Opened, tree: Tree) -> Document:
    kit = judged(tree, edited=())
    write_members(edit.rows, kit)
    return kit


def _plain_at(kit: Document, place: str) -> Any:
    """What stands at a place; ids have a service of their own, since what names them must follow."""
    value = plain_at(kit, place)
    last = place.rpartition("/")[2]
    if ":" in last or last == "id":
        raise UnknownPlace(f"{place} is no single value")
    return value


def _list_path(tree: Tree, place: str) -> Path:
    """The path to the list in which the thing named by a place stands, or is to stand."""
    above, _, last = place.rpartition("/")
    outer: Path = path_of(tree, above) if above else ()
    listed = MEMBERS_BY_KIND.get(last.partition(":")[0], "")
    holder = value_at(tree, outer) if outer else tree
    if not isinstance(holder, dict) or not isinstance(holder.get(listed), list):
        raise UnknownPlace(f"nothing can stand at {place}")
    return (*outer, listed)


def _number(path: Path) -> int:
    """The position in its list of the thing at a path, from 1."""
    number = path[-1]
    if not isinstance(number, int):
        raise UnknownPlace("a value has no position")
    return number + 1
