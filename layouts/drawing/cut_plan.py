"""A sheet of a cut plan: what is cut from it, what is left over, and what comes out of windows and is kept."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from layouts.document import Kit, Piece, piece_place
from layouts.drawing.svg import INK, OCHRE, PAPER, USED, Box, Drawing
from layouts.shapes import resolve

__all__ = ["draw_sheet", "leaves", "letter_of", "sheet_drawing", "turned_within", "unit_of"]

Node = Mapping[str, Any]


def sheet_drawing(kit: Kit, planned: Node, *, name: str, title: str) -> str:
    """Return the SVG of one sheet of a proof's plan (`{"sheet": n, "tree": NODE}`), front up.

    `name` starts the ids in it, `title` is its alternative text. Pieces carry their letters, cut-outs that are kept
    the letters of what comes out of them.
    """
    tree = planned["tree"]
    unit = unit_of(tree)
    drawing = Drawing(tree["width"], tree["height"], name=name, title=title, margin=unit)
    draw_sheet(drawing, kit, tree, unit)
    return drawing.markup()


def unit_of(tree: Node) -> int:
    """The thickness of a line, in ticks: lines scale with the sheet, as on any drawing."""
    return int(max(tree["width"], tree["height"])) // 200


def draw_sheet(drawing: Drawing, kit: Kit, tree: Node, unit: int, *, mirrored: bool = False) -> None:
    """Draw a sheet with what is cut from it; `mirrored`: the tree is seen with the back up."""
    pieces = {piece_place(project.id, piece.id): piece for project in kit.projects for piece in project.pieces}
    left_over = drawing.hatching()
    stroke = {"stroke": INK, "stroke_width": _tenths(unit)}
    for leaf in leaves(tree):
        box = Box(leaf["x"], leaf["y"], leaf["width"], leaf["height"])
        if "piece" not in leaf:
            drawing.box(box, fill=left_over, **stroke)
            continue
        drawing.box(box, fill=USED, **stroke)
        _drawletter_of(drawing, box, letter_of(leaf["piece"]), unit)
        if leaf["piece"] in pieces:
            _draw_windows(drawing, box, pieces[leaf["piece"]], leaf, unit, mirrored=mirrored)
    drawing.box(Box(0, 0, tree["width"], tree["height"]), fill="none", stroke=INK, stroke_width=_tenths(2 * unit))


def turned_within(inner: Box, whole: tuple[int, int], turn: int, *, from_behind: bool) -> Box:
    """Return where a part of a finished thing lies in its leaf, from the leaf's lower left, seen with the front up.

    `inner` is measured on the finished thing, `whole` its width and height; it lies turned by `turn` (anticlockwise,
    measured on the side that shows), and is seen through the leaf where that side is the back.

    >>> turned_within(Box(1, 2, 3, 4), (10, 20), 90, from_behind=False)
    Box(x=14, y=1, width=4, height=3)
    """
    width, height = whole
    if turn == 90:
        lying, across = Box(height - inner.y - inner.height, inner.x, inner.height, inner.width), height
    elif turn == 180:
        lying, across = (
            Box(width - inner.x - inner.width, height - inner.y - inner.height, inner.width, inner.height),
            width,
        )
    elif turn == 270:
        lying, across = Box(inner.y, width - inner.x - inner.width, inner.height, inner.width), height
    else:
        lying, across = inner, width
    if from_behind:
        return Box(across - lying.x - lying.width, lying.y, lying.width, lying.height)
    return lying


def _draw_windows(drawing: Drawing, box: Box, piece: Piece, leaf: Node, unit: int, *, mirrored: bool) -> None:
    kept = leaf.get("cut_outs", {})
    whole = (box.height, box.width) if leaf["turn"] in (90, 270) else (box.width, box.height)
    for window in piece.windows:
        aperture = resolve(window, piece.size)
        inner = Box(aperture.left.ticks, aperture.bottom.ticks, aperture.width.ticks, aperture.height.ticks)
        if inner.width <= 0 or inner.height <= 0:
            continue  # a finding says so; there is nothing to draw
        lying = turned_within(inner, whole, leaf["turn"], from_behind=(leaf.get("side") == "back") != mirrored)
        place = Box(box.x + lying.x, box.y + lying.y, lying.width, lying.height)
        dashes = {
            "stroke": OCHRE,
            "stroke_width": _tenths(unit),
            "stroke_dasharray": f"{_tenths(6 * unit)} {_tenths(4 * unit)}",
        }
        drawing.box(place, fill=PAPER, **dashes)
        if window.id in kept:
            letters = ", ".join(
                dict.fromkeys(letter_of(inside["piece"]) for inside in leaves(kept[window.id]) if "piece" in inside)
            )
            size = min(9 * unit, place.width * 2 // (len(letters) + 9))
            drawing.text(
                place.x + place.width // 2,
                place.y + (place.height - size) // 2,
                f"keep for {letters}",
                size=size,
                text_anchor="middle",
                fill=OCHRE,
                font_weight="600",
            )


def _drawletter_of(drawing: Drawing, box: Box, letter: str, unit: int) -> None:
    """Write a letter into the upper left corner, as large as the piece allows; none where it could not be read."""
    size = min(14 * unit, box.height * 4 // 5, box.width * 20 // (8 + 14 * len(letter)))
    if size >= 5 * unit:
        drawing.text(box.x + size // 4, box.y + box.height - size * 9 // 10, letter, size=size, font_weight="700")


def letter_of(place: str) -> str:
    """The letter of a piece or form, with the number of its part."""
    made, _, part = place.partition("/part:")
    letter = made.rpartition(":")[2]
    return f"{letter} {part}" if part else letter


def _tenths(ticks: int) -> str:
    return str(max(1, ticks // 32))


def leaves(node: Node) -> Iterator[Node]:
    if "parts" in node:
        for part in node["parts"]:
            yield from leaves(part)
    else:
        yield node
