"""Give something a new id: in a document's plain JSON, everywhere, step text included, and nowhere else."""

from __future__ import annotations

import copy
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from kits.planning.errors import RenameUnclear
from kits.planning.trees import change_at, path_of
from layouts.assembly import Names, Reference, parse_text
from layouts.document import Kit, reread_kit

__all__ = ["rename", "renamed_place"]

type Tree = dict[str, Any]


@dataclass(frozen=True, slots=True)
class _Slot:
    """A text that names things: ids joined by strokes, each with the place of what it names."""

    where: str
    holder: Any
    key: str | int
    names: tuple[str, ...]

    @property
    def text(self) -> str:
        text: str = self.holder[self.key]
        return text


def rename(tree: Tree, place: str, to: str) -> Tree:
    """Return a document in which what is at `place` is called `to`; the one that is given stays as it is.

    Every reference leads to the same thing as before.
    Raises: UnknownPlace; Refused, if the id is none or is taken; RenameUnclear.
    """
    new = copy.deepcopy(tree)
    slots = list(_slots(new))  # all of them, while everything still has its old id
    change_at(new, (*path_of(tree, place), "id"), to)
    for slot in slots:
        ids = [to if name == place else id_ for name, id_ in zip(slot.names, slot.text.split("/"), strict=True)]
        slot.holder[slot.key] = "/".join(ids)
    for accepted in new["accepted"]:
        accepted["at"] = [_moved(at, place, to) for at in accepted["at"]]
    _rewrite_texts(new, reread_kit(tree), place, to)
    _judge(tree, new, place, to)
    return new


def renamed_place(place: str, to: str) -> str:
    """Return where a thing is once it has a new id.

    >>> renamed_place("project:chest/piece:A", "B")
    'project:chest/piece:B'
    """
    return f"{place[: place.rindex(':')]}:{to}"


def _moved(at: str, place: str, to: str) -> str:
    return renamed_place(place, to) + at[len(place) :] if at == place or at.startswith(f"{place}/") else at


def _slots(tree: Tree) -> Iterator[_Slot]:
    """Yield every reference of a tree but those in texts."""
    for paper in tree["papers"]:
        yield from _single(f"paper:{paper['id']}", paper, "pad", "pad")
    for project in tree["projects"]:
        yield from _of_project(project, f"project:{project['id']}")


def _single(where: str, holder: Any, key: str | int, *kinds: str, inside: str = "") -> Iterator[_Slot]:
    """Yield the reference that a member holds, if it does: one id for each kind, the later inside the earlier."""
    text = holder.get(key) if isinstance(holder, dict) else holder[key]
    if not isinstance(text, str):
        return
    places: list[str] = []
    for kind, id_ in zip(kinds, text.split("/"), strict=True):
        above = places[-1] if places else inside
        places.append(f"{above}/{kind}:{id_}" if above else f"{kind}:{id_}")
    yield _Slot(where, holder, key, tuple(places))


def _listed(where: str, holder: Tree, key: str, *kinds: str, inside: str = "") -> Iterator[_Slot]:
    for number in range(len(holder.get(key) or [])):
        yield from _single(where, holder[key], number, *kinds, inside=inside)


def _thing(where: str, holder: Any, home: str) -> Iterator[_Slot]:
    """Yield what `put`, `on`, `fits` or a `use` names."""
    if not isinstance(holder, dict):
        return
    for kind in ("piece", "form"):
        yield from _single(where, holder, kind, kind, inside=home)
    for kind in ("blank", "supply"):
        yield from _single(where, holder, kind, kind)
    yield from _single(where, holder, "element", "embellishment", "element")
    if "face" in holder:
        yield from _single(where, holder, "face", "face", inside=f"blank:{holder['blank']}")


