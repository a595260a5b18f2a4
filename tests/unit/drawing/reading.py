"""Drawings as values: the elements of an SVG with numbers for their measures."""

from __future__ import annotations

import xml.etree.ElementTree as ET
from collections.abc import Iterator

__all__ = ["SVG", "Shape", "read", "texts"]

SVG = "{http://www.w3.org/2000/svg}"


class Shape(dict[str, str]):
    """The attributes of an element, its name and its text."""

    def __init__(self, element: ET.Element) -> None:
        super().__init__(element.attrib)
        self.name = element.tag.removeprefix(SVG)
        self.text = "".join(element.itertext())

    def __getattr__(self, name: str) -> float:
        return float(self[name])


def read(svg: str, *names: str) -> list[Shape]:
    """Return the elements of these names in the order of drawing, those that define something aside."""
    return [shape for shape in _all(ET.fromstring(svg)) if shape.name in names]


def texts(svg: str) -> list[str]:
    return [shape.text for shape in read(svg, "text")]


def _all(element: ET.Element) -> Iterator[Shape]:
    if element.tag == f"{SVG}defs":
        return
    yield Shape(element)
    for inner in element:
        yield from _all(inner)
