"""What a thing of a kit needs beside itself: what it is cut from, what lies on it, what it is made with."""

from __future__ import annotations

from collections.abc import Collection, Iterator
from typing import Any

from kits.planning.references import Slot, slots_of
from kits.planning.text_references import named, references_in
from layouts.assembly import Names
from layouts.document import Kit, canonical_value

__all__ = ["LISTS", "free_id", "needed_by_projects", "whole_tree"]

type Tree = dict[str, Any]

# The lists of what is in the box, and the kind by which a place names a member.
LISTS = {
    "pads": "pad",
    "papers": "paper",
    "embellishments": "embellishment",
    "blanks": "blank",
    "supplies": "supply",
    "tools": "tool",
}
_LONGEST_ID = 32


def whole_tree(kit: Kit) -> Tree:
    """Return a kit as plain JSON with every unit written and every list there, be it empty.

    It can be read again in a kit of the other unit, and nothing becomes another length.
    """
    tree: Tree = canonical_value(kit, None)
    for name in (*LISTS, "projects", "accepted"):
        tree.setdefault(name, [])
    for project in tree["projects"]:
        for name in ("pieces", "forms", "placements", "steps"):
            project.setdefault(name, [])
        for step in project["steps"]:
            for name in ("cut", "use", "tools", "closes"):
                step.setdefault(name, [])
    return tree


def needed_by_projects(kit: Kit, projects: Collection[str]) -> set[str]:
    """Return the places of what is needed to make some projects, by their ids: projects too, for their cut-outs.

    What a sentence names is needed as well: without it the sentence would print a gap.
    """
    tree, wanted = whole_tree(kit), {f"project:{id_}" for id_ in projects}
    slots = list(slots_of(tree))
    texts = list(_named_in_texts(kit))
    while True:
        found = {
            top for slot in slots if _top(slot.where) in wanted and _is_need(slot) for top in map(_top, slot.names)
        }
        found |= {_top(place) for where, place in texts if where in wanted and not place.startswith("project:")}
        if found <= wanted:
            return wanted
        wanted |= found


def free_id(words: str, taken: Collection[str]) -> str:
    """Return an id made of words that none of `taken` is, whatever its capitals.

    >>> free_id("Sea glass", ["SEA-GLASS"])
    'sea-glass-2'
    """
    known = {one.casefold() for one in taken}
    letters = (letter if letter.isascii() and letter.isalnum() else " " for letter in words.casefold())
    stem = "-".join("".join(letters).split())[: _LONGEST_ID - 6].strip("-") or "thing"
    if stem not in known:
        return stem
    return next(one for number in range(2, 100_000) if (one := f"{stem}-{number}") not in known)


def _is_need(slot: Slot) -> bool:
    # A project that has to be made before is no part of this one.
    return not ("/step:" in slot.where and slot.names[0].startswith("project:"))


def _top(place: str) -> str:
    return place.partition("/")[0]


def _named_in_texts(kit: Kit) -> Iterator[tuple[str, str]]:
    """Yield projects with the places that the texts of their steps name."""
    names = Names(kit)
    for project in kit.projects:
        for step in project.steps:
            for reference in references_in(step.text):
                for place in named(reference, names, project.id):
                    yield f"project:{project.id}", place
