"""Forms fold up: whatever is accepted meets in space, and whatever is not says by how much."""

from __future__ import annotations

from itertools import combinations

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from layouts.shapes import NotBuilt
from layouts.shapes.forms import CONSTRUCTIONS, Area, ExactSize, FlatSizes, panel_names
from layouts.shapes.forms.boxes import tab_faults, walled_arms
from layouts.shapes.forms.folded import Side
from tests.properties.folding import FORMS, Box, folded, in_space, kits, on_the_border, shared

SIDES: tuple[Side, ...] = ("left", "right", "top", "bottom")
EACH_CONSTRUCTION = pytest.mark.parametrize("kind", FORMS)


def folded_or_why(kit):
    """A form folded, or the sentence that says why not."""
    try:
        return folded(kit)
    except NotBuilt as reason:
        return reason.message


def good(kit):
    """A form that folds; others are judged by the test of refusals."""
    found = folded_or_why(kit)
    assume(not isinstance(found, str) and not found.faults)
    return found


def test_every_construction_is_tried():
    assert set(FORMS) == set(CONSTRUCTIONS)


@EACH_CONSTRUCTION
@settings(max_examples=60)
@given(st.data())
def test_a_form_is_folded_or_refused_with_its_numbers(kind, data):
    kit = data.draw(kits(kind))
    found = folded_or_why(kit)
    if isinstance(found, str):
        assert any(sign.isdigit() for sign in found)
        return
    assert all(fault.length >= fault.limit > 0 for fault in found.faults)
    form, sizes = kit.projects[0].forms[0], FlatSizes.of(kit)
    parts = sizes.parts(form, "p", kit.papers[0])
    assert [part.number for part in parts] == [sheet.number for sheet in found.sheets]
    for part, sheet in zip(parts, found.sheets, strict=True):
        assert 0 <= part.width.ticks - sheet.width < sizes.step
        assert 0 <= part.height.ticks - sheet.height < sizes.step


@EACH_CONSTRUCTION
@settings(max_examples=60)
@given(st.data())
def test_panels_tabs_and_waste_tile_the_flat_part_and_score_lines_lie_between_them(kind, data):
    found = good(data.draw(kits(kind)))
    for sheet in found.sheets:
        areas = {area.name: area for area in sheet.areas}
        assert len(areas) == len(sheet.areas)
        assert sum(area.size for area in sheet.areas) == sheet.width * sheet.height
        assert all(area.size > 0 for area in sheet.areas)
        for one, other in combinations(sheet.areas, 2):
            # Waste may go around a tab or beside a mitre; everything else is a rectangle.
            if len(one.corners) == len(other.corners) == 4 and kind != "frame":
                assert not shared(one, other)
        assert min(area.left for area in sheet.areas) == min(area.bottom for area in sheet.areas) == 0
        assert max(area.left + area.width for area in sheet.areas) == sheet.width
        assert max(area.bottom + area.height for area in sheet.areas) == sheet.height
        for crease in sheet.creases:
            if not any(name.startswith("corner-") for name in areas):
                assert all(on_the_border(crease, areas[name]) for name in crease.between)
        outline = sheet.cuts[0]
        assert outline[0] == outline[-1]
        kept = sum(area.size for area in sheet.areas if area.role != "waste")
        assert Area("outline", outline[:-1]).size == kept


@EACH_CONSTRUCTION
@settings(max_examples=40)
@given(st.data())
def test_panels_are_called_and_measured_alike_everywhere(kind, data):
    kit = data.draw(kits(kind))
    found, form = good(kit), kit.projects[0].forms[0]
    names = panel_names(form)
    panels = {area.name: area for sheet in found.sheets for area in sheet.areas if area.role == "panel"}
    assert set(names) == set(panels)
    sizes = FlatSizes.of(kit).panels(form, "p", kit.papers[0])
    for name, area in panels.items():
        assert name in names
        assert (sizes[name].width, sizes[name].height) == (area.width, area.height)
    for sheet in found.sheets:
        for crease in sheet.creases:
            inner, outer = crease.between
            if outer in panels:
                assert outer in {names.beside(inner, side) for side in SIDES}
                assert inner in {names.beside(outer, side) for side in SIDES}
    assert "no-such-panel" not in names


def walls_meet(space: dict[str, Box]) -> None:
    """Neighbouring walls have an upright edge in common as long as the lower of the two is high."""
    for beside in ("left", "right"):
        for level in ("bottom", "top"):
            if f"wall-{beside}" in space and f"wall-{level}" in space:
                one, other = space[f"wall-{beside}"], space[f"wall-{level}"]
                low = [max(a, b) for a, b in zip(one.low, other.low, strict=True)]
                high = [min(a, b) for a, b in zip(one.high, other.high, strict=True)]
                assert low[:2] == high[:2], (beside, level)
                assert high[2] - low[2] == min(one.high[2] - one.low[2], other.high[2] - other.low[2])


