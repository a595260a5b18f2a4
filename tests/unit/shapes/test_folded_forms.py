"""What each form is folded from: panels, tabs, waste, creases, order. Worked by hand; measures are in inches.

An area is written `left bottom width height`, a crease `start → end fold` with its spots as `x y`.
"""

from __future__ import annotations

from fractions import Fraction

import pytest

from layouts.lengths import TICKS_PER_INCH, mixed_number
from layouts.shapes.forms import FlatSizes, Folded, panel_names
from layouts.shapes.forms.folded import Area, FlatSheet, FoldedSize, Side, neighbour
from tests.unit.shapes.making import kit_of

SIDES: tuple[Side, ...] = ("left", "right", "top", "bottom")
TRAY = {"as": "tray", "inside": ["4", "3"], "depth": "1"}


def folded(form, **more) -> Folded:
    kit = kit_of(form, **more)
    return FlatSizes.of(kit).fold(kit.projects[0].forms[0], "p", kit.papers[0])


def panels(form, **more):
    kit = kit_of(form, **more)
    found = FlatSizes.of(kit).panels(kit.projects[0].forms[0], "p", kit.papers[0])
    return {name: f"{inches(size.width)} × {inches(size.height)}" for name, size in found.items()}


def inches(ticks) -> str:
    return mixed_number(Fraction(ticks) / TICKS_PER_INCH)


def area(sheet: FlatSheet, name: str) -> Area:
    found = sheet.named(name)
    assert found is not None
    return found


def areas(sheet: FlatSheet) -> dict[str, str]:
    return {area.name: " ".join(map(inches, (area.left, area.bottom, area.width, area.height))) for area in sheet.areas}


def creases(sheet: FlatSheet) -> dict[str, str]:
    return {crease.between[1]: line((crease.start, crease.end)) + f" {crease.fold}" for crease in sheet.creases}


def line(spots) -> str:
    return " → ".join(f"{inches(spot.x)} {inches(spot.y)}" for spot in spots)


def test_a_tray_has_its_tabs_on_the_long_walls():
    """Blank 6 × 5, corners of 1 × 1; slit from the walls at the sides, which are the shorter ones."""
    found = folded(TRAY)
    (sheet,) = found.sheets
    assert areas(sheet) == {
        "base": "1 1 4 3",
        "wall-bottom": "1 0 4 1",
        "wall-top": "1 4 4 1",
        "wall-left": "0 1 1 3",
        "wall-right": "5 1 1 3",
        "tab-left-bottom": "0 0 1 1",
        "tab-right-bottom": "5 0 1 1",
        "tab-right-top": "5 4 1 1",
        "tab-left-top": "0 4 1 1",
    }
    assert [area.role for area in sheet.areas] == ["panel"] * 5 + ["tab"] * 4
    assert creases(sheet) == {
        "wall-bottom": "1 1 → 5 1 mountain",
        "wall-top": "1 4 → 5 4 mountain",
        "wall-left": "1 1 → 1 4 mountain",
        "wall-right": "5 1 → 5 4 mountain",
        "tab-left-bottom": "1 1 → 1 0 mountain",
        "tab-right-bottom": "5 1 → 5 0 mountain",
        "tab-right-top": "5 4 → 5 5 mountain",
        "tab-left-top": "1 4 → 1 5 mountain",
    }
    outline, *slits = map(line, sheet.cuts)
    assert outline == "0 0 → 6 0 → 6 5 → 0 5 → 0 0"
    assert slits == ["1 1 → 0 1", "5 1 → 6 1", "5 4 → 6 4", "1 4 → 0 4"]
    assert [(glued.area, glued.onto, glued.skin) for glued in found.steps[0].glued] == [
        ("tab-left-bottom", "wall-left", "inside"),
        ("tab-right-bottom", "wall-right", "inside"),
        ("tab-right-top", "wall-right", "inside"),
        ("tab-left-top", "wall-left", "inside"),
    ]
    assert [len(step.creases) for step in found.steps] == [8]
    assert (*map(inches, found.size), found.grain) == ("4", "3", "1", "sideways")


