"""Room for lettering is room enough: widths are never less than those of the face that sheets are set in."""

from __future__ import annotations

from pathlib import Path

import pytest
from fontTools.ttLib import TTFont

from layouts.drawing.lettering import figure_width, text_width

FONTS = Path(__file__).resolve().parents[3] / "kits" / "sheets" / "fonts"


@pytest.fixture(scope="module")
def bold():
    with TTFont(FONTS / "Commissioner-Bold.ttf", lazy=True) as face:
        yield face


@pytest.mark.parametrize(
    "text",
    ["A", "MW", "strip 12", "keep for M, N", "back up", "6 3⁄4", "15⁄16", "0.5", "Ω", "É", " × "],
)
def test_no_text_is_wider_than_is_said(bold, text):
    names, advances, upem = bold.getBestCmap(), bold["hmtx"], bold["head"].unitsPerEm
    wide = sum(advances[names.get(ord(letter), ".notdef")][0] for letter in text)
    assert wide <= text_width(text, upem)
    if text[-1].isdigit():
        # Nor is room given away: figures would leave their lines for nothing.
        assert text_width(text, upem) < wide * 1.3


def test_fractions_are_smaller_than_whole_numbers():
    """The fraction at 85 of 100: 3/4 is 590 + 320 + 620 thousandths of that."""
    assert figure_width("3/4", 1000) == (590 + 320 + 620) * 850 // 1000
    assert figure_width("6 3/4", 1000) == 620 + 200 + 100 + figure_width("3/4", 1000)
    assert figure_width("171", 1000) == 460 + 550 + 460