@pytest.mark.parametrize("kind", ["tray", "lid"])
@settings(max_examples=60)
@given(st.data())
def test_boxes_close(kind, data):
    found = good(data.draw(kits(kind)))
    (sheet,) = found.sheets
    space = in_space(sheet)
    walls_meet(space)
    depth = sheet.named("wall-left").width
    for side in SIDES:
        wall = space[f"wall-{side}"]
        # Away from the eye, from the base to the depth.
        assert [wall.low[2], wall.high[2]] == [-depth, 0]
    for step in found.steps:
        for glued in step.glued:
            assert space[glued.area].within(space[glued.onto]), glued


@pytest.mark.parametrize("kind", ["tray", "lid"])
@settings(max_examples=40)
@given(st.data())
def test_tabs_of_trays_are_judged_as_those_of_any_box(kind, data):
    """Trays are judged by a short way, since their walls are all alike."""
    kit = data.draw(kits(kind))
    found = folded_or_why(kit)
    form = kit.projects[0].forms[0]
    assume(not isinstance(found, str) and form.corner == "tab")
    base = found.sheets[0].named("base")
    slow = tab_faults(ExactSize(base.width, base.height), walled_arms(form))
    assert [fault for fault in found.faults if fault.kind in ("tabs", "uneven")] == list(slow)


@settings(max_examples=150)
@given(st.data())
def test_sheets_scored_as_boxes_close(data):
    kit = data.draw(kits("scored"))
    assume(kit.projects[0].forms[0].corners != "keep")
    found = good(kit)
    (sheet,) = found.sheets
    space = in_space(sheet)
    # Walls that are folded different ways are on different sides of the base: nothing is to meet.
    assume(len({crease.fold for crease in sheet.creases if crease.between[0] == "base"}) == 1)
    walls_meet(space)
    for glued in (glued for step in found.steps for glued in step.glued if glued.area.startswith("tab-")):
        assert space[glued.area].within(space[glued.onto]), glued


@settings(max_examples=60)
@given(st.data())
def test_a_sleeve_goes_around_and_its_tab_lies_behind_the_first_panel(data):
    found = good(data.draw(kits("sleeve")))
    space = in_space(found.sheets[0])
    assert space["tab"].within(space["panel-1"])
    one, three = space["panel-1"], space["panel-3"]
    assert (one.low[:2], one.high[:2]) == (three.low[:2], three.high[:2])
    assert one.low[2] != three.low[2]


@settings(max_examples=60)
@given(st.data())
def test_a_concertina_folds_onto_its_first_panel(data):
    kit = data.draw(kits("concertina"))
    found = good(kit)
    numbers = []
    for sheet in found.sheets:
        space = in_space(sheet)
        first = space[sheet.areas[0].name]
        assert all(box == first for name, box in space.items() if name.startswith("panel-"))
        assert all(box.within(first) for box in space.values())
        numbers += [area.name for area in sheet.areas if area.role == "panel"]
    form = kit.projects[0].forms[0]
    assert numbers == [f"panel-{number}" for number in range(1, form.panels + 1)]
    folds = {crease.between: crease.fold for sheet in found.sheets for crease in sheet.creases}
    assert len(folds) == form.panels - 1, "every fold once, at a join as well"
    assert list(folds.values())[::2] == [form.first_fold] * -(-len(folds) // 2)
    assert form.first_fold not in list(folds.values())[1::2]


@pytest.mark.parametrize(("kind", "free"), [("pocket", ""), ("envelope", "flap-top")])
@settings(max_examples=60)
@given(st.data())
def test_flaps_lie_behind_the_panel(kind, free, data):
    space = in_space(good(data.draw(kits(kind))).sheets[0])
    assert all(box.within(space["base"]) for name, box in space.items() if name != free)
    if kind == "envelope":
        bottom, left = space["flap-bottom"], space["flap-left"]
        assert all(a < b for a, b in zip(left.low[:2], bottom.high[:2], strict=True)), "there is something to glue"


@settings(max_examples=60)
@given(st.data())
def test_strips_of_a_frame_cover_it_but_its_opening(data):
    kit = data.draw(kits("frame"))
    found, form = good(kit), kit.projects[0].forms[0]
    kept = sum(area.size for sheet in found.sheets for area in sheet.areas if area.role == "panel")
    assert kept == found.size.width * found.size.depth - form.opening.width.ticks * form.opening.height.ticks
