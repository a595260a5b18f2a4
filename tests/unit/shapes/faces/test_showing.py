"""What shows of each layer: areas by hand, in square millimetres."""

from __future__ import annotations

import pytest

from layouts.shapes import NotBuilt
from layouts.shapes.faces import MOST_LAYERS, layers_on, lying_in
from tests.unit.proofing.small_prints import MM, kit_of, piece, project
from tests.unit.shapes.faces.on_a_board import put, put_on_board


def _layers(kit, on_copy=1):
    lying = lying_in(kit)
    return [
        (layer.lying and layer.lying.placement.id, layer.area / MM**2, layer.showing / MM**2)
        for layer in layers_on(lying[0].surface, lying, on_copy)
    ]


_OPENING = {"opening": {"left": "20", "width": "30", "bottom": "10", "height": "20"}}
_MIDDLE = {"centred": True, "middle": True}


def test_a_border_shows_around_a_mat_and_around_its_picture():
    """70 × 50 = 3500; the mat 64 × 44 = 2816 leaves 684; the picture 58 × 38 = 2204 leaves 612 of the mat."""
    kit = put_on_board(
        put("mat", "M", **_MIDDLE), put("view", "A", **_MIDDLE), pieces=[piece("M", "64", "44"), piece("A", "58", "38")]
    )
    assert _layers(kit) == [(None, 3500, 684), ("mat", 2816, 612), ("view", 2204, 2204)]


def test_what_lies_behind_shows_in_the_opening_only():
    """The opening of 30 × 20 = 600 is taken out of the board; of a view of 40 × 30 behind it 600 show."""
    view = put("view", "A", left="15", bottom="5", layer="behind")
    kit = put_on_board(view, pieces=[piece("A", "40", "30")], face=_OPENING)

    assert _layers(kit) == [("view", 1200, 600), (None, 2900, 2900)]


def test_the_first_behind_lies_next_to_the_support():
    kit = put_on_board(
        put("film", "F", left="15", bottom="5", layer="behind"),
        put("view", "A", left="15", bottom="5", layer="behind"),
        pieces=[piece("F", "40", "30"), piece("A", "40", "30")],
        face=_OPENING,
    )
    assert _layers(kit) == [("view", 1200, 0), ("film", 1200, 600), (None, 2900, 2900)]


def test_a_window_shows_what_is_below_and_the_topmost_hides():
    """The mat has a window of 30 × 20 = 600: the board shows there, but for 100 under the label of 10 × 10."""
    window = {"id": "w", "left": "20", "width": "30", "bottom": "10", "height": "20"}
    kit = put_on_board(
        put("mat", "M", left="0", bottom="0"),
        put("label", "A", left="45", bottom="20"),
        pieces=[piece("M", "70", "50", windows=[window]), piece("A", "10", "10")],
    )
    lying = lying_in(kit)
    below, mat, label = layers_on(lying[0].surface, lying)

    # Of the label, 5 × 10 lie over the window and 5 × 10 over the mat, which hides the board there no more: the topmost
    # hides. 3500 - 600 - 50 = 2850.
    assert [layer.showing for layer in (below, mat, label)] == [550 * MM**2, 2850 * MM**2, 100 * MM**2]
    assert {layer: area / MM**2 for layer, area in below.hidden_by.items()} == {1: 2850, 2: 100}
    assert {layer: area / MM**2 for layer, area in mat.hidden_by.items()} == {2: 50}
    assert mat.area == mat.showing + mat.hidden == mat.showing + sum(mat.hidden_by.values())


def test_only_what_lies_on_that_copy_counts():
    kit = put_on_board(put("a", "A", copies=[{"on_copy": 2, "left": "0", "bottom": "0"}]))

    assert _layers(kit) == [(None, 3500, 3500)]
    assert _layers(kit, on_copy=2) == [(None, 3500, 2900), ("a", 600, 600)]


def test_too_many_layers_and_a_support_without_a_size_are_refused():
    many = put_on_board(put("a", "A", copies=[{"on_copy": 1, "left": "0", "bottom": "0"}] * MOST_LAYERS))
    with pytest.raises(NotBuilt, match=str(MOST_LAYERS)):
        _layers(many)
    book = {"id": "f", "name": "f", "as": "concertina", "paper": "oak", "panel": ["40", "30"], "panels": 3}
    placement = put("a", "A") | {"on": {"form": "f", "panel": "panel-9"}}
    with pytest.raises(NotBuilt, match="panel-9"):
        _layers(kit_of(project(piece("A", "8", "8"), forms=[book], placements=[placement])))
