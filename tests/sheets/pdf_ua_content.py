"""PDF/UA-1 in what is painted: everything belongs to the text or to its adornment, and every letter can be told."""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Iterator
from io import BytesIO
from typing import Any

import pikepdf
from fontTools.ttLib import TTFont
from pikepdf import Dictionary, Name, Object, Pdf

__all__ = ["content_faults", "font_faults", "shown_glyphs"]

# ISO 32000-1, tables 60, 74, 77, 87, 92, 109: all that leaves ink on the page.
SHOW = {"Tj", "TJ", "'", '"'}
PAINT = {"f", "F", "f*", "B", "B*", "b", "b*", "s", "S", "sh", "Do", "INLINE IMAGE", *SHOW}


def content_faults(document: Pdf, tree: list[Object]) -> Iterator[str]:
    """Faults of 7.1: what is painted and neither told nor adornment, and tags that fit no content."""
    told: dict[Any, dict[int, Object]] = defaultdict(dict)
    for element in tree:
        held = element.get("/K", ())
        for kid in held if isinstance(held, (pikepdf.Array, tuple)) else [held]:
            if isinstance(kid, int):
                told[element.Pg.objgen][kid] = element
    numbers = document.Root.StructTreeRoot.ParentTree.Nums
    parents = {int(numbers[at]): numbers[at + 1] for at in range(0, len(numbers), 2)}
    for number, page in enumerate(document.pages, 1):
        seen: set[int] = set()
        for operator, tags in _painted(page):
            marks = [mark for tag, mark in tags if tag != "Artifact" and mark is not None]
            adorned = any(tag == "Artifact" for tag, _ in tags)
            seen.update(marks)
            if operator == "BDC":
                continue
            if adorned and marks:
                yield f"7.1: text and adornment within each other on page {number}"
            elif not adorned and not any(mark in told[page.objgen] for mark in marks):
                yield f"7.1: something is painted on page {number} that is neither text nor adornment ({operator})"
        for mark, element in told[page.objgen].items():
            if mark not in seen:
                yield f"7.1: an element {element.S} of page {number} whose content is not there"
            listed = parents.get(int(page.get("/StructParents", -1)))
            if listed is None or mark >= len(listed) or listed[mark].objgen != element.objgen:
                yield f"7.1: content {mark} of page {number} does not lead back to its element (ParentTree)"
    for form in (one for one in document.objects if isinstance(one, pikepdf.Stream) and _is_drawn(one)):
        if b"MCID" in form.read_bytes():
            yield "7.20: text of the page within a picture that may be drawn twice"


def _is_drawn(stream: Object) -> bool:
    return stream.get("/Subtype") == Name.Form or stream.get("/Type") == Name.Pattern


def _painted(page: Any) -> Iterator[tuple[str, list[tuple[str, int | None]]]]:
    """Each beginning of marked content and each painting operator of a page, with the tags that it stands in.

    A tag is its name and the number of the marked content, if it has one.
    """
    tags: list[tuple[str, int | None]] = []
    instructions: Any = pikepdf.parse_content_stream(page)
    for operands, operator in instructions:
        name = str(operator)
        if name in ("BMC", "BDC"):
            held: Any = operands[1] if len(operands) > 1 and isinstance(operands[1], Dictionary) else {}
            tags.append((str(operands[0])[1:], int(held["/MCID"]) if "/MCID" in held else None))
            yield "BDC", list(tags)
        elif name == "EMC":
            tags.pop()
        elif name in PAINT:
            yield name, list(tags)


def font_faults(document: Pdf) -> Iterator[str]:
    """Faults of 7.21: every face within the file, every glyph that is shown in it, as wide as said, and readable."""
    shown: dict[tuple[int, int], set[int]] = defaultdict(set)
    fonts: dict[tuple[int, int], Object] = {}
    for holder in [page.obj for page in document.pages] + [
        one for one in document.objects if isinstance(one, pikepdf.Stream) and _is_drawn(one)
    ]:
        for font, glyphs in shown_glyphs(holder):
            fonts[font.objgen] = font
            shown[font.objgen] |= glyphs
    for key, font in fonts.items():
        yield from _faults_of_font(font, shown[key])


def shown_glyphs(holder: Object) -> Iterator[tuple[Object, set[int]]]:
    """Each font that a page or a drawing names, with the numbers of the glyphs that it shows of it."""
    resources: Any = holder.get("/Resources", {})
    shown: dict[str, set[int]] = defaultdict(set)
    current = ""
    instructions: Any = pikepdf.parse_content_stream(holder)
    for operands, operator in instructions:
        if str(operator) == "Tf":
            current = str(operands[0])
        elif str(operator) in SHOW:
            strings = operands[-1] if str(operator) == "TJ" else [operands[-1]]
            for codes in (bytes(one) for one in strings if isinstance(one, pikepdf.String)):
                shown[current] |= {int.from_bytes(codes[at : at + 2]) for at in range(0, len(codes), 2)}
    for name, glyphs in shown.items():
        yield resources.Font[name], glyphs


def _faults_of_font(font: Object, shown: set[int]) -> Iterator[str]:
    name = str(font.get("/BaseFont", "?"))[1:]
    if font.Subtype != Name.Type0:
        yield f"7.21.4.1: {name} is no face whose glyphs are named by numbers"
        return
    inner = font.DescendantFonts[0]
    if "/FontFile2" not in inner.FontDescriptor:
        yield f"7.21.4.1: {name} is not in the file"
        return
    if inner.get("/CIDToGIDMap") != Name.Identity or font.Encoding != Name("/Identity-H"):
        yield f"7.21.3.2: {name} numbers its glyphs in a way of its own"
    face = TTFont(BytesIO(inner.FontDescriptor.FontFile2.read_bytes()))
    names, advances, outlines, upem = face.getGlyphOrder(), face["hmtx"], face["glyf"], face["head"].unitsPerEm
    said = _said_widths(inner)
    readable = _to_unicode(font)
    for glyph in sorted(shown):
        if glyph == 0 or glyph >= len(names):
            yield f"7.21.8: {name} shows a glyph that it lacks ({glyph})"
            continue
        if abs(said.get(glyph, 1000.0) - advances[names[glyph]][0] * 1000 / upem) > 1:
            yield f"7.21.5: glyph {glyph} of {name} is not as wide as is said"
        text = readable.get(glyph, "")
        if not text or set(text) & {"\0", "\ufeff", "\ufffe"}:
            yield f"7.21.7: glyph {glyph} of {name} cannot be read (ToUnicode)"
        elif not text.isspace() and text != "\u200b" and outlines[names[glyph]].numberOfContours == 0:
            yield f"7.21.4.1: glyph {glyph} of {name} ({text!r}) has no outline"


def _said_widths(inner: Object) -> dict[int, float]:
    """The array W (ISO 32000-1, 9.7.4.3) in the one form that is used here: first glyph, list of widths."""
    said = {}
    held = list(inner.get("/W", ()))
    for first, widths in zip(held[::2], held[1::2], strict=True):
        said.update({int(first) + at: float(str(width)) for at, width in enumerate(widths)})
    return said


def _to_unicode(font: Object) -> dict[int, str]:
    if "/ToUnicode" not in font:
        return {}
    pairs = re.findall(rb"<([0-9a-f]{4})>\s*<([0-9a-f]+)>\n", font.ToUnicode.read_bytes())
    return {int(code, 16): bytes.fromhex(text.decode()).decode("utf-16-be") for code, text in pairs}
