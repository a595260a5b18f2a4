"""The people and the kit of the tests about planning."""

from __future__ import annotations

import json
from typing import Any

from kits.members.models import Person, Role
from kits.members.services import role_grant
from kits.planning.models import Draft
from kits.planning.services import kit_create

__all__ = ["BOX", "A", "box", "box_bytes", "drafted", "ines", "mila", "person"]

A = "project:box/piece:A"

# A little of everything that refers to something: {A} is a piece and a placement, “lid” a form and a blank, “box” a
# project and an embellishment sheet.
BOX: dict[str, Any] = {
    "format": "kitproof/1",
    "code": "2027-05",
    "title": "The Tide Table",
    "unit": "in",
    "pads": [{"id": "shore", "name": "Shore pad", "size": ["8", "8"]}],
    "papers": [
        {
            "id": "kelp",
            "name": "Kelp",
            "pad": "shore",
            "sheets": 2,
            "front": {"name": "Kelp"},
            "back": {"name": "Sand"},
        },
        {"id": "slate", "name": "Slate", "size": ["12", "12"], "sheets": 2, "front": {"name": "Slate"}},
    ],
    "embellishments": [{"id": "box", "name": "Shells", "elements": [{"id": "limpet", "name": "limpet", "count": 4}]}],
    "blanks": [{"id": "lid", "name": "wooden lid", "faces": [{"id": "top", "size": ["4", "4"]}]}],
    "supplies": [{"id": "twine", "name": "twine", "kind": "ribbon", "length": "24"}],
    "tools": [{"id": "knife", "kind": "knife"}, {"id": "wave", "kind": "decorative"}],
    "projects": [
        {
            "id": "box",
            "title": "Box",
            "pieces": [
                {
                    "id": "A",
                    "name": "front",
                    "paper": "kelp",
                    "size": ["6", "4"],
                    "edges": {"top": "wave"},
                    "windows": [
                        {"id": "pane", "left": "1", "right": "1", "top": "1", "bottom": "1", "cut_out": "kept"}
                    ],
                },
                {"id": "B", "name": "rear", "paper": "slate", "size": ["6", "4"], "mirror_of": "A"},
            ],
            "forms": [
                {"id": "lid", "name": "lid", "as": "lid", "paper": "slate", "fits": {"blank": "lid"}, "depth": "1"},
                {"id": "tray", "name": "tray", "as": "lid", "paper": "kelp", "fits": {"form": "lid"}, "depth": "1"},
            ],
            "placements": [
                {"id": "A", "put": {"piece": "A"}, "on": {"blank": "lid", "face": "top"}, "border": "1/8"},
                {"id": "shell", "put": {"element": "box/limpet"}, "on": {"piece": "A"}},
                {"id": "rear", "put": {"piece": "B"}, "on": {"form": "lid", "panel": "base"}},
            ],
            "steps": [
                {
                    "id": "cut",
                    "text": "Cut {A} to {A.width}, {A.pane.left} from the edge, {{A}} {A.border} {A.nothing} {A",
                    "cut": ["A", "B", "lid"],
                    "tools": ["knife"],
                },
                {
                    "id": "glue",
                    "text": "Glue {box/limpet} on {blank:lid.top}, {paper:kelp.width} wide, with {supply:twine}.",
                    "use": [{"piece": "A"}, {"element": "box/limpet"}, {"blank": "lid"}, {"supply": "twine"}],
                    "after": ["cut"],
                    "closes": ["lid"],
                },
            ],
        },
        {
            "id": "tag",
            "title": "Tag",
            "makes": 2,
            "pieces": [
                {"id": "H", "name": "picture", "from": "box/A/pane", "size": ["2", "2"]},
                {"id": "A", "name": "mat", "paper": {"each": ["kelp", "slate"]}, "size": ["3", "3"]},
            ],
            "steps": [{"id": "one", "text": "Take {box/A.pane} and {A}.", "cut": ["A", "H"], "after": ["box/glue"]}],
        },
    ],
    "accepted": [
        {"rule": "dead-fit", "at": ["paper:kelp", "project:box/piece:A"], "why": "0", "because": "tried", "by": "Ines"}
    ],
}


def box(**changes: Any) -> dict[str, Any]:
    """A copy of the kit, with other members."""
    return {**json.loads(json.dumps(BOX)), **changes}


def box_bytes(**changes: Any) -> bytes:
    return json.dumps(box(**changes)).encode()


def person(name: str, *roles: Role) -> Person:
    made = Person.objects.create_user(email=f"{name.split()[0].lower()}@example.org", name=name)
    for role in roles:
        role_grant(person=made, role=role, by=None)
    return made


def ines() -> Person:
    """A planner."""
    return person("Ines Varga", Role.PLANNER)


def mila() -> Person:
    """Another planner."""
    return person("Mila Okoro", Role.PLANNER, Role.EDITOR)


def drafted(by: Person, **changes: Any) -> Draft:
    return kit_create(document=box_bytes(**changes), by=by)
