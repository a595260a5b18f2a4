"""Cut sizes. The bite of a border punch is added to the strip before punching (common practice, no source)."""

from __future__ import annotations

import pytest

from layouts.document import Piece, Tool
from layouts.document.values import ReadingContext
from layouts.shapes import cut_size, finished_size

CONTEXT = ReadingContext("in", {})
TOOLS = {
    "scallop": Tool.model_validate({"id": "scallop", "kind": "punch", "bite": "3/8"}, context=CONTEXT),
    "deckle": Tool.model_validate({"id": "deckle", "kind": "decorative", "bite": "1/16"}, context=CONTEXT),
    "shears": Tool.model_validate({"id": "shears", "kind": "scissors"}, context=CONTEXT),
}


FRAMED = {"left": "scallop", "right": "scallop", "top": "deckle", "bottom": "scallop"}


def sizes(measure=cut_size, **fields) -> tuple[str, str]:
    piece = Piece.model_validate({"id": "A", "name": "A", "paper": "p", "size": ["6", "2"], **fields}, context=CONTEXT)
    found = measure(piece, TOOLS)
    return found.width.text("in"), found.height.text("in")


@pytest.mark.parametrize("edges", [{}, {"top": "scallop"}, FRAMED])
def test_a_cut_size_is_cut_as_it_is_whatever_its_edges(edges):
    assert sizes(edges=edges) == sizes(edges=edges, size_is="cut") == ("6", "2")


@pytest.mark.parametrize(
    ("edges", "expected"),
    [
        pytest.param({}, ("6", "2"), id="straight edges"),
        pytest.param({"top": "scallop"}, ("6", "2 3/8"), id="top adds to the height"),
        pytest.param({"bottom": "deckle"}, ("6", "2 1/16"), id="bottom too"),
        pytest.param({"left": "scallop"}, ("6 3/8", "2"), id="left adds to the width"),
        pytest.param({"right": "deckle"}, ("6 1/16", "2"), id="right too"),
        pytest.param(FRAMED, ("6 3/4", "2 7/16"), id="each edge by its own tool"),
        pytest.param({"top": "shears"}, ("6", "2"), id="a tool without a bite"),
    ],
)
def test_a_finished_size_is_cut_larger_by_the_bite_of_each_edge(edges, expected):
    assert sizes(edges=edges, size_is="finished") == expected


@pytest.mark.parametrize(
    ("edges", "expected"),
    [
        pytest.param({}, ("6", "2"), id="straight edges"),
        pytest.param({"top": "scallop"}, ("6", "1 5/8"), id="top takes from the height"),
        pytest.param({"left": "scallop", "right": "deckle"}, ("5 9/16", "2"), id="left and right from the width"),
        pytest.param(FRAMED, ("5 1/4", "1 9/16"), id="each edge by its own tool"),
    ],
)
def test_what_is_left_of_a_cut_size_is_less_by_the_bite_of_each_edge(edges, expected):
    assert sizes(finished_size, edges=edges, size_is="cut") == expected
    assert sizes(finished_size, edges=edges, size_is="finished") == ("6", "2")
