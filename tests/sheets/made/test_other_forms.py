"""Forms of every construction, piles of layers and long plans: whatever a document asks for stands within its page."""

from __future__ import annotations

from typing import Any

import pytest

from kits.sheets.options import SheetOptions
from tests.sheets.made.test_other_kits import _check, _kit, _made

type Tree = dict[str, Any]

NAME = "a box with a name that goes on and on, as names of boxes will"
FORMS: list[Tree] = [
    {"as": "tray", "inside": ["4", "3"], "depth": "1", "walls": "double", "flange": "1/2"},
    {"as": "tray", "outside": ["40", "30"], "depth": "1/4"},
    {"as": "lid", "fits": {"form": "F0"}, "depth": "3/4"},
    {"as": "lid", "fits": ["4", "3"], "depth": "2"},  # its tabs meet
    {"as": "sleeve", "around": ["3", "1"], "length": "5", "overlap": "1/2"},
    {"as": "concertina", "panel": ["1/4", "3"], "panels": 400, "first_fold": "valley"},
    {"as": "concertina", "panel": ["11", "1/8"], "panels": 9},
    {"as": "pocket", "panel": ["6", "1/4"], "flap": "1/2", "open": "left"},
    {"as": "frame", "opening": ["5", "1/4"], "width": "1/4", "corner": "butt"},
    {"as": "envelope", "holds": ["4", "3"], "side_flap": "1", "bottom_flap": "2", "top_flap": "1"},
    {"as": "tag", "size": ["1/4", "11"], "corner": "1/8", "hole": "1/8"},
    {"as": "scored", "size": ["11", "11"], "scores": [{"from": "left", "at": f"{n}/16"} for n in range(1, 150)]},
]


@pytest.mark.parametrize("options", [
    SheetOptions("letter", "in"), SheetOptions("a4", "mm", "large"),
], ids=["normal", "large"])  # fmt: skip
def test_forms_of_every_construction_are_drawn_within_their_page(renderer, options):
    forms = [{**form, "id": f"F{number}", "name": NAME, "paper": "card"} for number, form in enumerate(FORMS)]
    files = _made(_kit({"id": "p", "title": "Shelf", "forms": forms}), renderer, options)
    _check(files)
    # A drawing each, two where strips are not alike, and the key.
    assert len(list(files["p"].tree.all("Figure"))) >= len(FORMS)


@pytest.mark.parametrize("size", ["normal", "large"])
def test_piles_of_layers_and_plans_of_many_projects_stay_within_their_page(renderer, size):
    pieces = [
        {"id": "A", "name": NAME, "paper": "card", "size": ["10", "8"]},
        {"id": "B", "name": NAME, "paper": "card", "size": ["4", "1"], "count": 40},
    ]
    placements = [
        {"id": f"b{n}", "put": {"piece": "B"}, "on": {"piece": "A"}, "left": f"{n}/16", "top": f"{n}/16",
         "intends": ["overlap"]}
        for n in range(1, 31)
    ]  # fmt: skip
    shelf = {"id": "p", "title": "Shelf", "pieces": pieces, "placements": placements}
    others = [
        {"id": f"q{n}", "title": NAME, "steps": [{"id": "1", "text": "Wait.", "work": "40 s", "dry": "2 h"}]}
        for n in range(30)
    ]
    files = _made(_kit(shelf, *others), renderer, SheetOptions("letter", "in", size))
    _check({name: file for name, file in files.items() if name in ("p", "q0", "cut-guide")})
