"""The kinds of things that have a form: what each asks for, and how its form holds what the document writes otherwise.

A form knows flat values only. What the document writes as an object of which one member is given (`put`, `on`, `use`,
the thing a lid fits) is one text in it, `piece:A` or `form:lid/panel:base`; what may be one value or several (a print
or one of each, a border or four, copies) is two controls of which one is left empty.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import Any

from frontend.kit_page.things import contents, folding, making
from frontend.kit_page.things.entries import Section
from frontend.kit_page.things.scope import Scope
from frontend.kit_page.things.texts import Tree

__all__ = ["KINDS", "KIT", "Kind"]


def _same(thing: Tree) -> Tree:
    return thing


@dataclass(frozen=True, slots=True)
class Kind:
    """One kind of thing: what it is called, alone and several; its sections, from its scope and its plain JSON.

    `opened` makes what its form holds of the document's plain JSON, `closed` makes that again. `renamed` are members
    that the two call differently: in the document, in the form.
    """

    one: str
    many: str
    sections: Callable[[Scope, Tree], tuple[Section, ...]]
    opened: Callable[[Tree], Tree] = _same
    closed: Callable[[Tree], Tree] = _same
    renamed: Mapping[str, str] = field(default_factory=dict)
    in_project: bool = False

    def control_path(self, path: str) -> str:
        """Return what the form calls what the document has at a path in the thing."""
        for written, own in self.renamed.items():
            if path == written or path.startswith(f"{written}/"):
                return f"{own}{path[len(written) :]}"
        return path


def _piece_opened(thing: Tree) -> Tree:
    paper = thing.get("paper")
    return {**thing, "paper": None, "each": paper["each"]} if isinstance(paper, dict) else thing


def _piece_closed(form: Tree) -> Tree:
    thing = dict(form)
    each = thing.pop("each", None)
    # Both: the document refuses what is no print, and says what it wants.
    return {**thing, "paper": {"each": each}} if each and not thing.get("paper") else thing


def _form_opened(thing: Tree) -> Tree:
    opened = dict(_piece_opened(thing))
    fits = opened.pop("fits", None)
    if isinstance(fits, list):
        return {**opened, "fits": "size", "fits_size": fits}
    return {**opened, "fits": _one_of(fits)} if fits else opened


def _form_closed(form: Tree) -> Tree:
    thing = dict(_piece_closed(form))
    fits, of_size = thing.pop("fits", None), thing.pop("fits_size", None)
    if fits == "size" or (of_size and not fits):
        return {**thing, "fits": of_size or ["", ""]}
    return {**thing, "fits": _as_object(fits)} if fits else thing


def _placement_opened(thing: Tree) -> Tree:
    opened = dict(thing)
    on = dict(opened.pop("on", {}))
    skin = on.pop("skin", None)
    opened |= {
        "put": _one_of(opened.get("put")),
        "on": "/".join(f"{name}:{on[name]}" for name in ("blank", "face", "piece", "form", "panel") if name in on),
    }
    if skin:
        opened["skin"] = skin
    if isinstance(opened.get("border"), dict):
        opened["border_sides"] = opened.pop("border")
    if opened.get("copies") == "each":
        del opened["copies"]
    return opened


def _placement_closed(form: Tree) -> Tree:
    thing = dict(form)
    on = _as_object(thing.pop("on", None))
    # The outside is what holds anyway; of what is no form, a document says nothing of it.
    if (skin := thing.pop("skin", None)) == "inside":
        on["skin"] = skin
    sides = thing.pop("border_sides", None)
    thing |= {"put": _as_object(thing.get("put")), "on": on}
    if sides:
        thing["border"] = sides
    for one in (thing, *thing.get("copies", ())):
        _turned(one)
    return thing


def _turned(thing: Tree) -> None:
    turn = thing.get("turn")
    if isinstance(turn, str) and turn.isascii() and turn.isdigit() and len(turn) < 4:
        thing["turn"] = int(turn)


_THINGS = ("piece", "element", "form", "blank", "supply", "face", "panel")


def _step_opened(thing: Tree) -> Tree:
    opened = dict(thing)
    uses = [{"what": _one_of(use), **_without(use, *_THINGS)} for use in opened.get("use", ())]
    after = opened.get("after")
    return {**opened, "use": uses, "after_is": "previous" if after is None else "these" if after else "nothing"}


def _step_closed(form: Tree) -> Tree:
    thing = dict(form)
    is_after = thing.pop("after_is", "previous")
    steps = thing.pop("after", None) or []
    if is_after == "these" or steps:
        thing["after"] = steps
    elif is_after == "nothing":
        thing["after"] = []
    if "use" in thing:
        thing["use"] = [{**_as_object(use.get("what")), **_without(use, "what")} for use in thing["use"]]
    return thing


def _one_of(given: Any) -> str:
    """`{"piece": "A"}` as `piece:A`."""
    things = given.items() if isinstance(given, dict) else ()
    return next((f"{name}:{id_}" for name, id_ in things if name in _THINGS), "")


def _as_object(text: Any) -> Tree:
    """`form:lid/panel:base` as `{"form": "lid", "panel": "base"}`; an element keeps the sheet that it is on."""
    if not isinstance(text, str) or not text:
        return {}
    if text.startswith("element:"):
        return {"element": text.removeprefix("element:")}
    return dict(part.split(":", 1) for part in text.split("/") if ":" in part)


def _without(thing: Tree, *names: str) -> Tree:
    return {name: value for name, value in thing.items() if name not in names}


def _plain(sections: Callable[[Scope], tuple[Section, ...]]) -> Callable[[Scope, Tree], tuple[Section, ...]]:
    return lambda scope, _: sections(scope)


# The kit itself has a form as well; no place of a document is called so.
KIT = "kit"
KINDS: Mapping[str, Kind] = {
    KIT: Kind("kit", "kits", _plain(contents.kit)),
    "pad": Kind("pad", "pads", _plain(contents.pad)),
    "paper": Kind("print", "prints", _plain(contents.paper)),
    "embellishment": Kind("embellishment sheet", "embellishment sheets", _plain(contents.embellishment)),
    "blank": Kind("blank", "blanks", _plain(contents.blank)),
    "supply": Kind("supply", "supplies", _plain(contents.supply)),
    "tool": Kind("tool", "tools", _plain(contents.tool)),
    "project": Kind("project", "projects", _plain(making.project)),
    "piece": Kind(
        "piece", "pieces", _plain(making.piece), _piece_opened, _piece_closed, {"paper/each": "each"}, in_project=True
    ),
    "form": Kind(
        "folded part",
        "folded parts",
        lambda scope, thing: folding.form(scope, thing.get("as", "tray")),
        _form_opened,
        _form_closed,
        {"paper/each": "each", "fits/0": "fits_size/0", "fits/1": "fits_size/1"},
        in_project=True,
    ),
    "placement": Kind(
        "placement",
        "placements",
        _plain(making.placement),
        _placement_opened,
        _placement_closed,
        {f"border/{side}": f"border_sides/{side}" for side in ("left", "right", "top", "bottom")},
        in_project=True,
    ),
    "step": Kind("step", "steps", _plain(making.step), _step_opened, _step_closed, in_project=True),
}
