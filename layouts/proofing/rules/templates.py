"""The rule about templates: what is traced at true size has to fit a page of the sheets."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from layouts.document import Kit, Size, piece_place
from layouts.lengths import TICKS_PER_MM, Length, System
from layouts.proofing.findings import Finding, Rule
from layouts.shapes import is_inside, resolve

__all__ = ["RULES", "TEMPLATE_ROOM", "TEMPLATE_TOO_BIG_FOR_PAGE", "findings"]

_PAIR = {
    "type": "array",
    "items": {"type": "integer"},
    "minItems": 2,
    "maxItems": 2,
    "description": "width and height in ticks of 1/320 mm",
}

TEMPLATE_TOO_BIG_FOR_PAGE = Rule(
    "template-too-big-for-page",
    "note",
    "A window, or a piece that is no rectangle, is larger than what either page of the sheets holds at true size.",
    {"size": _PAIR},
)
RULES = (TEMPLATE_TOO_BIG_FOR_PAGE,)

# The largest template of each page in normal print, in ticks: the sheets stand on a higher floor, a test there holds
# the two together.
TEMPLATE_ROOM: Mapping[str, tuple[int, int]] = {
    "letter": (1809 * TICKS_PER_MM // 10, 2184 * TICKS_PER_MM // 10),
    "a4": (1750 * TICKS_PER_MM // 10, 2360 * TICKS_PER_MM // 10),
}


def findings(kit: Kit) -> Iterator[Finding]:
    """Yield what has no template. A window whose piece is too large has one of its own; a template is never turned."""
    for project in kit.projects:
        for piece in project.pieces:
            if fits_a_page(piece.size):
                continue
            place, called = piece_place(project.id, piece.id), f"{piece.id} ({piece.name})"
            if piece.shape.kind != "rect":
                yield _too_big(place, f"The outline of {called}", piece.size, kit.unit)
            for window in piece.windows:
                size = resolve(window, piece.size).size
                # One that does not lie inside its piece is told by another rule, and has no template anyway.
                if not fits_a_page(size) and is_inside(window, piece.size, piece.shape):
                    name = f"The window {window.id} of {called}"
                    yield _too_big(f"{place}/window:{window.id}", name, size, kit.unit)


def fits_a_page(size: Size) -> bool:
    """Whether a page of either size holds a template of this size, upright as it is seen."""
    width, height = size.width.ticks, size.height.ticks
    return any(width <= across and height <= up for across, up in TEMPLATE_ROOM.values())


def _too_big(place: str, name: str, size: Size, unit: System) -> Finding:
    rooms = " or ".join(
        f"{Length(across, 'mm')} × {Length(up, 'mm')} ({page})"
        for page, (across, up) in (("Letter", TEMPLATE_ROOM["letter"]), ("A4", TEMPLATE_ROOM["a4"]))
    )
    message = (
        f"{name}, {size.width.text(unit)} × {size.height.text(unit)} {unit}, has no template: a page holds {rooms}. "
        "Say in the step how to draw it by its measures, or make it smaller."
    )
    return TEMPLATE_TOO_BIG_FOR_PAGE.finding(place, message=message, size=[size.width.ticks, size.height.ticks])
