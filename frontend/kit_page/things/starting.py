"""What a new thing starts as: an id that nothing has, and what holds most often."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Mapping
from typing import Any

from frontend.kit_page.grid import free_letters
from layouts.document import Kit, Project

__all__ = ["free_id", "started", "taken_ids"]

_LONGEST = 32


def started(kit: Kit, project: Project | None, kind: str, chosen: str = "") -> tuple[str, dict[str, Any]]:
    """Return the id and the plain JSON that the form of a new thing starts with; `chosen` is the construction of a
    folded part. Names that only a person knows are left empty."""
    taken = taken_ids(kit, project, kind)
    if kind == "piece":
        return next(free_letters(kit)), {"count": 1, **_from_only_print(kit)}
    if kind == "form":
        return free_id(chosen, taken), {"as": chosen, "count": 1, **_from_only_print(kit)}
    if kind == "step":
        number = len(project.steps) + 1 if project is not None else 1
        return _numbered(number, taken), {}
    if kind == "placement":
        return free_id("on", taken), {}
    return free_id(kind, taken), dict(_STARTS.get(kind, dict)())


_STARTS: Mapping[str, Callable[[], dict[str, Any]]] = {
    "paper": lambda: {"sheets": 1, "front": {}},
    "embellishment": lambda: {"sheets": 1},
    "blank": lambda: {"count": 1},
    "project": lambda: {"makes": 1},
}


def taken_ids(kit: Kit, project: Project | None, kind: str) -> set[str]:
    """Return the ids of the list that a new thing would stand in, small: capitals make no difference."""
    things: Iterable[Any]
    if kind in ("piece", "form"):
        things = () if project is None else (*project.pieces, *project.forms)
    elif kind in ("placement", "step"):
        things = () if project is None else getattr(project, f"{kind}s")
    else:
        things = getattr(kit, "supplies" if kind == "supply" else f"{kind}s")
    return {one.id.casefold() for one in things}


def free_id(words: str, taken: Iterable[str]) -> str:
    """Return an id made of words that is not taken: “Garden chest” becomes `garden-chest`, or `garden-chest-2`."""
    known = set(taken)
    stem = re.sub(r"[^a-z0-9]+", "-", words.casefold()).strip("-")[: _LONGEST - 6] or "thing"
    if stem not in known:
        return stem
    return next(one for number in range(2, 100_000) if (one := f"{stem}-{number}") not in known)


def _numbered(number: int, taken: set[str]) -> str:
    return next(str(one) for one in range(number, 100_000) if str(one) not in taken)


def _from_only_print(kit: Kit) -> dict[str, Any]:
    return {"paper": kit.papers[0].id} if len(kit.papers) == 1 else {}
