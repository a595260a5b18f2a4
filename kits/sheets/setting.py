"""The sheets of a kit as HTML with their assets: content from the document and its proof, set in our own templates.

The only text of a kit in here goes through the templates, which escape it, and every letter that no bundled face has is
replaced by U+FFFD before it gets there.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path
from typing import Any

from django.template.loader import render_to_string

from kits.sheets.content.cautions import DEFERS
from kits.sheets.content.guide import cut_guide
from kits.sheets.content.project import project_sheet
from kits.sheets.content.templates import TemplatePages, template_pages
from kits.sheets.coverage import covered
from kits.sheets.options import SheetOptions
from layouts.document import Kit, canonical_tree, read_kit_tree
from layouts.drawing import TrueSize

__all__ = ["TEMPLATE_NUMBER", "SheetFile", "sheet_files"]

# Raised by hand whenever a template, the style sheet or a drawing changes what a sheet looks like: renderings are kept
# under it.
TEMPLATE_NUMBER = 1

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
    for project in shown.projects:
        sheet = project_sheet(shown, proof, project, options)
        drawings = {f"window-{n}.svg": one.svg for n, one in enumerate(sheet.windows, start=1)}
        yield _file(shown, project.id, "project", project.title, state, options, drawings, sheet=sheet, defers=DEFERS)
    guide = cut_guide(shown, proof, options)
    drawings = {f"sheet-{n}.svg": one.svg for n, one in enumerate(guide.sheets, start=1)}
    yield _file(shown, "cut-guide", "guide", "Cut guide", state, options, drawings, guide=guide)
    pages = template_pages(shown, options)
    yield _templates(shown, pages, state, options)


def _templates(kit: Kit, pages: TemplatePages, state: str, options: SheetOptions) -> SheetFile:
    drawings = {f"template-{n}.svg": one.drawing for n, one in enumerate(pages.templates, start=1)}
    style = [_true_size("bars", pages.bars)]
    style += [_true_size(f"t{n}", one.drawing) for n, one in enumerate(pages.templates, start=1)]
    markup = {"bars.svg": pages.bars.svg, **{name: drawing.svg for name, drawing in drawings.items()}}
    words = "A square of 1 in, a square of 50 mm, a bar of 6 in and a bar of 150 mm."
    more = {"pages": pages, "bars_words": words}
    return _file(
        kit,
        "templates",
        "templates",
        "Templates",
        state,
        options,
        markup,
        style="\n".join(style),
        true_size=True,
        **more,
    )


def _file(
    kit: Kit,
    name: str,
    template: str,
    title: str,
    state: str,
    options: SheetOptions,
    drawings: Mapping[str, str],
    *,
    style: str = "",
    true_size: bool = False,
    **content: Any,
) -> SheetFile:
    whole = f"{title} · {kit.title}"
    other = "mm" if options.unit == "in" else "in"
    context = {"kit": kit, "title": whole, "state": state, "unit": options.unit, "other": other, **content}
    context["large"] = options.print == "large"
    html = render_to_string(f"sheets/{template}.html", context)
    page = f"@page {{ size: {_PAGE_SIZES[options.page]} }}\n"
    assets = {"sheet.css": f"{_style()}{page}{style}".encode()}
    assets |= {asset: markup.encode() for asset, markup in drawings.items()}
    return SheetFile(name, whole, html, assets, true_size)


def _true_size(name: str, drawing: TrueSize) -> str:
    return f"img.{name} {{ width: {drawing.width_mm}mm; height: {drawing.height_mm}mm }}"


@lru_cache(maxsize=1)
def _style() -> str:
    return _STYLE.read_text(encoding="utf-8")


def _with_letters_that_print(kit: Kit) -> Kit:
    """The kit with U+FFFD for every letter that no bundled face has; ids are plain letters and stay."""
    tree = canonical_tree(kit)
    return read_kit_tree(_covered(tree))


def _covered(value: Any) -> Any:
    if isinstance(value, str):
        return covered(value)
    if isinstance(value, list):
        return [_covered(member) for member in value]
    if isinstance(value, dict):
        return {key: member if key.startswith("x_") else _covered(member) for key, member in value.items()}
    return value