def test_a_tall_tray_has_its_tabs_on_the_walls_at_the_sides():
    (sheet,) = folded(TRAY | {"inside": ["3", "4"]}).sheets
    assert creases(sheet)["tab-left-bottom"] == "1 1 → 0 1 mountain"
    assert line(sheet.cuts[1]) == "1 1 → 1 0"


def test_the_corners_of_a_tray_may_be_cut_off():
    (sheet,) = folded(TRAY | {"corner": "cut"}).sheets
    assert line(sheet.cuts[0]) == ("0 1 → 1 1 → 1 0 → 5 0 → 5 1 → 6 1 → 6 4 → 5 4 → 5 5 → 1 5 → 1 4 → 0 4 → 0 1")
    assert len(sheet.cuts) == 1
    assert {area.name: area.role for area in sheet.areas if area.role != "panel"} == {
        "waste-left-bottom": "waste",
        "waste-right-bottom": "waste",
        "waste-right-top": "waste",
        "waste-left-top": "waste",
    }


def test_a_double_wall_turns_in_and_its_flange_turns_back_onto_the_base():
    """Blank 9 × 8; of each corner of 2 1/2 × 2 1/2 an L is left over beside the tab of 1 × 1."""
    found = folded(TRAY | {"walls": "double", "flange": "1/2"})
    (sheet,) = found.sheets
    on_the_left = {name: area for name, area in areas(sheet).items() if name.endswith(("left", "left-inner"))}
    assert on_the_left == {
        "wall-left": "1 1/2 2 1/2 1 3",
        "wall-left-inner": "1/2 2 1/2 1 3",
        "flange-left": "0 2 1/2 1/2 3",
    }
    assert areas(sheet)["tab-left-bottom"] == "1 1/2 1 1/2 1 1"
    assert line(area(sheet, "waste-left-bottom").corners) == (
        "1 1/2 2 1/2 → 0 2 1/2 → 0 0 → 2 1/2 0 → 2 1/2 1 1/2 → 1 1/2 1 1/2"
    )
    assert [(crease.between, crease.fold, crease.turn) for crease in sheet.creases if "left" in crease.between[1]][
        :3
    ] == [
        (("base", "wall-left"), "mountain", 90),
        (("wall-left", "wall-left-inner"), "mountain", 180),
        (("wall-left-inner", "flange-left"), "valley", 90),
    ]
    assert [[(glued.area, glued.onto) for glued in step.glued][-1] for step in found.steps] == [
        ("tab-left-top", "wall-left"),
        ("wall-right-inner", "wall-right"),
        ("flange-right", "base"),
    ]
    assert (*map(inches, found.size),) == ("4", "3", "1")


def test_thickness_widens_the_base_and_what_is_folded():
    """2540 µm are 0.1 in: 4.1 from score to score, 4.2 outside; half a thickness under the base."""
    found = folded(TRAY, caliper_um=2540)
    assert [area(found.sheets[0], "base").width, *found.size] == [
        Fraction(41, 10) * TICKS_PER_INCH,
        Fraction(42, 10) * TICKS_PER_INCH,
        Fraction(32, 10) * TICKS_PER_INCH,
        Fraction(105, 100) * TICKS_PER_INCH,
    ]


@pytest.mark.parametrize(
    ("more", "names", "width"),
    [
        pytest.param({"turn_in": "1/4"}, ["wall-left", "turn-in-left"], "4", id="a hem"),
        pytest.param({"flange": "1/4"}, ["wall-left", "flange-left"], "4 1/2", id="a flange stands out from the rim"),
        pytest.param({"walls": "double", "turn_in": "0"}, ["wall-left"], "4", id="double, but turned in nothing"),
    ],
)
def test_other_strips_of_a_tray(more, names, width):
    found = folded(TRAY | more)
    assert [crease.between[1] for crease in found.sheets[0].creases if crease.between[1].endswith("left")] == names
    assert inches(found.size.width) == width


