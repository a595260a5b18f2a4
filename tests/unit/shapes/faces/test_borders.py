"""Borders and overhang: by hand, on a board of 70 × 50 mm. Numbers in millimetres."""

from __future__ import annotations

import pytest

from layouts.shapes.faces import lying_in, overhang, uneven_borders, wrong_borders
from tests.unit.proofing.small_prints import MM, kit_of, paper, piece, project
from tests.unit.shapes.faces.on_a_board import in_mm, one_on_board, put

_MIDDLE = {"centred": True, "middle": True}


def _wrong(lying):
    return {one.side: (one.claimed / MM, one.true / MM) for one in wrong_borders(lying)}


@pytest.mark.parametrize(
    ("size", "placement", "wrong"),
    [
        # Common practice: a panel that covers a face is the face less twice the border; 70 - 6 and 50 - 6.
        pytest.param(("64", "44"), {**_MIDDLE, "border": "3"}, {}, id="an even border all round"),
        pytest.param(
            ("64", "44"),
            {**_MIDDLE, "border": "2"},
            {"left": (2, 3), "right": (2, 3), "top": (2, 3), "bottom": (2, 3)},
            id="wrong all round",
        ),
        pytest.param(
            ("65", "44"),
            {**_MIDDLE, "border": "3"},
            {"left": (3, 2.5), "right": (3, 2.5)},
            id="half a millimetre too wide",
        ),
        pytest.param(
            ("64", "44"), {"left": "3", "top": "3", "border": {"right": "3", "bottom": "3"}}, {}, id="the far sides"
        ),
        pytest.param(
            ("64", "44"), {"left": "3", "top": "3", "border": {"right": "4"}}, {"right": (4, 3)}, id="one far side"
        ),
        pytest.param(("64", "44"), {"border": "3"}, {}, id="no position, but both borders add up"),
        pytest.param(
            ("64", "44"),
            {"border": "4"},
            {"across": (8, 6), "up": (8, 6)},
            id="no position, and both borders are more than there is",
        ),
        pytest.param(("64", "44"), {"border": {"left": "6"}}, {}, id="no position: one border may take all"),
        pytest.param(("64", "44"), {"border": {"left": "7"}}, {"across": (7, 6)}, id="no position: more than all"),
        pytest.param(("70", "50"), {**_MIDDLE, "border": "0"}, {}, id="flush"),
        pytest.param(
            ("74", "44"),
            {**_MIDDLE, "border": "3", "wraps": ["left", "right"]},
            {},
            id="a claim for all sides leaves out those that are wrapped",
        ),
        pytest.param(
            ("74", "44"), {**_MIDDLE, "border": "3"}, {"left": (3, -2), "right": (3, -2)}, id="a border that overhangs"
        ),
    ],
)
def test_claimed_borders_are_held_against_true_ones(size, placement, wrong):
    assert _wrong(one_on_board(size, **placement)) == wrong


@pytest.mark.parametrize(
    ("size", "placement", "more"),
    [
        pytest.param(("70", "50"), _MIDDLE, {}, id="as large as the face"),
        pytest.param(("70.5", "50"), _MIDDLE, {"left": 0.25, "right": 0.25}, id="half a millimetre wider"),
        pytest.param(("30", "20"), {"left": "41", "bottom": "0"}, {"right": 1}, id="over the right edge"),
        pytest.param(("30", "20"), {"left": "0", "bottom": "31"}, {"top": 1}, id="over the top"),
        pytest.param(("30", "20"), {"right": "41", "top": "31"}, {"left": 1, "bottom": 1}, id="over two edges"),
        pytest.param(("71", "52"), {}, {"across": 1, "up": 2}, id="too large, wherever it lies"),
        pytest.param(("71", "20"), {"top": "0"}, {"across": 1}, id="too wide, wherever it lies"),
        pytest.param(("30", "20"), {"left": "60", "bottom": "0", "wraps": ["right"]}, {}, id="turned over an edge"),
        pytest.param(("80", "20"), {**_MIDDLE, "wraps": ["right"]}, {"left": 5}, id="turned over one of two edges"),
        pytest.param(("80", "20"), {"bottom": "0", "wraps": ["right"]}, {}, id="how much of it turns, nobody knows"),
        pytest.param(("30", "60"), {**_MIDDLE, "turn": 90}, {}, id="turned it fits"),
        pytest.param(("30", "60"), _MIDDLE, {"top": 5, "bottom": 5}, id="not turned it does not"),
    ],
)
def test_what_reaches_beyond_the_edges_is_told_side_by_side(size, placement, more):
    assert in_mm(overhang(one_on_board(size, **placement))) == more


