"""What constructions of folded parts look like: a small example of each, drawn flat, and in words what it is for."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from typing import Any

from django.utils.safestring import SafeString

from frontend.kit_page.drawn import inline
from frontend.kit_page.things.folding import CONSTRUCTIONS
from kits.sheets.content.forms import drawn_forms
from kits.sheets.content.measures import Measures
from kits.sheets.options import SheetOptions
from layouts.document import Kit, reread_kit

__all__ = ["Example", "construction_examples"]

# Lines on screen are as thick as in print of the usual size; an example is as large as a matchbox.
_LINE = 150
_ROOM = (92 * _LINE, 74 * _LINE)


@dataclass(frozen=True, slots=True)
class Example:
    """A construction: its name in a document, what it is called, what it is for, and its example drawn: flat, and for
    a box as it stands as well."""

    name: str
    words: str
    purpose: str
    drawings: tuple[SafeString, ...]


_PURPOSE = {
    "tray": "A box without a lid: four walls around a base.",
    "lid": "A tray turned over something: over a tray, a bought box, or a size of your own.",
    "sleeve": "A band around a box or a bundle, closed where it overlaps.",
    "concertina": "A strip folded to and fro: a small book, a spring between two covers.",
    "pocket": "A panel with flaps on three sides, glued down to hold a card.",
    "frame": "Four strips around an opening, mitred or butted.",
    "envelope": "A sheet with flaps folded around what it holds.",
    "tag": "A flat label, its corners cut off if you like, with a hole.",
    "scored": "Anything else: a sheet and its score lines, from any side.",
}
# Millimetres: small, so that a picture of every one has room beside the others.
_EXAMPLES: Mapping[str, dict[str, Any]] = {
    "tray": {"outside": ["60", "40"], "depth": "15"},
    "lid": {"fits": ["60", "40"], "depth": "10"},
    "sleeve": {"around": ["60", "30"], "length": "60", "overlap": "15"},
    "concertina": {"panel": ["25", "40"], "panels": 4},
    "pocket": {"panel": ["60", "40"], "flap": "12"},
    "frame": {"opening": ["50", "30"], "width": "12"},
    "envelope": {"holds": ["60", "40"], "side_flap": "15", "bottom_flap": "30", "top_flap": "20"},
    "tag": {"size": ["35", "60"], "corner": "8", "hole": "5"},
    "scored": {"size": ["60", "40"], "scores": [{"from": "left", "at": "20"}, {"from": "right", "at": "20"}]},
}


@cache
def construction_examples() -> tuple[Example, ...]:
    """Return all constructions in the order of the contract; drawn once, since they are the same for every kit."""
    measures = Measures(_kit(), SheetOptions.of(_kit()))
    drawn, _ = drawn_forms(measures, measures.as_shown.projects[0], _LINE, _ROOM)
    drawings = {
        form.letter: tuple(inline(one) for one in (form.parts[0].drawing, form.standing) if one) for form in drawn
    }
    return tuple(Example(name, words, _PURPOSE[name], drawings[name]) for name, words in CONSTRUCTIONS.items())


def _kit() -> Kit:
    """A kit with an example of each construction. Its project and forms name the drawings: their ids are in no kit."""
    forms = [
        {"id": name, "name": f"{words}, an example", "as": name, "paper": "plain", **_EXAMPLES[name]}
        for name, words in CONSTRUCTIONS.items()
    ]
    return reread_kit(
        {
            "format": "kitproof/1",
            "code": "examples",
            "title": "Examples",
            "unit": "mm",
            "papers": [
                {"id": "plain", "name": "Plain", "size": ["300", "300"], "sheets": 9, "front": {"name": "Plain"}}
            ],
            "projects": [{"id": "example", "title": "Examples", "forms": forms}],
        }
    )
