"""Proofs written by hand: as much of one as the sheets read."""

from __future__ import annotations

from typing import Any

from kits.sheets.options import SheetOptions
from layouts.document import Kit
from layouts.printed import figures

__all__ = ["INCHES", "MILLIMETRES", "printed_of", "proof_of"]

INCHES = SheetOptions("letter", "in")
MILLIMETRES = SheetOptions("a4", "mm")


def proof_of(
    *papers: tuple[str, str] | tuple[str, str, list[dict[str, Any]]],
    order: list[str] | None = None,
    because: list[dict[str, str]] | None = None,
    findings: list[dict[str, Any]] | None = None,
    printed: list[dict[str, Any]] | None = None,
    as_printed: dict[str, list[dict[str, Any]]] | None = None,
) -> dict[str, Any]:
    """A proof with these answers: paper, verdict, and the trees of its sheets if there is a plan.

    Without `printed` figures, each is rounded by itself.
    """
    answers = []
    for paper, verdict, *trees in papers:
        plan = [{"sheet": number, "tree": tree} for number, tree in enumerate(trees[0] if trees else [], start=1)]
        answers.append({"paper": paper, "verdict": verdict, "plan": plan})
    return {
        "document": "0" * 64,
        "papers": answers,
        "order": {"projects": order, "because": because or []},
        "findings": findings or [],
        "printed": printed or [],
        "as_printed": as_printed or {},
    }


def printed_of(kit: Kit) -> dict[str, Any]:
    """As much of a proof as its figures: each as a sheet in either system shows it."""
    return {"printed": [{"at": one.at, "in": one.inches, "mm": one.mm} for one in figures(kit)]}
