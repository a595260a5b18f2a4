"""The sheets of one document in one setting, and what a test may ask of them: document, proof, and the PDFs read."""

from __future__ import annotations

import json
from dataclasses import dataclass
from functools import cached_property
from pathlib import Path
from typing import Any

from kits.sheets.options import SheetOptions
from tests.sheets.drawn import Line, figures_of
from tests.sheets.reading import Element, Page, read_elements, read_pages

__all__ = ["MadeFile", "SheetSet"]


@dataclass(frozen=True)
class MadeFile:
    """One PDF."""

    name: str
    pdf: bytes

    @cached_property
    def pages(self) -> list[Page]:
        return read_pages(self.pdf)

    @cached_property
    def tree(self) -> Element:
        return read_elements(self.pdf, self.pages)

    @cached_property
    def blocks(self) -> list[Element]:
        return list(self.tree.blocks())

    @cached_property
    def figures(self) -> list[list[Line]]:
        return figures_of(self.pdf)

    @property
    def texts(self) -> list[str]:
        return [block.text for block in self.blocks]

    def tables(self) -> list[list[list[str]]]:
        """The rows of every table without its heads, as texts of cells; what goes on over the page is one table."""
        found: list[list[list[str]]] = []
        last: Element | None = None
        for element in self.tree.all("Table", "H2"):
            if element.kind == "Table":
                rows = [
                    [cell.text for cell in row.all("TH", "TD")]
                    for body in element.all("TBody")
                    for row in body.all("TR")
                ]
                if last is not None and last.kind == "Table":
                    found[-1] += rows
                else:
                    found.append(rows)
            last = element
        return found


@dataclass(frozen=True)
class SheetSet:
    """All PDFs of a document in one setting."""

    options: SheetOptions
    document: dict[str, Any]
    proof: dict[str, Any]
    files: dict[str, MadeFile]

    @classmethod
    def of(cls, document: Path, options: SheetOptions, folder: Path) -> SheetSet:
        files = {path.stem: MadeFile(path.stem, path.read_bytes()) for path in sorted(folder.glob("*.pdf"))}
        proof = json.loads((folder / "proof.json").read_text())
        return cls(options, json.loads(document.read_bytes()), proof, files)
