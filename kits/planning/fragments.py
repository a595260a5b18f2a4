"""A thing of a kit with all that it needs, as a small document of its own, and how it comes into another kit."""

from __future__ import annotations

import copy
import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from kits.planning.bringing import Brought, brought
from kits.planning.letters import free_letters
from kits.planning.needs import LISTS, free_id, whole_tree
from kits.planning.references import slots_of
from layouts.document import Kit, Project, UnknownPlace, reread_kit

__all__ = ["Fragment", "Use", "fragment_of", "used"]

type Tree = dict[str, Any]

# What a fragment's only project is called.
_PART = "part"
# How many there are in a box differs from kit to kit: things are the same without it.
_COUNTS = ("id", "count", "sheets", "length", "from")


@dataclass(frozen=True, slots=True)
class Fragment:
    """A thing at `place` of a kit document that holds nothing but what it needs; every unit is written."""

    place: str
    document: Tree

    @property
    def kit(self) -> Kit:
        return reread_kit(copy.deepcopy(self.document))


@dataclass(frozen=True, slots=True)
class Use:
    """What a fragment adds to a kit, by places; `called` says what each of its things is called there.

    `called` holds places of the fragment with places of the kit, also of things that the kit has already.
    """

    things: tuple[Brought, ...]
    called: Mapping[str, str]


def fragment_of(kit: Kit, place: str) -> Fragment:
    """Return a piece, folded part or blank with what it needs: its print, what it fits over, what lies on it.

    What lies on a thing that it only fits over stays behind, and so does what mirrors it. Raises: UnknownPlace.
    """
    tree = whole_tree(kit)
    home = _home(kit, place)
    wanted = _wanted(tree, place, home)
    new: Tree = {"format": tree["format"], "code": _PART, "title": _PART, "unit": tree["unit"]}
    new |= {name: [one for one in tree[name] if f"{kind}:{one['id']}" in wanted] for name, kind in LISTS.items()}
    new["projects"] = []
    for project in tree["projects"]:
        if f"project:{project['id']}" == home:
            kept = {
                name: [one for one in project[name] if f"{home}/{name[:-1]}:{one['id']}" in wanted]
                for name in ("pieces", "forms", "placements")
            }
            new["projects"] = [{**project, **kept, "id": _PART, "title": _PART, "steps": []}]
            for piece in kept["pieces"]:
                _loosen(piece, tree, wanted, home)
    ends = place.removeprefix(f"{home}/") if home else place
    at = f"project:{_PART}/{ends}" if place.startswith("project:") else place
    return Fragment(at, whole_tree(reread_kit(new)))


def used(fragment: Fragment, into: Kit, project: Project, prints: Mapping[str, str]) -> Use:
    """Return what a fragment adds to a project of a kit; `prints` says which print of the kit each of its own is there.

    Prints that are not named come along. Blanks, embellishment sheets, supplies and tools that the kit has, whatever
    they are called there, are those of the kit.
    """
    source = fragment.kit
    tree, here = whole_tree(source), whole_tree(into)
    same = {f"paper:{one}": f"paper:{other}" for one, other in prints.items() if other}
    for name, kind in LISTS.items():
        if kind not in ("paper", "pad"):
            same |= {
                f"{kind}:{one['id']}": f"{kind}:{other['id']}"
                for one in tree[name]
                if (other := _alike(one, here[name])) is not None
            }
    coming = [
        f"{kind}:{one['id']}"
        for name, kind in LISTS.items()
        for one in tree[name]
        if kind != "pad" and f"{kind}:{one['id']}" not in same
    ]
    things = brought(into, source, coming)
    arrived = [place for place, _ in things if not place.startswith("pad:")]
    called = same | dict(zip(coming, arrived, strict=True))
    home = f"project:{project.id}"
    taken = {
        "piece": {one.id.casefold() for one in (*project.pieces, *project.forms)},
        "placement": {one.id.casefold() for one in project.placements},
    }
    taken["form"] = taken["piece"]
    letters = free_letters(into)
    for own in tree["projects"]:
        for name in ("pieces", "forms", "placements"):
            for one in own[name]:
                kind = name[:-1]
                id_ = _free(one["id"], taken[kind], letters)
                taken[kind].add(id_.casefold())
                called[f"project:{_PART}/{kind}:{one['id']}"] = f"{home}/{kind}:{id_}"
    _rename(tree, called, project)
    for own in tree["projects"]:
        for name in ("pieces", "forms", "placements"):
            things += [(f"{home}/{name[:-1]}:{one['id']}", one) for one in own[name]]
    return Use(tuple(things), called)


