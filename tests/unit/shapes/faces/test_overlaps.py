"""Which placements lie over each other: pieces of 30 × 20 mm on a board of 70 × 50 mm."""

from __future__ import annotations

import pytest

from layouts.shapes.faces import lying_in, overlaps_in
from tests.unit.proofing.small_prints import MM, kit_of, piece, project
from tests.unit.shapes.faces.on_a_board import board, put, put_on_board

_LEFT = {"left": "0", "bottom": "0"}


def _overlaps(kit):
    return [
        (one.first.placement.id, one.second.placement.id, one.common.width / MM, one.common.height / MM)
        for one in overlaps_in(lying_in(kit))
    ]


@pytest.mark.parametrize(
    ("first", "second", "found"),
    [
        pytest.param(_LEFT, {"left": "30", "bottom": "0"}, [], id="side by side"),
        pytest.param(_LEFT, {"left": "29.5", "bottom": "0"}, [("a", "b", 0.5, 20)], id="half a millimetre over"),
        pytest.param(_LEFT, {"left": "30", "bottom": "20"}, [], id="corner to corner"),
        pytest.param(_LEFT, _LEFT, [("a", "b", 30, 20)], id="one on the other"),
        pytest.param(_LEFT, {"left": "5", "bottom": "5", "turn": 90}, [("a", "b", 20, 15)], id="turned, in part"),
        pytest.param(_LEFT, {**_LEFT, "layer": "behind"}, [], id="of two layers"),
        pytest.param(_LEFT, {**_LEFT, "intends": ["overlap"]}, [], id="one of them means it"),
        pytest.param(_LEFT, {"left": "0"}, [], id="nobody knows how high the other lies"),
        pytest.param(
            {"copies": [{"on_copy": 1, **_LEFT}]},
            {"copies": [{"on_copy": 2, **_LEFT}]},
            [],
            id="on two copies of the board",
        ),
        pytest.param(
            {"copies": [{"on_copy": 2, **_LEFT}]}, _LEFT, [("a", "b", 30, 20)], id="one of them on every copy"
        ),
    ],
)
def test_what_lies_over_each_other_on_one_copy(first, second, found):
    assert _overlaps(put_on_board(put("a", "A", **first), put("b", "A", **second))) == found


_OVAL = {"shape": {"kind": "ellipse"}}
_ROUNDED = {"shape": {"kind": "rounded", "radius": "10"}}
_ARCH = {"shape": {"kind": "arch", "rise": "10"}}
# The lower left half of a rectangle of 30 × 20 mm, and the upper right one.
_LOW = {"shape": {"kind": "polygon", "points": [["0", "0"], ["30", "0"], ["0", "20"]]}}
_HIGH = {"shape": {"kind": "polygon", "points": [["30", "20"], ["0", "20"], ["30", "0"]]}}
# A frame corner 10 mm wide: left side and bottom.
_ANGLE = {
    "shape": {
        "kind": "polygon",
        "points": [["0", "0"], ["30", "0"], ["30", "10"], ["10", "10"], ["10", "20"], ["0", "20"]],
    }
}


@pytest.mark.parametrize(
    ("first", "second", "at", "found"),
    [
        # Half axes 15 and 10: in units of them the middles are (20/15, 15/10) apart, 2.007 > 2.
        pytest.param(_OVAL, _OVAL, ("20", "15"), [], id="ovals apart, their rectangles not"),
        # (20/15, 14.5/10): 1.970 < 2.
        pytest.param(_OVAL, _OVAL, ("20", "14.5"), [("a", "b", 10, 5.5)], id="ovals, half a millimetre lower"),
        pytest.param(_OVAL, _OVAL, ("30", "0"), [], id="ovals that touch"),
        # The corner of the other at (26, 17): (11/15)² + (7/10)² = 1.028; at (25, 17): (10/15)² + 0.49 = 0.934.
        pytest.param(_OVAL, {}, ("26", "17"), [], id="an oval, and a corner beyond it"),
        pytest.param(_OVAL, {}, ("25", "17"), [("a", "b", 5, 3)], id="an oval, and a corner in it"),
        # Corner circle of 10 mm about (20, 10): (7.2, 7.2) is 10.18 from it, (7, 7) is 9.90.
        pytest.param(_ROUNDED, {}, ("27.2", "17.2"), [], id="beyond a rounded corner"),
        pytest.param(_ROUNDED, {}, ("27", "17"), [("a", "b", 3, 3)], id="in a rounded corner"),
        # The top of the arch is half an oval about (15, 10), as above; below that its sides are straight.
        pytest.param(_ARCH, {}, ("26", "17"), [], id="beyond an arch"),
        pytest.param(_ARCH, {}, ("29", "9"), [("a", "b", 1, 11)], id="beside an arch, where it is straight"),
        pytest.param(_LOW, _HIGH, ("0", "0"), [], id="halves of a rectangle that touch along a diagonal"),
        pytest.param(
            _HIGH, _LOW, ("0.5", "0"), [("a", "b", 29.5, 20)], id="halves of a rectangle, half a millimetre over"
        ),
        pytest.param(_LOW, _LOW, ("0", "0"), [("a", "b", 30, 20)], id="one polygon on the other"),
        pytest.param(_ANGLE, {}, ("10", "10"), [], id="in the corner of an angle"),
        pytest.param(_ANGLE, {}, ("10", "9.5"), [("a", "b", 20, 10.5)], id="half a millimetre into an angle"),
    ],
)
def test_shapes_lie_over_each_other_where_their_outlines_do(first, second, at, found):
    kit = put_on_board(
        put("a", "A", left="0", bottom="0"),
        put("b", "B", left=at[0], bottom=at[1]),
        pieces=[piece("A", "30", "20", **first), piece("B", "30", "20", **second)],
    )

    assert _overlaps(kit) == found


