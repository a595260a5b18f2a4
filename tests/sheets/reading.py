"""What a PDF says, read without the renderer's code: its elements with their text, and what stands where on its pages.

Elements come from the structure tree, their text from the marked content that they hold, as a screen reader takes it.
"""

from __future__ import annotations

import ctypes
import math
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from functools import partial
from typing import Any

import pypdfium2
import pypdfium2.raw as pdfium

from tests.sheets.pdf_ua import is_element, kids, kind, opened

__all__ = ["Element", "Page", "Written", "read_elements", "read_pages"]

JOINER = "\N{WORD JOINER}"
_TEXT, _FORM = pdfium.FPDF_PAGEOBJ_TEXT, pdfium.FPDF_PAGEOBJ_FORM


@dataclass(frozen=True)
class Written:
    """A run of text on a page: its box in points from the lower left, and the marked content that it stands in.

    `size` is the height of its type in points; `in_drawing` says that it is part of a drawing, which is written letter
    by letter.
    """

    text: str
    left: float
    bottom: float
    right: float
    top: float
    mark: int
    size: float
    in_drawing: bool


@dataclass(frozen=True)
class Page:
    number: int
    width: float
    height: float
    written: list[Written]


@dataclass
class Element:
    """An element of the structure tree: its kind, what it holds in reading order, and its alternative text."""

    kind: str
    alt: str
    within: list[Element | list[Written]] = field(default_factory=list)

    @property
    def runs(self) -> list[Written]:
        """All that is written in it, in reading order."""
        return [run for one in self.within for run in (one.runs if isinstance(one, Element) else one)]

    @property
    def text(self) -> str:
        """All text of it, blanks told once; where a new line begins there is one."""
        told = ""
        last: Written | None = None
        for run in self.runs:
            told += f" {run.text}" if last is not None and run.left < last.right - 1 else run.text
            last = run
        return " ".join(told.split())

    def all(self, *names: str) -> Iterator[Element]:
        """It and all within it, or those of some kinds."""
        if not names or self.kind in names:
            yield self
        for inner in self.within:
            if isinstance(inner, Element):
                yield from inner.all(*names)

    def blocks(self) -> Iterator[Element]:
        """The elements that hold text and nothing but runs of it: paragraphs, headings, cells, labels, figures."""
        inner = [one for one in self.within if isinstance(one, Element)]
        if self.kind not in _RUNS and all(_is_run(one) for one in inner):
            if self.runs or self.kind == "Figure":
                yield self
            return
        for one in inner:
            yield from one.blocks()


_RUNS = ("Span", "NonStruct", "Link")


def _is_run(element: Element) -> bool:
    inner = (one for one in element.within if isinstance(one, Element))
    return element.kind in _RUNS and all(_is_run(one) for one in inner)


def read_pages(pdf: bytes) -> list[Page]:
    """Return the pages with all text on them, in the order in which it is painted."""
    document = pypdfium2.PdfDocument(pdf)
    try:
        return [_page(number, page) for number, page in enumerate(document, start=1)]
    finally:
        document.close()


def read_elements(pdf: bytes, pages: list[Page]) -> Element:
    """Return the structure tree; its elements in the order of reading."""
    with opened(pdf) as document:
        numbers = {page.objgen: number for number, page in enumerate(document.pages)}
        marked: dict[tuple[int, int], list[Written]] = {}
        for page in pages:
            for one in page.written:
                marked.setdefault((page.number - 1, one.mark), []).append(one)

        def element(held: Any) -> Element:
            page = numbers[held.Pg.objgen] if "/Pg" in held else 0
            made = Element(kind(held), str(held.get("/Alt", "")))
            for kid in kids(held):
                if is_element(kid):
                    made.within.append(element(kid))
                elif isinstance(kid, int):
                    made.within.append(marked.get((page, kid), []))
            return made

        return element(document.Root.StructTreeRoot.K[0])


def _page(number: int, page: Any) -> Page:
    words = page.get_textpage()
    count: Callable[[int], Any] = lambda at: pdfium.FPDFPage_GetObject(page, at)  # noqa: E731
    written = list(_written(words, pdfium.FPDFPage_CountObjects(page), count, (1, 0, 0, 1, 0, 0), None))
    width, height = page.get_size()
    return Page(number, width, height, written)


type _Matrix = tuple[float, float, float, float, float, float]


def _written(words: Any, many: int, get: Callable[[int], Any], matrix: _Matrix, mark: int | None) -> Iterator[Written]:
    for at in range(many):
        one = get(at)
        own = pdfium.FPDFPageObj_GetMarkedContentID(one) if mark is None else mark
        sort = pdfium.FPDFPageObj_GetType(one)
        if sort == _FORM:
            inner = _combined(_matrix(one), matrix)
            inside = partial(pdfium.FPDFFormObj_GetObject, one)
            letters = list(_written(words, pdfium.FPDFFormObj_CountObjects(one), inside, inner, own))
            if letters:
                yield _joined(letters)
        elif sort == _TEXT:
            yield Written(_text(words, one), *_box(one, matrix), own, _size(one, matrix), mark is not None)


def _joined(letters: list[Written]) -> Written:
    return Written(
        "".join(one.text for one in letters),
        min(one.left for one in letters),
        min(one.bottom for one in letters),
        max(one.right for one in letters),
        max(one.top for one in letters),
        letters[0].mark,
        letters[0].size,
        True,
    )


def _text(words: Any, one: Any) -> str:
    bytes_ = pdfium.FPDFTextObj_GetText(one, words, None, 0)
    held = (ctypes.c_ushort * (bytes_ // 2))()
    pdfium.FPDFTextObj_GetText(one, words, held, bytes_)
    return bytes(held)[:-2].decode("utf-16-le").replace(JOINER, "")


def _box(one: Any, matrix: _Matrix) -> tuple[float, float, float, float]:
    left, bottom, right, top = (ctypes.c_float() for _ in range(4))
    pdfium.FPDFPageObj_GetBounds(one, left, bottom, right, top)
    a, b, c, d, e, f = matrix
    spots = [(x.value, y.value) for x in (left, right) for y in (bottom, top)]
    across = [a * x + c * y + e for x, y in spots]
    up = [b * x + d * y + f for x, y in spots]
    return min(across), min(up), max(across), max(up)


def _size(one: Any, matrix: _Matrix) -> float:
    size = ctypes.c_float()
    pdfium.FPDFTextObj_GetFontSize(one, size)
    # Upright words are turned: what is up for them is the length of the whole second axis.
    _, _, across, up, *_ = _combined(_matrix(one), matrix)
    return size.value * math.hypot(across, up)


def _matrix(one: Any) -> _Matrix:
    held = pdfium.FS_MATRIX()
    pdfium.FPDFPageObj_GetMatrix(one, held)
    return held.a, held.b, held.c, held.d, held.e, held.f


def _combined(first: _Matrix, then: _Matrix) -> _Matrix:
    a, b, c, d, e, f = first
    g, h, i, j, k, m = then
    return (a * g + b * i, a * h + b * j, c * g + d * i, c * h + d * j, e * g + f * i + k, e * h + f * j + m)
