"""Folded forms against values from outside the project."""

from __future__ import annotations

from fractions import Fraction

import pytest

from layouts.lengths import TICKS_PER_INCH, TICKS_PER_MM
from layouts.shapes.forms import Area, FlatSheet, FlatSizes
from tests.unit.shapes.making import kit_of

SIDES = ("left", "right", "top", "bottom")
INCH = TICKS_PER_INCH


def sheets_of(unit="in", paper=("100", "100"), **fields) -> tuple[FlatSheet, ...]:
    kit = kit_of(fields, unit=unit, size=[f"{side} in" for side in paper])
    found = FlatSizes.of(kit).fold(kit.projects[0].forms[0], "p", kit.papers[0])
    assert found.faults == ()
    return found.sheets


def area(sheet: FlatSheet, name: str) -> Area:
    found = sheet.named(name)
    assert found is not None
    return found


def volume(width: str, height: str, cut: str) -> Fraction:
    """The volume of an open box from a sheet with this square cut from its corners, in cubic ticks; sizes in mm."""
    scores = [{"from": side, "at": cut} for side in SIDES]
    (sheet,) = sheets_of("mm", **{"as": "scored"}, size=[width, height], scores=scores, corners="cut")
    base, wall = area(sheet, "base"), area(sheet, "wall-left")
    assert {area(sheet, f"wall-{side}").width for side in ("left", "right")} == {wall.width}
    assert {area(sheet, f"wall-{side}").height for side in ("top", "bottom")} == {wall.width}
    return base.width * base.height * wall.width


@pytest.mark.parametrize(
    ("sheet", "cut", "unit_mm", "expected"),
    [
        pytest.param(("24", "45"), "5", 3, Fraction(2450, 27), id="8×15, x* = 5/3: 2450/27"),
        pytest.param(("9", "24"), "2", 3, Fraction(200, 27), id="3×8, x* = 2/3: 200/27"),
        pytest.param(("6", "6"), "1", 1, Fraction(16), id="s = 6 → 16"),
        pytest.param(("12", "12"), "2", 1, Fraction(128), id="12 → 128"),
        pytest.param(("24", "24"), "4", 1, Fraction(1024), id="24 → 1024; one Q&A page gives x = 8: wrong"),
    ],
)
def test_the_largest_open_box_from_a_sheet_exactly(sheet, cut, unit_mm, expected):
    """x* = (a+b−√(a²−ab+b²))/6, V = x(a−2x)(b−2x), s×s: s/6, 2s³/27.

    [C] computed; 8×15 a well-known text exercise [M], 3×8 a problem [S2].
    """
    assert volume(sheet[0], sheet[1], cut) == expected * (unit_mm * TICKS_PER_MM) ** 3
    before, after = f"{int(cut) - 1}.9", f"{cut}.1"
    assert max(volume(sheet[0], sheet[1], before), volume(sheet[0], sheet[1], after)) < volume(sheet[0], sheet[1], cut)


@pytest.mark.parametrize(
    ("sheet", "cut", "expected"),
    [
        pytest.param(("2400", "3600"), "470.9", "1825.2966", id="24×36: 640 + 448√7, OpenStax Calculus 1 §4.7 [M]"),
        pytest.param(("1200", "1500"), "220.9", "177.2341", id="12×15 [S2], [C]"),
        pytest.param(("1000", "1500"), "196.2", "132.0382", id="10×15 [S2 for x], [C]"),
        pytest.param(("1800", "2400"), "339.4", "654.9773", id="18×24 [S2], [C]"),
    ],
)
def test_the_largest_open_box_from_a_sheet_to_a_thousandth(sheet, cut, expected):
    """One unit is 100 mm; x* is irrational and stands here to the nearest 0.1 mm."""
    found = Fraction(volume(sheet[0], sheet[1], cut), (100 * TICKS_PER_MM) ** 3)
    assert abs(found - Fraction(expected)) < Fraction(1, 1000)


def test_paper_left_of_a_single_wall_tray():
    """Paper left = LW+2H(L+W); 4×3×1 → blank 6×5, area 26 = 30−4 (identity)."""
    (sheet,) = sheets_of(**{"as": "tray"}, inside=["4", "3"], depth="1", corner="cut")
    kept = sum((one.size for one in sheet.areas if one.role != "waste"), Fraction(0))
    assert kept == 26 * INCH**2
    assert sheet.width * sheet.height - kept == 4 * INCH**2


