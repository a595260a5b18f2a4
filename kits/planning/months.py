"""A kit begun from nothing, or from a cutting list: its document."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date
from typing import Any

from kits.planning.needs import free_id
from kits.planning.pasted import PastedPiece

__all__ = ["Month", "listed_prints", "next_month", "with_pieces"]

_MONTH = re.compile(r"(\d{4})-(0[1-9]|1[0-2])")
_PROJECT = "First project"


@dataclass(frozen=True, slots=True)
class Month:
    """What is said of a kit before there is one; texts as they were typed, but for the number of sheets.

    `prints` are the pad's, each with the names of its front and its back, the latter empty where it is not printed.
    """

    code: str
    title: str
    unit: str
    width: str
    height: str
    prints: tuple[tuple[str, str], ...]
    sheets: Any
    project: str = _PROJECT

    def document(self) -> dict[str, Any]:
        """The document as plain JSON: the pad, its papers, the usual tools and one project. It may be refused.

        A trimmer is set in steps as wide as the sheets are printed in: whoever has another one says so.
        """
        names: list[str] = []
        papers = []
        for front, back in self.prints:
            names.append(free_id(front, names))
            paper = {"id": names[-1], "name": front, "pad": "pad", "sheets": self.sheets, "front": {"name": front}}
            papers.append({**paper, "back": {"name": back}} if back else paper)
        step = "1 mm" if self.unit == "mm" else "1/16 in"
        return {
            "format": "kitproof/1",
            "code": self.code,
            "title": self.title,
            "unit": self.unit,
            "pads": [{"id": "pad", "name": "Pad", "size": [self.width, self.height]}],
            "papers": papers,
            "tools": [
                {"id": "trimmer", "name": "paper trimmer", "kind": "trimmer", "step": step},
                {"id": "scissors", "name": "scissors", "kind": "scissors"},
                {"id": "scorer", "name": "bone folder and rule", "kind": "scorer"},
                {"id": "glue", "name": "paper glue", "kind": "wet-glue"},
            ],
            "projects": [{"id": free_id(self.project, ("cut-guide", "templates")), "title": self.project}],
        }


def with_pieces(document: dict[str, Any], pieces: Sequence[PastedPiece]) -> dict[str, Any]:
    """Return a document of one project with the pieces that were read of a list in it."""
    (project,) = document["projects"]
    return {**document, "projects": [{**project, "pieces": [piece.as_piece() for piece in pieces]}]}


def next_month(codes: Iterable[str], today: date) -> str:
    """Return the code of the month after the last one that is planned, or after today's, if none is.

    >>> next_month(["2027-04", "spare", "2026-12"], date(2026, 11, 25))
    '2027-05'
    >>> next_month([], date(2026, 12, 1))
    '2027-01'
    """
    months = [(int(found[1]), int(found[2])) for code in codes if (found := _MONTH.fullmatch(code))]
    year, month = max(months, default=(today.year, today.month))
    return f"{year + 1}-01" if month == 12 else f"{year:04}-{month + 1:02}"


def listed_prints(text: str) -> tuple[tuple[str, str], ...]:
    """Return the prints of a list, one a line, the back after a stroke; empty lines and repeated fronts are left out.

    >>> listed_prints("Kelp / Sand, Slate\\n\\n Drift ")
    (('Kelp', 'Sand, Slate'), ('Drift', ''))
    """
    found: dict[str, tuple[str, str]] = {}
    for line in text.splitlines():
        front, _, back = (part.strip() for part in line.partition("/"))
        if front:
            found.setdefault(front.casefold(), (front, back))
    return tuple(found.values())
