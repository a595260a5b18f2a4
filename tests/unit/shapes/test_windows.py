"""Where openings lie, whether their measures agree, whether they lie inside."""

from __future__ import annotations

import pytest

from layouts.document import Opening, Shape, Size
from layouts.document.values import ReadingContext
from layouts.lengths import Length
from layouts.shapes import contradictions, is_inside, resolve

WHOLE = Size.of("7", "5")


def opening(**fields) -> Opening:
    return Opening.model_validate(fields, context=ReadingContext("in", {}))


def shape(kind: str, **fields) -> Shape:
    return Shape.model_validate({"kind": kind, **fields}, context=ReadingContext("in", {}))


@pytest.mark.parametrize(
    ("fields", "expected"),
    [
        pytest.param({"left": "1", "width": "4"}, ("1", "4", "2"), id="left and width"),
        pytest.param({"right": "1", "width": "4"}, ("2", "4", "1"), id="right and width"),
        pytest.param({"left": "1", "right": "2"}, ("1", "4", "2"), id="both margins"),
        pytest.param({"left": "1", "width": "4", "right": "2"}, ("1", "4", "2"), id="all three, which agree"),
        pytest.param({"left": "1", "width": "4", "right": "3"}, ("1", "4", "2"), id="all three: left and width win"),
        pytest.param({"left": "4", "right": "4"}, ("4", "-1", "4"), id="margins that cross"),
        pytest.param({"right": "4", "width": "4"}, ("-1", "4", "4"), id="reaches out at the left"),
    ],
)
def test_each_axis_follows_from_two_of_its_measures(fields, expected):
    mirrored = {"left": "bottom", "right": "top", "width": "height"}
    across = resolve(opening(**fields, bottom="1", top="1"), WHOLE)
    upright = resolve(opening(**{mirrored[k]: v for k, v in fields.items()}, left="1", right="1"), Size.of("5", "7"))
    assert tuple(side.text("in") for side in (across.left, across.width, across.right)) == expected
    assert tuple(side.text("in") for side in (upright.bottom, upright.height, upright.top)) == expected


def test_contradictions_name_the_axis_the_sum_and_the_whole():
    found = contradictions(opening(left="1", width="4", right="3", bottom="1", top="1"), WHOLE)
    assert [(each.names, each.stated, each.whole) for each in found] == [
        (("left", "width", "right"), Length.of("8 in"), Length.of("7 in"))
    ]


@pytest.mark.parametrize(
    ("fields", "expected"),
    [
        pytest.param(
            {"left": "1", "width": "4", "right": "2", "bottom": "1", "height": "3", "top": "1"}, 0, id="agree"
        ),
        pytest.param({"left": "1", "right": "6", "bottom": "1", "top": "4"}, 0, id="two measures cannot disagree"),
        pytest.param({"left": "1", "width": "4", "right": "1", "bottom": "1", "height": "4", "top": "1"}, 2, id="both"),
        pytest.param(
            {"left": "25.4 mm", "width": "4", "right": "2", "bottom": "1", "top": "1"}, 0, id="in two systems"
        ),
    ],
)
def test_only_three_stated_measures_can_contradict_the_whole(fields, expected):
    assert len(contradictions(opening(**fields), WHOLE)) == expected


@pytest.mark.parametrize(
    ("fields", "inside"),
    [
        pytest.param({"left": "1", "width": "4", "bottom": "1", "height": "3"}, True, id="with a rim"),
        pytest.param({"left": "1", "width": "6", "bottom": "1", "height": "3"}, False, id="no rim at the right"),
        pytest.param({"left": "1", "width": "7", "bottom": "1", "height": "3"}, False, id="reaches out at the right"),
        pytest.param({"right": "3", "width": "4", "bottom": "1", "height": "3"}, False, id="no rim at the left"),
        pytest.param({"left": "1", "width": "4", "bottom": "2", "height": "3"}, False, id="no rim at the top"),
        pytest.param({"left": "1", "width": "4", "top": "2", "height": "3"}, False, id="no rim at the bottom"),
        pytest.param({"left": "4", "right": "3", "bottom": "1", "height": "3"}, False, id="nothing wide"),
        pytest.param({"left": "1", "right": "1", "bottom": "3", "top": "3"}, False, id="less than nothing high"),
    ],
)
def test_an_opening_in_a_rectangle_needs_a_size_and_a_rim_on_each_side(fields, inside):
    assert is_inside(opening(**fields), WHOLE) is inside