_TRAY = {"id": "tray", "name": "tray", "as": "tray", "paper": "oak", "inside": ["40", "30"], "depth": "10"}


@pytest.mark.parametrize(
    ("width", "on", "wraps", "more"),
    [
        # The base is 40 mm wide; over its left and right folds stand walls 10 mm deep.
        pytest.param("60", "base", ["left", "right"], {}, id="up to the rims of both walls"),
        pytest.param("62", "base", ["left", "right"], {"left": 1, "right": 1}, id="over both rims"),
        pytest.param("60", "base", ["left"], {"right": 10}, id="turned over one fold only"),
        pytest.param("48", "wall-bottom", ["left"], {"right": 4}, id="over an edge that is no fold"),
        pytest.param("48", "wall-bottom", ["left", "right"], {}, id="around corners: nobody knows"),
    ],
)
def test_what_turns_over_a_fold_is_held_against_the_panel_there(width, on, wraps, more):
    placement = put("it", "A", **_MIDDLE, wraps=wraps) | {"on": {"form": "tray", "panel": on}}
    (lying,) = lying_in(kit_of(project(piece("A", width, "8"), forms=[_TRAY], placements=[placement])))

    assert in_mm(overhang(lying)) == more


@pytest.mark.parametrize(
    ("size", "placement", "uneven"),
    [
        pytest.param(("64", "44"), _MIDDLE, False, id="3 mm all round"),
        pytest.param(("64", "42"), _MIDDLE, True, id="3 mm across, 4 mm up"),
        pytest.param(("64", "44"), {"left": "2.5", "middle": True}, True, id="half a millimetre off"),
        pytest.param(("64", "44"), {"left": "2", "middle": True}, False, id="twice as much on one side is meant"),
        pytest.param(("64", "38"), _MIDDLE, False, id="twice as much above and below is meant"),
        pytest.param(("64", "43.9"), _MIDDLE, False, id="less than can be measured"),
        pytest.param(("40", "26"), _MIDDLE, False, id="it covers less than half"),
        pytest.param(("64", "42"), {**_MIDDLE, "border": {"left": "3", "top": "4"}}, False, id="claimed unequal"),
        pytest.param(("64", "42"), {"left": "3"}, False, id="not all borders are known"),
    ],
)
def test_a_mat_with_nearly_equal_borders_looks_uneven(size, placement, uneven):
    """A step of a millimetre, so that 3 and 3.05 mm are one border; the least difference that counts is half a step."""
    assert (uneven_borders(one_on_board(size, **placement), MM // 2) is not None) == uneven


@pytest.mark.parametrize(
    ("claim", "wrong"),
    [
        # Paper of 0.5 mm, 40 mm inside: 40.5 mm from score to score, 3.25 mm beside 34 mm; 1 mm is uncertain.
        pytest.param("3", {}, id="within what the thickness leaves open"),
        pytest.param("4.25", {}, id="just within"),
        pytest.param("4.5", {"left": (4.5, 3.25)}, id="beyond it"),
    ],
)
def test_a_border_on_a_box_is_as_certain_as_its_walls_are_thin(claim, wrong):
    placement = put("it", "A", **_MIDDLE, border={"left": claim}) | {"on": {"form": "tray", "panel": "base"}}
    kit = kit_of(project(piece("A", "34", "8"), forms=[_TRAY], placements=[placement]), papers=[paper(caliper_um=500)])
    (lying,) = lying_in(kit)

    assert _wrong(lying) == wrong
