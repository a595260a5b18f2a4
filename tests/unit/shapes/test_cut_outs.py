"""What comes out of openings. Inches unless said; the rectangles are worked by hand."""

from __future__ import annotations

import pytest

from layouts.document import Opening, Size
from layouts.document.values import ReadingContext
from layouts.lengths import Length
from layouts.shapes import NotBuilt, cut_out
from layouts.shapes.polygons import MOST_CORNERS, largest_rectangle

WHOLE = Size.of("12", "12")
ONE, SIX = Length.of("1 in"), Length.of("6 in")


def opening(width: str, height: str, **shape) -> Opening:
    fields = {"left": "1", "width": width, "bottom": "1", "height": height} | ({"shape": shape} if shape else {})
    return Opening.model_validate(fields, context=ReadingContext("in", {}))


def polygon(width: str, height: str, corners: list[list[str]]) -> Opening:
    return opening(width, height, kind="polygon", points=corners)


def points(*corners: str) -> list[list[str]]:
    return [corner.split(", ") for corner in corners]


TRIANGLE = points("0, 0", "4, 0", "1, 3")
ELL = points("0, 0", "6, 0", "6, 2", "2, 2", "2, 5", "0, 5")
CROSS = points("2, 0", "4, 0", "4, 2", "6, 2", "6, 4", "4, 4", "4, 6", "2, 6", "2, 4", "0, 4", "0, 2", "2, 2")
HOUSE = points("0, 0", "4, 0", "4, 3", "2, 5", "0, 3")
# Two towers joined at the foot: the larger rectangle stands in the right one.
TOWERS = points("0, 0", "8, 0", "8, 6", "5, 6", "5, 1", "2, 1", "2, 6", "0, 6")
VEE = points("0, 4", "2, 0", "4, 4", "2, 2")
# A funnel between two boxes: what rises through it is no wider than its neck.
FUNNEL = points("0, 0", "8, 0", "8, 1", "5, 4", "8, 4", "8, 7", "0, 7", "0, 4", "3, 4", "0, 1")
DIAMOND = points("4, 0", "8, 4", "4, 8", "0, 4")


@pytest.mark.parametrize(
    ("window", "expected"),
    [
        pytest.param(opening("4", "3"), ("4", "3"), id="a rectangle is its own"),
        pytest.param(polygon("4", "3", TRIANGLE), ("2", "1 1/2"), id="triangle: half of each side"),
        pytest.param(polygon("6", "5", ELL), ("6", "2"), id="L: 12 of the foot, 10 of the stem"),
        pytest.param(polygon("6", "6", CROSS), ("2", "6"), id="cross: either bar, the upright one"),
        pytest.param(polygon("4", "5", HOUSE), ("4", "3"), id="house: the roof adds nothing"),
        pytest.param(polygon("8", "6", TOWERS), ("3", "6"), id="towers: 18 of 12 and 8"),
        pytest.param(polygon("8", "7", FUNNEL), ("8", "3"), id="funnel: 24 of the box, 14 through"),
        pytest.param(polygon("8", "8", DIAMOND), ("4", "4"), id="diamond: half of each"),
    ],
)
def test_straight_openings_offer_their_largest_rectangle(window, expected):
    found = cut_out(window, WHOLE)
    assert found is not None
    assert (found.width.text("in"), found.height.text("in")) == expected


@pytest.mark.parametrize(
    ("window", "expected"),
    [
        # 2 in = 16256 ticks, over √2 = 11494.7
        pytest.param(opening("2", "1", kind="ellipse"), (11494, 5747), id="ellipse: both sides over √2"),
        # half disc of radius 2 in: √2 r by r / √2
        pytest.param(opening("4", "2", kind="arch", rise="2"), (22989, 11494), id="half disc"),
        # k = 2, r = 1, D = 4 + 8 = 12: height (6 + √12) / 4 = 2.366025 in; width 2 √((4 - 4 + 2 √12) / 8) = 1.861210 in
        pytest.param(opening("2", "3", kind="arch", rise="1"), (15127, 19231), id="arch on walls of twice its rise"),
        # side 2, radius 1/2: 2 - 1 + √2 / 2 = 1.707107 in
        pytest.param(opening("2", "2", kind="rounded", radius="1/2"), (13875, 13875), id="square with rounded corners"),
        pytest.param(opening("2", "2", kind="rounded", radius="1"), (11494, 11494), id="rounded to a disc"),
        pytest.param(opening("2", "2", kind="rounded", radius="3"), (11494, 11494), id="no rounder than a disc"),
        # the arch above and its mirror image: height (6 + √12) / 2 = 4.732051 in
        pytest.param(opening("2", "6", kind="rounded", radius="1"), (15127, 38462), id="two half discs on a rectangle"),
    ],
)
def test_curved_openings_offer_the_largest_rectangle_rounded_down_to_the_tick(window, expected):
    found = cut_out(window, WHOLE)
    assert found is not None
    assert (found.width.ticks, found.height.ticks) == expected


@pytest.mark.parametrize(
    "window",
    [
        pytest.param(Opening(left=SIX, right=SIX, top=ONE, bottom=ONE), id="nothing wide"),
        pytest.param(polygon("2", "2", points("0, 0", "2, 0", "1, 0")), id="a line"),
        pytest.param(polygon("2", "2", points("0, 0", "2, 2", "2, 0", "0, 2")), id="edges that cross"),
        pytest.param(opening("0.003125 mm", "2", kind="ellipse"), id="less than a tick"),
    ],
)
def test_an_opening_that_holds_no_rectangle_offers_none(window):
    assert cut_out(window, WHOLE) is None


def test_a_v_offers_what_lies_between_its_arms_or_in_one():
    """The inner corner stands at (2, 2). At a depth a below it the V is 2 - a wide: a (2 - a) is greatest at a = 1.

    What reaches b into one arm is at most (1 - a/2 - b)(a + b), never more than 1/2.
    """
    found = cut_out(polygon("4", "4", VEE), WHOLE)
    assert found is not None
    assert (found.width.text("in"), found.height.text("in")) == ("1", "1")


def test_an_outline_of_very_many_corners_is_not_built():
    corners = [[f"{i} mm", f"{i * i} mm"] for i in range(MOST_CORNERS)]
    with pytest.raises(NotBuilt, match="65 corners"):
        cut_out(polygon("4", "4", [*corners, ["0", "5"]]), WHOLE)


def test_a_sliver_of_less_than_a_tick_is_nothing_however_tall():
    """In ticks: 1/2 × 50 in a spike would be larger than what the box beside it offers, 3.97 × 3 rounded down."""
    found = largest_rectangle([(-3, 0), (1, 0), (0, 100), (0, 3), (-3, 3)])
    assert found is not None
    assert (found.width, found.height) == (3, 3)
