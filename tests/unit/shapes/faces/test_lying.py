"""Where placements lie: by hand, on a board of 70 × 50 mm with a piece of 30 × 20 mm. One millimetre is 320 ticks."""

from __future__ import annotations

from fractions import Fraction

import pytest

from layouts.shapes.faces import MOST_LYING, lying_in
from tests.unit.proofing.small_prints import kit_of, paper, piece, project
from tests.unit.shapes.faces.on_a_board import BOARD, board, in_mm, mm, one_on_board, put, put_on_board


@pytest.mark.parametrize(
    ("position", "left", "right", "top", "bottom"),
    [
        pytest.param({"left": "5", "top": "4"}, 5, 35, 4, 26, id="from the left and the top"),
        pytest.param({"right": "5", "bottom": "4"}, 35, 5, 26, 4, id="from the right and the bottom"),
        pytest.param({"centred": True, "middle": True}, 20, 20, 15, 15, id="in the middle"),
        pytest.param({"left": "0", "middle": True, "turn": 90}, 0, 50, 10, 10, id="turned"),
        pytest.param({"left": "50", "bottom": "0"}, 50, -10, 30, 0, id="over the right edge"),
        pytest.param({}, None, None, None, None, id="nowhere is not the middle"),
        pytest.param({"left": "5"}, 5, 35, None, None, id="on one axis only"),
        pytest.param({"border": "20"}, None, None, None, None, id="a claim is no position"),
    ],
)
def test_what_is_said_of_a_position_gives_all_four_borders(position, left, right, top, bottom):
    borders = in_mm(one_on_board(**position).borders)

    assert borders == {"left": left, "right": right, "top": top, "bottom": bottom}


def test_an_odd_rest_is_shared_to_the_half_tick():
    """70 mm are 22,400 ticks, and 30.003125 mm are 9,601: 12,799 are left over."""
    lying = one_on_board(size=("30.003125", "20"), centred=True, middle=True)

    assert lying.across.low == lying.across.high == Fraction(12_799, 2)


def test_what_has_no_size_has_no_rectangle_and_keeps_the_border_that_is_said():
    embellishments = [{"id": "s", "name": "sheet", "elements": [{"id": "e", "name": "star", "count": 9}]}]
    placement = {"id": "it", "put": {"element": "s/e"}, "on": BOARD, "left": "5", "middle": True}
    (lying,) = lying_in(put_on_board(placement, embellishments=embellishments))

    assert in_mm(lying.borders) == {"left": 5, "right": None, "top": None, "bottom": None}
    assert lying.rectangle is None


@pytest.mark.parametrize(
    ("turn", "around"),
    [
        # A window 3 mm from the left and 2 mm up, 10 × 5 mm, in 30 × 20 mm: 17 mm on the right, 13 mm above.
        pytest.param(0, (3, 2, 13, 7), id="0"),
        pytest.param(90, (13, 3, 18, 13), id="90: what was above is on the left"),
        pytest.param(180, (17, 13, 27, 18), id="180: right is left"),
        pytest.param(270, (2, 17, 7, 27), id="270: what was below is on the left"),
    ],
)
def test_windows_turn_with_their_piece(turn, around):
    window = {"id": "w", "left": "3", "bottom": "2", "width": "10", "height": "5"}
    lying = one_on_board(of_piece={"windows": [window]}, left="0", bottom="0", turn=turn)

    (hole,) = lying.windows
    assert tuple(map(mm, hole.around)) == around


def test_a_piece_lies_as_large_as_its_finished_size_and_so_do_its_windows():
    """Wave scissors take 2 mm from the left and the top: 28 × 18 mm are left, and the window is 1 mm from the edge."""
    tools = [{"id": "wave", "kind": "decorative", "bite": "2"}]
    window = {"id": "w", "left": "3", "bottom": "2", "width": "10", "height": "5"}
    wavy = piece("A", "30", "20", edges={"left": "wave", "top": "wave"}, windows=[window])
    (lying,) = lying_in(put_on_board(put("it", "A", left="0", bottom="0"), pieces=[wavy], tools=tools))

    assert in_mm(lying.borders) == {"left": 0, "right": 42, "top": 32, "bottom": 0}
    assert tuple(map(mm, lying.windows[0].around)) == (1, 2, 11, 7)


def test_each_is_told_once_and_a_list_copy_by_copy():
    listed = put("listed", "A", copies=[{"on_copy": 1, "left": "0"}, {"on_copy": 2, "right": "0", "turn": 90}])
    found = lying_in(put_on_board(put("each", "A", left="1"), listed))

    assert [(one.place, one.on_copy, mm(one.across.span)) for one in found] == [
        ("project:p/placement:each", None, 30),
        ("project:p/placement:listed/copies/1", 1, 30),
        ("project:p/placement:listed/copies/2", 2, 20),
    ]


