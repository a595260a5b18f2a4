"""What is brought into a kit from another one or from the catalogue: with ids that are free there."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from typing import Any

from kits.planning.needs import LISTS, free_id, whole_tree
from layouts.document import Kit

__all__ = ["Brought", "brought", "brought_items"]

type Brought = tuple[str, dict[str, Any]]


def brought(into: Kit, source: Kit, places: Collection[str]) -> list[Brought]:
    """Return things of another kit (`paper:P`, `tool:T` …) as they would be added: new places and plain JSON.

    A paper of a pad brings the pad, unless the kit has one of this name and size: then it is a leaf of that.
    """
    tree, here = whole_tree(source), whole_tree(into)
    taken = {kind: [one["id"] for one in here[name]] for name, kind in LISTS.items()}
    things: list[Brought] = []
    pads: dict[str, str] = {}
    for name, kind in LISTS.items():
        for one in tree[name]:
            if f"{kind}:{one['id']}" in places and kind != "pad":
                thing = dict(one)
                if "pad" in thing:
                    thing["pad"] = _pad(thing["pad"], tree, here, taken["pad"], pads, things)
                things.append(_placed(kind, thing, taken[kind]))
            elif f"pad:{one['id']}" in places and kind == "pad":
                _pad(one["id"], tree, here, taken["pad"], pads, things)
    return things


def brought_items(into: Kit, items: Sequence[tuple[str, str, Mapping[str, Any]]]) -> list[Brought]:
    """Return items of the catalogue, each by kind, name and facts, as they would be added.

    A member gets one sheet of a paper until somebody says more.
    """
    here = whole_tree(into)
    taken = {kind: [one["id"] for one in here[name]] for name, kind in LISTS.items()}
    things: list[Brought] = []
    for kind, name, facts in items:
        thing = {**facts, "id": name, "name": name, **({"sheets": 1} if kind == "paper" else {})}
        things.append(_placed(kind, thing, taken[kind]))
    return things


def _placed(kind: str, thing: dict[str, Any], taken: list[str]) -> Brought:
    same = thing["id"].casefold() not in {one.casefold() for one in taken} and " " not in thing["id"]
    id_ = thing["id"] if same else free_id(thing["id"], taken)
    taken.append(id_)
    return f"{kind}:{id_}", {**thing, "id": id_}


def _pad(
    id_: str,
    tree: Mapping[str, Any],
    here: Mapping[str, Any],
    taken: list[str],
    pads: dict[str, str],
    things: list[Brought],
) -> str:
    """Return the id that a pad has here: that of the same pad, or of the one that comes."""
    if id_ not in pads:
        pad = next(one for one in tree["pads"] if one["id"] == id_)
        facts = (pad["name"].casefold(), pad["size"])
        same = next((one["id"] for one in here["pads"] if (one["name"].casefold(), one["size"]) == facts), None)
        if same is None:
            place, thing = _placed("pad", dict(pad), taken)
            things.append((place, thing))
            same = place.partition(":")[2]
        pads[id_] = same
    return pads[id_]
