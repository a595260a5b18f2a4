"""All kinds of drawings on one sheet, to be looked at: `python -m tests.pictures.drawings OUT.png`.

Could a person cut and fold from each? Every construction of forms, windows, edges, faces and an example's schedule.
"""

from __future__ import annotations

import json
import re
import sys
from collections.abc import Iterator, Mapping
from html import escape
from pathlib import Path
from typing import Any

from kits.sheets.rendering import Renderer
from layouts.assembly import one_person, schedule_of, steps_of
from layouts.document import Kit, read_kit_tree
from layouts.drawing import (
    ScaledDrawing,
    face_drawing,
    flat_drawings,
    flat_key,
    fold_words,
    folded_drawing,
    piece_drawing,
    schedule_drawing,
    stacks_of,
)
from layouts.lengths import System
from layouts.printed import grid_of, shown
from layouts.shapes.faces import lying_in
from layouts.shapes.forms import FlatSizes
from tests.unit.shapes.making import kit_of

type Sample = tuple[str, list[ScaledDrawing], list[str]]

EXAMPLES = Path(__file__).resolve().parents[2] / "kits" / "examples"
MM = 320
LINE = 145
ROOM = (80 * MM, 80 * MM)

SCORES = [{"from": side, "at": at} for side in ("left", "right", "top", "bottom") for at in ("1/2", "1 1/2")]
# Every construction, and what differs most within one.
FORMS: Mapping[str, dict[str, Any]] = {
    "tray, double walls and flange": {
        "as": "tray", "inside": ["5", "4"], "depth": "1 1/2", "walls": "double", "flange": "1/2",
    },
    "tray, corners cut": {"as": "tray", "outside": ["5", "4"], "depth": "1", "corner": "cut"},
    "tray, walls turned in": {"as": "tray", "inside": ["3", "5"], "depth": "1", "turn_in": "3/8"},
    "lid": {"as": "lid", "fits": ["5", "3"], "depth": "3/4"},
    "sleeve": {"as": "sleeve", "around": ["3", "1"], "length": "4", "overlap": "1/2"},
    "concertina in strips": {"as": "concertina", "panel": ["2", "3"], "panels": 14},
    "pocket": {"as": "pocket", "panel": ["4", "3"], "flap": "1/2"},
    "pocket, open at the side": {"as": "pocket", "panel": ["4", "3"], "flap": "3/4", "open": "right"},
    "frame, mitred": {"as": "frame", "opening": ["4", "3"], "width": "1"},
    "frame, butted": {"as": "frame", "opening": ["4", "3"], "width": "1", "corner": "butt"},
    "envelope": {
        "as": "envelope", "holds": ["5", "3 1/2"], "side_flap": "1", "bottom_flap": "2", "top_flap": "1 1/2",
    },
    "tag": {"as": "tag", "size": ["2", "4"], "corner": "3/8", "hole": "1/4"},
    "scored, tabs": {"as": "scored", "size": ["7", "6"], "scores": SCORES, "corners": "tab"},
    "scored, corners kept": {
        "as": "scored",
        "size": ["7", "6"],
        "scores": [
            {"from": "left", "at": "2"},
            {"from": "right", "at": "1", "fold": "mountain"},
            {"from": "bottom", "at": "2 1/2"},
        ],
    },
}  # fmt: skip

WIDE = {"left": "1", "right": "1", "top": "1", "bottom": "1 1/2"}
# Windows of every shape, several in one piece, a shaped piece, edges.
PIECES: Mapping[str, dict[str, Any]] = {
    "one window": {"size": ["6", "4"], "windows": [{"id": "pane", **WIDE}]},
    "oval": {"size": ["6", "4"], "windows": [{"id": "pane", **WIDE, "shape": {"kind": "ellipse"}}]},
    "arch": {"size": ["4", "5"], "windows": [{"id": "door", **WIDE, "shape": {"kind": "arch", "rise": "3/4"}}]},
    "rounded": {"size": ["4", "5"], "windows": [{"id": "card", **WIDE, "shape": {"kind": "rounded", "radius": "3/8"}}]},
    "three panes": {
        "size": ["7", "3"],
        "windows": [
            {"id": name, "left": left, "width": "1 1/2", "top": "3/4", "bottom": "3/4"}
            for name, left in (("west", "3/4"), ("mid", "2 3/4"), ("east", "4 3/4"))
        ],
    },
    "polygon": {
        "size": ["4", "4"],
        "shape": {"kind": "polygon", "points": [["0", "0"], ["4", "0"], ["4", "2 1/2"], ["2", "4"], ["0", "2 1/2"]]},
    },
    "edges": {"size": ["6", "1 1/2"], "edges": {"bottom": "scallop", "top": "deckle"}, "size_is": "finished"},
}
TOOLS = [
    {"id": "scallop", "kind": "punch", "name": "scallop punch", "bite": "1/4", "pitch": "1/2"},
    {"id": "deckle", "kind": "decorative", "name": "deckle scissors", "bite": "1/8"},
]


