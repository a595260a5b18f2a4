"""Places: the name of every value of a kit document, `project:chest/piece:A/window:pane/left`.

Ids join as `kind:id`; members of lists without ids count from 1; a pair is `/width`, `/height`, a triple `/width`,
`/depth`, `/height`.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from typing import Any

from layouts.document.base import DocumentObject
from layouts.document.canonical import kept_members
from layouts.document.kit import Kit
from layouts.document.steps import Step
from layouts.document.values import Box, Point, Size
from layouts.errors import KitproofError
from layouts.lengths import Length

__all__ = [
    "MEMBERS_BY_KIND",
    "UnknownPlace",
    "form_place",
    "lengths_of",
    "paper_place",
    "piece_place",
    "step_place",
    "value_at",
    "with_lengths",
]

# The lists whose members have ids, and the kind that names a member in a place.
_KINDS = {
    "pads": "pad",
    "papers": "paper",
    "embellishments": "embellishment",
    "elements": "element",
    "blanks": "blank",
    "faces": "face",
    "supplies": "supply",
    "tools": "tool",
    "projects": "project",
    "pieces": "piece",
    "windows": "window",
    "forms": "form",
    "placements": "placement",
    "steps": "step",
}
MEMBERS_BY_KIND = {kind: name for name, kind in _KINDS.items()}
# No list is longer than five digits tell.
_NUMBER = re.compile(r"[1-9][0-9]{0,4}")


class UnknownPlace(KitproofError):
    """A place that names no value of this document."""

    code = "unknown-place"


def paper_place(paper: str) -> str:
    return f"paper:{paper}"


def piece_place(project: str, piece: str) -> str:
    return f"project:{project}/piece:{piece}"


def form_place(project: str, form: str) -> str:
    return f"project:{project}/form:{form}"


def step_place(project: str, step: str) -> str:
    return f"project:{project}/step:{step}"


def value_at(kit: Kit, place: str) -> Any:
    """Return the value that a place names. Raises: UnknownPlace.

    A default counts as a value, an optional value that is absent does not.
    """
    here: Any = kit
    for part in place.split("/"):
        here = _member(here, part)
        if here is None:
            raise UnknownPlace(f"there is no {place} in this kit: {part} leads nowhere")
    return here


def lengths_of(value: DocumentObject, place: str = "") -> Iterator[tuple[str, Length]]:
    """Yield each length that the canonical form of an object holds (no defaults) with its place, in document order."""
    for name, written, member in kept_members(value):
        if name in _KINDS and not isinstance(value, Step):  # a step's tools are references
            for one in member:
                yield from lengths_of(one, _joined(place, f"{_KINDS[name]}:{one.id}"))
        else:
            yield from _lengths_in(member, _joined(place, written))


def _lengths_in(value: Any, place: str) -> Iterator[tuple[str, Length]]:
    if isinstance(value, Length):
        yield place, value
    elif isinstance(value, Size | Box | Point):
        for name in value.names:
            yield f"{place}/{name}", getattr(value, name)
    elif isinstance(value, DocumentObject):
        yield from lengths_of(value, place)
    elif isinstance(value, tuple):
        for number, member in enumerate(value, start=1):
            yield from _lengths_in(member, f"{place}/{number}")


def with_lengths[T: DocumentObject](value: T, change: Callable[[str, Length], Length], place: str = "") -> T:
    """Return an object in which each length of `lengths_of` is what `change` makes of it, given its place.

    Nothing is judged: what `change` gives stands as it is.
    """
    changed: dict[str, Any] = {}
    for name, written, member in kept_members(value):
        if name in _KINDS and not isinstance(value, Step):
            kind = _KINDS[name]
            changed[name] = tuple(with_lengths(one, change, _joined(place, f"{kind}:{one.id}")) for one in member)
        else:
            changed[name] = _with_lengths(member, change, _joined(place, written))
    made = value.__copy__()
    for name, member in changed.items():
        object.__setattr__(made, name, member)
    return made


def _with_lengths(value: Any, change: Callable[[str, Length], Length], place: str) -> Any:
    if isinstance(value, Length):
        return change(place, value)
    if isinstance(value, Size | Box | Point):
        return type(value)(*(change(f"{place}/{name}", getattr(value, name)) for name in value.names))
    if isinstance(value, DocumentObject):
        return with_lengths(value, change, place)
    if isinstance(value, tuple):
        return tuple(_with_lengths(member, change, f"{place}/{number}") for number, member in enumerate(value, start=1))
    return value


def _joined(place: str, part: str) -> str:
    return f"{place}/{part}" if place else part


def _member(value: Any, part: str) -> Any:
    kind, colon, id_ = part.partition(":")
    if isinstance(value, tuple):
        number = int(part) if _NUMBER.fullmatch(part) else 0
        return value[number - 1] if 1 <= number <= len(value) else None
    if isinstance(value, Size | Box | Point):
        return getattr(value, part) if part in value.names else None
    if not isinstance(value, DocumentObject):
        return None
    if colon and not isinstance(value, Step):
        members = getattr(value, MEMBERS_BY_KIND.get(kind, ""), ())
        return next((member for member in members if member.id == id_), None)
    for name, field in type(value).model_fields.items():
        # A list whose members have ids is entered by `kind:id` only, so that every value has one name.
        if (field.alias or name) == part and name != "carried" and (name not in _KINDS or isinstance(value, Step)):
            return getattr(value, name)
    return None