def test_a_double_wall_has_its_parts_in_the_order_in_which_they_are_rolled():
    """Double (rolled) wall: about (L+4H+2f)×(W+4H+2f), 4×3×1, f = 1/2 → 9×8 [P]: base, wall, wall, floor flange."""
    (sheet,) = sheets_of(**{"as": "tray"}, inside=["4", "3"], depth="1", walls="double", flange="1/2")
    names = ("flange-left", "wall-left-inner", "wall-left", "base", "wall-right", "wall-right-inner", "flange-right")
    widths = [area(sheet, name).width for name in names]
    assert widths == [INCH // 2, INCH, INCH, 4 * INCH, INCH, INCH, INCH // 2]
    assert sum(widths) == sheet.width == 9 * INCH
    assert sheet.height == 8 * INCH


@pytest.mark.parametrize(
    ("unit", "size", "at", "panels", "a_unit"),
    [
        pytest.param("in", ["11", "8 1/2"], ["3 5/8", "7 5/16"], ["3 11/16", "3 11/16", "3 5/8"], INCH, id="11 in"),
        pytest.param("mm", ["297", "210"], ["97", "197"], ["100", "100", "97"], TICKS_PER_MM, id="A4"),
    ],
)
def test_the_panels_of_a_c_fold(unit, size, at, panels, a_unit):
    """C-fold 11 in: 3 11/16 + 3 11/16 + 3 5/8 = 11 [S2 print tutorial]; A4: 100+100+97 = 297 mm [S2].

    Given by scores from the left, where the inner panel is.
    """
    scores = [{"from": "left", "at": one} for one in at]
    (sheet,) = sheets_of(unit, **{"as": "scored"}, size=size, scores=scores)
    widths = [area(sheet, name).width for name in ("base", "wall-left", "wall-left-inner")]
    assert widths == [sum(map(Fraction, panel.split())) * a_unit for panel in panels]
    assert sum(widths) == sheet.width


@pytest.mark.parametrize("panels", [1, 2, 3, 6, 7])
def test_an_accordion_of_n_panels_has_one_fold_less(panels):
    """Accordion: n panels, n−1 folds, strip n·p; both covers show the same side of the paper only if n is even.

    (Identity.) A panel behind an odd number of folds is turned over.
    """
    (sheet,) = sheets_of(**{"as": "concertina"}, panel=["3 1/2", "2"], panels=panels)
    assert len(sheet.creases) == panels - 1
    assert sheet.width == panels * Fraction(7, 2) * INCH
    turns = sum(crease.turn for crease in sheet.creases)
    first_cover_shows_front, last_cover_shows_front = True, turns % 360 == 180
    assert (first_cover_shows_front == last_cover_shows_front) == (panels % 2 == 0)


def test_joined_strips_fold_as_one():
    """S = 12, p = 3, g = 1/2, two strips → 3+4 = 7 panels (not 8) (identity): six folds, one of them at the tab."""
    first, second = sheets_of(**{"as": "concertina"}, panel=["3", "2"], panels=7, paper=("12", "3"))
    assert [area.name for area in first.areas] == ["panel-1", "panel-2", "panel-3", "tab-1"]
    assert [area.name for area in second.areas] == ["panel-4", "panel-5", "panel-6", "panel-7"]
    assert len(first.creases) + len(second.creases) == 6


def test_long_points_of_a_mitred_frame_equal_its_outside_and_short_points_its_opening():
    """Frame opening 5×7, f = 1 → 7×9, area 28 = 16+12, total long points 32; mitre angle 45° (identity)."""
    sheets = sheets_of(**{"as": "frame"}, opening=["5", "7"], width="1")
    strips = {sheet.areas[0].name: sheet for sheet in sheets}
    longs = Fraction(0)
    shorts = {}
    for name, sheet in strips.items():
        upright = sheet.height > sheet.width
        spots = sheet.areas[0].corners
        across, along = (0, 1) if upright else (1, 0)
        ends: dict[Fraction, list[Fraction]] = {}
        for spot in spots:
            ends.setdefault(spot[across], []).append(spot[along])
        (short, long_) = sorted(max(places) - min(places) for places in ends.values())
        # 45°: what an end loses along the strip is as much as the strip is wide, at both ends.
        assert long_ - short == 2 * min(sheet.width, sheet.height)
        longs, shorts[name] = longs + long_, short
    assert longs == 32 * INCH
    assert shorts == {
        "strip-top": 5 * INCH,
        "strip-bottom": 5 * INCH,
        "strip-left": 7 * INCH,
        "strip-right": 7 * INCH,
    }
    assert sum(sheet.areas[0].size for sheet in sheets) == 28 * INCH**2
