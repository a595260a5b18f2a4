"""A sheet of a cut plan: what is cut from it, what is left over, and what comes out of windows and is kept."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from layouts.document import Kit, Piece, piece_place
from layouts.drawing.lettering import Label, text_width
from layouts.drawing.letters import Letters
from layouts.drawing.marks import Mark, mark_sheet
from layouts.drawing.svg import INK, OCHRE, PAPER, RULE, USED, Box, Drawing, Margins
from layouts.lengths import TICKS_PER_MM
from layouts.shapes import is_inside, resolve

__all__ = ["Labelled", "box_of", "draw_sheet", "leaves", "sheet_drawing", "sheet_labels", "stroke", "turned_within"]

type Node = Mapping[str, Any]

# The least height of type, in lines: smaller letters could not be read.
_LEAST = 6


def sheet_drawing(kit: Kit, planned: Node, *, name: str, title: str, marks: Sequence[Mark] = ()) -> str:
    """Return the SVG of one sheet of a proof's plan (`{"sheet": n, "tree": NODE}`), front up.

    `name` starts the ids in it, `title` is its alternative text. Pieces carry their letters, cut-outs that are kept
    the letters of what comes out of them, offcuts that are marked theirs. Lines grow with the sheet, as on any drawing
    that is shown at any size.
    """
    tree = planned["tree"]
    unit = int(max(tree["width"], tree["height"])) // 200
    drawing = Drawing(tree["width"], tree["height"], name=name, title=title, margins=Margins.of(unit))
    left_over = drawing.hatching(apart=3 * TICKS_PER_MM, stroke=RULE, width=8 * TICKS_PER_MM // 10)
    draw_sheet(drawing, kit, tree, unit, left_over=left_over)
    labels = [label for one in sheet_labels(kit, tree, unit) for label in one.labels]
    mark_sheet(drawing, marks, [label.box for label in labels], unit, lines=14)
    for label in labels:
        label.draw(drawing)
    return drawing.markup()


def draw_sheet(drawing: Drawing, kit: Kit, tree: Node, unit: int, *, left_over: str, from_behind: bool = False) -> None:
    """Draw a sheet with what is cut from it, without letters; `from_behind`: the tree is seen with the back up.

    `unit` is the thickness of a line, in ticks; `left_over` fills what is left.
    """
    pieces = _Pieces(kit)
    line = {"stroke": INK, "stroke_width": stroke(unit)}
    for leaf in leaves(tree):
        if "piece" not in leaf:
            drawing.box(box_of(leaf), fill=left_over, **line)
            continue
        drawing.box(box_of(leaf), fill=USED, **line)
        for _, place in pieces.windows(leaf, from_behind=from_behind):
            dashes = f"{stroke(6 * unit)} {stroke(4 * unit)}"
            drawing.box(place, fill=PAPER, stroke=OCHRE, stroke_width=stroke(unit), stroke_dasharray=dashes)
    drawing.box(Box(0, 0, tree["width"], tree["height"]), fill="none", stroke=INK, stroke_width=stroke(2 * unit))


@dataclass(frozen=True, slots=True)
class Labelled:
    """Something that is cut, where its windows lie, and its labels, that of its letter first if it has one."""

    leaf: Node
    windows: tuple[Box, ...]
    labels: tuple[Label, ...]


def sheet_labels(kit: Kit, tree: Node, unit: int, *, from_behind: bool = False) -> Iterator[Labelled]:
    """Yield everything that is cut with its labels: its letter, in kept cut-outs the letters of what comes out."""
    pieces, letters = _Pieces(kit), Letters(kit)
    for leaf in leaves(tree):
        if "piece" not in leaf:
            continue
        windows = list(pieces.windows(leaf, from_behind=from_behind))
        labels = [*_letter(box_of(leaf), letters.of(leaf["piece"]), unit, [place for _, place in windows])]
        for window, place in windows:
            if window in leaf.get("cut_outs", {}):
                labels += _kept(place, _becomes(leaf["cut_outs"][window], letters), unit)
        yield Labelled(leaf, tuple(place for _, place in windows), tuple(labels))


def turned_within(inner: Box, whole: tuple[int, int], turn: int, *, from_behind: bool) -> Box:
    """Return where a part of a finished thing lies in its leaf, from the leaf's lower left, seen with the front up.

    `inner` is measured on the finished thing, `whole` its width and height; it lies turned by `turn` (anticlockwise,
    measured on the side that shows), and is seen through the leaf where that side is the back.

    >>> turned_within(Box(1, 2, 3, 4), (10, 20), 90, from_behind=False)
    Box(x=14, y=1, width=4, height=3)
    """
    width, height = whole
    beyond_x, beyond_y = width - inner.x - inner.width, height - inner.y - inner.height
    if turn in (90, 270):
        across = height
        x, y = (beyond_y, inner.x) if turn == 90 else (inner.y, beyond_x)
        lying = Box(x, y, inner.height, inner.width)
    else:
        across = width
        x, y = (beyond_x, beyond_y) if turn == 180 else (inner.x, inner.y)
        lying = Box(x, y, inner.width, inner.height)
    if from_behind:
        return Box(across - lying.x - lying.width, lying.y, lying.width, lying.height)
    return lying


def leaves(node: Node) -> Iterator[Node]:
    if "parts" in node:
        for part in node["parts"]:
            yield from leaves(part)
    else:
        yield node


def box_of(node: Node) -> Box:
    return Box(node["x"], node["y"], node["width"], node["height"])


def stroke(ticks: int) -> str:
    """A thickness in tenths of a millimetre, one at least."""
    return str(max(1, ticks * 10 // TICKS_PER_MM))


class _Pieces:
    """The pieces of a kit by their places, and where their windows lie on a sheet."""

    def __init__(self, kit: Kit) -> None:
        self._pieces = {
            piece_place(project.id, piece.id): piece for project in kit.projects for piece in project.pieces
        }
        self._tools = {tool.id: tool for tool in kit.tools}

    def windows(self, leaf: Node, *, from_behind: bool) -> Iterator[tuple[str, Box]]:
        """Yield the windows of what lies here, each with its id; one that is not inside its piece cannot be cut."""
        piece = self._pieces.get(leaf["piece"])
        whole = (leaf["height"], leaf["width"]) if leaf["turn"] in (90, 270) else (leaf["width"], leaf["height"])
        if piece is None:
            return  # a form's flat part
        for window in piece.windows:
            if not is_inside(window, piece.size, piece.shape):
                continue  # a finding says so
            aperture = resolve(window, piece.size)
            left, bottom = (self._bite(piece, edge) for edge in (piece.edges.left, piece.edges.bottom))
            inner = Box(
                aperture.left.ticks + left,
                aperture.bottom.ticks + bottom,
                aperture.width.ticks,
                aperture.height.ticks,
            )
            lying = turned_within(inner, whole, leaf["turn"], from_behind=(leaf.get("side") == "back") != from_behind)
            yield window.id, Box(leaf["x"] + lying.x, leaf["y"] + lying.y, lying.width, lying.height)

    def _bite(self, piece: Piece, tool: str | None) -> int:
        """What an edge still takes from the piece as it is cut, where windows are measured on the finished one."""
        if tool is None or piece.size_is == "cut":
            return 0
        bite = self._tools[tool].bite
        return 0 if bite is None else bite.ticks


def _letter(box: Box, letter: str, unit: int, windows: Sequence[Box]) -> Iterator[Label]:
    """A letter in the upper left corner, as large as the piece and its rim allow; none where it could not be read.

    A name of more letters stands upright in a strip that is too narrow for it; one letter on its side is another.
    """
    size = 14 * unit
    size = min(size, box.height * 4 // 5, box.width * 9 * size // (10 * text_width(letter, size)))
    while size >= _LEAST * unit:
        aside = min(size // 4, (box.width - text_width(letter, size)) // 2)
        label = Label(letter, box.x + aside, box.y + box.height - size * 9 // 10, size)
        if not any(label.box.overlaps(window) for window in windows):
            yield label
            return
        size -= unit
    if len(letter) > 1:
        yield from _upright(box, letter, unit, windows)


def _upright(box: Box, letter: str, unit: int, windows: Sequence[Box]) -> Iterator[Label]:
    size = min(11 * unit, box.width * 3 // 5)
    size = min(size, box.height * 9 * size // (10 * text_width(letter, size)) if size > 0 else 0)
    if size < _LEAST * unit:
        return
    middle, level = box.x + box.width // 2 + size // 4, box.y + box.height - text_width(letter, size) // 2 - size // 2
    label = Label(letter, middle, level, size, middle=True, upright=True)
    if not any(label.box.overlaps(window) for window in windows):
        yield label


def _becomes(cut_out: Node, letters: Letters) -> str:
    return ", ".join(dict.fromkeys(letters.of(inside["piece"]) for inside in leaves(cut_out) if "piece" in inside))


def _kept(place: Box, becomes: str, unit: int) -> Iterator[Label]:
    for words in (f"keep for {becomes}", "keep"):
        size = 9 * unit
        size = min(size, place.height * 9 // 10, place.width * 9 * size // (10 * text_width(words, size)))
        if size >= _LEAST * unit:
            middle, level = place.x + place.width // 2, place.y + (place.height - size) // 2
            yield Label(words, middle, level, size, middle=True, fill=OCHRE, weight="600")
            return
