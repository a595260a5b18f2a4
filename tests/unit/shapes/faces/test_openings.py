"""Things over openings: a board of 70 × 50 mm whose opening lies 20 mm in and 10 mm up and is 30 × 20 mm large."""

from __future__ import annotations

import pytest

from layouts.shapes.faces import lying_in, rims_in, unsupported_in
from tests.unit.proofing.small_prints import MM, kit_of, piece, project
from tests.unit.shapes.faces.on_a_board import in_mm, mm, one_on_board

_OPENING = {"left": "20", "width": "30", "bottom": "10", "height": "20"}
_ROUND = {**_OPENING, "shape": {"kind": "ellipse"}}
_WHOLE = {"left": "0", "bottom": "0"}


def _window(left: str, bottom: str, width: str, height: str, **more: object) -> dict[str, object]:
    return {"windows": [{"id": "w", "left": left, "bottom": bottom, "width": width, "height": height, **more}]}


def _seen(size, opening=_OPENING, of_piece=None, **placement):
    lying = [one_on_board(size, face={"opening": opening}, of_piece=of_piece, **placement)]
    return unsupported_in(lying), rims_in(lying)


@pytest.mark.parametrize(
    ("size", "placement", "over", "reach"),
    [
        # over: width and height of the opening that is covered; reach: from its left, right, top, bottom edge.
        pytest.param(("20", "50"), _WHOLE, None, None, id="up to the edge of the opening"),
        pytest.param(("21", "50"), _WHOLE, (1, 20), (1, 0, 0, 0), id="a millimetre over it from the left"),
        pytest.param(("70", "50"), _WHOLE, (30, 20), (0, 0, 0, 0), id="covered, right across"),
        pytest.param(("70", "12"), {"left": "0", "top": "18"}, (30, 10), (0, 0, 10, 0), id="an awning from the top"),
        pytest.param(
            ("10", "10"), {"left": "30", "bottom": "15"}, (10, 10), (0, 0, 0, 0), id="within: held by nothing"
        ),
        pytest.param(
            ("30", "20"), {"left": "20", "bottom": "10", "layer": "behind"}, (30, 20), (0, 0, 0, 0), id="behind"
        ),
        pytest.param(
            ("31", "20"), {"left": "20", "bottom": "10", "layer": "behind"}, None, None, id="behind, with a hold"
        ),
        pytest.param(("30", "20"), {"left": "20"}, None, None, id="nobody knows where it lies"),
    ],
)
def test_paper_over_an_opening_is_unsupported(size, placement, over, reach):
    unsupported, rims = _seen(size, **placement)

    assert not rims
    assert [(one.over.width / MM, one.over.height / MM) for one in unsupported] == ([] if over is None else [over])
    assert [tuple(in_mm(one.reach).values()) for one in unsupported] == ([] if reach is None else [reach])


@pytest.mark.parametrize(
    ("window", "reach", "shows"),
    [
        pytest.param(_window("20", "10", "30", "20"), None, (0, 0, 0, 0), id="as large as the opening"),
        pytest.param(_window("19", "8", "34", "25"), None, (1, 3, 3, 2), id="larger: the rim shows"),
        pytest.param(_window("21", "10", "28", "20"), (1, 1, 0, 0), None, id="smaller: paper stands out on both sides"),
        pytest.param(_window("20", "10", "30", "19"), (0, 0, 1, 0), None, id="smaller: paper hangs from above"),
        pytest.param(_window("25", "10", "30", "20"), (5, 0, 0, 0), None, id="off to the right"),
        pytest.param(_window("51", "10", "10", "20"), (0, 0, 0, 0), None, id="beside the opening"),
        pytest.param(
            _window("18", "8", "34", "24", shape={"kind": "ellipse"}), (0, 0, 0, 0), (2, 2, 2, 2), id="too round"
        ),
        # An ellipse around a rectangle of 30 × 20 mm has sides √2 times as long, 42.4… × 28.3…
        pytest.param(_window("13", "5", "44", "30", shape={"kind": "ellipse"}), None, (7, 7, 5, 5), id="round enough"),
    ],
)
def test_an_opening_is_seen_through_a_window_as_large_or_larger(window, reach, shows):
    unsupported, rims = _seen(("70", "50"), of_piece=window, **_WHOLE)

    assert [tuple(in_mm(one.reach).values()) for one in unsupported] == ([] if reach is None else [reach])
    assert [tuple(in_mm(rim.shows).values()) for rim in rims] == ([] if shows is None else [shows])


