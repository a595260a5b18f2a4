"""Where the plain JSON of a document names things: every reference but those in the text of steps."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

__all__ = ["Slot", "slots_of"]

type Tree = dict[str, Any]


@dataclass(frozen=True, slots=True)
class Slot:
    """A text that names things: ids joined by strokes, each with the place of what it names.

    `where` is the thing that holds it, `holder[key]` the text itself.
    """

    where: str
    holder: Any
    key: str | int
    names: tuple[str, ...]

    @property
    def text(self) -> str:
        text: str = self.holder[self.key]
        return text


def slots_of(tree: Tree) -> Iterator[Slot]:
    """Yield every reference of a tree but those in texts."""
    for paper in tree["papers"]:
        yield from _single(f"paper:{paper['id']}", paper, "pad", "pad")
    for project in tree["projects"]:
        yield from _of_project(project, f"project:{project['id']}")


def _single(where: str, holder: Any, key: str | int, *kinds: str, inside: str = "") -> Iterator[Slot]:
    """Yield the reference that a member holds, if it does: one id for each kind, the later inside the earlier."""
    text = holder.get(key) if isinstance(holder, dict) else holder[key]
    if not isinstance(text, str):
        return
    places: list[str] = []
    for kind, id_ in zip(kinds, text.split("/"), strict=True):
        above = places[-1] if places else inside
        places.append(f"{above}/{kind}:{id_}" if above else f"{kind}:{id_}")
    yield Slot(where, holder, key, tuple(places))


def _listed(where: str, holder: Tree, key: str, *kinds: str, inside: str = "") -> Iterator[Slot]:
    for number in range(len(holder.get(key) or [])):
        yield from _single(where, holder[key], number, *kinds, inside=inside)


def _thing(where: str, holder: Any, home: str) -> Iterator[Slot]:
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


def _of_project(project: Tree, home: str) -> Iterator[Slot]:
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