def _of_project(project: Tree, home: str) -> Iterator[_Slot]:
    pieces = {piece["id"] for piece in project["pieces"]}
    forms = {form["id"] for form in project["forms"]}
    for made in (*project["pieces"], *project["forms"]):
        where = f"{home}/{'piece' if made['id'] in pieces else 'form'}:{made['id']}"
        yield from _single(where, made, "paper", "paper")
        if isinstance(made.get("paper"), dict):
            yield from _listed(where, made["paper"], "each", "paper")
        yield from _single(where, made, "from", "project", "piece", "window")
        yield from _single(where, made, "mirror_of", "piece", inside=home)
        for side in ("left", "right", "top", "bottom"):
            yield from _single(where, made.get("edges", {}), side, "tool")
        yield from _thing(where, made.get("fits"), home)
    for placement in project["placements"]:
        where = f"{home}/placement:{placement['id']}"
        yield from _thing(where, placement["put"], home)
        yield from _thing(where, placement["on"], home)
    for step in project["steps"]:
        where = f"{home}/step:{step['id']}"
        for use in step["use"]:
            yield from _thing(where, use, home)
        yield from _listed(where, step, "tools", "tool")
        for number, id_ in enumerate(step["cut"]):
            yield from _single(where, step["cut"], number, "piece" if id_ in pieces else "form", inside=home)
        for number, id_ in enumerate(step["closes"]):
            # A form comes before a blank of the same id.
            kind, inside = ("form", home) if id_ in forms else ("blank", "")
            yield from _single(where, step["closes"], number, kind, inside=inside)
        for number, text in enumerate(step.get("after") or []):
            kinds, inside = (("project", "step"), "") if "/" in text else (("step",), home)
            yield from _single(where, step["after"], number, *kinds, inside=inside)


def _rewrite_texts(tree: Tree, kit: Kit, place: str, to: str) -> None:
    names = Names(kit)
    for project, before in zip(tree["projects"], kit.projects, strict=True):
        for step in project["steps"]:
            text, parts = step["text"], []
            end = 0
            for reference in _references(text):
                parts += [text[end : reference.start], _rewritten(reference, names, before.id, place, to)]
                end = reference.end
            step["text"] = "".join([*parts, text[end:]])


def _references(text: str) -> list[Reference]:
    return [part for part in parse_text(text) if isinstance(part, Reference)]


def _rewritten(reference: Reference, names: Names, project: str, place: str, to: str) -> str:
    first = [reference.within] if reference.within is not None else []
    words = [*first, *reference.names]
    for number, named in enumerate(_named(reference, names, project)):
        if named == place:
            words[number] = to
    start = f"{reference.kind}:" if reference.kind else f"{words.pop(0)}/" if first else ""
    return f"{{{start}{'.'.join(words)}}}" if reference.names else f"{{{reference.text}}}"


def _lead(reference: Reference, names: Names, project: str) -> tuple[int, str]:
    """How many names of a reference lead somewhere, and where to: its last may name a figure that is not there."""
    for count in range(len(reference.names), 0, -1):
        short = Reference(
            reference.text, reference.start, reference.end, reference.kind, reference.within, reference.names[:count]
        )
        target = names.resolve(short, project)
        if target is not None:
            return count, target.place
    return 0, ""


def _named(reference: Reference, names: Names, project: str) -> list[str]:
    """The places of the things that the words of a reference name, as far as they name things."""
    count, target = _lead(reference, names, project)
    if not count:
        return []
    heads = target.split("/")
    things = ["/".join(heads[: number + 1]) for number, head in enumerate(heads) if ":" in head]
    if reference.kind is not None:
        itself = f"{reference.kind}:{reference.names[0]}"
        # The size of a paper may be that of its pad, which the reference does not name.
        return things if things[0] == itself else [itself]
    return things if reference.within is not None else things[1:]


def _judge(tree: Tree, new: Tree, place: str, to: str) -> None:
    """Hold every reference against where it led before. Raises: Refused, RenameUnclear."""
    kit, renamed = reread_kit(tree), reread_kit(new)
    for slot, now in zip(_slots(tree), _slots(new), strict=True):
        if tuple(_moved(name, place, to) for name in slot.names) != now.names:
            raise RenameUnclear(slot.where, slot.text, to)
    names, after = Names(kit), Names(renamed)
    for project, same in zip(kit.projects, renamed.projects, strict=True):
        for step, step_now in zip(project.steps, same.steps, strict=True):
            pairs = zip(_references(step.text), _references(step_now.text), strict=True)
            for reference, now_reference in pairs:
                count, at = _lead(reference, names, project.id)
                if (count, _moved(at, place, to)) != _lead(now_reference, after, same.id):
                    raise RenameUnclear(f"project:{project.id}/step:{step.id}", f"{{{reference.text}}}", to)
