"""Rules about openings: that they lie inside what they are cut from, and that their measures agree."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import islice

from layouts.document import Kit, Opening, Shape, Size, piece_place
from layouts.proofing.findings import Finding, Rule
from layouts.shapes import contradictions, is_inside, resolve

__all__ = ["RULES", "findings"]

_MOST_KEPT_TOLD = 200
_WHOLE = {"type": "integer", "description": "ticks of 1/320 mm"}

WINDOW_OUTSIDE = Rule(
    "window-outside",
    "stop",
    "The opening reaches to or over the edge of what it is cut from, or nothing is left of it.",
    {"left": _WHOLE, "right": _WHOLE, "top": _WHOLE, "bottom": _WHOLE, "width": _WHOLE, "height": _WHOLE},
)
WINDOW_SUMS = Rule(
    "window-sums",
    "fix",
    "Three stated measures of an opening do not add up to the side of what it is cut from.",
    {"axis": {"enum": ["width", "height"]}, "sum": _WHOLE, "whole": _WHOLE},
)
KEPT_NEVER_USED = Rule(
    "kept-never-used",
    "fix",
    "A window's cut-out is kept, and no piece comes from it.",
    {"count": _WHOLE | {"description": "cut-outs that are kept"}},
)
RULES = (WINDOW_OUTSIDE, WINDOW_SUMS, KEPT_NEVER_USED)


def findings(kit: Kit) -> Iterator[Finding]:
    """Yield what is wrong with the windows of pieces and the openings of faces."""
    # Of thousands the first: the others are told when those are mended.
    yield from islice(kept_never_used(kit), _MOST_KEPT_TOLD)
    for project in kit.projects:
        for piece in project.pieces:
            for window in piece.windows:
                place = f"{piece_place(project.id, piece.id)}/window:{window.id}"
                name = f"The window {window.id} of {piece.id}"
                yield from _of_opening(place, name, window, piece.size, piece.shape)
    for blank in kit.blanks:
        for face in blank.faces:
            if face.opening is not None:
                place = f"blank:{blank.id}/face:{face.id}/opening"
                name = f"The opening of {blank.name}’s {face.id}"
                yield from _of_opening(place, name, face.opening, face.size, Shape.by_default())


def kept_never_used(kit: Kit) -> Iterator[Finding]:
    """Yield a finding for each window whose cut-out a reader would keep for nothing."""
    feeding = {piece.from_ for project in kit.projects for piece in project.pieces}
    for project in kit.projects:
        for piece in project.pieces:
            for window in piece.windows:
                if window.cut_out == "kept" and f"{project.id}/{piece.id}/{window.id}" not in feeding:
                    message = (
                        f"What comes out of window {window.id} of {piece.id} ({piece.name}) is kept, and no piece "
                        "comes from it. Cut a piece from it, or call it waste."
                    )
                    place = f"{piece_place(project.id, piece.id)}/window:{window.id}"
                    yield KEPT_NEVER_USED.finding(place, message=message, count=piece.count * project.makes)


def _of_opening(place: str, name: str, opening: Opening, whole: Size, shape: Shape) -> Iterator[Finding]:
    for sums in contradictions(opening, whole):
        axis = sums.names[1]
        stated = ", ".join(f"{side} {getattr(opening, side)}" for side in sums.names)
        message = (
            f"{name} does not add up: {stated} make {sums.stated}, and the {axis} is {sums.whole}. "
            "Correct one of the three, or leave one out."
        )
        yield WINDOW_SUMS.finding(place, message=message, axis=axis, sum=sums.stated.ticks, whole=sums.whole.ticks)
    if not is_inside(opening, whole, shape):
        aperture = resolve(opening, whole)
        sides = {side: getattr(aperture, side) for side in ("left", "right", "top", "bottom", "width", "height")}
        message = (
            f"{name}, {aperture.width} × {aperture.height}, does not lie inside {whole.width} × {whole.height} "
            f"with a rim all round: left {aperture.left}, right {aperture.right}, top {aperture.top}, "
            f"bottom {aperture.bottom}. Make it smaller, or move it."
        )
        yield WINDOW_OUTSIDE.finding(place, message=message, **{side: length.ticks for side, length in sides.items()})
