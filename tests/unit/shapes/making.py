"""Small documents for tests of geometry: one form on one paper, one paper with two sides."""

from __future__ import annotations

from typing import Any

from layouts.document import Kit, Paper
from layouts.document.values import ReadingContext
from layouts.lengths import System
from layouts.shapes import FlatPart, FlatSizes

COMMON = {"id": "f", "name": "form", "paper": "card"}


def kit_of(*forms: dict[str, Any], unit: System = "in", **more: Any) -> Kit:
    """A kit with these forms in one project; `caliper_um`, `size`, `papers`, `project` and kit fields may be set."""
    caliper, size = more.pop("caliper_um", None), more.pop("size", ["12", "12"])
    paper = {"id": "card", "name": "Card", "size": size, "sheets": 1, "front": {"name": "Card"}, "caliper_um": caliper}
    project = {"id": "p", "title": "P", "forms": [COMMON | form for form in forms], **more.pop("project", {})}
    whole = {"format": "kitproof/1", "code": "k", "title": "K", "unit": unit, "papers": more.pop("papers", [paper])}
    return Kit.model_validate({**whole, "projects": [project], **more}, context=ReadingContext(unit, {}))


def parts_of(kit: Kit, form: str = "f", paper: str = "card") -> tuple[FlatPart, ...]:
    """What one form of the kit's first project is cut as."""
    project = kit.projects[0]
    chosen = next(each for each in project.forms if each.id == form)
    made_of = next(each for each in kit.papers if each.id == paper)
    return FlatSizes.of(kit).parts(chosen, project.id, made_of)


def texts(parts: tuple[FlatPart, ...], unit: System = "in") -> list[tuple[str, str]]:
    """Widths and heights as they are written."""
    return [(part.width.text(unit), part.height.text(unit)) for part in parts]


def leaf(front: dict[str, str] | None = None, back: dict[str, str] | None = None, **more: Any) -> Paper:
    """An 8 in square paper with these sides."""
    sides = {"front": {"name": "F"} | (front or {}), "back": {"name": "B"} | back if back is not None else None}
    whole = {"id": "leaf", "name": "Leaf", "size": ["8", "8"], "sheets": 1}
    return Paper.model_validate(whole | sides | more, context=ReadingContext("in", {}))
