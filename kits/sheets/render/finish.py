"""What a PDF still lacks when the library has set it, and how it is written so that its bytes are always the same."""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Iterator
from decimal import Decimal
from io import BytesIO

import pikepdf
from pikepdf import Array, Dictionary, Name, Object, Pdf

from kits.sheets.render.refused import Refused

__all__ = ["finished"]

# What the library begins a piece of marked content with, in pages that it has not packed.
MARKED = re.compile(rb"/\w+\n<</MCID (\d+)>>\nBDC\n")
RUNNING = b"/Artifact\n<</Type /Pagination>>\nBDC\n"
# CSS has 96 pixels to the inch, PDF 72 units.
UNITS_A_PIXEL = Decimal("0.75")
LINKS = ("https:", "http:", "mailto:")


def finished(pdf: bytes, *, true_size: bool) -> bytes:
    """Return the same pages as they may go out. `true_size`: ask the printer not to scale them.

    Raises: Refused if the pages bring files with them or lead anywhere but to pages of the net.
    """
    with pikepdf.open(BytesIO(pdf)) as document:
        _refuse_what_leaves_the_page(document)
        tree = document.Root.StructTreeRoot
        elements = list(_elements(tree.K[0]))
        _take_running_heads_out(document, elements)
        _take_links_out_of_links(document, elements)
        for element in elements:
            if _kind(element) == "Figure":
                _put_figure(element)
            elif _kind(element) == "LI":
                _put_into_body(document, element)
        _name_headers(tree, elements)
        tree.ParentTreeNextKey = len(tree.ParentTree.Nums) // 2
        if true_size:
            document.Root.ViewerPreferences.PrintScaling = Name("/None")
        written = BytesIO()
        document.save(
            written,
            # The packing library comes with this one. Its identifier is the hash of what is written.
            recompress_flate=True,
            object_stream_mode=pikepdf.ObjectStreamMode.generate,
            deterministic_id=True,
        )
    return written.getvalue()


def _refuse_what_leaves_the_page(document: Pdf) -> None:
    if "/EmbeddedFiles" in document.Root.get("/Names", {}):
        raise Refused("the page attaches a file")
    for page in document.pages:
        for note in page.get("/Annots", ()):
            if note.Subtype != Name.Link:
                raise Refused(f"the page has an annotation of the kind {note.Subtype}")
            target = str(note.A.URI) if "/A" in note else "https:"
            if not target.startswith(LINKS):
                raise Refused(f"the page has a link to “{target}”, which is no page of the net")


def _elements(element: Object) -> Iterator[Object]:
    """The element and all below it, in reading order."""
    waiting = [element]
    while waiting:
        element = waiting.pop()
        yield element
        kids = element.get("/K", ())
        waiting += [kid for kid in reversed(list(kids)) if isinstance(kid, Dictionary) and "/S" in kid]


def _kind(element: Object) -> str:
    return str(element.get("/S", "/"))[1:]


def _take_running_heads_out(document: Pdf, elements: list[Object]) -> None:
    """Mark what stands in the margins of every page as no part of the text (ISO 14289-1, 7.8).

    The library tags it, and then leaves its tags out of the tree.
    """
    read: defaultdict[object, set[int]] = defaultdict(set)
    for element in elements:
        for kid in element.get("/K", ()):
            if isinstance(kid, int):
                read[element.Pg.objgen].add(kid)
    numbers = document.Root.StructTreeRoot.ParentTree.Nums
    for index, page in enumerate(document.pages):
        told = read[page.objgen]

        def mark(begin: re.Match[bytes], told: set[int] = told) -> bytes:
            return begin[0] if int(begin[1]) in told else RUNNING

        content = page.Contents
        content.write(MARKED.sub(mark, content.read_bytes()))
        of_page = numbers[2 * index + 1]
        for number in range(len(of_page)):
            if number not in told:
                of_page[number] = None


def _take_links_out_of_links(document: Pdf, elements: list[Object]) -> None:
    """Leave one annotation to each link: the library makes another, in the same place, for each element within."""
    doubled = set()
    for element in elements:
        inner = [kid for kid in element.get("/K", ()) if isinstance(kid, Dictionary) and kid.Type == Name.OBJR]
        if inner and _kind(element) != "Link" and _is_in_link(element):
            element.K = Array([kid for kid in element.K if isinstance(kid, int) or kid.get("/Type") != Name.OBJR])
            doubled |= {kid.Obj.objgen for kid in inner}
    for page in document.pages if doubled else ():
        page.Annots = Array([note for note in page.get("/Annots", ()) if note.objgen not in doubled])


def _is_in_link(element: Object) -> bool:
    while "/P" in element:
        element = element.P
        if _kind(element) == "Link":
            return True
    return False


def _put_figure(figure: Object) -> None:
    """Say where a figure stands in units of the page; the library says it in pixels from the top."""
    left, top, right, bottom = (Decimal(str(side)) * UNITS_A_PIXEL for side in figure.A.BBox)
    height = Decimal(str(figure.Pg.MediaBox[3]))
    figure.A.BBox = Array([left, height - bottom, right, height - top])


def _put_into_body(document: Pdf, item: Object) -> None:
    """Put what stands bare in an item of a list, such as a paragraph, into a body (ISO 32000-1, 14.8.4.3.3)."""
    labels = [kid for kid in item.K if _kind(kid) == "Lbl"]
    others = [kid for kid in item.K if _kind(kid) != "Lbl"]
    if all(_kind(kid) == "LBody" for kid in others):
        return
    body = document.make_indirect(Dictionary(Type=Name.StructElem, S=Name.LBody, P=item, Pg=item.Pg, K=Array(others)))
    for kid in others:
        kid.P = body
        if _kind(kid) == "LBody":
            kid.S = Name.NonStruct
    item.K = Array([*labels, body])


def _name_headers(tree: Object, elements: list[Object]) -> None:
    """Say of every head of a table what it heads, and list the names by which cells refer to their heads."""
    named = {}
    for element in elements:
        if _kind(element) == "TH":
            element.A.Scope = Name.Column if _kind(element.P.P) == "THead" else Name.Row
            named[bytes(element.ID)] = element
    if named:
        names = Array()
        for name in sorted(named):
            names.extend([pikepdf.String(name.decode()), named[name]])
        tree.IDTree = Dictionary(Names=names)
