"""The lines of the drawings in a PDF, measured from its drawing operators: what a printer would draw, in points."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from decimal import Decimal
from typing import Any

import pikepdf
from pikepdf import Dictionary, Object

from tests.sheets.pdf_ua import elements, kind, opened

__all__ = ["Line", "figures_of"]

type _Matrix = tuple[Decimal, Decimal, Decimal, Decimal, Decimal, Decimal]
type _Spot = tuple[Decimal, Decimal]

_ONE: _Matrix = (Decimal(1), Decimal(0), Decimal(0), Decimal(1), Decimal(0), Decimal(0))
_STROKES = {"S", "s", "B", "B*", "b", "b*"}
_PAINTS = _STROKES | {"f", "F", "f*", "n"}


@dataclass(frozen=True)
class Line:
    """The box around one stroked path, in points from the lower left of its page, and whether it was a rectangle."""

    left: Decimal
    bottom: Decimal
    right: Decimal
    top: Decimal
    is_box: bool

    @property
    def width(self) -> Decimal:
        return self.right - self.left

    @property
    def height(self) -> Decimal:
        return self.top - self.bottom


def figures_of(pdf: bytes) -> list[list[Line]]:
    """Return the stroked paths of every figure, in reading order."""
    with opened(pdf) as document:
        pages: dict[Any, dict[int, list[Line]]] = {page.objgen: _marked(page.obj) for page in document.pages}
        return [
            [line for mark in _marks(figure) for line in pages[figure.Pg.objgen].get(mark, [])]
            for figure in elements(document)
            if kind(figure) == "Figure"
        ]


def _marks(element: Object) -> Iterator[int]:
    held: Any = element.K
    for kid in held if isinstance(held, pikepdf.Array) else [held]:
        if isinstance(kid, int):
            yield kid


def _marked(page: Object) -> dict[int, list[Line]]:
    found: dict[int, list[Line]] = {}
    _walk(page, _ONE, None, found)
    return found


def _walk(holder: Object, matrix: _Matrix, mark: int | None, found: dict[int, list[Line]]) -> None:
    saved: list[_Matrix] = []
    marks: list[int | None] = []
    spots: list[_Spot] = []
    begun: list[_Spot] = []
    is_box = False
    instructions: Any = pikepdf.parse_content_stream(holder)
    for operands, operator in instructions:
        name = str(operator)
        if name == "q":
            saved.append(matrix)
        elif name == "Q":
            matrix = saved.pop()
        elif name == "cm":
            matrix = _combined(tuple(Decimal(str(one)) for one in operands), matrix)  # type: ignore[arg-type]
        elif name in ("BDC", "BMC"):
            held: Any = operands[1] if len(operands) > 1 and isinstance(operands[1], Dictionary) else {}
            marks.append(mark)
            mark = int(held["/MCID"]) if "/MCID" in held else mark
        elif name == "EMC":
            mark = marks.pop()
        elif name == "Do":
            drawing: Any = holder.Resources.XObject[str(operands[0])]
            if drawing.get("/Subtype") == "/Form":
                _walk(drawing, _combined(_of(drawing), matrix), mark, found)
        elif name in ("m", "l", "c", "v", "y", "re"):
            numbers = [Decimal(str(one)) for one in operands]
            if name == "re":
                x, y, width, height = numbers
                numbers, is_box = [x, y, x + width, y + height], not spots
            moved = [_at(spot, matrix) for spot in zip(numbers[::2], numbers[1::2], strict=True)]
            # A start from which nothing is drawn leaves no ink.
            spots, begun = (spots, moved) if name == "m" else (spots + begun + moved, [])
        elif name in _PAINTS:
            if name in _STROKES and mark is not None and spots:
                across, up = [x for x, _ in spots], [y for _, y in spots]
                found.setdefault(mark, []).append(Line(min(across), min(up), max(across), max(up), is_box))
            spots, begun, is_box = [], [], False


def _of(drawing: Any) -> _Matrix:
    return tuple(Decimal(str(one)) for one in drawing.get("/Matrix", _ONE))  # type: ignore[return-value]


def _combined(first: _Matrix, then: _Matrix) -> _Matrix:
    a, b, c, d, e, f = first
    g, h, i, j, k, m = then
    return (a * g + b * i, a * h + b * j, c * g + d * i, c * h + d * j, e * g + f * i + k, e * h + f * j + m)


def _at(spot: _Spot, matrix: _Matrix) -> _Spot:
    x, y = spot
    a, b, c, d, e, f = matrix
    return a * x + c * y + e, b * x + d * y + f
