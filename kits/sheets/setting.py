"""The sheets of a kit as HTML with their assets: content from the document and its proof, set in our own templates.

The only text of a kit in here goes through the templates, which escape it, and every letter that no bundled face has is
replaced by U+FFFD before it gets there.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path
from typing import Any

from django.template.loader import render_to_string

from kits.sheets.content.guide import cut_guide
from kits.sheets.content.project import project_sheet
from kits.sheets.content.shared import Shared
from kits.sheets.content.templates import template_pages
from kits.sheets.coverage import MISSING, covered
from kits.sheets.options import SheetOptions
from kits.sheets.templatetags.sheet_text import drawing_name
from layouts.document import Kit, canonical_tree, read_kit_tree
from layouts.drawing import BARS, ScaledDrawing, text_width

__all__ = ["TEMPLATE_NUMBER", "SheetFile", "sheet_files"]

# Raised by hand whenever a template, the style sheet or a drawing changes what a sheet looks like: renderings are kept
# under it.
TEMPLATE_NUMBER = 5

# A word wider than this, in thousandths of the type, may be broken after every so many letters: the column of names has
# so much room in large print.
_WIDE, _PART = 14_000, 12
_WORD = re.compile(r"\S{14,}")
_ZERO_WIDTH = "\N{ZERO WIDTH SPACE}"

# Between a drawing and what stands beside it, in millimetres.
_GAP = 4

_STYLE = Path(__file__).parent / "sheet.css"
_PAGE_SIZES = {"letter": "letter", "a4": "A4"}


@dataclass(frozen=True, slots=True)
class SheetFile:
    """One file to be rendered: its name without an ending, its page with assets, and whether it must print true."""

    name: str
    title: str
    html: str
    assets: Mapping[str, bytes]
    true_size: bool = False


def sheet_files(kit: Kit, proof: Mapping[str, Any], options: SheetOptions) -> Iterator[SheetFile]:
    """Yield the sheet of every project, the cut guide and the templates.

    They say DRAFT with the first eight digits of the document's hash where an edition will say its number and date.
    """
    shown = _with_letters_that_print(kit)
    state = f"DRAFT {proof['document'][:8]}"
    made = _Made(shown, state, options)
    shared = Shared.of(shown, proof, options)
    for project in shown.projects:
        sheet = project_sheet(shown, proof, project, options, shared)
        yield made.file(project.id, "project", project.title, sheet.all_drawings, sheet=sheet)
    guide = cut_guide(shown, proof, options)
    yield made.file("cut-guide", "guide", "Cut guide", guide.all_drawings, guide=guide)
    pages = template_pages(shown, options, proof)
    drawings = [pages.bars, *(one.drawing for one in pages.templates)]
    yield made.file("templates", "templates", "Templates", drawings, true_size=True, pages=pages, bars_words=BARS)


@dataclass(frozen=True, slots=True)
class _Made:
    """Makes the files of one kit. Drawings are assets named by what is in them (`drawing_name`)."""

    kit: Kit
    state: str
    options: SheetOptions

    def file(
        self,
        name: str,
        template: str,
        title: str,
        drawings: Sequence[ScaledDrawing],
        *,
        true_size: bool = False,
        **content: Any,
    ) -> SheetFile:
        unit = self.options.unit
        context = {
            "kit": self.kit,
            "title": f"{title} · {self.kit.title}",
            "state": self.state,
            "unit": unit,
            "unit_words": "inches" if unit == "in" else "millimetres",
            "other": "mm" if unit == "in" else "in",
            "large": self.options.print == "large",
            **content,
        }
        html = render_to_string(f"sheets/{template}.html", context)
        if MISSING in html:
            html = render_to_string(f"sheets/{template}.html", context | {"lacking": True})
        style = [_style(), f"@page {{ size: {_PAGE_SIZES[self.options.page]} }}"]
        named = {drawing_name(drawing): drawing for drawing in drawings}
        style += [_size(name, drawing) for name, drawing in named.items()]
        assets = {"sheet.css": "\n".join(style).encode()}
        assets |= {f"{name}.svg": one.svg.encode() for name, one in named.items()}
        return SheetFile(name, str(context["title"]), html, assets, true_size)


def _size(name: str, drawing: ScaledDrawing) -> str:
    """A drawing is to scale at one size only; what stands beside it takes the rest of the line."""
    return (
        f".{name} img {{ width: {drawing.width_mm}mm; height: {drawing.height_mm}mm }}\n"
        f".{name} figure, figure.{name} {{ width: {drawing.width_mm}mm }}\n"
        f".{name} .right {{ margin-left: calc({drawing.width_mm}mm + {_GAP}mm) }}"
    )


@lru_cache(maxsize=1)
def _style() -> str:
    return _STYLE.read_text(encoding="utf-8")


def _with_letters_that_print(kit: Kit) -> Kit:
    """The kit with U+FFFD for every letter that no bundled face has, and names that no line can hold made breakable.

    Ids are plain letters, and short: they stay.
    """
    return read_kit_tree(_printable(canonical_tree(kit)))


def _printable(value: Any, key: str = "") -> Any:
    if isinstance(value, str):
        return _breakable(covered(value)) if key in ("name", "title") else covered(value)
    if isinstance(value, list):
        return [_printable(member) for member in value]
    if isinstance(value, dict):
        return {name: member if name.startswith("x_") else _printable(member, name) for name, member in value.items()}
    return value


def _breakable(name: str) -> str:
    """A name in whose longest words a line may end: a table would be as wide as the word, however wide the page is.

    >>> _breakable("counterrevolutionaries") == "counterrevolutionaries", len(_breakable("x" * 60))
    (True, 64)
    """
    return _WORD.sub(lambda word: _broken(word[0]) if text_width(word[0], 1000) > _WIDE else word[0], name)


def _broken(word: str) -> str:
    return _ZERO_WIDTH.join(re.findall(f".{{1,{_PART}}}", word))
