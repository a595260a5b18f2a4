"""Take a thing out of a document's plain JSON, and everything that named it with it, but the text of steps."""

from __future__ import annotations

import copy
from collections.abc import Collection
from typing import Any

from kits.planning.references import Slot, slots_of
from kits.planning.text_references import steps_naming
from kits.planning.trees import change_at, path_of, value_at
from layouts.document import reread_kit

__all__ = ["named_by", "removed"]

type Tree = dict[str, Any]


def named_by(tree: Tree, place: str) -> tuple[str, ...]:
    """Return the places of what names a thing or something of it: in lists and members first, then in texts.

    What belongs to the thing itself is left out: it goes with it. Raises: UnknownPlace.
    """
    path_of(tree, place)
    found = [slot.where for slot in slots_of(tree) if _names(slot, place)]
    texts = steps_naming(reread_kit(tree), place)
    return tuple(dict.fromkeys(where for where in (*found, *texts) if not _is_of(where, place)))


def removed(tree: Tree, place: str) -> Tree:
    """Return a document without the thing at `place`; the one that is given stays as it is.

    Placements of it, and on it, go with it; uses and mentions in lists are left out, and what came from it or was cut
    from it says so no longer: whether that is still a document is for its reader to say. The text of a step is
    somebody's sentence and stays as it is.
    Raises: UnknownPlace.
    """
    new = copy.deepcopy(tree)
    path = path_of(new, place)
    gone: set[str] = set()
    dropped: dict[int, tuple[list[Any], set[int]]] = {}
    for slot in slots_of(new):
        if not _names(slot, place) or _is_of(slot.where, place):
            continue
        if "/placement:" in slot.where:
            gone.add(slot.where)
        else:
            _let_go(new, slot, dropped)
    for members, numbers in dropped.values():
        members[:] = [one for number, one in enumerate(members) if number not in numbers]
    _after_the_one_before(new, dropped)
    outer = value_at(new, path[:-1])
    del outer[path[-1]]
    for where in gone:
        *above, _ = where.split("/")
        list_ = value_at(new, path_of(new, "/".join(above)))["placements"]
        list_[:] = [one for one in list_ if one["id"] != where.rpartition(":")[2]]
    return new


def _names(slot: Slot, place: str) -> bool:
    return any(_is_of(name, place) for name in slot.names)


def _is_of(where: str, place: str) -> bool:
    return where == place or where.startswith(f"{place}/")


def _let_go(tree: Tree, slot: Slot, dropped: dict[int, tuple[list[Any], set[int]]]) -> None:
    """Take one reference away, where it stands in a list once all are known."""
    if isinstance(slot.key, int):
        dropped.setdefault(id(slot.holder), (slot.holder, set()))[1].add(slot.key)
        return
    uses = value_at(tree, path_of(tree, slot.where)).get("use", []) if "/step:" in slot.where else []
    used = next((number for number, use in enumerate(uses) if use is slot.holder), None)
    if used is not None:
        dropped.setdefault(id(uses), (uses, set()))[1].add(used)
    elif slot.key == "pad":
        # A leaf of a pad keeps its size without it.
        pad = next(one for one in tree["pads"] if one["id"] == slot.text)
        change_at(slot.holder, ("pad",), None)
        slot.holder["size"] = copy.deepcopy(pad["size"])
    else:
        change_at(slot.holder, (slot.key,), None)


def _after_the_one_before(tree: Tree, dropped: Collection[int]) -> None:
    """A step that waited for nothing but what is gone comes after the one before it, not at once."""
    for project in tree["projects"]:
        for step in project["steps"]:
            if step.get("after") == [] and id(step["after"]) in dropped:
                del step["after"]
