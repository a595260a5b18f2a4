"""Changes of a document: one value at its place, from what it was to what it is to be; a thing added or removed."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any, Self

from layouts.document.base import DocumentObject
from layouts.document.canonical import canonical_tree, canonical_value
from layouts.document.kit import Kit
from layouts.document.places import MEMBERS_BY_KIND, UnknownPlace, value_at
from layouts.document.reading import reread_kit
from layouts.document.steps import Step
from layouts.document.values import Box, Point, Size

__all__ = ["Change", "added", "change_to", "changed", "plain_at"]


@dataclass(frozen=True, slots=True)
class Change:
    """What stands at a place, and what is to stand there: plain JSON as in the canonical form, None for nothing.

    A thing with an id that is new stands behind the one of its list that `behind` names by its id, or last.
    """

    at: str
    before: Any
    after: Any
    behind: str = ""

    @classmethod
    def of(cls, data: Mapping[str, Any]) -> Self:
        """Return the change that `as_data` wrote."""
        return cls(data["at"], data["from"], data["to"], data.get("behind", ""))

    def as_data(self) -> dict[str, Any]:
        """The change as a member of a mend."""
        data = {"at": self.at, "from": self.before, "to": self.after}
        return {**data, "behind": self.behind} if self.behind else data


def change_to(kit: Kit, place: str, value: Any) -> Change:
    """Return the change of a value to another of its type; None is an optional value that is absent.

    Raises: UnknownPlace.
    """
    return Change(place, plain_at(kit, place), canonical_value(value, kit.unit))


def added(kit: Kit, place: str, thing: DocumentObject, *, behind: str = "") -> Change:
    """Return the change that adds a thing with an id, named by `place`, to the list that it belongs to."""
    return Change(place, None, canonical_value(thing, kit.unit), behind)


def plain_at(kit: Kit, place: str) -> Any:
    """Return what stands at a place as plain JSON, None where nothing does but something could.

    Raises: UnknownPlace where nothing could.
    """
    try:
        return canonical_value(value_at(kit, place), kit.unit)
    except UnknownPlace:
        outer, _, last = place.rpartition("/")
        if not _could_stand(value_at(kit, outer) if outer else kit, last):
            raise
        return None


def changed(kit: Kit, changes: Sequence[Change]) -> Kit:
    """Return the kit with these changes made, read anew.

    Raises: UnknownPlace; Refused if it would be no valid document.
    """
    tree = canonical_tree(kit)
    for change in changes:
        _put(tree, kit, change)
    return reread_kit(tree)


def _could_stand(holder: Any, last: str) -> bool:
    """Whether an object of the document has a member of this name, or a list for things of this kind."""
    if not isinstance(holder, DocumentObject):
        return False
    fields = type(holder).model_fields
    kind, colon, _ = last.partition(":")
    if colon:
        return not isinstance(holder, Step) and MEMBERS_BY_KIND.get(kind) in fields
    return any((field.alias or name) == last and not field.is_required() for name, field in fields.items())


def _put(tree: dict[str, Any], kit: Kit, change: Change) -> None:
    """Put a value into the tree; `kit`, of which the tree was made, tells pairs from lists."""
    here: Any = tree
    value: Any = kit
    *outer, last = change.at.split("/")
    place = ""
    for part in outer:
        place = f"{place}/{part}" if place else part
        value = value_at(kit, place)
        kind, colon, id_ = part.partition(":")
        if colon:
            here = next(one for one in here[MEMBERS_BY_KIND[kind]] if one["id"] == id_)
        elif isinstance(here, list):
            here = here[int(part) - 1]
        elif part in here:
            here = here[part]
        else:  # an object of nothing but defaults is not written
            here = here.setdefault(part, {})
    if isinstance(value, Size | Box | Point):
        here[value.names.index(last)] = change.after
    elif ":" in last and _could_stand(value, last):
        _put_member(here, last, change)
    elif isinstance(here, dict) and ":" not in last:
        here[last] = change.after
    else:
        raise UnknownPlace(f"{change.at} is no single value")


def _put_member(here: dict[str, Any], last: str, change: Change) -> None:
    """Add a thing to its list, or take it out of it."""
    kind, _, id_ = last.partition(":")
    members = here.setdefault(MEMBERS_BY_KIND[kind], [])
    ids = [one["id"] for one in members]
    if change.after is None and id_ in ids:
        del members[ids.index(id_)]
    elif change.before is None and id_ not in ids and isinstance(change.after, dict) and change.after["id"] == id_:
        members.insert(ids.index(change.behind) + 1 if change.behind in ids else len(members), change.after)
    else:
        raise UnknownPlace(f"{change.at} is neither new nor to be removed")
