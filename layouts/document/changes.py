"""Changes of a document: one value at its place, from what it was to what it is to be."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from layouts.document.canonical import canonical_tree, canonical_value
from layouts.document.kit import Kit
from layouts.document.places import MEMBERS_BY_KIND, UnknownPlace, value_at
from layouts.document.reading import reread_kit
from layouts.document.values import Box, Point, Size

__all__ = ["Change", "change_to", "changed"]


@dataclass(frozen=True, slots=True)
class Change:
    """What stands at a place, and what is to stand there: plain JSON as in the canonical form."""

    at: str
    before: Any
    after: Any

    def as_data(self) -> dict[str, Any]:
        """The change as a member of a mend."""
        return {"at": self.at, "from": self.before, "to": self.after}


def change_to(kit: Kit, place: str, value: Any) -> Change:
    """Return the change of a value that is there, or has a default, to another of its type. Raises: UnknownPlace."""
    before, after = (canonical_value(one, kit.unit) for one in (value_at(kit, place), value))
    return Change(place, before, after)


def changed(kit: Kit, changes: Sequence[Change]) -> Kit:
    """Return the kit with these changes made, read anew.

    Raises: UnknownPlace; Refused if it would be no valid document.
    """
    tree = canonical_tree(kit)
    for change in changes:
        _put(tree, kit, change)
    return reread_kit(tree)


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
    elif isinstance(here, dict) and ":" not in last:
        here[last] = change.after
    else:
        raise UnknownPlace(f"{change.at} is no single value")