def test_a_lid_is_folded_like_a_tray_of_the_size_that_it_covers():
    """4 × 3 with 1/32 on each side."""
    assert panels({"as": "lid", "fits": ["4", "3"], "depth": "1"}) == {
        "base": "4 1/16 × 3 1/16",
        "wall-bottom": "4 1/16 × 1",
        "wall-top": "4 1/16 × 1",
        "wall-left": "1 × 3 1/16",
        "wall-right": "1 × 3 1/16",
    }


def test_a_sleeve_has_four_panels_and_a_tab():
    """3 × 1 and 1/32 on each side; the tab goes behind the first panel."""
    found = folded({"as": "sleeve", "around": ["3", "1"], "length": "5", "overlap": "1/2"})
    (sheet,) = found.sheets
    assert areas(sheet) == {
        "panel-1": "0 0 3 1/32 5",
        "panel-2": "3 1/32 0 1 1/32 5",
        "panel-3": "4 1/16 0 3 1/32 5",
        "panel-4": "7 3/32 0 1 1/32 5",
        "tab": "8 1/8 0 1/2 5",
    }
    assert {(crease.fold, crease.turn) for crease in sheet.creases} == {("mountain", 90)}
    assert [(glued.area, glued.onto) for glued in found.steps[-1].glued] == [("tab", "panel-1")]
    assert (*map(inches, found.size), found.grain) == ("3 1/32", "1 1/32", "5", "up")


def test_a_concertina_goes_on_in_the_next_strip():
    """Sheet 12 in: 3 panels and a tab, then 4. The fold at the join counts, so that mountains and valleys go on."""
    found = folded({"as": "concertina", "panel": ["3", "4"], "panels": 7}, caliper_um=254)
    assert [sheet.number for sheet in found.sheets] == [1, 2]
    assert [list(areas(sheet)) for sheet in found.sheets] == [
        ["panel-1", "panel-2", "panel-3", "tab-1"],
        ["panel-4", "panel-5", "panel-6", "panel-7"],
    ]
    assert areas(found.sheets[0])["tab-1"] == "9 0 1/2 4"
    folds = [crease.fold[0] for sheet in found.sheets for crease in sheet.creases]
    assert "".join(folds) == "mvmvmv"
    assert [(glued.area, glued.onto) for step in found.steps for glued in step.glued] == [("tab-1", "panel-4")]
    # Seven panels and a tab of 0.01 in.
    inch = Fraction(TICKS_PER_INCH)
    assert found.size == FoldedSize(3 * inch, 4 * inch, Fraction(8, 100) * inch)


def test_a_concertina_may_begin_with_a_valley():
    (sheet,) = folded({"as": "concertina", "panel": ["3", "4"], "panels": 4, "first_fold": "valley"}).sheets
    assert [crease.fold for crease in sheet.creases] == ["valley", "mountain", "valley"]


@pytest.mark.parametrize(
    ("open_", "expected"),
    [
        ("top", {"base": "1/2 1/2 4 6", "flap-bottom": "1/2 0 4 1/2", "flap-left": "0 1/2 1/2 6",
                 "flap-right": "4 1/2 1/2 1/2 6"}),
        ("bottom", {"base": "1/2 0 4 6", "flap-top": "1/2 6 4 1/2", "flap-left": "0 0 1/2 6",
                    "flap-right": "4 1/2 0 1/2 6"}),
        ("left", {"base": "0 1/2 4 6", "flap-bottom": "0 0 4 1/2", "flap-top": "0 6 1/2 4 1/2",
                  "flap-right": "4 1/2 1/2 6"}),
        ("right", {"base": "1/2 1/2 4 6", "flap-bottom": "1/2 0 4 1/2", "flap-top": "1/2 6 1/2 4 1/2",
                   "flap-left": "0 1/2 1/2 6"}),
    ],
)  # fmt: skip
def test_a_pocket_has_a_flap_on_each_side_but_the_open_one(open_, expected):
    (sheet,) = folded({"as": "pocket", "panel": ["4", "6"], "flap": "1/2", "open": open_}).sheets
    assert {name: area for name, area in areas(sheet).items() if "waste" not in name} == expected
    assert len([area for area in sheet.areas if area.role == "waste"]) == 2
    assert {crease.turn for crease in sheet.creases} == {180}


