"""What a kit would be with a thing as it is being typed: nothing is saved."""

from __future__ import annotations

import itertools
from collections.abc import Mapping, Sequence
from typing import Any

from frontend.kit_page.things.kinds import KIT
from kits.planning.trees import Path, path_of, value_at
from layouts.document import Kit, Refused, reread_kit
from layouts.document.canonical import canonical_tree
from layouts.document.places import MEMBERS_BY_KIND
from layouts.document.refusal import DocumentError, pointer_of

__all__ = ["path_in", "place_of", "tried", "wrong_at"]


def path_in(kit: Kit, place: str, tree: dict[str, Any] | None = None) -> Path:
    """Return the path of a thing in the canonical JSON of a kit, or the one that it would have as the last of its list.

    Raises: UnknownPlace.
    """
    tree = canonical_tree(kit) if tree is None else tree
    if place == KIT:
        return ()
    outer, _, last = place.rpartition("/")
    kind, _, id_ = last.partition(":")
    path: Path = path_of(tree, outer) if outer else ()
    holder = value_at(tree, path) if path else tree
    members = holder.setdefault(MEMBERS_BY_KIND[kind], [])
    number = next((at for at, one in enumerate(members) if one["id"] == id_), len(members))
    return (*path, MEMBERS_BY_KIND[kind], number)


def place_of(kit: Kit, pointer: str) -> str:
    """Return the place of the thing that a JSON Pointer into a kit's canonical form leads to or into; or nothing."""
    here: Any = canonical_tree(kit)
    found, part = [], ""
    kinds = {listed: kind for kind, listed in MEMBERS_BY_KIND.items()}
    for part, after in itertools.pairwise(pointer.split("/")[1:]):
        here = here.get(part) if isinstance(here, dict) else None
        if part in kinds and isinstance(here, list) and after.isdigit() and int(after) < len(here):
            found.append(f"{kinds[part]}:{here[int(after)]['id']}")
            here = {after: here[int(after)]}
    return "/".join(found)


def tried(kit: Kit, place: str, plain: Mapping[str, Any]) -> Kit:
    """Return a kit in which the thing at a place is another, or there as well. Raises: UnknownPlace, Refused."""
    tree = canonical_tree(kit)
    if place == KIT:
        return reread_kit(tree | dict(plain))
    path = path_in(kit, place, tree)
    members, number = value_at(tree, path[:-1]), path[-1]
    assert isinstance(number, int)
    members[number:] = [{**plain, "id": place.rpartition(":")[2]}, *members[number + 1 :]]
    return reread_kit(tree)


def wrong_at(refused: Refused | Sequence[DocumentError], path: Path) -> tuple[tuple[str, str], ...]:
    """Return what is wrong with the thing at a path: where in it, and why; empty, where something else is refused."""
    errors = refused.errors if isinstance(refused, Refused) else refused
    start = f"{pointer_of(path)}/"
    return tuple(
        (one.pointer.removeprefix(start) if one.pointer.startswith(start) else "", one.message) for one in errors
    )