def main(out: str) -> None:
    with Renderer() as renderer:
        pdf = renderer.pdf(page(), {}, title="Drawings")
        pictures = renderer.pictures(pdf, 3200)
    for number, picture in enumerate(pictures, start=1):
        path = Path(out) if number == 1 else Path(out).with_stem(f"{Path(out).stem}-{number}")
        path.write_bytes(picture)
        print(path)


def page() -> str:
    """The sheet as HTML, the same for page and print."""
    blocks = []
    for title, drawings, sentences in (*_forms(), *_pieces(), *_faces("potting-shed"), *_schedules("potting-shed")):
        pictures = "".join(_at_its_size(drawing) for drawing in drawings)
        said = "".join(f"<p>{escape(sentence)}</p>" for sentence in sentences)
        blocks.append(f"<section><h2>{escape(title)}</h2>{pictures}{said}</section>")
    style = (
        "@page { size: 800mm 1180mm; margin: 10mm } body { font: 9pt Commissioner }"
        "section { display: inline-block; vertical-align: top; margin: 0 4mm 5mm 0; max-width: 185mm }"
        "h2 { font-size: 10pt; margin: 0 } p { margin: 0; max-width: 110mm }"
        "svg { display: inline-block; vertical-align: top; margin: 0 3mm 2mm 0 }"
    )
    head = f"<head><meta charset=utf-8><title>Drawings</title><style>{style}</style></head>"
    return f"<html lang=en>{head}<body>{''.join(blocks)}</body></html>"


def _at_its_size(drawing: ScaledDrawing) -> str:
    size = f'width="{drawing.width_mm}mm" height="{drawing.height_mm}mm"'
    return re.sub("<svg ", f"<svg {size} ", drawing.svg, count=1)


def _forms() -> Iterator[Sample]:
    yield "key", [flat_key(name="key", line=LINE)], []
    for title, given in FORMS.items():
        kit = kit_of(given, caliper_um=300)
        folded = FlatSizes.of(kit).fold(kit.projects[0].forms[0], "p", kit.papers[0])
        drawn = flat_drawings(
            folded,
            _inches,
            name=_id(title),
            title=title.capitalize(),
            unit="in",
            room=ROOM,
            line=LINE,
            step=grid_of(kit, "in"),
        )
        box = folded_drawing(
            folded,
            _inches,
            name=f"{_id(title)}-box",
            title=title.capitalize(),
            unit="in",
            room=(40 * MM, 40 * MM),
            line=LINE,
            step=grid_of(kit, "in"),
        )
        beside = [sentence for one in drawn for sentence in one.beside]
        pictures = [one.drawing for one in drawn] + ([box] if box is not None else [])
        yield title, pictures, [*beside, *fold_words(folded)]


def _pieces() -> Iterator[Sample]:
    for title, given in PIECES.items():
        piece = {"id": "A", "name": title, "paper": "card", **given}
        kit = kit_of(project={"pieces": [piece]}, tools=TOOLS)
        drawn = piece_drawing(
            kit.projects[0].pieces[0],
            _inches,
            name=_id(title),
            unit="in",
            room=ROOM,
            line=LINE,
            tools={tool.id: tool for tool in kit.tools},
        )
        yield title, [drawn.drawing], list(drawn.beside)


def _faces(example: str) -> Iterator[Sample]:
    kit = _example(example)
    for number, stack in enumerate(stacks_of(lying_in(kit))):
        drawn = face_drawing(
            stack,
            _inches,
            name=f"face-{number}",
            title=stack.surface.name,
            unit="in",
            room=ROOM,
            line=LINE,
            step=grid_of(kit, "in"),
        )
        both = [drawn.assembled, *([drawn.exploded] if drawn.exploded else [])]
        yield stack.surface.name, both, list(drawn.beside)


def _schedules(example: str) -> Iterator[Sample]:
    kit = _example(example)
    steps = steps_of(kit)
    schedule, alone = schedule_of(kit, steps), one_person(kit, steps)
    if schedule is None or alone is None:
        return
    for title, bars, width in (
        ("hands for everything, a page", schedule.bars, 180),
        ("one person, a page", alone.bars, 180),
        ("one person, a phone", alone.bars, 100),
    ):
        drawn = schedule_drawing(
            kit, bars, schedule.critical, name=_id(title), title=f"{title}.", width=width * MM, line=LINE
        )
        yield title, [drawn.drawing], list(drawn.beside)


def _example(name: str) -> Kit:
    return read_kit_tree(json.loads((EXAMPLES / f"{name}.json").read_text()))


def _inches(ticks: int) -> str:
    unit: System = "in"
    return shown(ticks, unit, 508)


def _id(title: str) -> str:
    return re.sub(r"[^a-z]+", "-", title)


if __name__ == "__main__":
    main(sys.argv[1])