@pytest.mark.parametrize(
    ("corner", "outlines", "size"),
    [
        pytest.param(
            "mitre",
            {
                "strip-top": "1 0 → 6 0 → 7 1 → 0 1 → 1 0",
                "strip-bottom": "0 0 → 7 0 → 6 1 → 1 1 → 0 0",
                "strip-left": "0 0 → 1 1 → 1 8 → 0 9 → 0 0",
                "strip-right": "0 1 → 1 0 → 1 9 → 0 8 → 0 1",
            },
            ("7", "9"),
            id="mitred",
        ),
        pytest.param(
            "butt",
            {
                "strip-top": "0 0 → 7 0 → 7 1 → 0 1 → 0 0",
                "strip-bottom": "0 0 → 7 0 → 7 1 → 0 1 → 0 0",
                "strip-left": "0 0 → 1 0 → 1 7 → 0 7 → 0 0",
                "strip-right": "0 0 → 1 0 → 1 7 → 0 7 → 0 0",
            },
            ("7", "9"),
            id="butted",
        ),
    ],
)
def test_a_frame_has_its_short_sides_at_the_opening(corner, outlines, size):
    found = folded({"as": "frame", "opening": ["5", "7"], "width": "1", "corner": corner})
    assert {sheet.areas[0].name: line(sheet.cuts[0]) for sheet in found.sheets} == outlines
    assert (inches(found.size.width), inches(found.size.depth)) == size
    assert found.steps == ()


def test_an_envelope_folds_its_sides_first_and_its_top_last():
    """Holds 5 × 7, 1/16 on each side: 5 1/8 × 7 1/8."""
    found = folded({"as": "envelope", "holds": ["5", "7"], "side_flap": "3/4", "bottom_flap": "4", "top_flap": "3"})
    assert {name: area for name, area in areas(found.sheets[0]).items() if "waste" not in name} == {
        "base": "3/4 4 5 1/8 7 1/8",
        "flap-bottom": "3/4 0 5 1/8 4",
        "flap-top": "3/4 11 1/8 5 1/8 3",
        "flap-left": "0 4 3/4 7 1/8",
        "flap-right": "5 7/8 4 3/4 7 1/8",
    }
    assert [[crease.between[1] for crease in step.creases] for step in found.steps] == [
        ["flap-left", "flap-right"],
        ["flap-bottom"],
        ["flap-top"],
    ]
    assert [glued.onto for glued in found.steps[1].glued] == ["flap-left", "flap-right"]


def test_a_tag_loses_its_corners_and_a_hole():
    (sheet,) = folded({"as": "tag", "size": ["3", "5"], "corner": "1/2", "hole": "1/4"}).sheets
    assert line(sheet.cuts[0]) == ("0 1/2 → 1/2 0 → 2 1/2 0 → 3 1/2 → 3 4 1/2 → 2 1/2 5 → 1/2 5 → 0 4 1/2 → 0 1/2")
    (hole,) = sheet.holes
    assert (inches(hole.diameter), line([hole.middle])) == ("1/4", "1 1/2 4 5/8")
    # Four triangles of half a square of 1/2 in.
    assert area(sheet, "base").size == (15 - Fraction(1, 2)) * TICKS_PER_INCH**2