_FORMS = [
    {"id": "book", "name": "book", "as": "concertina", "paper": "oak", "panel": ["40", "30"], "panels": 3},
    {"id": "rim", "name": "rim", "as": "frame", "paper": "oak", "opening": ["30", "20"], "width": "5"},
    # Score to score 40 × 30 mm: the paper's thickness is not stated.
    {"id": "tray", "name": "tray", "as": "tray", "paper": "oak", "inside": ["40", "30"], "depth": "10"},
]


@pytest.mark.parametrize(
    ("on", "size"),
    [
        pytest.param({"form": "book", "panel": "panel-2"}, (40, 30), id="a panel of a concertina"),
        pytest.param({"form": "book", "panel": "panel-4"}, (None, None), id="a panel that is not there"),
        pytest.param({"form": "tray", "panel": "base"}, (40, 30), id="a base"),
        pytest.param({"form": "tray", "panel": "wall-bottom"}, (40, 10), id="a wall"),
    ],
)
def test_panels_of_forms_are_put_upon(on, size):
    kit = kit_of(project(piece("A", "8", "8"), forms=_FORMS, placements=[{**put("it", "A"), "on": on}]))
    (lying,) = lying_in(kit)

    found = lying.surface.width, lying.surface.height
    assert tuple(map(mm, found)) == size


@pytest.mark.parametrize(
    ("size", "wall"),
    [
        # The left wall of the tray is 10 mm wide and 30 mm high as it lies flat; it stands 30 mm wide and 10 mm high.
        pytest.param(("8", "28"), (10, 30), id="as it lies flat"),
        pytest.param(("28", "8"), (30, 10), id="as it is seen standing"),
        pytest.param(("8", "8"), (10, 30), id="either would do"),
        pytest.param(("31", "8"), (10, 30), id="neither would do"),
    ],
)
def test_a_side_wall_is_read_the_way_in_which_it_fits(size, wall):
    placement = put("it", "A", centred=True, middle=True) | {"on": {"form": "tray", "panel": "wall-left"}}
    (lying,) = lying_in(kit_of(project(piece("A", *size), forms=_FORMS, placements=[placement])))

    assert (mm(lying.surface.width), mm(lying.surface.height)) == wall


@pytest.mark.parametrize(
    ("put_form", "size"),
    [
        pytest.param("book", (40, 30), id="a folded concertina is a panel large"),
        pytest.param("rim", (40, 30), id="a frame is its opening and twice its width large"),
        pytest.param("tray", (40, 30), id="a tray stands on its base"),
    ],
)
def test_forms_are_put_as_large_as_they_lie(put_form, size):
    placement = {"id": "it", "put": {"form": put_form}, "on": BOARD}
    kit = kit_of(project(forms=_FORMS, placements=[placement]), blanks=[board()])
    (lying,) = lying_in(kit)

    assert (mm(lying.across.span), mm(lying.up.span)) == size


def test_a_frame_is_seen_through():
    placement = {"id": "it", "put": {"form": "rim"}, "on": BOARD, "left": "10", "bottom": "10"}
    kit = kit_of(project(forms=_FORMS, placements=[placement]), blanks=[board()])
    (lying,) = lying_in(kit)

    assert [tuple(map(mm, hole.around)) for hole in lying.windows] == [(15, 15, 45, 35)]


def test_very_long_lists_of_copies_are_read_up_to_a_bound():
    copies = [{"on_copy": 1}] * 12_000
    found = lying_in(put_on_board(put("one", "A", copies=copies), put("two", "A", copies=copies)))

    assert len(found) == MOST_LYING == 20_000


@pytest.mark.parametrize(
    ("on", "give"),
    [
        # Paper of 0.5 mm: twice that where walls stand.
        pytest.param({"form": "tray", "panel": "base"}, 1, id="a box"),
        pytest.param({"form": "book", "panel": "panel-1"}, 0, id="what lies flat"),
    ],
)
def test_walls_of_thick_paper_leave_the_size_of_a_panel_less_certain(on, give):
    placement = put("it", "A") | {"on": on}
    kit = kit_of(project(piece("A", "8", "8"), forms=_FORMS, placements=[placement]), papers=[paper(caliper_um=500)])
    (lying,) = lying_in(kit)

    assert mm(lying.surface.give) == give
