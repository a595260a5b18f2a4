"""What can be used of a sheet. Ticks: 1 mm is 320."""

from __future__ import annotations

import pytest

from layouts.document import Pad, Size
from layouts.document.values import ReadingContext
from layouts.lengths import Length
from layouts.shapes import UsableSheet, sheet_size, usable_sheet
from tests.unit.shapes.making import leaf

PADS = {"pad": Pad.model_validate({"id": "pad", "name": "Pad", "size": ["6", "6"]}, context=ReadingContext("in", {}))}


def test_a_paper_has_its_own_size_or_its_pads():
    assert sheet_size(leaf(), PADS) == Size.of("8", "8")
    assert sheet_size(leaf(size=None, pad="pad"), PADS) == Size.of("6", "6")


def margins(**spoilt: str) -> dict[str, str]:
    return {side: f"{size} mm" for side, size in spoilt.items()}


@pytest.mark.parametrize(
    ("more", "slack", "expected"),
    [
        pytest.param({}, "0", (32000, 16000, 0, 0, 32000, 16000), id="all of it"),
        pytest.param({}, "1 mm", (32000, 16000, 0, 0, 32000, 16000), id="slack alone takes nothing off the edges"),
        pytest.param({"undersize": "1 mm"}, "0", (31680, 15680, 0, 0, 31680, 15680), id="undersize, both ways"),
        pytest.param({"spoilt": margins(left="5", right="3", top="2", bottom="1")}, "0",
                     (32000, 16000, 1600, 320, 31040, 15360), id="margins"),
        pytest.param({"undersize": "1 mm", "spoilt": margins(right="3", top="2")}, "0",
                     (31680, 15680, 0, 0, 30720, 15040), id="margins of an undersized sheet"),
        pytest.param({"spoilt": margins(left="5", bottom="5")}, "1 mm",
                     (32000, 16000, 1600, 1600, 32000, 16000), id="a margin wider than the slack costs itself"),
        pytest.param({"spoilt": margins(left="1", bottom="1")}, "1 mm",
                     (32000, 16000, 321, 321, 32000, 16000), id="as wide as the slack: one tick must be cut off"),
        pytest.param({"spoilt": margins(left="0.5", bottom="0.5")}, "1 mm",
                     (32000, 16000, 321, 321, 32000, 16000), id="narrower than the slack: costs more than itself"),
        pytest.param({"spoilt": margins(right="0.5", top="0.5")}, "1 mm",
                     (32000, 16000, 0, 0, 31840, 15840), id="right and top: the rest is lost with the cut"),
        pytest.param({"spoilt": margins(left="60", right="60", top="60")}, "0",
                     (32000, 16000, 19200, 0, 19200, 0), id="all spoilt: an empty area, not a negative one"),
        pytest.param({"spoilt": margins(left="900")}, "0", (32000, 16000, 32000, 0, 32000, 16000), id="more than all"),
        pytest.param({"undersize": "900 mm"}, "0", (0, 0, 0, 0, 0, 0), id="no sheet left"),
    ],
)  # fmt: skip
def test_the_usable_area_lies_within_the_spoilt_margins(more, slack, expected):
    """A sheet of 100 × 50 mm."""
    paper = leaf(size=["100 mm", "50 mm"], **more)
    assert usable_sheet(paper, {}, Length.of(slack)) == UsableSheet(*expected)


def test_the_usable_sides_are_what_lies_between_the_edges():
    sheet = UsableSheet(32000, 16000, 1600, 320, 31040, 15360)
    assert (sheet.usable_width, sheet.usable_height) == (29440, 15040)