def test_the_hole_of_a_low_tag_is_in_its_middle():
    (sheet,) = folded({"as": "tag", "size": ["3", "1"], "hole": "1/2"}).sheets
    assert line([sheet.holes[0].middle]) == "1 1/2 1/2"


def scores(*inwards, sides=SIDES, **more):
    return [{"from": side, "at": at} | more for side in sides for at in inwards]


def test_scores_are_counted_from_their_edge_and_the_innermost_bound_the_base():
    """The lid of the first kit: 10 1/4 × 7 1/4, scored at 3/4 and 1 1/2 from each edge."""
    lid = {"as": "scored", "size": ["10 1/4", "7 1/4"], "scores": scores("3/4", "1 1/2"), "corners": "tab"}
    assert panels(lid) == {
        "base": "7 1/4 × 4 1/4",
        "wall-bottom": "7 1/4 × 3/4",
        "wall-bottom-inner": "7 1/4 × 3/4",
        "wall-top": "7 1/4 × 3/4",
        "wall-top-inner": "7 1/4 × 3/4",
        "wall-left": "3/4 × 4 1/4",
        "wall-left-inner": "3/4 × 4 1/4",
        "wall-right": "3/4 × 4 1/4",
        "wall-right-inner": "3/4 × 4 1/4",
    }
    found = folded(lid)
    (sheet,) = found.sheets
    assert found.faults == ()
    # The square that touches the base stays, the rest of the corner goes.
    assert areas(sheet)["tab-left-bottom"] == "3/4 3/4 3/4 3/4"
    assert creases(sheet)["tab-left-bottom"] == "1 1/2 1 1/2 → 1 1/2 3/4 mountain"
    assert line(sheet.cuts[1]) == "1 1/2 1 1/2 → 3/4 1 1/2"
    assert (*map(inches, found.size),) == ("7 1/4", "4 1/4", "3/4")


def test_the_outside_of_a_box_is_the_outer_side_whichever_way_its_scores_are_called():
    """All valleys: away from the eye like all mountains. A score that differs from the first turns the other way."""
    box = {"as": "scored", "size": ["8", "8"], "corners": "cut"}
    valleys = folded(box | {"scores": scores("1", "2")})
    assert {crease.fold for crease in valleys.sheets[0].creases} == {"mountain"}
    mixed = folded(box | {"scores": scores("2") + scores("1", fold="mountain")})
    assert [crease.fold for crease in mixed.sheets[0].creases] == ["mountain", "valley"] * 4


def test_scores_of_a_sheet_with_its_corners_fold_as_they_are_called_from_edge_to_edge():
    """Scored at 2 from the left, at 3 from the top: four areas; the corner is the one beside neither."""
    card = [{"from": "left", "at": "2"}, {"from": "top", "at": "3", "fold": "mountain"}]
    found = folded({"as": "scored", "size": ["8", "6"], "scores": card})
    (sheet,) = found.sheets
    assert areas(sheet) == {
        "base": "2 0 6 3",
        "wall-top": "2 3 6 3",
        "wall-left": "0 0 2 3",
        "corner-left-top": "0 3 2 3",
    }
    assert creases(sheet) == {"wall-top": "0 3 → 8 3 mountain", "wall-left": "2 0 → 2 6 valley"}
    assert (*map(inches, found.size),) == ("6", "3", "0")
    assert [crease.turn for crease in sheet.creases] == [180, 180]


def test_further_strips_of_a_scored_sheet_are_flanges():
    sheet = {"as": "scored", "size": ["10", "4"], "scores": scores("1", "2", "3", "4", sides=["left"])}
    assert list(panels(sheet)) == ["base", "wall-left", "wall-left-inner", "flange-left", "flange-left-2"]


def test_a_sheet_without_scores_is_one_panel_of_two_names():
    assert panels({"as": "scored", "size": ["4", "3"]}) == {"base": "4 × 3", "panel-1": "4 × 3"}


