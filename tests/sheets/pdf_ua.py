"""The points of PDF/UA-1 that a program can check, by a reader that shares no code with the renderer.

`faults(pdf)` returns a sentence for each; none means that a program finds nothing. Source of the rules: the rule files
of an open validation profile for ISO 14289-1, numbered as its clauses. Whether an alternative text is right, whether
the reading order makes sense and whether colour alone carries meaning only a person can say.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from io import BytesIO
from typing import Any
from xml.etree import ElementTree

import pikepdf
from pikepdf import Array, Dictionary, Name, Object, Pdf

from tests.sheets.pdf_ua_content import content_faults, font_faults

__all__ = ["elements", "faults", "kids", "opened"]

RDF = "{http://www.w3.org/1999/02/22-rdf-syntax-ns#}"
PDFUAID = "{http://www.aiim.org/pdfua/ns/id/}"
TITLE = "{http://purl.org/dc/elements/1.1/}title"

# ISO 32000-1, 14.8.4.
STANDARD = re.compile(
    r"Document|Part|Art|Sect|Div|BlockQuote|Caption|TOC|TOCI|Index|NonStruct|Private|H|H1|H2|H3|H4|"
    r"H5|H6|P|L|LI|Lbl|LBody|Table|TR|TH|TD|THead|TBody|TFoot|Span|Quote|Note|Reference|BibEntry|"
    r"Code|Link|Annot|Ruby|RB|RT|RP|Warichu|WT|WP|Figure|Formula|Form"
)
# Which elements may stand directly in which (7.2); the others may stand anywhere.
INSIDE = {
    "Table": {"Caption", "TR", "THead", "TBody", "TFoot"},
    "THead": {"TR"},
    "TBody": {"TR"},
    "TFoot": {"TR"},
    "TR": {"TH", "TD"},
    "L": {"Caption", "L", "LI"},
    "LI": {"Lbl", "LBody"},
}
ONLY_IN = {
    "TR": {"Table", "THead", "TBody", "TFoot"},
    "THead": {"Table"},
    "TBody": {"Table"},
    "TFoot": {"Table"},
    "TH": {"TR"},
    "TD": {"TR"},
    "LI": {"L"},
    "Lbl": {"LI", "Note"},
    "LBody": {"LI"},
}


def opened(pdf: bytes) -> Pdf:
    return pikepdf.open(BytesIO(pdf))


def faults(pdf: bytes) -> list[str]:
    """Every point of the list that this PDF fails, each with its clause and where it was seen."""
    with opened(pdf) as document:
        if "/StructTreeRoot" not in document.Root:
            return ["7.1: no structure tree"]
        tree = list(elements(document))
        return [
            *_document_faults(pdf, document),
            *_role_faults(document, tree),
            *_nesting_faults(tree),
            *(fault for element in tree if kind(element) == "Table" for fault in _table_faults(element, tree)),
            *_figure_faults(tree),
            *_heading_faults(tree),
            *_identifier_faults(document, tree),
            *_link_faults(document, tree),
            *content_faults(document, tree),
            *font_faults(document),
        ]


def elements(document: Pdf) -> Iterator[Object]:
    """All elements of the tree in reading order."""
    waiting = list(reversed(kids(document.Root.StructTreeRoot)))
    while waiting:
        element = waiting.pop()
        yield element
        waiting += reversed([kid for kid in kids(element) if is_element(kid)])


def kids(element: Object) -> list[Object]:
    """What stands directly in it: elements, numbers of marked content, references to annotations."""
    held = element.get("/K", ())
    return list(held) if isinstance(held, (Array, tuple)) else [held]


def is_element(kid: object) -> bool:
    return isinstance(kid, Dictionary) and "/S" in kid


def kind(element: Object) -> str:
    return str(element.S)[1:] if "/S" in element else "StructTreeRoot"


def _document_faults(pdf: bytes, document: Pdf) -> Iterator[str]:
    root: Any = document.Root
    if not re.match(rb"%PDF-1\.[0-7]\s", pdf):
        yield "6.1: the header is not that of PDF 1"
    if document.is_encrypted:
        yield "7.16: the file is encrypted"
    if "/Metadata" not in root:
        yield "5: no metadata"
    else:
        yield from _metadata_faults(root.Metadata.read_bytes())
    marked = root.get("/MarkInfo", {})
    if marked.get("/Marked") is not True:
        yield "6.2: not marked as tagged"
    if marked.get("/Suspects", False) is not False:
        yield "7.1: tags are said to be doubtful (Suspects)"
    if root.get("/ViewerPreferences", {}).get("/DisplayDocTitle") is not True:
        yield "7.1: the title is not what is shown (DisplayDocTitle)"
    if not re.fullmatch(r"[A-Za-z]{2,8}(-[A-Za-z0-9]{1,8})*", str(root.get("/Lang", ""))):
        yield "7.2: no language"
    for number, page in enumerate(document.pages, 1):
        if page.get("/Annots") and page.get("/Tabs") != Name.S:
            yield f"7.18.3: page {number} has annotations and no order of them by structure (Tabs)"


def _metadata_faults(xmp: bytes) -> Iterator[str]:
    described = ElementTree.fromstring(xmp)
    part = [about.get(f"{PDFUAID}part") for about in described.iter(f"{RDF}Description")]
    part += [one.text for one in described.iter(f"{PDFUAID}part")]
    if "1" not in part:
        yield "5: not said to be PDF/UA-1 (pdfuaid:part)"
    if not any((words.text or "").strip() for title in described.iter(TITLE) for words in title.iter(f"{RDF}li")):
        yield "7.1: no title in the metadata"


def _role_faults(document: Pdf, tree: list[Object]) -> Iterator[str]:
    roles = {str(key)[1:]: str(value)[1:] for key, value in document.Root.StructTreeRoot.get("/RoleMap", {}).items()}
    for mapped in sorted(filter(STANDARD.fullmatch, roles)):
        yield f"7.1: the standard type {mapped} is mapped to another"
    for name in sorted({kind(element) for element in tree}):
        seen, role = set(), name
        while role in roles and role not in seen:
            seen.add(role)
            role = roles[role]
        if not STANDARD.fullmatch(role):
            yield f"7.1: elements of the type {name}, which is not mapped to a standard one"


def _nesting_faults(tree: list[Object]) -> Iterator[str]:
    for element in tree:
        name = kind(element)
        for kid in kids(element):
            if name in INSIDE and not (is_element(kid) and kind(kid) in INSIDE[name]):
                yield f"7.2: {kind(kid) if is_element(kid) else 'bare content'} directly in {name}"
        if name in ONLY_IN and kind(element.P) not in ONLY_IN[name]:
            yield f"7.2: {name} directly in {kind(element.P)}"


def _attribute(element: Object, name: str, default: Any = None) -> Any:
    held: Any = element.get("/A", ())
    for attributes in held if isinstance(held, Array) else [held]:
        if name in attributes:
            return attributes[name]
    return default


def _table_faults(table: Object, tree: list[Object]) -> Iterator[str]:
    rows = [
        row
        for part in kids(table)
        for row in ([part] if kind(part) == "TR" else kids(part))
        if is_element(row) and kind(row) == "TR"
    ]
    taken: dict[tuple[int, int], Object] = {}
    for y, row in enumerate(rows):
        x = 0
        for cell in kids(row):
            while (x, y) in taken:
                x += 1
            wide, high = (int(str(_attribute(cell, name, 1))) for name in ("/ColSpan", "/RowSpan"))
            for place in ((x + right, y + down) for right in range(wide) for down in range(high)):
                if place in taken:
                    yield f"7.2: two cells of a table in one place, row {place[1] + 1}, column {place[0] + 1}"
                taken[place] = cell
    width = 1 + max((x for x, _ in taken), default=0)
    for y in range(max(len(rows), *(1 + y for _, y in taken)) if taken else 0):
        if any((x, y) not in taken for x in range(width)):
            yield f"7.2: row {y + 1} of a table has not as many cells as the others"
    heads = {bytes(one.ID) for one in tree if kind(one) == "TH" and "/ID" in one}
    scopes = any(_attribute(cell, "/Scope") for cell in taken.values())
    for cell in {cell.objgen: cell for cell in taken.values()}.values():
        if kind(cell) == "TD":
            named = _attribute(cell, "/Headers", ())
            if any(bytes(name) not in heads for name in named):
                yield "7.5: a cell refers to a head that is not there"
            if not named and not scopes:
                yield "7.5: a cell of a table has no head"


def _figure_faults(tree: list[Object]) -> Iterator[str]:
    for figure in (element for element in tree if kind(element) == "Figure"):
        if not str(figure.get("/Alt", figure.get("/ActualText", ""))).strip():
            yield "7.3: a figure without a text in its place (Alt)"
        box = _attribute(figure, "/BBox")
        if box is not None:
            left, bottom, right, top = (float(str(side)) for side in box)
            x0, y0, x1, y1 = (float(str(side)) for side in figure.Pg.MediaBox)
            if not (x0 - 1 <= left < right <= x1 + 1 and y0 - 1 <= bottom < top <= y1 + 1):
                yield "7.3: a figure said to stand outside its page (BBox)"


def _heading_faults(tree: list[Object]) -> Iterator[str]:
    names = [kind(element) for element in tree if re.fullmatch(r"H[1-6]?", kind(element))]
    if "H" in names:
        yield "7.4.4: headings without a level"
    last = 0
    for level in (int(name[1]) for name in names if name != "H"):
        if level > last + 1:
            yield f"7.4.2: a heading of level {level} after one of level {last}"
        last = level


def _identifier_faults(document: Pdf, tree: list[Object]) -> Iterator[str]:
    for note in tree:
        if kind(note) == "Note" and "/ID" not in note:
            yield "7.9: a note without an identifier"
    named = [bytes(element.ID) for element in tree if "/ID" in element]
    if len(named) != len(set(named)):
        yield "7.9: two elements with one identifier"
    tree_root: Any = document.Root.StructTreeRoot
    listed = tree_root.get("/IDTree", {}).get("/Names", ())
    if sorted(named) != [bytes(name) for name in listed][::2]:
        yield "14.7.2: the list of identifiers is not that of the elements (IDTree)"


def _link_faults(document: Pdf, tree: list[Object]) -> Iterator[str]:
    in_links = {
        kid.Obj.objgen
        for element in tree
        if kind(element) == "Link"
        for kid in kids(element)
        if isinstance(kid, Dictionary) and kid.get("/Type") == Name.OBJR
    }
    for number, page in enumerate(document.pages, 1):
        for note in page.get("/Annots", ()):
            if note.Subtype == Name.Link and note.objgen not in in_links:
                yield f"7.18.5: a link on page {number} that no element of the kind Link holds"
            if not str(note.get("/Contents", "")).strip():
                yield f"7.18.5: a link on page {number} without words (Contents)"
            if "/StructParent" not in note:
                yield f"7.18.1: an annotation on page {number} outside the structure"
