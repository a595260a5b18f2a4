"""Geometry against values from outside the project."""

from __future__ import annotations

from fractions import Fraction

import pytest

from layouts.document import Opening, Size
from layouts.document.values import ReadingContext
from layouts.lengths import Length
from layouts.shapes import resolve
from layouts.shapes.forms import concertina, frame, tray
from layouts.shapes.forms.flat import ExactSize, FormPaper, thickness
from layouts.shapes.forms.walls import outside_from_scores, scores_around
from tests.unit.shapes.making import kit_of, parts_of

ROOM = FormPaper(0, Size.of("100", "100"))
INCH = 8128


def form_of(**fields):
    return kit_of(fields).projects[0].forms[0]


def test_the_blank_of_a_single_wall_tray_is_inside_plus_two_depths():
    """Single wall tray, inside L×W×H: blank (L + 2H) × (W + 2H); 4×3×1 → blank 6×5, area 26 = 30 − 4 (identity)."""
    (flat,) = tray.flat_parts(form_of(**{"as": "tray"}, inside=["4", "3"], depth="1"), ROOM)
    assert flat == ExactSize.of(6 * INCH, 5 * INCH)
    assert flat.width * flat.height - 4 * INCH**2 == 26 * INCH**2


def test_the_blank_of_a_double_wall_tray_is_inside_plus_four_depths_and_two_flanges():
    """Double (rolled) wall: about (L + 4H + 2f) × (W + 4H + 2f); 4×3×1, f = 1/2 → 9×8 (identity)."""
    form = form_of(**{"as": "tray"}, inside=["4", "3"], depth="1", walls="double", flange="1/2")
    (flat,) = tray.flat_parts(form, ROOM)
    assert flat == ExactSize.of(9 * INCH, 8 * INCH)


def test_the_base_of_a_tray_scored_twice_is_the_blank_less_four_spacings():
    """Tray lid scored twice on all sides at the same spacing: base = blank less four times the spacing.

    Common practice, no source.
    """
    kit = kit_of({"as": "lid", "inside": ["5", "4"], "depth": "3/4", "walls": "double"})
    (flat,) = parts_of(kit)
    four = 4 * Length.of("3/4 in")
    assert (flat.width - four, flat.height - four) == (Length.of("5 in"), Length.of("4 in"))


def test_the_inside_of_a_lid_is_the_outside_of_the_tray_plus_clearance():
    """Inside lid ≥ tray outside = L + 2t (single wall) plus clearance c (identity).

    L = 4, t = 0.012, c = 1/32 → 4.05525 in. 0.012 in are 304.8 µm, which a caliper in whole micrometres cannot say:
    the parts of the sum are taken as exact fractions here.
    """
    thick = Fraction(12 * INCH, 1000)
    inside = form_of(**{"as": "tray"}, inside=["4", "3"], depth="1").inside
    outside = outside_from_scores(scores_around(ExactSize.exactly(inside), "single", thick), thick)
    assert outside.width + Fraction(INCH, 32) == Fraction(405525 * INCH, 100_000)


def test_ten_points_are_254_micrometres():
    """1 point (pt) = 0.001 in = 0.0254 mm; 10 pt = 254 µm (secondary copy, recomputed)."""
    assert thickness(254) == Fraction(10 * INCH, 1000)


@pytest.mark.parametrize(
    ("sheet", "panel", "join", "panels", "carried"),
    [
        pytest.param("12", "3 1/2", "1/2", 3, [3], id="S = 12, p = 3 1/2: 3 panels, waste 1 1/2"),
        pytest.param("12", "3 1/2", "1/2", 4, [3, 1], id="a fourth panel does not fit"),
        pytest.param("12", "3", "1/2", 7, [3, 4], id="S = 12, p = 3, g = 1/2, two strips: 3 + 4 = 7 panels (not 8)"),
        pytest.param("12", "3", "1/2", 8, [3, 3, 2], id="8 panels take a third strip"),
    ],
)
def test_joined_strips_carry_a_tab_at_a_fold(sheet, panel, join, panels, carried):
    """Strip S: n = floor(S/p); each strip except the last carries floor((S − g)/p) (identity)."""
    form = form_of(**{"as": "concertina"}, panel=[panel, "2"], panels=panels, join=join)
    parts = concertina.flat_parts(form, FormPaper(0, Size.of(sheet, "2")))
    one, tab = form.panel.width.ticks, form.join.ticks
    tabs = [tab] * (len(carried) - 1) + [0]
    assert [part.width for part in parts] == [n * one + more for n, more in zip(carried, tabs, strict=True)]


def test_a_mitred_frame_has_long_points_as_long_as_its_outside():
    """Frame opening 5×7, f = 1 → 7×9, area 28 = 16 + 12, total long points 32 (identity)."""
    parts = frame.flat_parts(form_of(**{"as": "frame"}, opening=["5", "7"], width="1"), ROOM)
    assert sum(max(part.width, part.height) for part in parts) == 32 * INCH
    # A mitred strip is a trapezium: its area is that of the strip less one square of its width.
    assert sum(part.width * part.height - INCH**2 for part in parts) == 28 * INCH**2


def test_butted_strips_cover_the_frame_without_overlap():
    """The same frame butted: 2 (7 × 1) + 2 (1 × 7) = 28 (identity)."""
    parts = frame.flat_parts(form_of(**{"as": "frame"}, opening=["5", "7"], width="1", corner="butt"), ROOM)
    assert sum(part.width * part.height for part in parts) == 28 * INCH**2


def test_a_mat_overlaps_its_photograph_by_an_eighth_on_each_side():
    """Photo 4×6, opening 3 3/4 × 5 3/4 → 1/8 in overlap each side (identity)."""
    fields = {"left": "1/8", "right": "1/8", "top": "1/8", "bottom": "1/8"}
    found = resolve(Opening.model_validate(fields, context=ReadingContext("in", {})), Size.of("4", "6"))
    assert found.size == Size.of("3 3/4", "5 3/4")
