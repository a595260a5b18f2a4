"""Scales: the largest simple one that fits, and how large its drawing is."""

from __future__ import annotations

import pytest

from layouts.drawing.scale import TRUE, Scale, largest_scale, scaled
from layouts.drawing.svg import Drawing, Margins

MM = 320


@pytest.mark.parametrize(
    ("width", "height", "room", "tenths"),
    [
        pytest.param(80, 40, (80, 100), 10, id="it fits as it is"),
        pytest.param(81, 40, (80, 100), 15, id="a hair too wide"),
        pytest.param(40, 300, (80, 100), 30, id="height decides"),
        pytest.param(305, 305, (92, 104), 40, id="12 in beside a table: 76 mm"),
        pytest.param(10_000, 10_000, (92, 104), 1000, id="the longest length that is allowed: 100 mm, so one more"),
        pytest.param(9_000, 9_000, (92, 104), 1000, id="90 mm at the last scale"),
        pytest.param(90_000, 10, (80, 100), 1000, id="nothing fits"),
    ],
)
def test_the_largest_simple_scale_that_fits_is_taken(width, height, room, tenths):
    assert largest_scale(width * MM, height * MM, (room[0] * MM, room[1] * MM)).tenths == tenths


def test_a_scale_is_told_as_one_to_so_many_in_one_line():
    assert [Scale(tenths).words.replace("\N{NO-BREAK SPACE}", " ") for tenths in (10, 15, 40)] == [
        "1 : 1",
        "1 : 1.5",
        "1 : 4",
    ]
    assert " " not in Scale(15).words


def test_lengths_are_scaled_exactly_or_rounded_up_on_paper():
    half = Scale(25)
    assert half.on_paper(1000) == 400
    assert half.on_paper(1001) == 401
    assert half.drawn(400) == 1000


def test_a_drawing_is_as_large_as_what_it_shows_with_its_margins():
    """60 by 40 mm with 5 mm left and 10 below at 1 : 2.5: 26 by 20 mm."""
    drawing = Drawing(60 * MM, 40 * MM, name="n", title="t", margins=Margins(left=5 * MM, bottom=10 * MM))
    found = scaled(drawing, Scale(25))
    assert (found.width_mm, found.height_mm) == ("26", "20")
    assert (scaled(drawing, TRUE).width_mm, scaled(drawing, TRUE).height_mm) == ("65", "50")
