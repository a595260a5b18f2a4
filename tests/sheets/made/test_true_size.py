"""Templates as they come out of a printer: a page drawn at 600 dots to the inch and measured dot by dot.

A dot is 0.042 mm; everything must measure what it says within 0.1 mm. Lines are found by their middles, so that their
thickness does not count. An inch is 25.4 mm by definition (the yard and pound agreement of 1959).
"""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import numpy as np
import pypdfium2
import pytest
from numpy.typing import NDArray

from kits.sheets.options import SheetOptions
from tests.sheets.drawn import Line
from tests.sheets.made.conftest import EXAMPLES
from tests.sheets.made.sets import MadeFile, SheetSet

DOTS = 600
NEAR_MM = 0.1
POTTING_SHED = next(path for path in EXAMPLES if path.stem == "potting-shed")

type Dots = NDArray[np.bool_]


@pytest.fixture(scope="module", params=["letter", "a4"])
def templates(request: pytest.FixtureRequest, made: Callable[[Path, SheetOptions], SheetSet]) -> MadeFile:
    return made(POTTING_SHED, SheetOptions(request.param, "in", "normal")).files["templates"]


def _page(templates: MadeFile, number: int) -> Dots:
    """Which dots of a page are inked, the first row at its foot."""
    document = pypdfium2.PdfDocument(templates.pdf)
    drawn = document[number].render(scale=DOTS / 72, grayscale=True).to_numpy()
    inked: Dots = np.flipud(drawn.reshape(drawn.shape[:2])) < 128
    return inked


def _middles(line: Dots) -> list[float]:
    """The middles of the inked stretches along a line of dots."""
    edges = np.flatnonzero(np.diff(np.concatenate([[False], line, [False]]).astype(int)))
    return [(start + end - 1) / 2 for start, end in zip(edges[::2], edges[1::2], strict=True)]


def _dots(points: float) -> int:
    return round(points * DOTS / 72)


def _mm(dots: float) -> float:
    return dots / DOTS * 25.4


def _nearest(middles: list[float], points: float) -> float:
    return min(middles, key=lambda middle: abs(middle - points * DOTS / 72))


def _page_with(templates: MadeFile, line: Line, height: float) -> Dots:
    """The page that has ink where a figure's two upright lines should be, within five dots."""
    for number in range(len(templates.pages)):
        page = _page(templates, number)
        middles = _middles(page[_dots(float(line.bottom) + float(line.height) * height)])
        edges = [float(edge) * DOTS / 72 for edge in (line.left, line.right)]
        if all(any(abs(middle - edge) < 5 for middle in middles) for edge in edges):
            return page
    raise AssertionError("no page shows the figure")


def _width_mm(page: Dots, line: Line, height: float) -> float:
    """How far apart the two upright lines of a figure stand, along the row at this share of its height."""
    middles = _middles(page[_dots(float(line.bottom) + float(line.height) * height)])
    return _mm(_nearest(middles, float(line.right)) - _nearest(middles, float(line.left)))


def _height_mm(page: Dots, line: Line, width: float) -> float:
    middles = _middles(page[:, _dots(float(line.left) + float(line.width) * width)])
    return _mm(_nearest(middles, float(line.top)) - _nearest(middles, float(line.bottom)))


def test_check_bars_and_squares_measure_what_they_say(templates: MadeFile) -> None:
    page, lines = _page(templates, 0), templates.figures[0]
    bars = sorted((line for line in lines if line.height == 0), key=lambda line: line.width)
    ends = [line for line in lines if line.width == 0]
    lengths = []
    for bar in bars:
        # The ends of a bar are upright ticks: looked at one third of their height above it.
        tick = next(line for line in ends if line.bottom == bar.bottom)
        middles = _middles(page[_dots(float(bar.bottom) + float(tick.height) / 3)])
        lengths.append(_mm(_nearest(middles, float(bar.right)) - _nearest(middles, float(bar.left))))
    assert lengths == pytest.approx([150, 152.4], abs=NEAR_MM)
    squares = sorted((line for line in lines if line.is_box), key=lambda line: line.width)
    sizes = [(_width_mm(page, square, 0.2), _height_mm(page, square, 0.2)) for square in squares]
    assert sizes == [pytest.approx((25.4, 25.4), abs=NEAR_MM), pytest.approx((50, 50), abs=NEAR_MM)]


def test_the_window_of_the_front_panel_measures_what_the_plan_says(templates: MadeFile) -> None:
    # Piece A is 6 3/4 by 4 3/4 in; its window leaves 7/8 left, right and below, and 5/8 above: 5 by 3 1/4 in.
    panel, window = templates.figures[1]
    rim = (float(window.bottom) - float(panel.bottom)) / float(panel.height) / 2
    page = _page_with(templates, panel, rim)
    assert _width_mm(page, panel, rim) == pytest.approx(6.75 * 25.4, abs=NEAR_MM)
    assert _width_mm(page, window, 0.7) == pytest.approx(5 * 25.4, abs=NEAR_MM)
    assert _height_mm(page, window, 0.3) == pytest.approx(3.25 * 25.4, abs=NEAR_MM)
    middles = _middles(page[_dots(float(window.bottom) + float(window.height) * 0.7)])
    left = _nearest(middles, float(window.left)) - _nearest(middles, float(panel.left))
    assert _mm(left) == pytest.approx(0.875 * 25.4, abs=NEAR_MM)
