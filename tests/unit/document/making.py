"""One document that holds every field of the contract, and how to change it at a pointer."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from typing import Any

from layouts.document import Refused, read_kit_tree

__all__ = ["REMOVED", "WHOLE", "at", "changed", "refusals", "unlike", "walk"]

# As the value given to `changed`: the field is taken away.
REMOVED = object()

_WALLS = {"depth": "1", "walls": "double", "turn_in": "1/2", "flange": "1/8", "corner": "cut"}
_FORMS: list[dict[str, Any]] = [
    {"as": "tray", "inside": ["4", "3"], **_WALLS},
    {"as": "tray", "outside": ["4", "3"], **_WALLS},
    {"as": "lid", "fits": {"blank": "box"}, **_WALLS, "clearance": "1/16"},
    {"as": "lid", "fits": {"form": "f0"}, **_WALLS, "clearance": "1/16"},
    {"as": "lid", "fits": ["4", "3"], **_WALLS, "clearance": "1/16"},
    {"as": "sleeve", "around": ["4", "3"], "length": "2", "overlap": "1/2", "clearance": "1/16"},
    {"as": "concertina", "panel": ["4", "3"], "panels": 5, "join": "3/4", "first_fold": "valley"},
    {"as": "pocket", "panel": ["4", "3"], "flap": "1/2", "open": "left"},
    {"as": "frame", "opening": ["4", "3"], "width": "1", "corner": "butt"},
    {
        "as": "envelope",
        "holds": ["4", "3"],
        "clearance": "1/8",
        "side_flap": "1/2",
        "bottom_flap": "2",
        "top_flap": "1",
    },
    {"as": "tag", "size": ["2", "1"], "corner": "1/4", "hole": "1/8"},
    {
        "as": "scored",
        "size": ["6", "4"],
        "scores": [{"from": "left", "at": "1", "fold": "mountain"}, {"from": "top", "at": "1/2", "fold": "mountain"}],
        "corners": "tab",
    },
]

WHOLE: dict[str, Any] = {
    "format": "kitproof/1",
    "code": "2027-05",
    "title": "The Bird Table",
    "unit": "in",
    "printed": {"in": "1/32", "mm": "0.5 mm"},
    "cutting": {"slack": "1/64"},
    "pads": [{"id": "pad", "name": "Pad", "size": ["8", "8"]}],
    "papers": [
        {
            "id": "moss",
            "name": "Moss",
            "pad": "pad",
            "sheets": 2,
            "front": {"name": "Moss", "reads": "left", "repeat": "one-way"},
            "back": {"name": "Bark", "reads": "down", "repeat": "two-way"},
            "grammage": 160,
            "caliper_um": 220,
            "grain": "sideways",
            "undersize": "1/32",
            "spoilt": {"left": "1/8", "right": "1/4", "top": "3/8", "bottom": "1/2"},
        },
        {"id": "card", "name": "Card", "size": ["12", "12"], "sheets": 3, "front": {"name": "Card"}},
    ],
    "embellishments": [
        {
            "id": "labels",
            "name": "Labels",
            "sheets": 2,
            "elements": [{"id": "oval", "name": "oval", "count": 3, "size": ["2", "1"], "two_sided": True}],
        }
    ],
    "blanks": [
        {
            "id": "box",
            "name": "box",
            "count": 2,
            "thickness_um": 1800,
            "outside": ["7", "4", "5"],
            "faces": [
                {
                    "id": "front",
                    "size": ["7", "5"],
                    "count": 2,
                    "inside": True,
                    "opening": {
                        "left": "1",
                        "right": "1",
                        "top": "1",
                        "bottom": "1",
                        "width": "5",
                        "height": "3",
                        "shape": {"kind": "arch", "rise": "1"},
                        "cut_out": "kept",
                    },
                }
            ],
        }
    ],
    "supplies": [
        {
            "id": "twine",
            "name": "twine",
            "kind": "ribbon",
            "count": 3,
            "length": "24",
            "thickness_um": 900,
            "from": "member",
        }
    ],
    "tools": [
        {
            "id": "trimmer",
            "name": "trimmer",
            "kind": "trimmer",
            "step": "1/16",
            "longest": "12",
            "narrowest": "1/4",
            "bite": "1/8",
            "pitch": "1/2",
            "least_depth": "1/4",
        }
    ],
    "projects": [
        {
            "id": "table",
            "title": "Table",
            "makes": 2,
            "pieces": [
                {
                    "id": "A",
                    "name": "panel",
                    "paper": {"each": ["moss", "card"]},
                    "side": "either",
                    "size": ["6", "4"],
                    "size_is": "finished",
                    "count": 3,
                    "print_reads": "left",
                    "shape": {"kind": "rounded", "radius": "1/4"},
                    "edges": {"left": "trimmer", "right": "trimmer", "top": "trimmer", "bottom": "trimmer"},
                    "windows": [
                        {
                            "id": "pane",
                            "left": "1",
                            "right": "1",
                            "top": "1",
                            "bottom": "1",
                            "width": "4",
                            "height": "2",
                            "shape": {"kind": "polygon", "points": [["0", "0"], ["4", "0"], ["2", "2"]]},
                            "cut_out": "kept",
                        }
                    ],
                    "mirror_of": "B",
                },
                {"id": "B", "name": "inset", "from": "table/A/pane", "size": ["2", "1"]},
            ],
            "forms": [
                {
                    "id": f"f{number}",
                    "name": "form",
                    "paper": "card",
                    "side": "back",
                    "count": 2,
                    "print_reads": "up",
                    **form,
                }
                for number, form in enumerate(_FORMS)
            ],
            "placements": [
                {
                    "id": "panel",
                    "put": {"piece": "A"},
                    "on": {"blank": "box", "face": "front"},
                    "layer": "behind",
                    "centred": True,
                    "middle": True,
                    "turn": 90,
                    "border": "1/8",
                    "wraps": ["left", "right", "top", "bottom"],
                    "intends": ["overhang", "uneven", "overlap"],
                },
                {"id": "label", "put": {"element": "labels/oval"}, "on": {"piece": "A"}, "left": "1/2", "top": "1/4"},
                {
                    "id": "lid",
                    "put": {"form": "f2"},
                    "on": {"form": "f0", "panel": "base", "skin": "inside"},
                    "right": "1/2",
                    "bottom": "1/4",
                    "border": {"left": "1/8", "right": "1/16", "top": "1/4", "bottom": "3/8"},
                },
                {
                    "id": "boxes",
                    "put": {"blank": "box"},
                    "on": {"piece": "B"},
                    "copies": [
                        {"on_copy": 1, "left": "1/2", "top": "1/4", "turn": 180},
                        {"on_copy": 2, "right": "1/2", "bottom": "1/4"},
                        {"on_copy": 3, "centred": True, "middle": True},
                    ],
                },
                {"id": "tie", "put": {"supply": "twine"}, "on": {"piece": "B"}},
            ],
            "steps": [
                {
                    "id": "cut",
                    "text": "Cut {A}.",
                    "cut": ["A", "f0"],
                    "use": [
                        {"piece": "A", "count": 2},
                        {"form": "f0"},
                        {"element": "labels/oval"},
                        {"blank": "box"},
                        {"supply": "twine", "length": "12"},
                    ],
                    "tools": ["trimmer"],
                    "work": "10 min",
                    "hold": "60 s",
                    "held": "clamped",
                    "dry": "2 h",
                    "after": ["shelf/saw", "glue"],
                    "closes": ["f0", "box"],
                    "cautions": ["blade", "heat", "solvent", "flame", "cell", "small-parts"],
                },
                {"id": "glue", "text": "Glue."},
            ],
        },
        {"id": "shelf", "title": "Shelf", "steps": [{"id": "saw", "text": "Saw."}]},
    ],
    "accepted": [
        {"rule": "dead-fit", "at": ["paper:moss"], "why": "0" * 64, "because": "The knife is thin.", "by": "Ada"}
    ],
}


def _parts(pointer: str) -> list[str | int]:
    return [int(part) if part.isdigit() else part for part in pointer.split("/")[1:]]


def at(tree: Any, pointer: str) -> Any:
    """The value at a pointer whose keys hold neither ~ nor /."""
    for part in _parts(pointer):
        tree = tree[part]
    return tree


def changed(*changes: tuple[str, Any], tree: dict[str, Any] = WHOLE) -> Any:
    """A copy of the document with other values at these pointers."""
    tree = json.loads(json.dumps(tree))
    for pointer, value in changes:
        if pointer == "":
            return value
        *above, last = _parts(pointer)
        here: Any = tree
        for part in above:
            here = here[part]
        if value is REMOVED:
            here.pop(last, None)
        elif isinstance(here, list) and last == len(here):
            here.append(value)
        else:
            here[last] = value
    return tree


def refusals(tree: Any) -> list[tuple[str, str]]:
    """The pointers and codes for which a document is refused, nothing where it is read."""
    try:
        read_kit_tree(tree)
    except Refused as refusal:
        return [(error.pointer, error.code) for error in refusal.errors]
    return []


def walk(tree: Any, pointer: str = "") -> Iterator[tuple[str, Any]]:
    """Every value inside a tree with its pointer."""
    yield pointer, tree
    members = tree.items() if isinstance(tree, dict) else enumerate(tree) if isinstance(tree, list) else ()
    for key, member in members:
        yield from walk(member, f"{pointer}/{key}")


def unlike(tree: Any) -> list[str]:
    """One pointer of each kind of place: the second paper of a kit is read like the first, but not the second form."""
    found: dict[tuple[str, str | None], str] = {}
    for pointer, _ in walk(tree):
        parts = pointer.split("/")
        construction = at(tree, "/".join(parts[:5]))["as"] if parts[3:4] == ["forms"] and len(parts) > 4 else None
        found.setdefault((re.sub("[0-9]+", "*", pointer), construction), pointer)
    return list(found.values())
