"""Pieces with windows, dimensioned: the stated measures and no others, each figure clear of the others."""

from __future__ import annotations

from itertools import combinations
from typing import Any

import pytest

from layouts.document import Piece
from layouts.drawing import piece_drawing
from layouts.drawing.dimensions import Chain, Dimensions, Segment
from layouts.drawing.lettering import figure_width
from layouts.drawing.svg import Box, Drawing
from tests.unit.drawing.reading import read, texts
from tests.unit.proofing.small_prints import kit_of, piece, project

MM = 320
ROOM = (68 * MM, 68 * MM)


def _piece(*windows: dict[str, Any], size: tuple[str, str] = ("60", "40"), **more: Any) -> Piece:
    kit = kit_of(project(piece("A", *size, windows=list(windows), **more)))
    return kit.projects[0].pieces[0]


def _drawn(made: Piece):
    return piece_drawing(made, lambda ticks: str(ticks // MM), name="n", unit="mm", room=ROOM, line=145)


PANE = {"id": "pane", "left": "10", "right": "12", "bottom": "8", "height": "20"}


def test_only_stated_measures_are_drawn_each_once():
    """The width of the window, 38, and what is left above it, 12, stand in no document."""
    drawn = _drawn(_piece(PANE))
    assert sorted(texts(drawn.drawing.svg), key=str) == ["10", "12", "20", "40", "60", "8", "A"]
    assert drawn.words == "A, piece A, 60 by 40 mm. Window pane: left 10, right 12, bottom 8, height 20."
    assert (drawn.beside, drawn.outside) == ((), ())


def test_windows_of_equal_measures_share_their_dimensions():
    upper = {"id": "upper", "left": "10", "right": "10", "bottom": "22", "height": "10"}
    lower = {"id": "lower", "left": "10", "right": "10", "bottom": "5", "height": "10"}
    told = texts(_drawn(_piece(upper, lower)).drawing.svg)
    assert sorted(told) == sorted(["A", "upper", "lower", "60", "40", "10", "10", "22", "10", "5", "10"])


def test_what_has_no_room_for_dimension_lines_is_said_in_words():
    windows = [
        {"id": f"w{n}", "left": str(2 + 9 * n), "width": "5", "bottom": str(2 + n), "height": str(10 + n)}
        for n in range(6)
    ]
    drawn = _drawn(_piece(*windows))
    assert drawn.beside == (
        "Window w4: left 38, bottom 6, width 5, height 14.",
        "Window w5: left 47, bottom 7, width 5, height 15.",
    )


def test_a_window_that_is_not_inside_is_named_and_not_drawn():
    drawn = _drawn(_piece(PANE, {"id": "vent", "left": "50", "width": "20", "bottom": "1", "height": "2"}))
    assert drawn.outside == ("vent",)
    assert "70" not in drawn.words
    assert len(read(drawn.drawing.svg, "path")) == 2


def test_of_a_thousand_windows_the_first_are_drawn():
    many = [
        {"id": f"w{n}", "left": str(1 + n % 50), "bottom": str(1 + n // 50), "width": "0.5", "height": "0.5"}
        for n in range(1000)
    ]
    drawn = _drawn(_piece(*many))
    assert "… and 800 more windows, not drawn." in drawn.beside
    assert len(read(drawn.drawing.svg, "path")) == 201


EDGES = [
    pytest.param("finished", [(0, 400), (600, 400)], id="teeth reach the edge of a finished piece"),
    pytest.param("cut", [(0, 370), (600, 370)], id="teeth lie as deep as the bite in a cut one"),
]


@pytest.mark.parametrize(("size_is", "ends"), EDGES)
def test_a_decorative_edge_is_drawn_and_said(size_is, ends):
    """A bite of 3 mm at the bottom of 60 by 40: tenths from the top. 20 half pitches end as they began."""
    scallop = {"id": "scallop", "kind": "punch", "name": "scallop punch", "bite": "3", "pitch": "6"}
    made = piece("A", "60", "40", edges={"bottom": "scallop"}, size_is=size_is)
    kit = kit_of(project(made), tools=[scallop])
    drawn = piece_drawing(
        kit.projects[0].pieces[0],
        lambda ticks: str(ticks // MM),
        name="n",
        unit="mm",
        room=ROOM,
        line=145,
        tools={tool.id: tool for tool in kit.tools},
    )
    assert drawn.beside == ("The bottom edge is made with the scallop punch, which takes 3.",)
    teeth = read(drawn.drawing.svg, "path")[1]["d"].replace("M", "").replace("L", "").split()
    spots = [(float(x), float(y)) for x, y in zip(teeth[::2], teeth[1::2], strict=True)]
    assert [spots[0], spots[-1]] == ends
    assert len(spots) == 21


def test_the_letter_stands_within_the_outline():
    """The upper corners of a gable are no paper: its letter stands in a lower one."""
    gable = {"kind": "polygon", "points": [["0", "0"], ["60", "0"], ["60", "20"], ["30", "40"], ["0", "20"]]}
    (letter,) = [text for text in read(_drawn(_piece(shape=gable)).drawing.svg, "text") if text.text == "A"]
    assert letter.y > 300


@pytest.mark.parametrize(
    ("shape", "words"),
    [
        ({"kind": "ellipse"}, "an oval"),
        ({"kind": "arch", "rise": "15"}, "an arch with a rise of 15"),
        ({"kind": "rounded", "radius": "5"}, "rounded at its corners with a radius of 5"),
        (
            {"kind": "polygon", "points": [["0", "0"], ["60", "0"], ["30", "40"]]},
            "an outline with corners, across and up from the lower left, at 0, 0; 60, 0; 30, 40",
        ),
    ],
)
def test_outlines_are_said_with_their_measures(shape, words):
    drawn = _drawn(_piece(shape=shape))
    assert drawn.beside == (f"The piece is {words}.",)
    assert drawn.words == f"A, piece A, 60 by 40 mm, {words}."


# The window is 38 by 20, 10 from the left and 8 from below: its middle is 18 up and 29 across. Tenths of a millimetre,
# from the top of 40: what is 18 up is 220 down.
TOUCHED = [
    pytest.param({}, {(100, 320), (480, 320), (480, 120)}, id="a rectangle at its corners"),
    pytest.param({"kind": "ellipse"}, {(100, 220), (480, 220), (290, 320), (290, 120)}, id="an oval in its middles"),
    pytest.param(
        {"kind": "arch", "rise": "5"}, {(100, 320), (480, 320), (290, 320), (290, 120)}, id="an arch at its top as well"
    ),
]


@pytest.mark.parametrize(("shape", "spots"), TOUCHED)
def test_helping_lines_begin_where_the_outline_touches_them(shape, spots):
    drawn = _drawn(_piece({**PANE, **({"shape": shape} if shape else {})}))
    begun = {(one.x1, one.y1) for one in read(drawn.drawing.svg, "line")}
    assert {spot for spot in begun if 0 < spot[0] < 600 and 0 < spot[1] < 400} == spots


def _figures(*chains: tuple[str, Chain], width: int = 600, height: int = 400, u: int = 10) -> list[Box]:
    """Where the figures of some chains stand, as boxes as large as they are set."""
    dimensions = Dimensions(Box(0, 0, width, height), u, str)
    for side, chain in chains:
        getattr(dimensions, side)(chain)
    margins = dimensions.margins()
    drawing = Drawing(width, height, name="n", title="t", margins=margins)
    dimensions.draw(drawing)
    found = []
    for one in read(drawing.markup(), "text"):
        # Tenths of a millimetre from the top: 32 ticks each.
        wide, x, y = figure_width(one.text, 7 * u), int(one.x * 32), height - int(one.y * 32)
        found.append(Box(x - wide // 2, y, wide, 5 * u))
    outer = Box(
        -margins.left, -margins.bottom, width + margins.left + margins.right, height + margins.top + margins.bottom
    )
    assert all(outer.holds(box) for box in found)
    return found


def _narrow(count: int, size: int) -> Chain:
    return Chain(tuple(Segment(n * size, (n + 1) * size, 123_456) for n in range(count)))


@pytest.mark.parametrize("size", [20, 60, 200])
def test_no_two_figures_stand_in_one_place(size):
    """Figures wider than what they measure stand in rows beside the line, one further out than the other."""
    chains = (
        ("below", _narrow(600 // size, size)),
        ("below", _narrow(600 // size, size)),
        ("right", _narrow(400 // size, size)),
        ("right", _narrow(400 // size, size)),
        ("above", Chain((Segment(0, 600, 600),))),
        ("left", Chain((Segment(0, 400, 400),))),
    )
    figures = _figures(*chains)
    assert not [(one, other) for one, other in combinations(figures, 2) if one.overlaps(other)]


def test_rows_of_dimensions_stand_one_beyond_the_other():
    first, second = _figures(("below", Chain((Segment(0, 600, 1),))), ("below", Chain((Segment(0, 600, 2),))))
    assert second.y + second.height < first.y < 0


def test_a_chain_of_nothing_takes_no_room():
    dimensions = Dimensions(Box(0, 0, 600, 400), 10, str)
    before = dimensions.margins()
    dimensions.below(Chain(()))
    assert dimensions.margins() == before