def _home(kit: Kit, place: str) -> str:
    """The project that a thing is kept from: its own, or, of a blank, the first one that puts something on it."""
    head, _, last = place.partition("/")
    kind, _, id_ = (last or head).partition(":")
    if last and head.startswith("project:"):
        found = next((one for one in kit.projects if head == f"project:{one.id}"), None)
        made = () if found is None else found.pieces if kind == "piece" else found.forms if kind == "form" else ()
        if id_ in {one.id for one in made}:
            return head
    elif kind == "blank" and id_ in {one.id for one in kit.blanks}:
        placing = (one for one in kit.projects if any(id_ == each.on.blank for each in one.placements))
        first = next(placing, None)
        return "" if first is None else f"project:{first.id}"
    raise UnknownPlace(f"{place} is no piece, folded part or blank of this kit")


def _wanted(tree: Tree, place: str, home: str) -> set[str]:
    """The places of a thing and of all that comes with it."""
    slots = [slot for slot in slots_of(tree) if "/step:" not in slot.where and slot.key != "mirror_of"]
    wanted, carrying = {place}, {place}  # what lies on what is carried comes with it
    while True:
        found = set(wanted)
        for slot in slots:
            things = {_thing(name) for name in slot.names}
            if "/placement:" in slot.where:
                placement = _placement(tree, slot.where)
                if slot.where.startswith(f"{home}/") and slot.holder is placement["on"] and things & carrying:
                    found.add(slot.where)
                elif slot.where in wanted and slot.holder is placement["put"]:
                    found |= things
                    carrying |= things
            elif slot.where in wanted:
                found |= {one for one in things if not one.startswith("project:") or one.startswith(f"{home}/")}
        if found == wanted:
            return wanted
        wanted = found


def _placement(tree: Tree, where: str) -> Tree:
    home, _, last = where.partition("/")
    project = next(one for one in tree["projects"] if f"project:{one['id']}" == home)
    placement: Tree = next(one for one in project["placements"] if one["id"] == last.partition(":")[2])
    return placement


def _thing(name: str) -> str:
    """The place of the thing in a list of a kit or a project that a place belongs to."""
    parts = name.split("/")
    return "/".join(parts[: 2 if name.startswith("project:") else 1])


def _loosen(piece: Tree, tree: Tree, wanted: set[str], home: str) -> None:
    """Take from a piece what names things that stay behind."""
    if "mirror_of" in piece and f"{home}/piece:{piece['mirror_of']}" not in wanted:
        del piece["mirror_of"]
    if "from" in piece:
        project, source, window = piece["from"].split("/")
        if f"project:{project}" == home:
            piece["from"] = f"{_PART}/{source}/{window}"
        else:
            # It came out of another project's window: wherever it goes, it needs paper of its own.
            del piece["from"]


def _alike(thing: Tree, others: list[Tree]) -> Tree | None:
    facts = {name: value for name, value in thing.items() if name not in _COUNTS}
    return next((one for one in others if {n: v for n, v in one.items() if n not in _COUNTS} == facts), None)


def _free(id_: str, taken: set[str], letters: Iterator[str]) -> str:
    if id_.casefold() not in taken:
        return id_
    if re.fullmatch("[A-Z]{1,2}", id_):
        return next(letter for letter in letters if letter.casefold() not in taken)
    return free_id(id_, taken)


def _rename(tree: Tree, called: Mapping[str, str], project: Project) -> None:
    """Give all things of a fragment their new ids, and let every reference follow."""
    for slot in list(slots_of(tree)):
        ids = []
        for name, id_ in zip(slot.names, slot.text.split("/"), strict=True):
            ids.append(project.id if name == f"project:{_PART}" else called.get(name, f":{id_}").rpartition(":")[2])
        slot.holder[slot.key] = "/".join(ids)
    for own in tree["projects"]:
        for name in ("pieces", "forms", "placements"):
            for one in own[name]:
                one["id"] = called[f"project:{_PART}/{name[:-1]}:{one['id']}"].rpartition(":")[2]
        for made in (*own["pieces"], *own["forms"]):
            each = made["paper"]["each"] if isinstance(made.get("paper"), dict) else []
            if each and (len(set(each)) < len(each) or len(each) != project.makes):
                # One copy from each print needs as many prints as there are copies.
                made["paper"] = each[0]