def test_several_windows_may_open_it_together():
    halves = [
        {"id": "w", "left": "20", "bottom": "10", "width": "15", "height": "20"},
        {"id": "v", "left": "35", "bottom": "10", "width": "15", "height": "20"},
    ]
    assert _seen(("70", "50"), of_piece={"windows": halves}, **_WHOLE) == ((), ())
    bar = [halves[0], {**halves[1], "left": "36", "width": "14"}]
    assert len(_seen(("70", "50"), of_piece={"windows": bar}, **_WHOLE)[0]) == 1


@pytest.mark.parametrize(
    ("size", "placement", "held"),
    [
        # The ellipse is 30 × 20 mm about (35, 20). At (35 - 12, 20 - 8): (12/15)² + (8/10)² = 1.28, outside.
        pytest.param(("23", "12"), _WHOLE, True, id="in the corner beside the curve"),
        # At (35 - 9, 20 - 7): (9/15)² + (7/10)² = 0.85, inside.
        pytest.param(("26", "13"), _WHOLE, False, id="over the curve"),
    ],
)
def test_a_round_opening_is_judged_by_its_outline(size, placement, held):
    unsupported, _ = _seen(size, opening=_ROUND, **placement)

    assert (not unsupported) == held


def test_a_round_opening_is_seen_through_an_equal_window_and_not_through_a_smaller_one():
    equal = _window("20", "10", "30", "20", shape={"kind": "ellipse"})
    smaller = _window("21", "11", "28", "18", shape={"kind": "ellipse"})

    assert not _seen(("70", "50"), opening=_ROUND, of_piece=equal, **_WHOLE)[0]
    unsupported, _ = _seen(("70", "50"), opening=_ROUND, of_piece=smaller, **_WHOLE)
    assert [tuple(in_mm(one.reach).values()) for one in unsupported] == [(1, 1, 1, 1)]


def test_many_openings_are_looked_at_as_few_are():
    """Twelve windows of a mat, 5 mm wide with 5 mm between, under a strip that ends in the fourth of them."""
    windows = [
        {"id": f"w{at}", "left": str(5 + 10 * at), "width": "5", "bottom": "10", "height": "10"} for at in range(12)
    ]
    mat, strip = piece("M", "130", "30", windows=windows), piece("S", "37", "12")
    placement = {"id": "it", "put": {"piece": "S"}, "on": {"piece": "M"}, "left": "0", "bottom": "0"}
    found = unsupported_in(lying_in(kit_of(project(mat, strip, placements=[placement]))))

    assert [one.opening.place for one in found] == [f"project:p/piece:M/window:w{at}" for at in range(4)]
    assert [(mm(one.over.width), mm(one.over.height)) for one in found] == [(5, 2), (5, 2), (5, 2), (2, 2)]


@pytest.mark.parametrize(
    ("size", "position", "held"),
    [
        # The mat is hollow from (20, 10) to (50, 30): what another layer hides need not be paper (common practice, no
        # source), but that layer must rest on the mat all round.
        pytest.param(("34", "24"), {"left": "18", "bottom": "8"}, True, id="resting on 2 mm all round"),
        pytest.param(("32", "24"), {"left": "20", "bottom": "8"}, False, id="nothing to rest on at the left"),
        pytest.param(("20", "24"), {"left": "18", "bottom": "8"}, False, id="covering it in part"),
    ],
)
def test_a_mat_may_be_hollowed_out_under_what_covers_it(size, position, held):
    mat = piece("M", "70", "50", windows=[{"id": "w", **_OPENING}])
    placement = {"id": "it", "put": {"piece": "A"}, "on": {"piece": "M"}, **position}
    lying = lying_in(kit_of(project(mat, piece("A", *size), placements=[placement])))

    assert (not unsupported_in(lying)) == held
