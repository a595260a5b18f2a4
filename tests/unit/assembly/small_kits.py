"""Small kits for tests: plain documents of which a test states only what it is about."""

from __future__ import annotations

from typing import Any

from layouts.document import Kit, read_kit_tree

Tree = dict[str, Any]


def kit_of(*projects: Tree, **lists: Any) -> Kit:
    """Read a kit in inches with these projects; papers, blanks and the like are given by name."""
    return read_kit_tree(
        {
            "format": "kitproof/1",
            "code": "2027-09",
            "title": "The Seed Shelf",
            "unit": "in",
            **lists,
            "projects": list(projects),
        }
    )


def project(id_: str, **members: Any) -> Tree:
    return {"id": id_, "title": id_.capitalize(), **members}


def piece(id_: str, **members: Any) -> Tree:
    return {"id": id_, "name": f"panel {id_}", "size": ["4", "3"], **members}


def tag(id_: str, **members: Any) -> Tree:
    """A flat tag, the simplest form there is."""
    return {"id": id_, "name": f"tag {id_}", "as": "tag", "paper": "card", "size": ["2", "3"], **members}


def step(id_: str, text: str = "", **members: Any) -> Tree:
    return {"id": id_, "text": text, **members}


CARD: Tree = {"id": "card", "name": "Card", "size": ["12", "12"], "sheets": 1, "front": {"name": "Plain"}}
