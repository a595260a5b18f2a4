"""Random pieces with windows and edges: every figure, letter and name can be read."""

from __future__ import annotations

from typing import Any

from hypothesis import given, settings
from hypothesis import strategies as st

from layouts.drawing import piece_drawing
from layouts.printed import shown
from tests.unit.drawing.meetings import collisions, outside
from tests.unit.proofing.small_prints import kit_of, piece, project

MM = 320
TOOLS = [
    {"id": "scallop", "kind": "punch", "bite": "3", "pitch": "7"},
    {"id": "deckle", "kind": "decorative", "bite": "1"},
]

shapes: st.SearchStrategy[Any] = st.sampled_from(
    [
        {},
        {"shape": {"kind": "ellipse"}},
        {"shape": {"kind": "rounded", "radius": "3"}},
        {"shape": {"kind": "arch", "rise": "2"}},
        {"shape": {"kind": "polygon", "points": [["0", "0"], ["1", "0"], ["1", "0.5"], ["0.2", "1"]]}},
    ]
)
edges: st.SearchStrategy[Any] = st.sampled_from(
    [{}, {"bottom": "scallop"}, {"left": "deckle", "top": "scallop"}, {"right": "scallop"}]
)


def tenths(least: int, most: int) -> st.SearchStrategy[str]:
    return st.integers(least, most).map(lambda n: f"{n // 10}.{n % 10}")


@st.composite
def windows(draw: st.DrawFn, name: str) -> dict[str, Any]:
    """A window by two measures on each axis; it may well lie outside its piece."""
    across = draw(st.sampled_from([("left", "right"), ("left", "width"), ("width", "right")]))
    up = draw(st.sampled_from([("bottom", "top"), ("bottom", "height"), ("height", "top")]))
    return {"id": name, **draw(shapes), **{side: draw(tenths(1, 400)) for side in (*across, *up)}}


@settings(max_examples=150, deadline=None)
@given(st.data(), st.integers(20, 90), st.sampled_from([145, 229]))
def test_figures_and_letters_of_pieces_meet_neither_each_other_nor_a_line(data, room, line):
    names = ["pane", "a-window-with-a-long-name", "w", "x", "y"]
    made = piece(
        data.draw(st.sampled_from(["A", "WWW", "front-panel"])),
        data.draw(tenths(1, 1500)),
        data.draw(tenths(1, 1500)),
        windows=[data.draw(windows(name)) for name in names[: data.draw(st.integers(0, 5))]],
        edges=data.draw(edges),
        size_is=data.draw(st.sampled_from(["cut", "finished"])),
        **data.draw(shapes),
    )
    kit = kit_of(project(made), tools=TOOLS)
    drawn = piece_drawing(
        kit.projects[0].pieces[0],
        lambda ticks: shown(ticks, "mm", 32),
        name="n",
        unit="mm",
        room=(room * MM, room * MM),
        line=line,
        tools={tool.id: tool for tool in kit.tools},
    )
    assert collisions(drawn.drawing.svg) == []
    assert outside(drawn.drawing.svg) == []