@pytest.mark.parametrize(
    ("turn", "found"),
    [
        # Turned by a half the lower left half is the upper right one.
        pytest.param(0, [("a", "b", 30, 20)], id="as it is"),
        pytest.param(180, [], id="turned by a half"),
    ],
)
def test_a_shape_that_is_turned_lies_where_it_lies_then(turn, found):
    kit = put_on_board(
        put("a", "A", **_LEFT), put("b", "A", **_LEFT, turn=turn), pieces=[piece("A", "30", "20", **_LOW)]
    )

    assert _overlaps(kit) == found


def test_a_polygon_with_decorative_edges_is_judged_by_its_rectangle():
    """What the edges leave of its outline is not known."""
    scissors = {"id": "waves", "name": "waves", "kind": "scissors", "bite": "1"}
    kit = put_on_board(
        put("a", "A", **_LEFT),
        put("b", "B", **_LEFT),
        pieces=[piece("A", "30", "20", **_LOW), piece("B", "30", "20", **_HIGH, edges={"top": "waves"})],
        tools=[scissors],
    )

    assert _overlaps(kit) == [("a", "b", 30, 19)]


def test_copies_of_one_placement_may_lie_over_each_other():
    copies = [
        {"on_copy": 1, **_LEFT},
        {"on_copy": 1, "left": "25", "bottom": "0"},
        {"on_copy": 1, "left": "40", "bottom": "30"},
    ]

    assert _overlaps(put_on_board(put("a", "A", copies=copies))) == [("a", "a", 5, 20)]


@pytest.mark.parametrize(
    ("bottom", "found"),
    [
        pytest.param("15", [], id="in the window"),
        pytest.param("14.9", [("mat", "view", 30, 20)], id="a tenth under the mat"),
    ],
)
def test_what_lies_in_a_window_is_framed_and_not_covered(bottom, found):
    mat = piece("M", "70", "50", windows=[{"id": "w", "left": "20", "width": "30", "bottom": "15", "height": "20"}])
    kit = put_on_board(
        put("mat", "M", **_LEFT), put("view", "A", left="20", bottom=bottom), pieces=[mat, piece("A", "30", "20")]
    )
    assert _overlaps(kit) == found


@pytest.mark.parametrize(
    ("count", "found"),
    [pytest.param(1, [("a", "b", 30, 20)], id="one board for all"), pytest.param(2, [], id="a board for each project")],
)
def test_projects_share_a_blank_of_which_there_is_one(count, found):
    first = project(piece("A", "30", "20"), placements=[put("a", "A", **_LEFT)])
    second = project(piece("A", "30", "20"), placements=[put("b", "A", **_LEFT)], id_="q")
    kit = kit_of(first, second, blanks=[{**board(), "count": count}])

    assert _overlaps(kit) == found


_TRAY = {"id": "tray", "name": "tray", "as": "tray", "paper": "oak", "inside": ["40", "30"], "depth": "10"}


@pytest.mark.parametrize(
    ("wall", "at", "found"),
    [
        # A strip of 50 × 8 mm lies across the middle of the base: 5 mm of it turn up each wall, 11 to 19 mm from below.
        pytest.param("wall-right", {"left": "0", "bottom": "15"}, [("strip", "dot", 4, 4)], id="right, at the fold"),
        pytest.param("wall-right", {"left": "0", "bottom": "19"}, [], id="right, above the strip"),
        pytest.param("wall-right", {"left": "5", "bottom": "15"}, [], id="right, beyond the strip"),
        pytest.param("wall-left", {"left": "2", "bottom": "15"}, [("strip", "dot", 1, 4)], id="left, in part"),
        pytest.param("wall-left", {"left": "1", "bottom": "15"}, [], id="left, up to the strip"),
        pytest.param("wall-right", {"left": "0", "bottom": "15", "layer": "behind"}, [], id="in another layer"),
        pytest.param("wall-top", {"left": "0", "bottom": "0"}, [], id="on a wall that it does not turn over"),
    ],
)
def test_what_turns_over_a_fold_meets_what_lies_on_the_panel_there(wall, at, found):
    strip = put("strip", "A", centred=True, middle=True, wraps=["left", "right"])
    dot = put("dot", "B", **at)
    kit = kit_of(
        project(
            piece("A", "50", "8"),
            piece("B", "4", "4"),
            forms=[_TRAY],
            placements=[
                strip | {"on": {"form": "tray", "panel": "base"}},
                dot | {"on": {"form": "tray", "panel": wall}},
            ],
        )
    )

    assert _overlaps(kit) == found


def test_two_strips_that_cross_a_fold_meet_behind_it():
    """8 mm wide both, one 2 mm above the other: 6 mm of them lie over each other on the base and on both walls."""
    on = {"on": {"form": "tray", "panel": "base"}}
    low, high = (
        put(name, letter, centred=True, bottom=bottom, wraps=["left", "right"]) | on
        for name, letter, bottom in (("low", "A", "10"), ("high", "B", "12"))
    )
    kit = kit_of(project(piece("A", "50", "8"), piece("B", "50", "8"), forms=[_TRAY], placements=[low, high]))

    assert _overlaps(kit) == [("low", "high", 50, 6), ("low", "high", 5, 6), ("low", "high", 5, 6)]
