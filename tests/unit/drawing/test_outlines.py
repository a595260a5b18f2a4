"""Outlines of shapes, worked out by hand in a box 40 wide and 20 high whose corner is at 10, 5."""

from __future__ import annotations

import pytest

from layouts.document import Shape
from layouts.drawing.outlines import outline_path
from layouts.drawing.svg import Box
from layouts.lengths import Length

BOX = Box(10, 5, 40, 20)
TICK = "1/8128 in"


def _length(ticks: int) -> Length:
    return ticks * Length.of("1 mm") if ticks == 0 else Length(ticks, "mm")


@pytest.mark.parametrize(
    ("shape", "ends"),
    [
        pytest.param(Shape.by_default(), [(10, 5), (50, 5), (50, 25), (10, 25)], id="rect"),
        pytest.param(
            Shape(kind="ellipse"), [(10, 15), (30, 5), (50, 15), (30, 25), (10, 15)], id="ellipse by quarters"
        ),
        pytest.param(
            Shape(kind="arch", rise=Length(8, "mm")),
            [(10, 5), (50, 5), (50, 17), (30, 25), (10, 17)],
            id="arch by quarters",
        ),
        pytest.param(
            Shape(kind="arch", rise=Length(99, "mm")),
            [(10, 5), (50, 5), (50, 5), (30, 25), (10, 5)],
            id="arch with a rise beyond its height",
        ),
        pytest.param(
            Shape(kind="rounded", radius=Length(4, "mm")),
            [(14, 5), (46, 5), (50, 9), (50, 21), (46, 25), (14, 25), (10, 21), (10, 9), (14, 5)],
            id="rounded",
        ),
    ],
)
def test_an_outline_goes_round_its_box(shape, ends):
    steps = outline_path(shape, BOX)
    assert steps[0][0] == "M"
    assert steps[-1] == ("Z", [])
    # Of an arc the first point are its radii.
    assert [spot for letter, spots in steps for spot in (spots[1:] if letter == "A" else spots)] == ends


def test_the_corners_of_a_polygon_are_measured_from_its_box():
    from layouts.document import Point

    corners = tuple(Point(Length(x, "mm"), Length(y, "mm")) for x, y in ((1, 1), (40, 2), (20, 20)))
    steps = outline_path(Shape.model_construct(kind="polygon", points=corners), BOX)
    assert steps == [("M", [(11, 6)]), ("L", [(50, 7), (30, 25)]), ("Z", [])]
