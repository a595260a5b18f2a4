"""What a reference in the text of a step names: a thing of the kit, or one of its figures."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from layouts.assembly.naming import element_place, made_place
from layouts.assembly.text import Reference
from layouts.document import Blank, Box, Face, FormBase, Kit, Opening, Paper, Piece, Point, PrintSide, Size
from layouts.document.base import CARRIED, DocumentObject
from layouts.lengths import Length
from layouts.shapes import windows

__all__ = ["Names", "Target", "resolve"]

_SIDES = ("left", "right", "top", "bottom", "width", "height")
_INDEX = re.compile(r"[1-9][0-9]{0,4}")
_OWN = frozenset(("carried", CARRIED))


@dataclass(frozen=True, slots=True)
class Target:
    """What a reference leads to: its place, the thing it belongs to and, if it names a figure, its value.

    `thing` is a piece, form, window, opening, placement, element, blank, face, paper, side of a paper, pad or supply.
    `derived` marks a side of a window that the document does not state.
    """

    place: str
    thing: DocumentObject
    value: Length | int | None = None
    derived: bool = False


def resolve(reference: Reference, kit: Kit, project: str) -> Target | None:
    """Return what one reference in a step of `project` names, or None. For many references keep a `Names`."""
    return Names(kit).resolve(reference, project)


class Names:
    """Everything in a kit that the text of a step may name."""

    __slots__ = ("_elements", "_kit_things", "_made", "_pads", "_parts", "_placements")

    def __init__(self, kit: Kit) -> None:
        self._made: dict[tuple[str, str], tuple[str, DocumentObject]] = {}
        self._placements: dict[tuple[str, str], tuple[str, DocumentObject]] = {}
        # Windows and faces by place, with the size that a window is cut from.
        self._parts: dict[str, tuple[DocumentObject, Size | None]] = {}
        for project in kit.projects:
            for made in (*project.pieces, *project.forms):
                place = made_place(project.id, made)
                self._made[project.id, made.id] = place, made
                if isinstance(made, Piece):
                    self._parts.update((f"{place}/window:{one.id}", (one, made.size)) for one in made.windows)
            for placement in project.placements:
                place = f"project:{project.id}/placement:{placement.id}"
                self._placements[project.id, placement.id] = place, placement
        for blank in kit.blanks:
            self._parts.update((f"blank:{blank.id}/face:{face.id}", (face, None)) for face in blank.faces)
        self._elements: dict[tuple[str, str], tuple[str, DocumentObject]] = {
            (sheet.id, element.id): (element_place(f"{sheet.id}/{element.id}"), element)
            for sheet in kit.embellishments
            for element in sheet.elements
        }
        things = (("blank", kit.blanks), ("paper", kit.papers), ("supply", kit.supplies))
        self._kit_things = {(kind, one.id): one for kind, several in things for one in several}
        self._pads = {pad.id: pad for pad in kit.pads}

    def resolve(self, reference: Reference, project: str) -> Target | None:
        """Return what a reference in a step of `project` names, or None if the kit has nothing of that name.

        A placement may have the id of a piece: what the piece does not have is looked for in the placement, and
        `within` may be the id of a project and of an embellishment sheet.
        """
        _, *rest = reference.names or ("",)
        for place, thing in self._candidates(reference, project):
            target = self._inside(place, thing, tuple(rest), None)
            if target is not None:
                return target
        return None

    def reference_to(self, place: str, project: str) -> str | None:
        """Return what to write between braces in a step of `project` so that it leads to this place, or None.

        >>> from layouts.document import read_kit
        >>> kit = read_kit(b'{"format": "kitproof/1", "code": "c", "title": "t", "unit": "in", "projects": ['
        ...                b'{"id": "chest", "title": "t", "pieces": [{"id": "A", "name": "n", "size": ["6", "4"]}]}]}')
        >>> Names(kit).reference_to("project:chest/piece:A/size/width", "chest")
        'A.width'
        """
        heads, fields = [], []
        for segment in place.split("/"):
            if ":" in segment:
                heads.append(segment.split(":", 1))
            else:
                fields.append(segment)
        match heads:
            case [["project", home], ["piece" | "form" | "placement", name], *parts]:
                start = name if home == project else f"{home}/{name}"
            case [["embellishment", sheet], ["element", name], *parts]:
                start = f"{sheet}/{name}"
            case [["blank" | "paper" | "supply" as kind, name], *parts]:
                start = f"{kind}:{name}"
            case _:
                return None
        for shortened in ([name for name in fields if name not in ("size", "shape", "outside")], fields):
            text = ".".join([start, *(name for _, name in parts), *shortened])
            target = self.resolve(Reference.read(text), project)
            if target is not None and target.place == place:
                return text
        return None

    def _candidates(self, reference: Reference, project: str) -> Iterator[tuple[str, DocumentObject]]:
        if not reference.names:
            return
        name = reference.names[0]
        if reference.kind is not None:
            thing = self._kit_things.get((reference.kind, name))
            if thing is not None:
                yield f"{reference.kind}:{name}", thing
            return
        home = project if reference.within is None else reference.within
        sources = [self._made, self._placements]
        if reference.within is not None:
            sources.append(self._elements)
        for source in sources:
            if (home, name) in source:
                yield source[home, name]

    def _inside(self, place: str, thing: DocumentObject, names: tuple[str, ...], whole: Size | None) -> Target | None:
        """Follow names into a thing: a figure of its own comes before a part of that name. `whole` is what an
        opening is cut from."""
        if not names:
            return Target(place, thing)
        figure = self._figure(place, thing, names, whole)
        if figure is not None:
            return figure
        first, *rest = names
        for kind in ("window", "face"):
            part = f"{place}/{kind}:{first}"
            if part in self._parts:
                inner, cut_from = self._parts[part]
                return self._inside(part, inner, tuple(rest), cut_from)
        if isinstance(thing, Face) and first == "opening" and thing.opening is not None:
            return self._inside(f"{place}/opening", thing.opening, tuple(rest), thing.size)
        if isinstance(thing, Paper) and first in ("front", "back"):
            side = thing.front if first == "front" else thing.back
            return None if side is None else self._inside(f"{place}/{first}", side, tuple(rest), None)
        return None

    def _figure(self, place: str, thing: DocumentObject, names: tuple[str, ...], whole: Size | None) -> Target | None:
        if isinstance(thing, PrintSide):
            return None
        if isinstance(thing, Opening) and whole is not None and len(names) == 1 and names[0] in _SIDES:
            return _side(place, thing, names[0], whole)
        if isinstance(thing, Paper) and thing.pad is not None and names[0] in ("width", "height"):
            return self._inside(f"pad:{thing.pad}", self._pads[thing.pad], names, None)
        for path in (names, *_long_forms(thing, names)):
            value = _value(thing, path)
            if value is not None:
                return Target("/".join((place, *path)), thing, value)
        return None


def _side(place: str, opening: Opening, side: str, whole: Size) -> Target:
    stated: Length | None = getattr(opening, side)
    if stated is not None:
        return Target(f"{place}/{side}", opening, stated)
    derived: Length = getattr(windows.resolve(opening, whole), side)
    return Target(f"{place}/{side}", opening, derived, derived=True)


def _long_forms(thing: DocumentObject, names: tuple[str, ...]) -> Iterator[tuple[str, ...]]:
    """A width is written without the size it belongs to, a rise without its shape."""
    yield ("size", *names)
    if not isinstance(thing, FormBase):
        yield ("shape", *names)
    if isinstance(thing, Blank):
        yield ("outside", *names)


def _value(thing: DocumentObject, path: tuple[str, ...]) -> Length | int | None:
    """Follow a path of fields, and of numbers from 1 in lists whose members have no ids, to a figure."""
    here: Any = thing
    for name in path:
        here = _member(here, name)
    return here if isinstance(here, Length) or type(here) is int else None


def _member(value: Any, name: str) -> Any:
    if isinstance(value, Size | Box | Point):
        return getattr(value, name) if name in value.names else None
    if isinstance(value, DocumentObject):
        return getattr(value, name) if name in type(value).model_fields and name not in _OWN else None
    if isinstance(value, tuple) and _INDEX.fullmatch(name) and int(name) <= len(value):
        member = value[int(name) - 1]
        return None if hasattr(member, "id") else member
    return None