def middle(side: str) -> dict[str, str]:
    """A square opening in the middle of 5 × 5."""
    margin = Length((Length.of("5 in") - Length.of(side)).ticks // 2, "mm").text()
    return {"left": margin, "bottom": margin, "width": side, "height": side}


def inset(height: str) -> dict[str, str]:
    """An opening 1 in from the left, the right and the bottom."""
    return {"left": "1", "right": "1", "bottom": "1", "height": height}


ROUNDED = shape("rounded", radius="1")
ROUND = shape("ellipse")
# 5 × 5: a roof of two slopes on walls 3 high.
HOUSE = shape("polygon", points=[["0", "0"], ["5", "0"], ["5", "3"], ["2 1/2", "5"], ["0", "3"]])
# 5 × 5, the right upper quarter missing.
ELL = shape("polygon", points=[["0", "0"], ["5", "0"], ["5", "2 1/2"], ["2 1/2", "2 1/2"], ["2 1/2", "5"], ["0", "5"]])
# The upper half of its box, hanging from the top: its box reaches where the piece has no paper.
DOWN = {"kind": "polygon", "points": [["0", "2"], ["1", "0"], ["2", "2"]]}


@pytest.mark.parametrize(
    ("outer", "fields", "inner", "inside"),
    [
        # In a disc 5 across, a square's corners are at side / √2: 3.5355: 3.531 fits, 3.547 does not.
        pytest.param(ROUND, middle("3 17/32"), {}, True, id="square in a disc"),
        pytest.param(ROUND, middle("3 35/64"), {}, False, id="square across a disc's edge"),
        pytest.param(ROUND, middle("4 7/8"), {"kind": "ellipse"}, True, id="ring"),
        pytest.param(
            ROUND, {"left": "1/8", "width": "4", "bottom": "1/8", "height": "4"}, {"kind": "ellipse"}, False,
            id="disc off centre: √2 × 3/8 + 2 > 2 1/2",
        ),
        pytest.param(
            ROUND, {"left": "1/4", "width": "4", "bottom": "1/4", "height": "4"}, {"kind": "ellipse"}, True,
            id="disc less off centre: √2 × 1/4 + 2 < 2 1/2",
        ),
        pytest.param(
            shape("arch", rise="2"), {"left": "1/4", "right": "1/4", "bottom": "1/4", "height": "3 1/2"}, {}, True,
            id="under an arch: at 9/10 of the half width the curve stands at 3 + 2 × 0.436 = 3.87",
        ),
        pytest.param(
            shape("arch", rise="2"), {"left": "1/4", "right": "1/4", "bottom": "1/4", "height": "3 3/4"}, {}, False,
            id="through an arch: 4 > 3.87",
        ),
        # A corner of radius 1: on the diagonal its edge is 1 - 1/√2 = 0.293 from both sides.
        pytest.param(ROUNDED, middle("4 13/32"), {}, True, id="margins of 0.297 at a rounded corner"),
        pytest.param(ROUNDED, middle("4 27/64"), {}, False, id="margins of 0.289 at a rounded corner"),
        pytest.param(ROUNDED, middle("4 7/8"), {"kind": "rounded", "radius": "1"}, True, id="rounded in rounded"),
        # The roof stands at 3.8 above 1.
        pytest.param(HOUSE, inset("2 3/4"), {}, True, id="up to 3.75 under the roof"),
        pytest.param(HOUSE, inset("2 13/16"), {}, False, id="up to 3.8125 through the roof"),
        pytest.param(HOUSE, inset("3"), {"kind": "ellipse"}, True, id="oval up to 4 under the roof"),
        pytest.param(ELL, inset("1"), {}, True, id="in the foot of an L"),
        pytest.param(ELL, inset("3"), {}, False, id="corner in the gap of an L"),
        pytest.param(
            ELL, {"left": "1", "width": "2", "bottom": "1", "height": "2"},
            {"kind": "polygon", "points": [["0", "2"], ["0", "0"], ["2", "0"]]}, True,
            id="triangle that keeps clear of the inner corner",
        ),
        pytest.param(
            ELL, {"left": "1", "width": "3", "bottom": "1", "height": "3"},
            {"kind": "polygon", "points": [["0", "3"], ["0", "0"], ["3", "0"]]}, False,
            id="triangle whose long side touches the inner corner exactly",
        ),
        pytest.param(
            ELL, {"left": "1", "width": "3 1/4", "bottom": "1", "height": "3 1/4"},
            {"kind": "polygon", "points": [["0", "3 1/4"], ["0", "0"], ["3 1/4", "0"]]}, False,
            id="triangle cut by the inner corner though its own corners lie inside",
        ),
        pytest.param(shape("rect"), {"left": "1", "width": "2", "bottom": "1", "height": "1"}, DOWN, False,
                     id="points beyond its own size"),
    ],
)  # fmt: skip
def test_an_opening_lies_inside_the_outline_of_its_piece(outer, fields, inner, inside):
    """Pieces of 5 × 5 in."""
    window = opening(**fields, **({"shape": inner} if inner else {}))
    assert is_inside(window, Size.of("5", "5"), outer) is inside