@pytest.mark.parametrize(
    ("form", "name", "beside"),
    [
        pytest.param(TRAY, "base", {side: f"wall-{side}" for side in SIDES}, id="around the base"),
        pytest.param(
            TRAY | {"walls": "double"}, "wall-left", {"left": "wall-left-inner", "right": "base"}, id="a wall"
        ),
        pytest.param(
            {"as": "concertina", "panel": ["3", "4"], "panels": 7},
            "panel-3",
            {"left": "panel-2", "right": "panel-4"},
            id="over the join of two strips",
        ),
        pytest.param({"as": "concertina", "panel": ["3", "4"], "panels": 7}, "panel-7", {"left": "panel-6"}, id="last"),
        pytest.param({"as": "frame", "opening": ["3", "4"], "width": "1"}, "strip-top", {}, id="a strip alone"),
        pytest.param({"as": "tag", "size": ["3", "4"]}, "panel-1", {}, id="the only panel"),
        pytest.param(TRAY, "wall-front", {}, id="no such panel"),
    ],
)
def test_what_lies_beside_a_panel(form, name, beside):
    names = panel_names(kit_of(form).projects[0].forms[0])
    assert {side: other for side in SIDES if (other := names.beside(name, side))} == beside


def test_the_area_beside_another_is_found_on_the_sheet_as_well():
    (sheet,) = folded(TRAY).sheets
    assert {side: neighbour(sheet, "wall-bottom", side) for side in SIDES} == {
        "left": "tab-left-bottom",
        "right": "tab-right-bottom",
        "top": "base",
        "bottom": None,
    }
    assert neighbour(sheet, "wall-front", "left") is None


@pytest.mark.parametrize("name", ["panel-0", "panel-01", "panel-8", "panel-", "panel-²", "panel-99999999999", "base"])
def test_no_other_name_is_a_panel_of_a_concertina(name):
    names = panel_names(kit_of({"as": "concertina", "panel": ["3", "4"], "panels": 7}).projects[0].forms[0])
    assert name not in names
    assert names.beside(name, "left") is None


def test_ten_thousand_panels_are_told_apart_without_being_made():
    form = {"as": "concertina", "panel": ["1/16", "4"], "panels": 10_000}
    kit = kit_of(form)
    found = FlatSizes.of(kit).panels(kit.projects[0].forms[0], "p", kit.papers[0])
    assert len(found) == 10_000
    assert inches(found["panel-10000"].height) == "4"
    assert "panel-10001" not in found
    assert len(folded(form).sheets[0].creases) == 184, "12 in hold 184 panels beside a tab of 1/2 in"


def test_a_sheet_of_ten_thousand_scores_is_folded():
    """5,000 scores a 64th of an inch apart from the left and from the top: 78 1/8 in of each side of 100 in."""
    many = [{"from": side, "at": f"{number}/64"} for side in ("left", "top") for number in range(1, 5001)]
    found = folded({"as": "scored", "size": ["100", "100"], "scores": many, "corners": "cut"})
    (sheet,) = found.sheets
    assert (len(sheet.creases), len(found.steps)) == (10_000, 5000)
    assert areas(sheet)["base"] == "78 1/8 0 21 7/8 21 7/8"
    assert sum(area.size for area in sheet.areas) == sheet.width * sheet.height


@pytest.mark.parametrize("corner", ["tab", "cut"])
def test_a_box_of_single_ticks_is_folded(corner):
    """A tenth of a millimetre each way: nobody folds it, and nothing breaks."""
    tiny = {"as": "tray", "inside": ["0.1 mm", "0.1 mm"], "depth": "0.1 mm", "walls": "double", "corner": corner}
    (sheet,) = folded(tiny, size=["0.1 mm", "0.1 mm"]).sheets
    assert [int(sheet.width), int(sheet.height)] == [160, 160]
