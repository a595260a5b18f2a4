"""Give something a new id: in a document's plain JSON, everywhere, step text included, and nowhere else."""

from __future__ import annotations

import copy
from typing import Any

from kits.planning.errors import RenameUnclear
from kits.planning.references import slots_of
from kits.planning.text_references import lead, named, references_in
from kits.planning.trees import change_at, path_of
from layouts.assembly import Names, Reference
from layouts.document import Kit, reread_kit

__all__ = ["rename", "renamed_place"]

type Tree = dict[str, Any]


def rename(tree: Tree, place: str, to: str) -> Tree:
    """Return a document in which what is at `place` is called `to`; the one that is given stays as it is.

    Every reference leads to the same thing as before.
    Raises: UnknownPlace; Refused, if the id is none or is taken; RenameUnclear.
    """
    new = copy.deepcopy(tree)
    slots = list(slots_of(new))  # all of them, while everything still has its old id
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


def _rewrite_texts(tree: Tree, kit: Kit, place: str, to: str) -> None:
    names = Names(kit)
    for project, before in zip(tree["projects"], kit.projects, strict=True):
        for step in project["steps"]:
            text, parts = step["text"], []
            end = 0
            for reference in references_in(text):
                parts += [text[end : reference.start], _rewritten(reference, names, before.id, place, to)]
                end = reference.end
            step["text"] = "".join([*parts, text[end:]])


def _rewritten(reference: Reference, names: Names, project: str, place: str, to: str) -> str:
    first = [reference.within] if reference.within is not None else []
    words = [*first, *reference.names]
    for number, thing in enumerate(named(reference, names, project)):
        if thing == place:
            words[number] = to
    start = f"{reference.kind}:" if reference.kind else f"{words.pop(0)}/" if first else ""
    return f"{{{start}{'.'.join(words)}}}" if reference.names else f"{{{reference.text}}}"


def _judge(tree: Tree, new: Tree, place: str, to: str) -> None:
    """Hold every reference against where it led before. Raises: Refused, RenameUnclear."""
    kit, renamed = reread_kit(tree), reread_kit(new)
    for slot, now in zip(slots_of(tree), slots_of(new), strict=True):
        if tuple(_moved(name, place, to) for name in slot.names) != now.names:
            raise RenameUnclear(slot.where, slot.text, to)
    names, after = Names(kit), Names(renamed)
    for project, same in zip(kit.projects, renamed.projects, strict=True):
        for step, step_now in zip(project.steps, same.steps, strict=True):
            pairs = zip(references_in(step.text), references_in(step_now.text), strict=True)
            for reference, now_reference in pairs:
                count, at = lead(reference, names, project.id)
                if (count, _moved(at, place, to)) != lead(now_reference, after, same.id):
                    raise RenameUnclear(f"project:{project.id}/step:{step.id}", f"{{{reference.text}}}", to)
